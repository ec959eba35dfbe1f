package folder

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"
	"time"

	"kettlefrost/internal/pdf"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Clock puts times into the words of the kitchen's wall. All of them are used: a folder without one prints milliseconds.
type Clock struct {
	Time func(record.Instant) string    // Tue 1 Dec 2026 14:05
	Hour func(record.Instant) string    // 14:05
	Wall func(record.Instant) time.Time // in the zone of the wall, for charts
}

// printer makes the document of a folder.
type printer struct {
	Contents
	seal  Seal
	clock Clock
	doc   pdf.Document
}

// Document is the folder for paper.
func (b Bundle) Document(clock Clock) pdf.Document {
	p := printer{Contents: b.Contents, seal: b.Seal, clock: clock}
	name := cmp.Or(b.Kitchen.Name, "Kitchen")
	if b.Kitchen.Place != "" {
		name += ", " + b.Kitchen.Place
	}
	p.doc = pdf.Document{Title: "Safety records: " + b.Asked, Subject: "What a kitchen wrote down about these lots", Head: name + " · safety records: " + b.Asked,
		Foot: "contents " + b.Seal.Contents.String()[:16] + " · chain " + strconv.FormatUint(b.Seal.Chain.Seq, 10) + " " + b.Seal.Chain.Hash.String()[:16], MadeMs: int64(b.AsOf)}
	p.doc.Paper = paperOf(b.Kitchen)
	p.front(name)
	p.lots()
	p.plans()
	p.records()
	p.done()
	p.cold()
	p.thermometers()
	p.corrections()
	p.signatures()
	p.rules()
	p.entries()
	p.verify()
	return p.doc
}

// paperOf is Letter where pounds are, and else A4.
func paperOf(k Kitchen) pdf.Paper {
	if k.Units == unit.US {
		return pdf.Letter
	}
	return pdf.A4
}

func (p *printer) add(blocks ...pdf.Block) { p.doc.Blocks = append(p.doc.Blocks, blocks...) }

func (p *printer) head(text string)        { p.add(pdf.Heading{Level: 1, Text: text}) }
func (p *printer) says(text string)        { p.add(pdf.Paragraph{Text: text}) }
func (p *printer) quiet(text string)       { p.add(pdf.Paragraph{Text: text, Tone: pdf.Quiet}) }
func (p *printer) temp(c float64) string   { return degrees(c, p.Kitchen.Units) }
func (p *printer) mass(m unit.Mass) string { return m.Show(p.Kitchen.Units) }
func (p *printer) at(t record.Instant) string {
	if t == 0 {
		return ""
	}
	return p.clock.Time(t)
}

// grave is how many of what is missing nobody has decided about.
func (p *printer) grave() (n int) {
	for _, x := range p.Missing {
		if x.Grave {
			n++
		}
	}
	return n
}

func (p *printer) front(name string) {
	p.add(pdf.Title{Text: "Safety records", Below: p.Asked})
	facts := pdf.Facts{{Name: "Kitchen", Is: name}, {Name: "As of", Is: p.at(p.AsOf) + ": what was entered and read until then. Times are those of " + p.clock.Wall(p.AsOf).Format("MST (UTC-07:00)")}, {Name: "Lots asked for", Is: p.asked()},
		{Name: "Rules of", Is: cmp.Or(p.Kitchen.Jurisdiction, "nobody has said whose rules the kitchen holds: nothing was judged")}}
	if p.Kitchen.JudgedFrom != "" {
		facts = append(facts, pdf.Fact{Name: "Judged", Is: "lots of runs from " + p.Kitchen.JudgedFrom + " on"})
	}
	facts = append(facts, pdf.Fact{Name: "Vacuum packing", Is: cmp.Or(p.Kitchen.Approval, "no approval of the authority is written in the book")},
		pdf.Fact{Name: "Records", Is: p.seal.Chain.Says()}, pdf.Fact{Name: "Signed", Is: p.signed()})
	p.add(facts)
	p.quiet("This folder says what was written down and how it was judged by the rules that the kitchen holds. It does not say that food is safe: your local code and a licensed professional decide.")
	p.head("What is missing, or not as it must be")
	p.missing()
	p.add(pdf.Contents{Name: "Contents"})
}

func (p *printer) asked() string {
	var names []string
	for _, l := range p.Lots {
		if l.Asked {
			names = append(names, string(l.Lot))
		}
	}
	if len(names) > 12 {
		return fmt.Sprintf("%d, listed below", len(names))
	}
	return cmp.Or(strings.Join(names, ", "), "none")
}

func (p *printer) signed() string {
	if len(p.seal.Signatures) == 0 {
		return "by nobody yet"
	}
	var all []string
	for _, s := range p.seal.Signatures {
		all = append(all, s.Says(p.at))
	}
	return strings.Join(all, "\n")
}

func (p *printer) missing() {
	if len(p.Missing) == 0 {
		p.says("The program found nothing of what it looks for to be missing. It cannot find what nobody wrote down and no rule asks for.")
		return
	}
	if n := p.grave(); n > 0 {
		p.add(pdf.Paragraph{Text: fmt.Sprintf("%s on which nobody has decided. %s", counted(n, "matter"), map[bool]string{true: "It stands first.", false: "They stand first."}[n == 1]), Tone: pdf.Loud})
	} else {
		p.says("None of these keeps a lot from being sold by the rules of the kitchen: each was decided by a named person, or no lot is held for it.")
	}
	t := pdf.Table{Columns: []pdf.Column{{Name: ""}, {Name: "where"}, {Name: "what"}, {Name: "what would settle it"}}}
	for _, x := range p.Missing {
		mark := ""
		if x.Grave {
			mark = "■"
		}
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{mark, x.Where, x.Says, x.Fix}, Strong: x.Grave})
	}
	p.add(t)
	if p.grave() > 0 {
		p.quiet("■ nobody has decided on it")
	}
}

func counted(n int, of string) string {
	if n == 1 {
		return "1 " + of
	}
	return strconv.Itoa(n) + " " + of + "s"
}
