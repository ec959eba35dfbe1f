package folder

import (
	"cmp"
	"fmt"
	"strings"

	"kettlefrost/internal/critical"
	"kettlefrost/internal/pdf"
	"kettlefrost/internal/record"
)

var outcomeWords = map[critical.Outcome]string{critical.Pass: "meets the rule", critical.Fail: "DOES NOT MEET THE RULE", critical.Missing: "MISSING", critical.Incomplete: "INCOMPLETE"}

// records are all critical records in a table, then those with readings one by one.
func (p *printer) records() {
	p.head("Critical records")
	p.quiet("Verdicts are about the readings in this folder and the rule beside them, at the bad end of the thermometer's error.")
	t := pdf.Table{Columns: []pdf.Column{{Name: "record"}, {Name: "limit"}, {Name: "outcome"}, {Name: "why"}}, None: "None: the kitchen has no plan whose points ask for any, or nothing is judged."}
	for _, r := range p.Records {
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{lines(r.name(), r.Point), r.Limit, outcomeWords[r.Outcome], p.why(r)}, Strong: r.Outcome != critical.Pass})
	}
	p.add(t)
	for _, r := range p.Records {
		if len(r.logs) > 0 {
			p.record(r)
		}
	}
}

// name is a record in words, with its run.
func (r Record) name() string {
	name := string(r.What) + ": " + cmp.Or(r.Title, r.Point)
	if r.Loads > 1 {
		name += fmt.Sprintf(", load %d of %d", r.Load, r.Loads)
	}
	return name
}

func (p *printer) why(r Record) string {
	says := []string{sentence(r.Says)}
	for _, d := range r.Decided {
		says = append(says, fmt.Sprintf("%s, %s: %s for %s (%s)", p.at(d.At), d.Who, d.Did, d.Lot, d.Why))
	}
	if !r.Gates && r.Outcome != critical.Pass {
		says = append(says, "No lot is held for it.")
	}
	for _, s := range r.Signed {
		says = append(says, fmt.Sprintf("signed %s by %s as %s %s", p.at(s.At), s.Who, s.As, s.Text))
	}
	return strings.Join(says, "\n")
}

func (p *printer) record(r Record) {
	p.add(pdf.Heading{Level: 2, Text: r.name() + " · " + outcomeWords[r.Outcome]})
	facts := pdf.Facts{{Name: "Record", Is: r.Point}, {Name: "Lots", Is: lotNames(r.Lots)}, {Name: "Limit", Is: lines(r.Limit, prefixed("source: ", r.Source), prefixed("not read in a published text: ", r.Confirm), prefixed("differs from what is published: ", r.Reason))},
		{Name: "Verdict", Is: outcomeWords[r.Outcome] + ": " + p.why(r)}}
	if r.Accuracy != nil {
		facts = append(facts, pdf.Fact{Name: "Thermometer", Is: r.Accuracy.Says})
	}
	for _, x := range r.Traces {
		facts = append(facts, pdf.Fact{Name: "Read", Is: p.traceWords(x)})
	}
	facts = append(facts, p.estimates(r)...)
	p.add(facts)
	if r.What == critical.Cooling || readingsIn(r) > 2 {
		p.add(pdf.Figure{Picture: p.chart(r).Picture(), Caption: "As read; nothing is smoothed, and there is no line where nothing was read."})
	}
	p.add(p.stages(r), p.acts(r), p.read(r))
}

func lotNames(all []record.Lot) string {
	var names []string
	for _, l := range all {
		names = append(names, string(l))
	}
	return strings.Join(names, ", ")
}

func readingsIn(r Record) (n int) {
	for _, l := range r.logs {
		n += len(l.Readings)
	}
	return n
}

func (p *printer) traceWords(t Trace) string {
	says := fmt.Sprintf("%s: %s from %s to %s, %s to %s", cmp.Or(t.Where, "where was not written down"), counted(t.Count, "reading"), p.at(t.From), p.clock.Hour(t.Until), p.temp(t.LowC), p.temp(t.HighC))
	says += "; by " + cmp.Or(strings.Join(t.Instruments, ", "), "a thermometer that nobody named")
	if t.Typed > 0 {
		says += fmt.Sprintf("; %d typed", t.Typed)
	}
	if t.Flagged > 0 {
		says += fmt.Sprintf("; %d odd, kept and counted", t.Flagged)
	}
	return says
}

func (p *printer) stages(r Record) pdf.Table {
	t := pdf.Table{Name: "Each rule for itself", Columns: []pdf.Column{{Name: "rule"}, {Name: "stage"}, {Name: "outcome"}, {Name: "margin", Figure: true}, {Name: "why"}}}
	for _, rule := range r.Rules {
		name := rule.Title
		if rule.Decides {
			name += " (the kitchen's: it decides)"
		}
		for i, s := range rule.Stages {
			margin := ""
			if s.MarginS != nil {
				margin = minutes(*s.MarginS)
			}
			if i > 0 {
				name = ""
			}
			t.Rows = append(t.Rows, pdf.Row{Cells: []string{name, s.Name, string(s.Outcome), margin, s.Says}, Strong: rule.Decides && !s.Advisory && s.Outcome != critical.Pass})
		}
	}
	return t
}

// minutes to spare, or late.
func minutes(s float64) string {
	if s < 0 {
		return fmt.Sprintf("%.0f min late", -s/60)
	}
	return fmt.Sprintf("%.0f min", s/60)
}

func (p *printer) acts(r Record) pdf.Table {
	t := pdf.Table{Name: "What was done", Columns: []pdf.Column{{Name: "when"}, {Name: "who"}, {Name: "what"}}}
	for _, a := range r.Acted {
		temp := ""
		if a.Temp != nil {
			temp = " at " + p.temp(a.Temp.C())
		}
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{p.at(a.At), a.Who, strings.TrimSpace(string(a.Did) + temp + " " + string(a.Text))}})
	}
	return t
}

// mostPrinted readings of a record are printed; of more, those that are typed, odd, or decide, and others evenly between.
const mostPrinted = 30

func (p *printer) read(r Record) pdf.Table {
	all := readingsIn(r)
	t := pdf.Table{Name: fmt.Sprintf("Readings (%d; all are in readings.csv)", all), Columns: []pdf.Column{{Name: "time"}, {Name: "temperature", Figure: true}, {Name: "where"}, {Name: "instrument, or who typed it"}, {Name: "odd"}}}
	decides := map[record.Instant]bool{r.At: true}
	for _, rule := range r.Rules {
		for _, s := range rule.Stages {
			decides[s.At] = rule.Decides || decides[s.At]
		}
	}
	step := max(1, (all+mostPrinted-1)/mostPrinted)
	for _, l := range r.logs {
		for i, x := range l.Readings {
			if i%step != 0 && i != len(l.Readings)-1 && !decides[x.At] && (x.Entry == "" || all > 10*mostPrinted) && (x.Flags == "" || all > 10*mostPrinted) {
				continue
			}
			odd := x.Flags
			if x.Unusable {
				odd = strings.TrimSpace(odd + " withdrawn")
			}
			t.Rows = append(t.Rows, pdf.Row{Cells: []string{p.at(x.At), p.temp(x.TempC), l.Where, strings.TrimSpace(x.Instrument + " " + x.Who), odd}, Strong: decides[x.At]})
		}
	}
	if len(t.Rows) < all {
		t.Name = fmt.Sprintf("Readings (%d of %d: evenly, and those that decide, which are bold; all are in readings.csv)", len(t.Rows), all)
	}
	return t
}
