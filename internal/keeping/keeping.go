// Package keeping says for how long packs of a kind may be called at their best in the freezer: the least of what supports it. What supports it
// are packs of one's own that were opened after so many weeks (in trials, or set aside from runs) and what is published of foods of the kind;
// how warm the freezers were shortens what is published.
//
// It is about quality, never about safety: food that stays frozen at 0 °F (-18 °C) stays as safe as it was.
//
// Rules that are chosen, and could be chosen otherwise:
//   - nothing is supported beyond the oldest pack that was opened and found good; where nobody has opened any, the shorter end of what is
//     published is taken, and with packs of one's own at most the longer end;
//   - a pack found fading or bad ends it at the last week before in which one was good, whatever was found later;
//   - own packs lay in the freezers that there are, so that their storage is in what was found; only what is published is shortened for it, at the
//     bad end of the doubt about how fast quality goes when it is warmer, and never made longer;
//   - a figure from memory is shown and never counts.
package keeping

import (
	"cmp"
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
	Ends     bool       `json:"ends"`            // something was found, published or read that speaks against longer; else nobody has looked further yet
	Alone    bool       `json:"published_alone"` // nobody here has opened one
	Supports []Support  `json:"supports,omitempty"`
	Row      *Published `json:"published,omitempty"` // the row of the table that counts
	// Until is for how long what is published alone would support it, storage counted; 0 for nothing published.
	Until int `json:"published_weeks,omitempty"`
}

// own is what the packs that were opened here support, in trials and out of them.
type own struct {
	any, ends bool
	weeks     int
}

// Propose is the least of what supports a time, with everything that was looked at.
func Propose(f Food) Proposal {
	var p Proposal
	for _, t := range f.Trials {
		p.Supports = append(p.Supports, Support{Basis: ByTrial, Name: t.Name, Weeks: t.Weeks, Ends: t.Ends, Counts: !t.Not, Says: t.Says, Source: t.Source})
	}
	if s, ok := ofOpened(f.Opened); ok {
		p.Supports = append(p.Supports, s)
	}
	o := pooled(p.Supports)
	p.publish(f, o)
	p.settle(o)
	for _, c := range f.Classes {
		if row, ok := Of(c); ok && row.Memory {
			p.Supports = append(p.Supports, row.support(row.WeeksHigh))
		}
	}
	return p
}

// pooled puts what own packs say together: what ends it anywhere ends it; else the longest that anybody has looked.
func pooled(all []Support) (o own) {
	for _, s := range all {
		if !s.Counts {
			continue
		}
		switch {
		case s.Ends && (!o.ends || s.Weeks < o.weeks):
			o.weeks, o.ends = s.Weeks, true
		case !s.Ends && !o.ends:
			o.weeks = max(o.weeks, s.Weeks)
		}
		o.any = true
	}
	return o
}

// publish takes what is published, and what the storage leaves of it.
func (p *Proposal) publish(f Food, o own) {
	row, ok := shortest(f.Classes)
	if !ok {
		return
	}
	weeks := row.Weeks
	if o.any && o.weeks > row.Weeks {
		weeks = row.WeeksHigh
	}
	p.Row, p.Until = &row, f.Storage.leaves(row.Weeks)
	p.Supports = append(p.Supports, row.support(weeks))
	if f.Storage != nil {
		p.Supports = append(p.Supports, f.Storage.support(weeks))
	}
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
		says += "; the longer counts, as packs were opened later than the shorter and found good"
	}
	if r.Note != "" {
		says += "; " + r.Note
	}
	return Support{Basis: ByPublished, Name: r.Name, Weeks: weeks, Ends: true, Counts: !r.Memory, Says: says, Source: r.Source}
}

// settle takes the least, and marks what it is.
func (p *Proposal) settle(o own) {
	type limit struct {
		weeks int
		ends  bool
		basis func(Support) bool
	}
	var limits []limit
	if o.any {
		limits = append(limits, limit{o.weeks, o.ends, func(s Support) bool {
			return s.Counts && (s.Basis == ByTrial || s.Basis == ByOpened) && s.Weeks == o.weeks && s.Ends == o.ends
		}})
	}
	for _, s := range p.Supports {
		if s.Counts && (s.Basis == ByPublished || s.Basis == ByStorage && s.Ends) {
			limits = append(limits, limit{s.Weeks, true, func(x Support) bool { return x.Basis == s.Basis }})
		}
	}
	if len(limits) == 0 {
		return
	}
	least := slices.MinFunc(limits, func(a, b limit) int { return cmp.Compare(a.weeks, b.weeks) })
	p.Known, p.Weeks, p.Ends, p.Alone = true, least.weeks, least.ends, !o.any
	for i := range p.Supports {
		s := &p.Supports[i]
		if s.Counts && least.basis(*s) {
			s.Limits = true
			p.Limit = cmp.Or(p.Limit, s.Basis)
		}
	}
}

// Limiting is what the proposal is held back by, in words with its source.
func (p Proposal) Limiting() (Support, bool) {
	i := slices.IndexFunc(p.Supports, func(s Support) bool { return s.Limits })
	if i < 0 {
		return Support{}, false
	}
	return p.Supports[i], true
}
