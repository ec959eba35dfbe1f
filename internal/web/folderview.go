package web

import (
	"cmp"
	"errors"
	"fmt"
	"net/url"
	"strconv"

	"kettlefrost/internal/app"
	"kettlefrost/internal/folder"
)

// folderView is a folder in short.
type folderView struct {
	Words, AsOf string
	Verdict     verdictView
	Facts       []countFact
	Missing     []missingRow
	MoreMissing int
	Records     []judgedRow
	MoreRecords int
	Lots        []lotLink
	MoreLots    int
	Chain       string
	Broken      bool
	Hash        string
	Signatures  []string
	Sign        folderSign
	Links       []choiceLink
	Entries     uint64 // of the whole chain
}

// countFact is how much of something a folder holds.
type countFact struct{ Name, Count, More string }

// missingRow is something that is missing.
type missingRow struct {
	Grave            bool
	Where, Says, Fix string
}

// judgedRow is a critical record.
type judgedRow struct{ Name, Point, Class, Sign, Outcome, Says string }

// folderSign signs what is shown.
type folderSign struct {
	Entry string
	Kept  []kept
}

// Most rows that a page shows; the files have all of them.
const (
	mostMissing    = 60
	mostJudged     = 60
	mostFolderLots = 40
)

func (s *server) viewFolder(f app.InspectorFolder, query url.Values) *folderView {
	at := f.Clock.Time
	v := &folderView{Words: f.Asked, AsOf: at(f.AsOf), Chain: f.Seal.Chain.Says(), Broken: !f.Seal.Chain.Verified, Hash: f.Seal.Contents.String(), Entries: f.Seal.Chain.Seq}
	grave := 0
	for i, m := range f.Missing {
		if m.Grave {
			grave++
		}
		if i < mostMissing {
			v.Missing = append(v.Missing, missingRow{m.Grave, m.Where, m.Says, m.Fix})
		}
	}
	v.MoreMissing = len(f.Missing) - len(v.Missing)
	v.Verdict = folderVerdict(grave, len(f.Missing))
	for i, r := range f.Records {
		if i < mostJudged {
			v.Records = append(v.Records, judged(r))
		}
	}
	v.MoreRecords = len(f.Records) - len(v.Records)
	asked := 0
	for _, l := range f.Lots {
		if !l.Asked {
			continue
		}
		if asked++; asked <= mostFolderLots {
			v.Lots = append(v.Lots, lotLink{lotURL(lotPath, l.Lot, nil), string(l.Lot), l.What})
		}
	}
	v.MoreLots = asked - len(v.Lots)
	v.Facts = folderFacts(f)
	for _, x := range f.Seal.Signatures {
		v.Signatures = append(v.Signatures, x.Says(at))
	}
	v.Sign = folderSign{newEntryID(), append(keep(query), kept{hashKey, v.Hash})}
	only := url.Values{onlyKey: {"1"}}
	for k, x := range query {
		only[k] = x
	}
	v.Links = []choiceLink{{Name: "PDF, to print", URL: "/folder.pdf" + queryOf(query)}, {Name: "Bundle with all entries", URL: "/folder.zip" + queryOf(query)}, {Name: "Bundle with only the entries of these lots", URL: "/folder.zip" + queryOf(only)}, {Name: "JSON", URL: "/folder.json" + queryOf(query)}}
	return v
}

// folderVerdict says whether something is missing on which nobody has decided.
func folderVerdict(grave, all int) verdictView {
	switch {
	case grave > 0:
		return verdictView{"stop", "■", "NOT COMPLETE", times(grave, "matter", "matters") + " on which nobody has decided."}
	case all > 0:
		return verdictView{"caution", "▲", "LOOK AT THESE", "What is listed was decided by a named person, or holds no lot."}
	}
	return verdictView{"note", "●", "NOTHING FOUND MISSING", "The program cannot find what nobody wrote down and no rule asks for."}
}

func judged(r folder.Record) judgedRow {
	x := judgedRow{Name: cmp.Or(r.Title, r.Point), Point: r.Point, Class: "yes", Sign: "●", Outcome: "meets the rule", Says: sentence(errors.New(r.Says))}
	if r.Outcome != "pass" {
		x.Class, x.Sign, x.Outcome = "no", "■", map[string]string{"fail": "does not meet the rule", "missing": "missing", "incomplete": "incomplete"}[string(r.Outcome)]
	}
	if r.Loads > 1 {
		x.Name += fmt.Sprintf(", load %d of %d", r.Load, r.Loads)
	}
	for _, d := range r.Decided {
		x.Says += fmt.Sprintf(" %s decided for %s: %s (%s).", d.Who, d.Lot, d.Did, d.Why)
	}
	return x
}

func folderFacts(f app.InspectorFolder) []countFact {
	asked, pass := 0, 0
	for _, l := range f.Lots {
		if l.Asked {
			asked++
		}
	}
	for _, r := range f.Records {
		if r.Outcome == "pass" {
			pass++
		}
	}
	n := strconv.Itoa
	return []countFact{{"Lots", n(asked), times(len(f.Lots)-asked, "lot behind them", "lots behind them")}, {"Critical records", n(len(f.Records)), n(pass) + " meet their rule"}, {"Readings", n(f.Readings.Rows), ""},
		{"Hazard plans", n(len(f.Plans)), ""}, {"Corrective actions", n(len(f.Actions)), ""}, {"Holds and decisions", n(len(f.Holds)), ""}, {"Thermometers", n(len(f.Thermometers)), ""}, {"Cold places watched", n(len(f.Cold)), ""},
		{"Corrections", n(len(f.Corrections)), ""}, {"Entries it rests on", n(len(f.Entries)), ""}}
}
