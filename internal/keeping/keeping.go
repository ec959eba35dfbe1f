// Package keeping says for how long packs of a kind may be called at their best in the freezer, never beyond what supports it. What supports it
// are packs of one's own that were opened after so many weeks (in trials, or set aside from runs) and what is published of foods of the kind;
// how warm the freezers were shortens what is published.
//
// It is about quality, never about safety: food that stays frozen at 0 °F (-18 °C) stays as safe as it was.
//
// Rules that are chosen, and could be chosen otherwise:
//   - what is published carries as far as its shorter end; from there on only packs of one's own that were opened later and found good carry
//     further, each as far as it was kept, and none beyond the longer end; where nothing is published nothing is supported beyond the oldest
//     pack opened and found good;
//   - a good pack that was opened early never makes a time shorter: nobody has looked further yet;
//   - a pack found fading or bad ends it, whatever was found later: if that was before what is published ends, what is published no longer counts, and
//     the last week before in which one was good is all that is supported;
//   - own packs lay in the freezers that there are, so that their storage is in what was found; only what is published is shortened for it, at the
//     bad end of the doubt about how fast quality goes when it is warmer, and never made longer;
//   - a figure from memory is shown and never counts.
package keeping

import (
	"fmt"
	"slices"
)

// Basis is what kind of thing supports a time.
type Basis string

const (
	ByTrial     Basis = "trial"
	ByOpened    Basis = "opened"
	ByPublished Basis = "published"
	ByStorage   Basis = "storage"
)

// Support is what one thing says, with where it comes from.
type Support struct {
	Basis  Basis  `json:"basis"`
	Name   string `json:"name"`
	Weeks  int    `json:"weeks"`            // it supports so long
	Ends   bool   `json:"ends"`             // something speaks against longer; else nobody has looked, or says, further
	Counts bool   `json:"counts"`           // for the proposal; else it is only shown
	Limits bool   `json:"limits,omitempty"` // the proposal is no longer because of it
	Says   string `json:"says"`
	Source string `json:"source"`
}

// Trial is what a trial of a dish as it is made supports.
type Trial struct {
	Name   string
	Weeks  int  // the last week opened up to which everything stayed within its bounds; 0 if it did not in the first
	Ends   bool // in a later week something may be out of its bound
	Not    bool // it does not count: too little was opened, or the dish is no longer so; Says why
	Says   string
	Source string
}

// Food is what is known of a kind of pack.
type Food struct {
	Classes []Class // of the published table that it fits: the one that ends first counts
	Trials  []Trial
	Opened  []Opened
	Storage *Storage // nil when nothing was read
}

// Proposal is for how many weeks packs may be called at their best.
type Proposal struct {
	Known    bool       `json:"known"` // else nothing supports any time: nobody has opened one, and nothing is published
	Weeks    int        `json:"weeks"` // 0 of what is known: not even the first week
	Limit    Basis      `json:"limit,omitempty"`
	Against  bool       `json:"own_against"`     // packs of one's own speak against longer: one was fading or bad, or a trial ended
	Further  bool       `json:"may_go_further"`  // good packs that are opened later could carry it further
	Most     int        `json:"most,omitempty"`  // to so many weeks, by what is published; 0 for nothing published
	Alone    bool       `json:"published_alone"` // nobody here has opened one
	Supports []Support  `json:"supports,omitempty"`
	Row      *Published `json:"published,omitempty"` // the row of the table that counts
}

// own is what the packs that were opened here say, in trials and out of them.
type own struct {
	any   bool
	good  int  // the oldest that was good, within the bound
	ends  bool // there is a bound
	bound int  // no longer than so many weeks
}

// Propose is the longest time that is supported and that nothing ends, with everything that was looked at.
func Propose(f Food) Proposal {
	var p Proposal
	for _, t := range f.Trials {
		p.Supports = append(p.Supports, Support{Basis: ByTrial, Name: t.Name, Weeks: t.Weeks, Ends: t.Ends, Counts: !t.Not, Says: t.Says, Source: t.Source})
	}
	if s, ok := ofOpened(f.Opened); ok {
		p.Supports = append(p.Supports, s)
	}
	o := pooled(f)
	if row, ok := shortest(f.Classes); ok {
		p.published(row, f.Storage, o)
	} else if o.any {
		p.Known, p.Weeks, p.Against, p.Further = true, o.good, o.ends, !o.ends || o.bound > o.good
		p.limit(ByTrial, ByOpened)
	}
	p.Alone = p.Known && !o.any
	for _, c := range f.Classes {
		if row, ok := Of(c); ok && row.Memory {
			p.Supports = append(p.Supports, row.support(row.WeeksHigh))
		}
	}
	return p
}

