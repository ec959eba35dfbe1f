package app

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"slices"
	"time"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/loggerfile"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
)

// ProbeList is all probes, as they stand now.
type ProbeList struct {
	Schema   string         `json:"schema"` // kettlefrost.probes/1
	Now      record.Instant `json:"now_ms"`
	Probes   []ProbeRow     `json:"probes"`
	Findings finding.List   `json:"findings"`
}

// ProbeRow is a probe, a logger, or what else sent readings.
type ProbeRow struct {
	Probe    string                  `json:"probe"`
	Name     string                  `json:"name,omitzero"`
	Kind     kitchen.ThermometerKind `json:"kind,omitzero"`
	Listed   bool                    `json:"listed"` // the book has it
	Place    record.Place            `json:"place,omitzero"`
	Where    string                  `json:"where,omitzero"` // the place by its name, or what it is in now
	In       *DayStay                `json:"in,omitempty"`   // what it is in now
	Last     *DayReading             `json:"last,omitempty"` // the last with a temperature; null: nothing of late, or never
	Ever     bool                    `json:"ever"`           // it sent something at some time
	AgeS     int64                   `json:"age_s,omitzero"` // of that reading
	TypicalS int64                   `json:"typical_s,omitzero"`
	Day      int                     `json:"day_readings"` // of the last 24 hours
	Flagged  int                     `json:"day_flagged"`
	Flags    []LogFlag               `json:"day_flags"`
	Old      bool                    `json:"old"` // the last reading is too long ago to say something of now
	Silent   bool                    `json:"silent"`
	Future   int                     `json:"future"` // readings of times to come
}

// ProbeListSchema is what the list of probes says it is.
const ProbeListSchema = "kettlefrost.probes/1"

// Codes of what is found about probes. They are stable, for programs.
const (
	CodeProbeSilent   = "probe-silent"
	CodeProbeNever    = "probe-never-heard"
	CodeProbeFlagged  = "probe-flagged"
	CodeProbeUnlisted = "probe-not-listed"
	CodeProbeAhead    = "probe-clock-ahead"
)

const (
	recentMs     = 24 * 3_600_000
	shortSilence = 30 * time.Minute     // a probe that sends by itself is silent after this time, or after three times what is usual
	readOut      = 30 * 24 * time.Hour  // a logger is read out by hand: once a month at least
	farBackMs    = 400 * 24 * 3_600_000 // how far back the last reading is looked for
)

// ProbeList lists the probes and loggers of the book, and what else sent readings.
func (r *Records) ProbeList(ctx context.Context, book kitchen.Book, now time.Time) (ProbeList, error) {
	list := ProbeList{Schema: ProbeListSchema, Now: instantOf(now), Probes: []ProbeRow{}, Findings: finding.List{}}
	spans, err := r.store.Probes(ctx)
	if err != nil {
		return list, err
	}
	ever := map[string]store.ProbeSpan{}
	for _, s := range spans {
		ever[s.Name] = s
	}
	names := slices.Collect(maps.Keys(ever))
	for id, t := range book.Thermometers {
		if _, sent := ever[string(id)]; !sent && (t.Kind == kitchen.Probe || t.Kind == kitchen.Logger) {
			names = append(names, string(id))
		}
	}
	stays, err := r.ProbeStays(ctx, "", list.Now, list.Now+1)
	if err != nil {
		return list, err
	}
	layout := PlacesOf(book)
	for _, name := range slices.Sorted(slices.Values(names)) {
		t, listed := book.Thermometers[kitchen.ThermometerID(name)]
		p := ProbeRow{Probe: name, Name: t.Name, Kind: t.Kind, Listed: listed, Place: record.Place(t.At), Flags: []LogFlag{}}
		if listed && p.Kind == "" {
			p.Kind = kitchen.Handheld
		}
		p.Where = cmp.Or(layout.FullName(p.Place), string(p.Place))
		p.stay(stays)
		span, sent := ever[name]
		if p.Ever = sent; sent {
			if err := r.lately(ctx, &p, span, list.Now); err != nil {
				return list, err
			}
		}
		p.judge(now)
		list.Findings = append(list.Findings, p.findings()...)
		list.Probes = append(list.Probes, p)
	}
	list.Findings.Sort()
	return list, nil
}

// stay says what a probe is in now.
func (p *ProbeRow) stay(stays []ProbeStay) {
	for _, w := range stays {
		if w.Probe == p.Probe {
			p.In = &DayStay{Entry: w.Entry, Stage: w.Stage, Run: w.Run, Task: w.Task, Where: w.where(), Point: w.Point, From: w.From, Until: w.Until}
		}
	}
}

