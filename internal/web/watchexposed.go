package web

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// exposedRow is packs that lay there.
type exposedRow struct {
	URL, Lot, What string
	Numbers        string
	Mass           figure
	There          string
	Peak           string
	Used           string
	Sign, Class    string
	Advice         string
	Now            string
	Gone           []string
	RecallURL      string
	LookURL        string
	Looked         []string // what was found
}

// exposedShort is the same in a line: a freezer may hold hundreds of lots.
type exposedShort struct{ URL, Lot, What, Says, LookURL string }

func (r exposedRow) short() exposedShort {
	return exposedShort{r.URL, r.Lot, joined(r.What, r.Numbers), joined(joined("there for "+r.There, r.Peak), r.Now), r.LookURL}
}

// mostExposed is how many groups of packs the page shows in full, the gravest first.
const mostExposed = 40

func (s *server) exposedRow(x watching, seen coldwatch.Seen, c coldwatch.Stretch, e coldwatch.Exposure) exposedRow {
	row := exposedRow{URL: lotURL(lotPath, e.Lot.ID, x.query), Lot: string(e.Lot.ID), What: whatIs(x.book, e.Lot), Numbers: theirNumbers(e.Amount.Numbers.String()), Mass: x.rd.mass(e.Amount.Mass), There: coldwatch.Length(e.Ms), Advice: adviceWords(e, seen.Kind), RecallURL: lotURL(recallPath, e.Lot.ID, x.query)}
	row.Sign, row.Class = signOf(e.Advice)
	if !math.IsNaN(e.PeakC) {
		row.Peak = bothDegrees(e.PeakC, x.rd)
	}
	if e.UnknownMs > 0 {
		row.Peak = joined(row.Peak, coldwatch.Length(e.UnknownMs)+" not known")
	}
	switch {
	case !e.Reckoned() && seen.Kind == coldstore.Frozen:
		row.Used = "not reckoned: nobody said how long it keeps"
	case e.Reckoned() && e.UnknownMs == e.Ms:
		row.Used = "not known"
	case e.Reckoned():
		row.Used = shareWords(e.Used.Share, e.Used.Low, e.Used.High)
		if e.WarmMs > 0 || e.UnknownMs > 0 {
			row.Used += ", and more while it was above -5 °C or not known"
		}
	}
	row.Now = nowWords(e)
	for _, g := range e.Gone {
		row.Gone = append(row.Gone, fmt.Sprintf("%s: %s, %s", g.Customer, theirNumbers(g.Numbers.String()), s.dateText(g.At)))
	}
	numbers := e.Here.String()
	row.LookURL = coldURL(lookAtPath, x.query, "probe", seen.Probe, "from", strconv.FormatInt(int64(c.From), 10), "lot", row.Lot, "numbers", numbers)
	for _, d := range x.Deeds.About(seen.Watch, c) {
		if d.Lot == e.Lot.ID {
			row.Looked = append(row.Looked, s.nearText(d.At)+", "+d.Who+": "+deedWords(d, x.rd))
		}
	}
	return row
}

// nowWords say where packs are now.
func nowWords(e coldwatch.Exposure) string {
	if e.Lot.Sort != lots.Packs {
		if e.Lot.Held() {
			return "held"
		}
		return ""
	}
	switch {
	case e.Here.Empty():
		return "none on hand any more"
	case e.Kept:
		return times(int(e.Here.Count()), "pack", "packs") + " on hand, all held"
	case !e.Held.Empty():
		return fmt.Sprintf("%s on hand, %d of them held", times(int(e.Here.Count()), "pack", "packs"), e.Held.Count())
	}
	return times(int(e.Here.Count()), "pack", "packs") + " on hand, not held"
}

// deedNames are what was done in words.
var deedNames = map[record.Deed]string{record.Relocated: "moved", record.Discarded: "discarded", record.Stirred: "stirred", record.Shallower: "made shallower", record.MoreIce: "more ice", record.Reheated: "reheated"}

func deedWords(d coldwatch.Deed, rd reader) string {
	var words []string
	if name := deedNames[d.Did]; name != "" {
		words = append(words, name)
	}
	if d.Lot != "" {
		words = append(words, "lot "+string(d.Lot))
	}
	if d.Temp != nil {
		words = append(words, "measured "+bothDegrees(d.Temp.C(), rd))
	}
	if d.Text != "" {
		words = append(words, oneLine(string(d.Text)))
	}
	return strings.Join(words, "; ")
}
