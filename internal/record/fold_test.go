package record

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// said is an entry with a note, at a time, that may correct another.
func said(t testing.TB, seq uint64, at Instant, text string, corrects byte) Entry {
	t.Helper()
	var b Body = Noted{Text: Text(text)}
	if text == "" {
		b = Voided{Why: "a slip"}
	}
	e, err := Say(ID{byte(seq)}, earliest+at, "ada", "tablet", b)
	if err != nil {
		t.Fatal(err)
	}
	e.Seq = seq
	if corrects > 0 {
		e.Corrects = ID{corrects}
	}
	return e
}

// told is what the standing entries say, in their order.
func told(t testing.TB, s *Standing) string {
	t.Helper()
	var words []string
	for e := range s.All() {
		b, err := Decode(e.Kind, e.Body)
		if err != nil {
			t.Fatal(err)
		}
		words = append(words, string(b.(Noted).Text))
	}
	return strings.Join(words, " ")
}

func TestCorrections(t *testing.T) {
	type step struct {
		at       Instant
		text     string // "" takes back
		corrects byte   // the seq of another
		want     string // all that stands then
		past     bool
		wrong    string // why it cannot be
	}
	for name, steps := range map[string][]step{
		"put right":              {{10, "12", 0, "12", false, ""}, {20, "pepper", 0, "12 pepper", false, ""}, {30, "21", 1, "21 pepper", true, ""}},
		"put right twice":        {{10, "12", 0, "12", false, ""}, {20, "21", 1, "21", false, ""}, {30, "22", 1, "22", false, ""}},
		"put right in a chain":   {{10, "12", 0, "12", false, ""}, {20, "21", 1, "21", false, ""}, {30, "22", 2, "22", false, ""}},
		"taken back":             {{10, "12", 0, "12", false, ""}, {20, "", 1, "", false, ""}, {30, "21", 1, "", false, "taken back"}},
		"taken back, and not":    {{10, "12", 0, "12", false, ""}, {20, "", 1, "", false, ""}, {30, "", 2, "12", false, ""}, {40, "", 3, "", false, ""}},
		"taken back twice":       {{10, "12", 0, "12", false, ""}, {20, "", 1, "", false, ""}, {30, "", 1, "", false, ""}, {40, "", 2, "", false, ""}, {50, "", 3, "12", false, ""}},
		"a correction of a gone": {{10, "12", 0, "12", false, ""}, {20, "21", 1, "21", false, ""}, {30, "", 2, "12", false, ""}, {40, "22", 2, "22", false, ""}},
		"a correction gone":      {{10, "12", 0, "12", false, ""}, {20, "21", 1, "21", false, ""}, {30, "", 2, "12", false, ""}},
		"of two the first gone":  {{10, "12", 0, "12", false, ""}, {20, "21", 1, "21", false, ""}, {30, "22", 1, "22", false, ""}, {40, "", 2, "22", false, ""}},
		"nothing there":          {{10, "12", 9, "", false, "no such entry"}},
		"a device that was away": {{20, "later", 0, "later", false, ""}, {10, "earlier", 0, "earlier later", true, ""}, {30, "last", 0, "earlier later last", false, ""}},
	} {
		var s Standing
		for i, x := range steps {
			c, err := s.Add(said(t, uint64(i+1), x.at, x.text, x.corrects))
			var wrong *CorrectionError
			if (x.wrong != "") != errors.As(err, &wrong) || err != nil && !strings.Contains(err.Error(), x.wrong) {
				t.Errorf("%s, step %d: %v, want %q", name, i+1, err, x.wrong)
			}
			if got := told(t, &s); got != x.want || c.Past != x.past {
				t.Errorf("%s, step %d: %q stands (past %v), want %q (past %v)", name, i+1, got, c.Past, x.want, x.past)
			}
		}
	}
	var s Standing
	first, other := said(t, 1, 10, "12", 0), said(t, 2, 20, "", 0)
	other.Kind, other.Body, other.Corrects = "started", []byte(`{"run":"r","task":"t"}`), first.ID
	if _, err := s.Add(first); err != nil {
		t.Fatal(err)
	}
	var wrong *CorrectionError
	if _, err := s.Add(other); !errors.As(err, &wrong) || wrong.Original != "noted" {
		t.Errorf("another kind: %v", err)
	}
	void := said(t, 3, 30, "", 0)
	if _, err := s.Add(void); !errors.As(err, &wrong) {
		t.Errorf("a voiding of nothing: %v", err)
	}
	if err := void.Check(); err == nil {
		t.Error("a voiding of nothing can be sealed")
	}
	if _, err := s.Add(said(t, 4, 40, "13", first.ID[0])); err != nil {
		t.Fatal(err)
	}
	for _, e := range []Entry{first, said(t, 4, 50, "14", 0), said(t, 4, 50, "14", first.ID[0])} {
		var repeated *RepeatedError
		if _, err := s.Add(e); !errors.As(err, &repeated) || told(t, &s) != "13" {
			t.Errorf("an entry that comes twice: %v, %q stands", err, told(t, &s))
		}
	}
	if _, later, ok := s.Of(first.ID); !ok || len(later) != 1 {
		t.Errorf("what was refused is kept as a correction: %v", later)
	}
}

// Whatever is corrected and taken back in whatever order, what stands is what a slow reading of the same entries says: the latest word on each,
// in the order in which things happened; and what an added entry changed is what became of it.
func TestStandingIsTheLatestWord(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var s Standing
		var all []Entry
		for seq := uint64(1); seq <= 12; seq++ {
			at := Instant(rapid.IntRange(0, 5).Draw(rt, "at"))
			text := rapid.SampledFrom([]string{"", "a", "b", "c"}).Draw(rt, "text")
			corrects := byte(rapid.IntRange(0, int(seq)-1).Draw(rt, "corrects"))
			if text == "" && corrects == 0 {
				continue
			}
			e := said(t, seq, at, text, corrects)
			before := told(t, &s)
			change, err := s.Add(e)
			if err != nil {
				if told(t, &s) != before {
					rt.Fatalf("what was refused changed %q to %q", before, told(t, &s))
				}
				continue
			}
			all = append(all, e)
			if got, want := told(t, &s), slowly(t, all); got != want {
				rt.Fatalf("%q stands, want %q", got, want)
			}
			if text != "" && (change.Is == nil || string(change.Is.Body) != string(e.Body)) {
				rt.Fatalf("%s was said, and %v holds", e.Body, change.Is)
			}
		}
	})
}

// slowly works out what stands from the last entry back: an entry that a standing one takes back does not stand.
func slowly(t testing.TB, all []Entry) string {
	t.Helper()
	gone := map[ID]bool{}
	for _, e := range slices.Backward(all) {
		if e.Kind == "voided" && !gone[e.ID] {
			gone[e.Corrects] = true
		}
	}
	about := map[ID]ID{}
	last := map[ID]Entry{}
	var roots []Entry
	for _, e := range all {
		root := e.ID
		if e.Corrects != (ID{}) {
			root = e.Corrects
			if r, ok := about[root]; ok {
				root = r
			}
		}
		about[e.ID] = root
		switch {
		case root == e.ID:
			roots = append(roots, e)
			last[root] = e
		case e.Kind != "voided" && !gone[e.ID]:
			last[root] = e
		}
	}
	slices.SortFunc(roots, Compare)
	var words []string
	for _, r := range roots {
		if !gone[r.ID] {
			b, err := Decode("noted", last[r.ID].Body)
			if err != nil {
				t.Fatal(err)
			}
			words = append(words, string(b.(Noted).Text))
		}
	}
	return strings.Join(words, " ")
}
