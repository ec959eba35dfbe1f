package coldwatch

import (
	"math"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Names of the forms of reports.
const (
	WatchSchema     = "kettlefrost.watch/1"
	ExcursionSchema = "kettlefrost.excursion/1"
)

// Report is what the probes show, for programs. Times are milliseconds since 1970 UTC.
type Report struct {
	Schema   string         `json:"schema"`
	Now      record.Instant `json:"now_ms"`
	Places   []PlaceReport  `json:"places"`
	Findings finding.List   `json:"findings"`
}

// PlaceReport is what one probe shows of its place.
type PlaceReport struct {
	Probe       string          `json:"probe"`
	Name        string          `json:"name"`
	Place       record.Place    `json:"place"`
	Kind        string          `json:"kind"` // frozen or chilled
	LimitC      float64         `json:"limit_c"`
	LimitSource string          `json:"limit_source"`
	From        record.Instant  `json:"from_ms"`
	Last        *LastReport     `json:"last,omitempty"` // none: nothing came that can be used
	Silent      *record.Instant `json:"silent_since_ms,omitempty"`
	AccuracyC   float64         `json:"accuracy_c"` // now, at most so far wrong
	Usable      bool            `json:"usable"`     // it was not withdrawn
	Read        int             `json:"read"`
	Unread      int             `json:"unread"` // readings that count for nothing: no temperature, an impossible one, an odd one that is cold
	Away        int             `json:"away"`   // readings that were left out, since the records say that the probe was elsewhere then
	GapMs       int64           `json:"gap_ms"` // longer than this without a reading is silence
	Stretches   []StretchReport `json:"stretches"`
}

// LastReport is the last reading that counts.
type LastReport struct {
	At    record.Instant `json:"at_ms"`
	TempC float64        `json:"temp_c"`
}

// StretchReport is a time during which a place was too warm, or nobody knows.
type StretchReport struct {
	Kind      Kind           `json:"kind"`
	From      record.Instant `json:"from_ms"`
	Until     record.Instant `json:"until_ms"`
	Ended     bool           `json:"ended"`
	PeakC     *float64       `json:"peak_c,omitempty"`
	MayC      *float64       `json:"may_be_c,omitempty"` // the warmest by the probe's bad end
	LimitC    float64        `json:"limit_c"`
	WarmMs    int64          `json:"above_minus_5_c_ms"`
	ThawedMs  int64          `json:"above_5_c_ms"`
	UnknownMs int64          `json:"unknown_ms"`
	Odd       int            `json:"odd"`     // readings with something odd about them
	Awaited   bool           `json:"awaited"` // nothing is known yet, since the logger was not read out
	Asks      bool           `json:"asks"`    // somebody must look and say what was done
	Answered  bool           `json:"answered"`
}

// ExcursionReport is a stretch with what lay there, for programs.
type ExcursionReport struct {
	Schema         string        `json:"schema"`
	Probe          string        `json:"probe"`
	Place          record.Place  `json:"place"`
	Stretch        StretchReport `json:"stretch"`
	Lots           []LotReport   `json:"lots"` // the gravest first
	Deeds          []DeedReport  `json:"deeds"`
	Guidance       string        `json:"guidance"`
	GuidanceSource string        `json:"guidance_source"`
}

// LotReport is packs of a lot that lay there at the same times, or what of it was there in bulk.
type LotReport struct {
	Lot       record.Lot     `json:"lot"`
	Sort      lots.Sort      `json:"sort"`
	What      string         `json:"what"`
	Numbers   string         `json:"numbers,omitempty"`
	Mass      unit.Mass      `json:"mass_g,omitzero"` // in bulk
	Places    []record.Place `json:"places"`
	Sure      bool           `json:"sure"` // false: the records leave open whether it lay just there
	ThereMs   int64          `json:"there_ms"`
	WarmMs    int64          `json:"above_minus_5_c_ms"`
	ThawedMs  int64          `json:"above_5_c_ms"`
	UnknownMs int64          `json:"unknown_ms"`
	PeakC     *float64       `json:"peak_c,omitempty"`
	MayC      *float64       `json:"may_be_c,omitempty"`
	LifeDays  float64        `json:"life_days,omitzero"` // at -18 °C; left out: nobody said
	LifeBy    string         `json:"life_by,omitempty"`
	Used      *UsedReport    `json:"used,omitempty"`
	Advice    Advice         `json:"advice"`
	Hold      bool           `json:"hold_suggested"`
	Here      string         `json:"on_hand,omitempty"` // of these packs, now
	Held      string         `json:"held,omitempty"`
	Gone      []GoneReport   `json:"gone,omitempty"`
}

// UsedReport is the share of its life of quality that it took, with the range over Q10 from 2 to 4. An estimate, and not of safety.
type UsedReport struct {
	Share float64 `json:"share"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
}

// GoneReport is packs that somebody got since.
type GoneReport struct {
	Customer string         `json:"customer"`
	Order    string         `json:"order,omitempty"`
	At       record.Instant `json:"at_ms"`
	Numbers  string         `json:"numbers"`
}

// DeedReport is what somebody did or found.
type DeedReport struct {
	Entry string         `json:"entry"`
	At    record.Instant `json:"at_ms"`
	Who   string         `json:"who"`
	Lot   record.Lot     `json:"lot,omitempty"`
	Did   record.Deed    `json:"did"`
	Temp  *unit.Temp     `json:"temp_c,omitempty"`
	Text  record.Text    `json:"text,omitempty"`
}

// ReportOf puts what probes show into a report.
func ReportOf(now record.Instant, seen []Seen, deeds *Deeds, found finding.List) Report {
	r := Report{Schema: WatchSchema, Now: now, Places: []PlaceReport{}, Findings: found}
	if r.Findings == nil {
		r.Findings = finding.List{}
	}
	for _, s := range seen {
		p := PlaceReport{Probe: s.Probe, Name: s.Name, Place: s.Place, Kind: string(s.Kind), LimitC: s.LimitC, LimitSource: s.LimitSource, From: s.From, Read: s.Read, Unread: s.Unread, Away: s.Away, GapMs: s.GapMs, Stretches: []StretchReport{}}
		t := s.Trust(now)
		p.AccuracyC, p.Usable = t.AccuracyC, !t.Unusable
		if s.Last != nil {
			p.Last = &LastReport{s.Last.At, s.Last.TempC}
		}
		if s.Silent != 0 {
			p.Silent = &s.Silent
		}
		for _, x := range s.Stretches {
			p.Stretches = append(p.Stretches, x.report(s.Watch, deeds))
		}
		r.Places = append(r.Places, p)
	}
	return r
}

func (s Stretch) report(w Watch, deeds *Deeds) StretchReport {
	r := StretchReport{Kind: s.Kind, From: s.From, Until: s.Until, Ended: s.Ended, LimitC: s.LimitC, WarmMs: s.WarmMs, ThawedMs: s.ThawedMs, UnknownMs: s.UnknownMs, Odd: s.Odd, Awaited: s.Awaited, Asks: s.Asks(), Answered: deeds.Answered(w, s)}
	if s.Kind == TooWarm {
		r.PeakC, r.MayC = &s.PeakC, &s.MayC
	}
	return r
}

// ReportExcursion puts a stretch and what lay there into a report.
func ReportExcursion(w Watch, x Stretch, exposed []Exposure, deeds *Deeds) ExcursionReport {
	r := ExcursionReport{Schema: ExcursionSchema, Probe: w.Probe, Place: w.Place, Stretch: x.report(w, deeds), Lots: []LotReport{}, Deeds: []DeedReport{}, Guidance: Guidance, GuidanceSource: GuidanceSource}
	for _, e := range exposed {
		r.Lots = append(r.Lots, e.report())
	}
	for _, d := range deeds.About(w, x) {
		r.Deeds = append(r.Deeds, DeedReport{d.Entry.String(), d.At, d.Who, d.Lot, d.Did, d.Temp, d.Text})
	}
	return r
}

func (e Exposure) report() LotReport {
	r := LotReport{Lot: e.Lot.ID, Sort: e.Lot.Sort, What: e.Lot.What, Numbers: e.Amount.Numbers.String(), Mass: e.Amount.Mass, Places: e.Places, Sure: e.Sure, ThereMs: e.Ms, WarmMs: e.WarmMs, ThawedMs: e.ThawedMs, UnknownMs: e.UnknownMs,
		LifeDays: e.Life.Days, LifeBy: e.Life.By, Advice: e.Advice, Hold: e.Advice.Hold(), Here: e.Here.String(), Held: e.Held.String()}
	if !math.IsNaN(e.PeakC) {
		r.PeakC, r.MayC = &e.PeakC, &e.MayC
	}
	if e.Reckoned() {
		r.Used = &UsedReport{e.Used.Share, e.Used.Low, e.Used.High}
	}
	for _, h := range e.Gone {
		r.Gone = append(r.Gone, GoneReport{h.Customer, h.Order, h.At, h.Numbers.String()})
	}
	return r
}