// lately is what a probe sent in the last day, or last of all.
func (r *Records) lately(ctx context.Context, p *ProbeRow, span store.ProbeSpan, now record.Instant) error {
	readings, err := r.Readings(ctx, p.Probe, now-recentMs, max(span.Last, now)+1)
	if err != nil {
		return err
	}
	var steps []record.Instant
	day := ReadingDay{}
	for _, x := range readings {
		if x.At > now+record.Instant(clockSlack.Milliseconds()) {
			p.Future++
			continue
		}
		if n := len(day.Readings); n > 0 && x.At > day.Readings[n-1].At {
			steps = append(steps, x.At-day.Readings[n-1].At)
		}
		day.Readings = append(day.Readings, dayReading(x))
	}
	day.summarize()
	p.Day, p.Flagged, p.Flags = day.Summary.Readings, day.Summary.Flagged, day.Summary.Flags
	if len(steps) > 0 {
		slices.Sort(steps)
		p.TypicalS = int64(steps[len(steps)/2]) / 1000
	}
	p.Last = lastCounting(day.Readings)
	if p.Last == nil && span.First < now {
		if p.Last, err = r.lastBefore(ctx, p.Probe, span, now-recentMs); err != nil {
			return err
		}
	}
	if p.Last != nil {
		p.AgeS = max(0, int64(now-p.Last.At)/1000)
	}
	return nil
}

func lastCounting(readings []DayReading) *DayReading {
	for i := range slices.Backward(readings) {
		if readings[i].Count {
			return &readings[i]
		}
	}
	return nil
}

// lastBefore looks for the last reading that counts, farther and farther back.
func (r *Records) lastBefore(ctx context.Context, probe string, span store.ProbeSpan, before record.Instant) (*DayReading, error) {
	if span.Last < before {
		before = span.Last + 1
	}
	for back := record.Instant(recentMs); before > span.First && back < farBackMs; back *= 2 {
		readings, err := r.Readings(ctx, probe, before-back, before)
		if err != nil {
			return nil, err
		}
		day := make([]DayReading, len(readings))
		for i, x := range readings {
			day[i] = dayReading(x)
		}
		if last := lastCounting(day); last != nil {
			return last, nil
		}
		before -= back
	}
	return nil, nil
}

// judge says whether a probe is silent that should be heard: one that watches a place, or is in food now.
func (p *ProbeRow) judge(now time.Time) {
	if p.Last == nil {
		p.Silent = p.Kind == kitchen.Probe && p.Place != "" || p.In != nil
		return
	}
	age, patience := time.Duration(p.AgeS)*time.Second, max(shortSilence, 3*time.Duration(p.TypicalS)*time.Second)
	p.Old = age > patience
	switch {
	case p.Kind == kitchen.Probe && p.Place != "" || p.In != nil:
		p.Silent = age > patience
	case p.Kind == kitchen.Logger:
		p.Silent = age > readOut
	}
}

// findings are what somebody should look at.
func (p *ProbeRow) findings() finding.List {
	var found finding.List
	name := cmp.Or(p.Name, p.Probe)
	add := func(code string, severity finding.Severity, message, fix string) {
		found = append(found, finding.Finding{Code: code, Severity: severity, Where: "probe " + p.Probe, Path: "thermometers." + p.Probe, Message: message, Fix: fix})
	}
	switch {
	case p.Silent && p.Last == nil:
		add(CodeProbeNever, finding.Caution, name+" has sent no temperature yet", "see that it sends, under this very name")
	case p.Silent && p.Kind == kitchen.Logger && p.In == nil:
		add(CodeProbeSilent, finding.Caution, fmt.Sprintf("%s was read out last %s ago", name, Roughly(time.Duration(p.AgeS)*time.Second)), "read it out, and take its file in")
	case p.Silent:
		add(CodeProbeSilent, finding.Caution, fmt.Sprintf("%s has sent nothing for %s: what the temperature is now is not known", name, Roughly(time.Duration(p.AgeS)*time.Second)), "look at the probe, its battery and its network; measure by hand meanwhile")
	}
	if p.Future > 0 {
		add(CodeProbeAhead, finding.Caution, fmt.Sprintf("%s sent readings of times that have not come: %d", name, p.Future), "set its clock")
	}
	if odd := p.doubtful(); odd > 0 {
		add(CodeProbeFlagged, finding.Caution, fmt.Sprintf("of the %d readings of %s in the last 24 hours, %d are flagged in a way that leaves their temperature or time in doubt", p.Day, name, odd), "look at the day, and at the probe")
	}
	if !p.Listed {
		add(CodeProbeUnlisted, finding.Note, p.Probe+" sends readings, and the book has no such thermometer: nobody knows where it is and how far wrong it may be", "write it into the book after thermometers:")
	}
	return found
}

// doubtful is how often the temperature or the time of a reading was in doubt.
func (p *ProbeRow) doubtful() (n int) {
	for _, f := range p.Flags {
		if !slices.Contains(harmless, loggerfile.Flag(f.Flag)) {
			n += f.Count
		}
	}
	return n
}

// ProbeName is a probe that can be chosen.
type ProbeName struct{ ID, Name string }

// ProbeNames are all that ever sent something, and the probes and loggers of the book.
func (r *Records) ProbeNames(ctx context.Context, book kitchen.Book) ([]ProbeName, error) {
	spans, err := r.store.Probes(ctx)
	names := map[string]string{}
	for _, s := range spans {
		names[s.Name] = ""
	}
	for id, t := range book.Thermometers {
		if _, sent := names[string(id)]; sent || t.Kind == kitchen.Probe || t.Kind == kitchen.Logger {
			names[string(id)] = t.Name
		}
	}
	var all []ProbeName
	for _, id := range slices.Sorted(maps.Keys(names)) {
		all = append(all, ProbeName{id, names[id]})
	}
	return all, err
}
