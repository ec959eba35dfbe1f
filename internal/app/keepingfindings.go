package app

import (
	"context"
	"fmt"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

// Codes of what is found about how long packs keep. They are stable, for programs.
const (
	CodeBookBeyond = "best-before-book"  // the book calls packs good for longer than is supported
	CodeLotsBeyond = "best-before-stock" // packs in stock do
	CodeNoneKnown  = "best-before-none"  // nothing supports the book's time
)

// fixBeyond is what may be done about packs that say more than is supported.
const fixBeyond = "sell them first or put an earlier day on them; whether to hold any is for a named person to decide: it is quality, not safety"

// weigh is how grave it is that packs are said to be good for longer than is supported: a caution if something was found in packs of one's own
// that speaks against it, else a note: nobody here has looked so far.
func (p PackKeeping) weigh() finding.Severity {
	if p.Proposal.Against {
		return finding.Caution
	}
	return finding.Note
}

// why is what the proposal is held back by, in words.
func (p PackKeeping) why() (says, source string) {
	s, ok := p.Proposal.Limiting()
	if !ok {
		return "", ""
	}
	return s.Says, s.Source
}

// findings are what a cook should know about a kind of pack.
func (p PackKeeping) findings() finding.List {
	var found finding.List
	says, source := p.why()
	switch {
	case !p.Proposal.Known && p.Weeks > 0:
		found = append(found, finding.Finding{Code: CodeNoneKnown, Severity: finding.Note, Where: p.Name, Path: "packs." + p.Pack + ".best-before",
			Message: fmt.Sprintf("the book calls it good for %d weeks (%s), and nothing supports that: no pack of it was opened, and nothing is published of a food of its kind", p.Weeks, p.Source), Source: p.Source, Fix: "keep some packs of the next run to be tasted"})
	case p.Longer():
		found = append(found, finding.Finding{Code: CodeBookBeyond, Severity: p.weigh(), Where: p.Name, Path: "packs." + p.Pack + ".best-before",
			Message: fmt.Sprintf("the book calls it good for %d weeks (%s), and only %d are supported: %s", p.Weeks, p.Source, p.Proposal.Weeks, says), Source: source, Figures: p.figures(), Fix: "look at the proposal, and take it over if you agree"})
	}
	if f, ok := p.stock(p.Lots); ok {
		found = append(found, f)
	}
	return found
}

func (p PackKeeping) figures() []finding.Figure {
	week := func(name string, n int) finding.Figure {
		return finding.Figure{Name: name, Value: float64(n), Unit: "weeks", Text: weeksText(n)}
	}
	return []finding.Figure{week("in the book", p.Weeks), week("supported", p.Proposal.Weeks)}
}

func weeksText(n int) string {
	if n == 1 {
		return "1 week"
	}
	return fmt.Sprintf("%d weeks", n)
}

// stock is about packs of some lots whose best-before day is later than is supported; false when there are none.
func (p PackKeeping) stock(all []LotKeeping) (finding.Finding, bool) {
	var packs, past, promised int64
	var which, to []string
	lots := 0
	for _, l := range all {
		if l.Beyond == 0 || l.Packs == 0 {
			continue
		}
		lots++
		packs += l.Packs
		if l.Past {
			past += l.Packs
		}
		if len(which) < mostNamed {
			which = append(which, fmt.Sprintf("%s (%s of lot %s, supported until %s)", l.BestBefore, packsCount(l.Packs), l.Lot, l.Until))
		}
		for _, o := range l.Promised {
			promised += o.Numbers.Count()
			if says := fmt.Sprintf("%s to %s for %s", packsCount(o.Numbers.Count()), o.Name, o.Due); len(to) < mostNamed {
				to = append(to, says)
			}
		}
	}
	if packs == 0 {
		return finding.Finding{}, false
	}
	says, source := p.why()
	f := finding.Finding{Code: CodeLotsBeyond, Severity: p.weigh(), Where: p.Name, Path: "packs." + p.Pack + ".best-before", Source: source, Fix: fixBeyond,
		Message: fmt.Sprintf("%s in stock say best before %s; %s supported: %s", packsCount(packs), strings.Join(which, ", "), weeksAre(p.Proposal.Weeks), says),
		Figures: []finding.Figure{{Name: "packs", Value: float64(packs), Unit: "packs", Text: packsCount(packs)}}}
	if more := lots - len(which); more > 0 {
		f.Message += fmt.Sprintf("; and %d more lots", more)
	}
	if past > 0 {
		f.Message += fmt.Sprintf("; of %s that time is over", packsCount(past))
	}
	if promised > 0 {
		f.Message += fmt.Sprintf("; promised to customers: %s", strings.Join(to, ", "))
	}
	return f, true
}

func packsCount(n int64) string {
	if n == 1 {
		return "1 pack"
	}
	return fmt.Sprintf("%d packs", n)
}

func weeksAre(n int) string {
	if n == 1 {
		return "1 week is"
	}
	return fmt.Sprintf("%d weeks are", n)
}

// KeepingFindings are about packs in stock whose best-before day is later than is supported; of one lot when it is named. How warm the freezers
// were is left out: the page of the pack reads that.
func (r *Records) KeepingFindings(ctx context.Context, book kitchen.Book, now record.Instant, lot record.Lot) (finding.List, error) {
	v, err := r.Keeping(ctx, book, now, KeepingAsk{})
	if err != nil {
		return nil, err
	}
	var found finding.List
	for _, p := range v.Packs {
		of := p.Lots
		if lot != "" {
			of = nil
			for _, l := range p.Lots {
				if l.Lot == lot {
					of = append(of, l)
				}
			}
		}
		if f, ok := p.stock(of); ok {
			found = append(found, f)
		}
	}
	return found, nil
}
