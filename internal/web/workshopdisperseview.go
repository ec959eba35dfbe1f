package web

import (
	"fmt"
	"slices"

	"kettlefrost/internal/app"
	"kettlefrost/internal/dispersal"
	"kettlefrost/internal/dosing"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// disperseShown is a powder got into a dish, in words.
type disperseShown struct {
	Title, Dish string
	Says        string
	Facts       []disperseFact
	Asks        []dispersal.Ask
	Findings    findingsView
	Do          []app.DisperseDo
	Steps       []disperseStep // new or otherwise
	Days        []disperseRow
	Run         string
	Planned     string // how the timetable ended, where it is not as it should be
	Others      []disperseWay
	Files       []disperseFile
	Changes     bool
	Stops       bool
	Kept        bool // the book is in the records
	Entry, Was  string
	Typed       []kept
	JSON        string
}

// disperseFact is a figure with its name.
type disperseFact struct{ Name, Value, More string }

// disperseStep is a step that is new, or that is otherwise than it was.
type disperseStep struct {
	ID, Do, How, Where string
	New                bool
	Lines              []disperseLine
}

// disperseLine is a line of what goes into a step; Class is added, removed or same.
type disperseLine struct{ Class, Sign, Text string }

// disperseRow is a figure of the day without and with it.
type disperseRow struct {
	Name, Now, Then string
	Differs         bool
}

// disperseWay is another way, as an address, or why it cannot be taken.
type disperseWay struct{ Words, URL, Not string }

// disperseFile is a file of the book with the lines that come and go.
type disperseFile struct {
	Name  string
	Lines []disperseLine
}

func disperseView(d app.Dispersed, t app.DisperseTyped, rd reader, inRecords bool, jsonURL string) *disperseShown {
	book := d.Book
	book.Kitchen.Units = rd.units
	d.Book = book
	x := d.View()
	v := &disperseShown{Title: capital(x.Powder), Dish: x.DishName, Says: x.Says, Asks: x.Asks, Findings: viewFindings(x.Found), Do: x.Do, Run: x.Run, Changes: x.Changes, Stops: x.Stops, Kept: inRecords,
		Entry: newEntryID(), Was: d.Edit.Mark(), JSON: jsonURL}
	v.facts(x, rd)
	v.Steps = disperseSteps(d, rd)
	v.days(x, rd)
	for _, o := range x.Others {
		way := disperseWay{Words: capital(o.Words), Not: o.Not}
		if o.Not == "" {
			other := t
			other.Way = o.Way
			way.URL = dispersePath + queryOf(disperseQuery(other))
		}
		v.Others = append(v.Others, way)
	}
	for _, f := range x.Files {
		v.Files = append(v.Files, disperseFile{f.Name, disperseLines(f.Diff())})
	}
	for i, parts := 0, disperseParts(t); i+1 < len(parts); i += 2 {
		v.Typed = append(v.Typed, kept{parts[i], parts[i+1]})
	}
	return v
}

func disperseLines(lines []app.DiffLine) []disperseLine {
	var all []disperseLine
	for _, l := range lines {
		switch l.Sign {
		case '+':
			all = append(all, disperseLine{"added", "+", l.Text})
		case '-':
			all = append(all, disperseLine{"removed", "−", l.Text})
		case ' ':
			all = append(all, disperseLine{"same", "", l.Text})
		}
	}
	return all
}

func (v *disperseShown) facts(x app.DisperseView, rd reader) {
	add := func(name, value, more string) { v.Facts = append(v.Facts, disperseFact{name, value, more}) }
	add("How much", dosing.Grams(x.Mass), "as the dish is written")
	add("How", x.WayWords, "step "+x.Step)
	if x.Way != string(dosing.Dissolve) {
		add("The mix", x.Mix.Show(rd.units), fmt.Sprintf("%.2f %% of it is %s", 100*x.Share, x.Powder))
	}
	if len(x.Loads) > 0 && x.Jar != "" {
		add(x.Jar, times(len(x.Loads), "jar", "jars"), fmt.Sprintf("each %s of liquid and %s", x.Loads[0].Liquid.Show(rd.units), dosing.Grams(x.Loads[0].Powder)))
	}
	for _, h := range x.Held {
		more := "none of it stays in " + h.From
		if h.Left != "" {
			more = h.Left + " stays in " + h.From
		}
		name := "Held back"
		if x.State == dispersal.Mended {
			name = "Held back besides"
		}
		add(name, h.Amount+" of "+h.Name, more)
	}
}

// disperseSteps are the steps that are new or otherwise.
func disperseSteps(d app.Dispersed, rd reader) []disperseStep {
	var all []disperseStep
	for _, s := range d.After.Steps {
		i := slices.IndexFunc(d.Before.Steps, func(x kitchen.Step) bool { return x.ID == s.ID })
		one := disperseStep{ID: s.ID, Do: s.Do, How: s.How, New: i < 0}
		now := useLines(d.Book, s.Use, rd)
		if i < 0 {
			for _, l := range now {
				one.Lines = append(one.Lines, disperseLine{"added", "+", l})
			}
			one.Where = whereDone(d.Book, s)
			all = append(all, one)
			continue
		}
		was := useLines(d.Book, d.Before.Steps[i].Use, rd)
		if slices.Equal(was, now) {
			continue
		}
		one.How = ""
		for _, l := range was {
			if !slices.Contains(now, l) {
				one.Lines = append(one.Lines, disperseLine{"removed", "−", l})
			}
		}
		for _, l := range now {
			if slices.Contains(was, l) {
				one.Lines = append(one.Lines, disperseLine{"same", "", l})
			} else {
				one.Lines = append(one.Lines, disperseLine{"added", "+", l})
			}
		}
		all = append(all, one)
	}
	return all
}

// useLines are what goes into a step, in words.
func useLines(book kitchen.Book, uses []kitchen.Use, rd reader) []string {
	var all []string
	for _, u := range uses {
		switch {
		case u.Of != "":
			amount := u.Amount.Show(rd.units)
			if u.Amount.Kind == unit.AmountMass && u.Amount.Mass < 500*unit.Gram && u.Amount.Mass%(unit.Gram/100) == 0 {
				amount = dosing.Grams(u.Amount.Mass)
			}
			all = append(all, amount+" of "+book.Ingredients[u.Of].Name)
		case u.Take.Given && u.Take.Share == unit.Whole:
			all = append(all, "all of "+string(u.From))
		case u.Take.Given:
			all = append(all, u.Take.Share.Show(rd.units)+" of "+string(u.From))
		default:
			all = append(all, u.Amount.Show(rd.units)+" of "+string(u.From))
		}
	}
	return all
}

// whereDone is what a new step is done in, and for how long.
func whereDone(book kitchen.Book, s kitchen.Step) string {
	text := ""
	for i, id := range s.In {
		if i > 0 {
			text += " or "
		}
		text += book.Equipment[id].Name
	}
	if s.Stays {
		text = "in the same vessel"
	}
	if text != "" {
		text += ", "
	}
	return text + s.Time.String() + " each time, with hands on it"
}

// days are the figures of the day without and with it.
func (v *disperseShown) days(x app.DisperseView, rd reader) {
	if x.Then == nil {
		return
	}
	row := func(name string, of func(*app.DisperseDay) string) {
		r := disperseRow{Name: name, Then: of(x.Then)}
		if x.Now != nil {
			r.Now = of(x.Now)
		}
		r.Differs = x.Now != nil && r.Now != r.Then && len(r.Then) < 80
		v.Days = append(v.Days, r)
	}
	row("The day", func(d *app.DisperseDay) string { return fmt.Sprintf("%s to %s, %s", d.Start, d.End, d.Length) })
	row("Hands on it", func(d *app.DisperseDay) string { return d.Hands.String() })
	row("Step "+x.Step, func(d *app.DisperseDay) string {
		if d.Jars == 0 {
			return "not there"
		}
		return fmt.Sprintf("%d × %s, %s each", d.Jars, d.Each.Show(rd.units), d.Time)
	})
	row("It begins", func(d *app.DisperseDay) string { return d.Starts })
	row("It gives", func(d *app.DisperseDay) string {
		if d.Out == 0 {
			return ""
		}
		return d.Out.Show(rd.units)
	})
	row("Packs", func(d *app.DisperseDay) string { return numeral(d.Packs) })
	row("The label says", func(d *app.DisperseDay) string { return d.Label })
	if x.Then.Status != "optimal" && x.Then.Status != "feasible" {
		v.Planned = "With it the day cannot be timed: " + x.Then.Status + "."
	}
}
