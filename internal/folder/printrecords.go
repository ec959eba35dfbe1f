package folder

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/coldwatch"
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

// done is corrective actions, holds and decisions.
func (p *printer) done() {
	p.head("Corrective actions, holds and decisions")
	t := pdf.Table{Name: "Corrective actions", Columns: []pdf.Column{{Name: "when"}, {Name: "who"}, {Name: "where"}, {Name: "what was done"}}, None: "None was entered."}
	for _, a := range p.Actions {
		says := a.Did
		if a.TempC != nil {
			says += " at " + p.temp(*a.TempC)
		}
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{p.at(a.At), a.Who, a.Where, lines(says, prefixed("for ", a.Code), a.Text)}})
	}
	h := pdf.Table{Name: "Holds and decisions", Columns: []pdf.Column{{Name: "when"}, {Name: "who"}, {Name: "lot"}, {Name: "what"}, {Name: "why"}}, None: "None was entered, and none follows from the critical records."}
	for _, x := range p.Holds {
		what := "held"
		switch {
		case x.Decided != "" && x.Entry != (record.ID{}):
			what = "decided: " + x.Decided
		case x.Entry == (record.ID{}):
			what = "held by its records"
		}
		if x.Standing {
			what += ", now" + prefixed("; decided: ", x.Decided)
		}
		h.Rows = append(h.Rows, pdf.Row{Cells: []string{p.at(x.At), x.Who, lines(string(x.Lot), prefixed("no. ", x.Numbers)), what, lines(x.Why, strings.Join(x.Points, "\n"))}, Strong: x.Standing && x.Decided == ""})
	}
	p.add(t, h)
}

func (p *printer) cold() {
	p.head("Where it was kept cold")
	t := pdf.Table{Columns: []pdf.Column{{Name: "place, thermometer"}, {Name: "looked at"}, {Name: "limit", Figure: true}, {Name: "readings", Figure: true}, {Name: "over the limit", Figure: true}, {Name: "not known", Figure: true}},
		None: "No thermometer of the book watches a place that the lots lay in."}
	e := pdf.Table{Name: "Times over the limit, and times of which nothing is known", Columns: []pdf.Column{{Name: "place"}, {Name: "from, to"}, {Name: "what"}, {Name: "peak", Figure: true}, {Name: "over 41 °F", Figure: true}, {Name: "answered"}}, None: "None was found in what was read."}
	for _, c := range p.Cold {
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{lines(c.Name, c.Instrument), lines(p.at(c.From), p.at(c.Until)), p.temp(c.LimitC), strconv.Itoa(c.Readings), length(c.OverS), length(c.UnreadS)}, Strong: c.Readings == 0})
		for _, x := range c.Excursions {
			peak, what := "", map[string]string{"too-warm": "too warm", "not-known": "not known"}[x.Kind]
			if x.PeakC != nil {
				peak = p.temp(*x.PeakC)
			}
			if x.Open {
				what += ", goes on"
			}
			answer := map[bool]string{true: "yes", false: "NO"}[x.Answered]
			if !x.Asks {
				answer = "not asked for"
			}
			e.Rows = append(e.Rows, pdf.Row{Cells: []string{c.Name, lines(p.at(x.From), p.at(x.Until)), what, peak, length(x.Above41S), answer}, Strong: x.Asks && !x.Answered})
		}
	}
	p.add(t)
	if len(p.Cold) > 0 {
		p.add(e)
	}
	for _, c := range p.Cold {
		p.coldDays(c)
	}
	p.quiet("The temperature of air proves nothing about the food in it, either way. Where nothing was read, nothing is known.")
}

// length of a time in words; nothing for none.
func length(s float64) string {
	if s <= 0 {
		return "0"
	}
	return coldwatch.Length(int64(s * 1000))
}