// pooled puts what own packs say together.
func pooled(f Food) (o own) {
	var good []int
	end := func(bound int) {
		if !o.ends || bound < o.bound {
			o.ends, o.bound = true, bound
		}
	}
	for _, t := range f.Trials {
		if t.Not {
			continue
		}
		o.any, good = true, append(good, t.Weeks)
		if t.Ends {
			end(t.Weeks)
		}
	}
	for _, x := range f.Opened {
		switch {
		case x.Old:
			continue
		case x.Good:
			good = append(good, x.Weeks)
		default:
			end(max(0, x.Weeks-1))
		}
		o.any = true
	}
	for _, weeks := range good {
		if !o.ends || weeks <= o.bound {
			o.good = max(o.good, weeks)
		}
	}
	return o
}

// published takes what is published, what the storage leaves of it, and what own packs say about both.
func (p *Proposal) published(row Published, s *Storage, o own) {
	low, high := s.leaves(row.Weeks), s.leaves(row.WeeksHigh)
	p.Known, p.Row, p.Most = true, &row, high
	weeks := row.Weeks
	if o.good > low {
		weeks = row.WeeksHigh
	}
	p.Supports = append(p.Supports, row.support(weeks))
	if s != nil {
		p.Supports = append(p.Supports, s.support(weeks))
	}
	byTable := ByPublished
	if s.leaves(weeks) < weeks {
		byTable = ByStorage
	}
	switch {
	case o.ends && o.bound < low: // what is published does not hold for this food
		p.Weeks, p.Against = o.good, true
		p.limit(ByTrial, ByOpened)
	case o.good > low && o.good < high:
		p.Weeks, p.Against = o.good, o.ends
		p.limit(ByTrial, ByOpened)
	case o.good >= high:
		p.Weeks = high
		p.limit(byTable)
	default:
		p.Weeks = low
		p.limit(byTable)
	}
	p.Further = p.Weeks < high && (!o.ends || o.bound > p.Weeks)
}

// support is the row as something that supports so many weeks.
func (r Published) support(weeks int) Support {
	says := fmt.Sprintf("%s: %s at 0 °F (-18 °C)", r.Name, r.MonthsText())
	switch {
	case r.Memory:
		says += "; from memory, so that it is shown and does not count"
	case r.Weeks == r.WeeksHigh:
	case weeks == r.Weeks:
		says += "; the shorter counts as long as no pack was opened later and found good"
	default:
		says += "; the longer is the most, as packs were opened later than the shorter and found good"
	}
	if r.Note != "" {
		says += "; " + r.Note
	}
	return Support{Basis: ByPublished, Name: r.Name, Weeks: weeks, Ends: true, Counts: !r.Memory, Says: says, Source: r.Source}
}

// limit marks what the proposal is held back by: of those bases what says least that is not less, or of own packs what found that they end.
func (p *Proposal) limit(by ...Basis) {
	at := -1
	for i, s := range p.Supports {
		if !s.Counts || !slices.Contains(by, s.Basis) {
			continue
		}
		if at < 0 || p.nearer(s, p.Supports[at]) {
			at = i
		}
	}
	if at >= 0 {
		p.Supports[at].Limits, p.Limit = true, p.Supports[at].Basis
	}
}

// nearer says whether one support says more plainly than another why the proposal is no longer.
func (p *Proposal) nearer(a, b Support) bool {
	if p.Against && a.Ends != b.Ends {
		return a.Ends
	}
	return max(a.Weeks-p.Weeks, p.Weeks-a.Weeks) < max(b.Weeks-p.Weeks, p.Weeks-b.Weeks)
}

// Limiting is what the proposal is held back by, in words with its source.
func (p Proposal) Limiting() (Support, bool) {
	i := slices.IndexFunc(p.Supports, func(s Support) bool { return s.Limits })
	if i < 0 {
		return Support{}, false
	}
	return p.Supports[i], true
}
