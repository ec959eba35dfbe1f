package app_test

import (
	"bytes"
	"encoding/json"
	"io"
	"slices"
	"strings"
	"testing"
	"time"

	validator "github.com/santhosh-tekuri/jsonschema/v6"

	"kettlefrost/internal/app"
	"kettlefrost/internal/critical"
	"kettlefrost/internal/folder"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
	"kettlefrost/schema"
)

func (k *judgedKitchen) folderOf(lot string) app.InspectorFolder {
	k.t.Helper()
	book, _ := k.house.Book()
	f, err := k.records.Folder(k.t.Context(), book, app.FolderAsk{Ask: lots.Ask{Codes: []string{lot}}, Zone: time.UTC, Says: func(b record.Body, _ unit.System) string { return string(b.Kind()) }})
	if err != nil {
		k.t.Fatal(err)
	}
	return f
}

func missingCodes(f app.InspectorFolder) (grave []string) {
	for _, m := range f.Missing {
		if m.Grave {
			grave = append(grave, m.Code)
		}
	}
	return grave
}

func recordOf(t *testing.T, f app.InspectorFolder, what critical.What) folder.Record {
	t.Helper()
	i := slices.IndexFunc(f.Records, func(r folder.Record) bool { return r.What == what })
	if i < 0 {
		t.Fatalf("there is no record of %s", what)
	}
	return f.Records[i]
}

// The folder of a lot follows its critical records: a cooling that was not read is missing and holds it; read, it stands there with every reading
// and what the thermometer may be wrong by; warm again, it is
// unclear until a named person decides, and then that stands beside it.
func TestFolderFollowsCriticalRecords(t *testing.T) {
	k := openJudged(t)
	k.run()
	f := k.folderOf("P-1")
	if r := recordOf(t, f, critical.Cooling); r.Outcome == critical.Pass || !slices.Equal(r.Lots, []record.Lot{"P-1", "B-1"}) {
		t.Errorf("nothing was read: the cooling is %q for %v", r.Outcome, r.Lots)
	}
	if !slices.ContainsFunc(f.Holds, func(h folder.Hold) bool { return h.Standing && h.Lot == "P-1" && len(h.Points) == 1 }) {
		t.Errorf("nothing was read: holds are %+v", f.Holds)
	}
	for _, want := range []string{folder.RecordMissing, folder.NoPlan} {
		if !slices.Contains(missingCodes(f), want) {
			t.Errorf("nothing was read: %v lacks %s", missingCodes(f), want)
		}
	}
	k.reads(1, goodCooling...)
	f = k.folderOf("P-1")
	r := recordOf(t, f, critical.Cooling)
	if r.Outcome != critical.Pass || len(r.Traces) != 1 || r.Traces[0].Count != len(goodCooling) || r.Accuracy == nil || slices.Contains(missingCodes(f), folder.RecordUnclear) {
		t.Errorf("it was read: the cooling is %q, %+v, %+v; %v", r.Outcome, r.Traces, r.Accuracy, missingCodes(f))
	}
	if f.Readings.Rows != len(goodCooling) {
		t.Errorf("%d rows of readings", f.Readings.Rows)
	}
	k.reads(2, [2]float64{2.5, 90})
	if r := recordOf(t, k.folderOf("P-1"), critical.Cooling); r.Outcome != critical.Incomplete {
		t.Fatalf("it was warm again: the cooling is %q", r.Outcome)
	}
	k.decide("P-1", "thrown away as the guidance says", record.Destroy)
	f = k.folderOf("P-1")
	r = recordOf(t, f, critical.Cooling)
	if len(r.Decided) != 1 || r.Decided[0].Who != "Nora" || r.Decided[0].Did != record.Destroy || r.Decided[0].Stood != critical.Incomplete {
		t.Errorf("decided is %+v", r.Decided)
	}
	if slices.Contains(missingCodes(f), folder.RecordUnclear) {
		t.Errorf("it was decided, and still is grave: %v", missingCodes(f))
	}
	k.keepsSchemas(f)
	if err := f.WriteZIP(io.Discard, f.Chain, f.Clock); err != nil {
		t.Error(err)
	}
	var paper bytes.Buffer
	if err := f.WritePDF(&paper, f.Clock); err != nil || !strings.HasPrefix(paper.String(), "%PDF") {
		t.Error(err)
	}
}

// decide decides on everything that holds a lot.
func (k *judgedKitchen) decide(lot record.Lot, why string, what record.Disposition) {
	k.t.Helper()
	s, err := k.records.Safety(k.t.Context())
	if err != nil {
		k.t.Fatal(err)
	}
	k.at(18, 0)
	for _, l := range s.Runs[0].Lots {
		for _, h := range l.Holds {
			if l.Lot == lot {
				k.enter(record.Released{Lot: lot, Points: h.Points, Disposition: what, Why: why})
			}
		}
	}
}

// A folder with judged records and its seal keep their published schemas.
func (k *judgedKitchen) keepsSchemas(f app.InspectorFolder) {
	k.t.Helper()
	for what, value := range map[string]any{"folder": f.Contents, "folder-seal": f.Seal} {
		text, err := json.Marshal(value)
		if err != nil {
			k.t.Fatal(err)
		}
		published, err := schema.Of(what)
		if err != nil {
			k.t.Fatal(err)
		}
		doc, err := validator.UnmarshalJSON(bytes.NewReader(published))
		if err != nil {
			k.t.Fatal(err)
		}
		c := validator.NewCompiler()
		if err := c.AddResource(what, doc); err != nil {
			k.t.Fatal(err)
		}
		compiled, err := c.Compile(what)
		if err != nil {
			k.t.Fatal(err)
		}
		instance, err := validator.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			k.t.Fatal(err)
		}
		if err := compiled.Validate(instance); err != nil {
			k.t.Errorf("%s: %.1500s", what, err)
		}
	}
}