func (p *printer) thermometers() {
	p.head("Thermometers")
	t := pdf.Table{Columns: []pdf.Column{{Name: "thermometer"}, {Name: "used"}, {Name: "checked"}, {Name: "by"}, {Name: "how"}, {Name: "read", Figure: true}, {Name: "true", Figure: true}, {Name: "then"}}, None: "Nothing in this folder was read with a thermometer that somebody named."}
	for _, x := range p.Thermometers {
		name := lines(x.ID, x.Name, map[bool]string{false: "not in the book"}[x.Listed])
		used := lines(p.at(x.From), p.at(x.Until))
		if len(x.Checks) == 0 {
			t.Rows = append(t.Rows, pdf.Row{Cells: []string{name, used, "no check is in the records"}, Strong: true})
		}
		for i, c := range x.Checks {
			if i > 0 {
				name, used = "", ""
			}
			then := c.Kept
			if c.AfterC != nil {
				then += ", then read " + p.temp(*c.AfterC)
			}
			t.Rows = append(t.Rows, pdf.Row{Cells: []string{name, used, p.at(c.At), c.Who, c.Method, p.temp(c.ReadC), p.temp(c.TrueC), lines(then, c.Note)}})
		}
	}
	p.add(t)
}

func (p *printer) corrections() {
	p.head("Corrections")
	t := pdf.Table{Columns: []pdf.Column{{Name: "entry"}, {Name: "it said"}, {Name: "what changed, from → to"}, {Name: "who, when"}}, None: "No entry that this folder rests on was corrected or taken back."}
	for _, c := range p.Corrections {
		var changed []string
		if c.Back {
			changed = append(changed, "taken back: "+c.Why)
		}
		for _, f := range c.Fields {
			changed = append(changed, fmt.Sprintf("%s: %s → %s", f.Path, cmp.Or(f.Was, "nothing"), cmp.Or(f.Is, "nothing")))
		}
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{fmt.Sprintf("%d, by %d", c.OfSeq, c.BySeq), c.Was, strings.Join(changed, "\n"), lines(c.Who, p.at(c.Entered))}})
	}
	p.add(t)
}

func (p *printer) signatures() {
	p.head("Signatures")
	t := pdf.Table{Name: "On runs and lots, in the records", Columns: []pdf.Column{{Name: "when"}, {Name: "who"}, {Name: "as"}, {Name: "about"}, {Name: "says"}}, None: "None was entered."}
	for _, s := range p.Signatures {
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{p.at(s.At), s.Who, s.As, s.About, lines(s.Text, s.Hash)}})
	}
	p.add(t, pdf.Heading{Level: 2, Text: "On this folder"})
	var all pdf.Signatures
	for _, s := range p.seal.Signatures {
		all = append(all, pdf.Signature{As: s.As, Who: s.Who, When: p.at(s.At), Says: s.Says(p.at)})
	}
	if !slices.ContainsFunc(p.seal.Signatures, func(s FolderSignature) bool { return s.Holds && s.As == string(record.AsVerifier) }) {
		all = append(all, pdf.Signature{As: "verifier, has read all of it"})
	}
	p.add(append(all, pdf.Signature{As: "inspector"}))
}

// mostEntries are printed; more stand in the files alone.
const mostEntries = 300

func (p *printer) entries() {
	p.head("Entries that this folder rests on")
	if len(p.Entries) > mostEntries {
		p.says(fmt.Sprintf("%d entries: too many to be printed. Each stands in contents.json with its hash, and in entries.jsonl as it was sealed.", len(p.Entries)))
		return
	}
	t := pdf.Table{Columns: []pdf.Column{{Name: "no.", Figure: true}, {Name: "happened"}, {Name: "who, with"}, {Name: "says"}, {Name: "hash begins"}}, None: "None."}
	for _, e := range p.Entries {
		says := e.Says
		if !e.Standing && e.Kind != (record.Voided{}).Kind() {
			says += " (does not stand)"
		}
		when := p.at(e.Happened)
		if late := e.Entered - e.Happened; late > hourMs {
			when += "\nentered " + p.at(e.Entered)
		}
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{strconv.FormatUint(e.Seq, 10), when, lines(e.Who, e.Device), says, e.Hash.String()[:12]}})
	}
	p.add(t)
}

const hourMs = 3_600_000

func (p *printer) verify() {
	p.head("How this folder can be verified")
	p.add(pdf.Facts{{Name: "Chain", Is: p.seal.Chain.Says()}, {Name: "Hash of its last entry", Is: p.seal.Chain.Hash.String()}, {Name: "SHA-256 of contents.json", Is: p.seal.Contents.String()}, {Name: "SHA-256 of readings.csv", Is: p.Readings.SHA256}})
	p.says("The bundle that goes with this paper holds contents.json (all of this, for programs), readings.csv, entries.jsonl and README.txt, which says how to verify them without the program that made them. A signature is on the SHA-256 of contents.json.")
}
