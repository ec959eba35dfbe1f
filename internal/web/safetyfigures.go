package web

import (
	"fmt"
	"math"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/critical"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// cooledRow is one rule of cooling judged.
type cooledRow struct {
	signMark
	Title, Scope, Source, Word string
	Decides                    bool
	Stages                     []cooledStage
}

type cooledStage struct {
	signMark
	Name, Word, Says, Where string
	Advisory                bool
}

// killView is what heat did.
type killView struct {
	Where, Without string
	Tables         []killTable
	Targets        []killTarget
	Assumes        []string
}

type killTable struct {
	signMark
	Class, Word, Row, Held, Shares, Source string
}

type killTarget struct {
	signMark
	Name, Word, Need, Is, Logs, Source, Memory string
}

// growthView is what may have grown.
type growthView struct{ Band, Note, Source, Doubts string }

var deeds = map[record.Deed]string{record.Stirred: "stirred", record.Shallower: "put into shallower pans", record.MoreIce: "more ice", record.Reheated: "heated again, to be cooled once more", record.Relocated: "moved", record.Discarded: "thrown away", record.OtherDeed: "something else"}

// degrees is a temperature to a tenth: a limit can be missed by less than a degree.
func degrees(c float64, rd reader) string {
	word := " °C"
	if rd.units == unit.US {
		c, word = unit.TempC(c).F(), " °F"
	}
	return together(fmt.Sprintf("%g", math.Round(c*10)/10+0) + word)
}

func spanText(s float64) string { return together(unit.SpanS(math.Abs(s)).Show(unit.US)) }

// margins are how far from its limit the record is.
func margins(v critical.Verdict, rd reader) (all []string) {
	if v.MarginS != nil {
		word := " to spare"
		if *v.MarginS < 0 {
			word = " late"
		}
		all = append(all, spanText(*v.MarginS)+word)
	}
	if v.MarginC != nil {
		c, word := math.Abs(*v.MarginC), " °C"
		if rd.units == unit.US {
			c, word = c*1.8, " °F"
		}
		side := " on the right side of the limit"
		if *v.MarginC < 0 {
			side = " on the wrong side of the limit"
		}
		all = append(all, together(fmt.Sprintf("%g", math.Round(c*10)/10)+word)+side)
	}
	if v.Where != "" {
		all = append(all, "worst point: "+v.Where)
	}
	return all
}

func cooledRowOf(x critical.RuleVerdict) cooledRow {
	row := cooledRow{Title: x.Title, Scope: x.Scope, Source: x.Source, Decides: x.Decides, Word: wordOf(critical.Verdict{Outcome: x.Outcome}), signMark: signForRecord(critical.Verdict{Outcome: x.Outcome, Gates: true})}
	for _, t := range x.Stages {
		y := cooledStage{Name: t.Name, Word: wordOf(critical.Verdict{Outcome: t.Outcome}), Says: t.Says, Where: t.Where, Advisory: t.Advisory, signMark: signForRecord(critical.Verdict{Outcome: t.Outcome, Gates: !t.Advisory})}
		if t.Advisory && t.Outcome != critical.Pass {
			y.Word = "not met"
		}
		row.Stages = append(row.Stages, y)
	}
	if len(x.Stages) == 0 {
		row.Stages = []cooledStage{{signMark: row.signMark, Name: "all", Word: row.Word, Says: x.Says}}
	}
	return row
}

func killViewOf(l *critical.Lethality, rd reader) *killView {
	if l == nil {
		return nil
	}
	v := &killView{Where: l.Where, Without: strings.Join(l.Without, ", "), Assumes: l.Assumes}
	met := func(is bool) (signMark, string) {
		if is {
			return signMark{"●", "note"}, "met"
		}
		return signMark{"▲", "caution"}, "not met"
	}
	for _, t := range l.Tables {
		x := killTable{Class: t.Class, Source: t.Source, Held: spanText(t.HeldS), Shares: fmt.Sprintf("%.2f", t.Fractions)}
		if x.signMark, x.Word = met(t.Met); t.RowF > 0 {
			x.Row = degrees((t.RowF-32)/1.8, rd) + " for " + spanText(t.HoldS)
			if t.HoldS == 0 {
				x.Row = degrees((t.RowF-32)/1.8, rd) + ", at once"
			}
		}
		v.Tables = append(v.Tables, x)
	}
	for _, t := range l.Targets {
		x := killTarget{Name: t.Name, Source: t.Source, Memory: t.Confirm, Need: spanText(t.NeedS) + " at " + degrees(t.RefC, rd), Is: spanText(min(t.SafeS, 1e6)), Logs: fmt.Sprintf("%.1f", min(t.Log10, 99))}
		x.signMark, x.Word = met(t.Reached)
		v.Targets = append(v.Targets, x)
	}
	return v
}

func growthViewOf(g *critical.Growth) *growthView {
	if g == nil {
		return nil
	}
	return &growthView{Band: fmt.Sprintf("%.1f to %.1f tenfolds", g.Least, g.Most), Note: g.Note, Source: g.Source, Doubts: g.Doubts}
}

func (s *server) readLogOf(l critical.Log, rd reader) readLog {
	v := readLog{Where: l.Where}
	step := max(1, (len(l.Readings)+mostReadRows-1)/mostReadRows)
	for i, x := range l.Readings {
		if i%step != 0 && i != len(l.Readings)-1 && !x.Doubtful {
			continue
		}
		row := tempRow{At: s.nearText(x.At), Temp: degrees(x.TempC, rd), By: strings.TrimPrefix(x.Who+", "+x.Instrument, ", ")}
		var odd []string
		for flag := range strings.FieldsSeq(x.Flags) {
			odd = append(odd, app.FlagWords(flag))
		}
		if x.Unusable {
			odd = append(odd, "counts for nothing")
		}
		row.By, row.Odd = strings.TrimSuffix(row.By, ", "), strings.Join(odd, "; ")
		v.Rows = append(v.Rows, row)
	}
	if step > 1 {
		v.More = fmt.Sprintf("every %dth of %d readings", step, len(l.Readings))
	}
	return v
}
