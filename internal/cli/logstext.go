package cli

import (
	"cmp"
	"fmt"
	"strings"
	"text/tabwriter"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// probesText is the probes as a table, and what is found about them.
func probesText(list app.ProbeList, units unit.System) string {
	var text strings.Builder
	table := tabwriter.NewWriter(&text, 0, 0, 2, ' ', 0)
	fmt.Fprintln(table, "probe\twhere\tlast\tat\tage\tin 24 h\tflagged\t")
	for _, p := range list.Probes {
		last, at, age := "-", "-", "-"
		if p.Last != nil {
			last, at, age = coldwatch.Degrees(*p.Last.TempC, units), clockHere(p.Last.At), coldwatch.Length(p.AgeS*1000)
		}
		where := cmp.Or(p.Where, "-")
		if p.In != nil {
			where = string(p.In.Stage) + ": " + p.In.Where
		}
		silent := ""
		if p.Silent {
			silent = "SILENT"
		}
		fmt.Fprintf(table, "%s\t%s\t%s\t%s\t%s\t%d\t%d\t%s\n", p.Probe, where, last, at, age, p.Day, p.Flagged, silent)
	}
	table.Flush() // into memory it cannot fail
	for _, f := range list.Findings {
		fmt.Fprintf(&text, "%s %s: %s: %s", f.Severity, f.Code, f.Where, f.Message)
		if f.Fix != "" {
			text.WriteString(" – " + f.Fix)
		}
		text.WriteByte('\n')
	}
	return trimmedLines(text.String())
}

// trimmedLines is a text without spaces at the ends of its lines.
func trimmedLines(text string) string {
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		lines[i] = strings.TrimRight(l, " ")
	}
	return strings.Join(lines, "\n")
}

// readingDayText is a probe's day in a few lines, by the hour.
func readingDayText(d app.ReadingDay, units unit.System, place *time.Location) string {
	var text strings.Builder
	clock := func(at record.Instant) string { return time.UnixMilli(int64(at)).In(place).Format("15:04") }
	fmt.Fprintf(&text, "%s (%s) on %s\n", cmp.Or(d.Name, d.Probe), d.Probe, d.Day)
	fmt.Fprintf(&text, "%d readings, %d of them count", d.Summary.Readings, d.Summary.Counting)
	if d.Summary.Low != nil {
		fmt.Fprintf(&text, "; lowest %s at %s, highest %s at %s", coldwatch.Degrees(*d.Summary.Low.TempC, units), clock(d.Summary.Low.At), coldwatch.Degrees(*d.Summary.High.TempC, units), clock(d.Summary.High.At))
	}
	text.WriteByte('\n')
	if d.Limit != nil {
		fmt.Fprintf(&text, "Limit of %s: %s (%s)\n", d.Limit.Name, coldwatch.Degrees(d.Limit.TempC, units), d.Limit.Source)
		for _, x := range d.Limit.Stretches {
			if x.Kind == coldwatch.TooWarm {
				fmt.Fprintf(&text, "! over the limit from %s to %s, warmest %s\n", clock(x.From), clock(x.Until), coldwatch.Degrees(*x.PeakC, units))
			} else {
				fmt.Fprintf(&text, "? not known from %s to %s\n", clock(x.From), clock(x.Until))
			}
		}
	}
	for _, f := range d.Summary.Flags {
		fmt.Fprintf(&text, "flagged: %s, %d, lines %s\n", f.Says, f.Count, linesText(f.Lines, f.Count))
	}
	for _, x := range d.Stays {
		fmt.Fprintf(&text, "was in %s (%s) from %s\n", x.Where, x.Stage, clock(x.From))
	}
	for _, x := range d.Typed {
		fmt.Fprintf(&text, "by hand at %s: %s by %s\n", clock(x.At), coldwatch.Degrees(x.Temp.C(), units), x.Who)
	}
	return text.String()
}

// linesText is the first lines of which something is told.
func linesText(lines []int, of int) string {
	var words []string
	for _, n := range lines {
		words = append(words, fmt.Sprint(n))
	}
	text := strings.Join(words, ", ")
	if of > len(lines) {
		text += fmt.Sprintf(" and %d more", of-len(lines))
	}
	return text
}

// logFileText is what a logger's file holds, what it leaves open and what became of it.
func logFileText(x *app.LogReading, entered bool, place *time.Location) string {
	var text strings.Builder
	when := func(at record.Instant) string {
		return time.UnixMilli(int64(at)).In(place).Format("2006-01-02 15:04")
	}
	for _, q := range x.Questions {
		if q.Answer == "" || q.Problem != "" {
			fmt.Fprintf(&text, "? %s --%s%s\n", q.Asks, q.Key, questionText(q))
		}
	}
	for _, c := range x.Channels {
		fmt.Fprintf(&text, "column %s is %s: %d readings in °%s, %d of them with a temperature and a time", c.Column, cmp.Or(c.Probe, "?"), c.Readings, c.Unit, c.Valued)
		if c.Valued > 0 {
			units := unit.Metric
			if c.Unit == "F" {
				units = unit.US
			}
			fmt.Fprintf(&text, ", from %s to %s, %s to %s", when(c.From), when(c.To), coldwatch.Degrees(c.LowC, units), coldwatch.Degrees(c.HighC, units))
		}
		text.WriteByte('\n')
		for _, f := range c.Flags {
			fmt.Fprintf(&text, "  %s: %d, lines %s\n", f.Says, f.Count, linesText(f.Lines, f.Count))
		}
	}
	for _, d := range x.Done {
		fmt.Fprintf(&text, "This file was taken in on %s by %s.\n", when(d.At), d.Who)
	}
	switch {
	case entered:
		fmt.Fprintf(&text, "Taken in. The file's SHA-256 is %s\n", x.Hash)
	case x.Ready():
		text.WriteString("Nothing is taken in yet; --enter --who NAME does.\n")
	}
	return text.String()
}

// questionText is the cell that leaves a question open, and what is wrong with its answer.
func questionText(q app.LogQuestion) string {
	text := ""
	if q.Key == app.LogProbe {
		text += fmt.Sprintf(" %q=…", q.Of)
	} else if q.Example != "" {
		text += fmt.Sprintf(" (the file says %q)", q.Example)
	}
	if q.Problem != "" {
		text += " " + q.Problem
	}
	return text
}
