package web

import (
	"slices"
	"strings"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// boardReaders read the forms of the board, by what they are about.
var boardReaders = map[string]func(*boardRead) record.Body{
	"start":   func(b *boardRead) record.Body { return record.Started{Run: b.p.Run.Name, Task: b.task()} },
	"finish":  func(b *boardRead) record.Body { return record.Finished{Run: b.p.Run.Name, Task: b.task()} },
	"skip":    (*boardRead).skipped,
	"weigh":   (*boardRead).weighed,
	"measure": (*boardRead).measured,
	"check":   (*boardRead).checked,
	"use":     (*boardRead).usedLot,
	"make":    (*boardRead).madeLot,
	"pack":    (*boardRead).packedLot,
	"waste":   (*boardRead).wasted,
	"close": func(b *boardRead) record.Body {
		return record.Closed{Run: b.p.Run.Name, Note: record.Text(b.text("note"))}
	},
}

// task is the task that a form is about.
func (b *boardRead) task() string {
	key := b.must("task", "Nobody said which task.")
	if key != "" && b.p.Board.Tasks[key] == nil {
		b.ask("The plan has no task %s.", key)
	}
	return key
}

func (b *boardRead) skipped() record.Body {
	return record.Skipped{Run: b.p.Run.Name, Task: b.task(), Why: b.must("why", "Say why it is not done.")}
}

func (b *boardRead) weighed() record.Body {
	w := record.Weighed{Run: b.p.Run.Name, Dish: b.text("dish"), Output: b.must("output", "Choose what was weighed."), Instrument: b.text("instrument")}
	if b.text("tare") == "" && b.text("gross") != "" && b.text("net") == "" {
		w.Net = b.mass("gross") // nothing was taken off
	} else {
		w.Gross, w.Tare, w.Net = b.mass("gross"), b.mass("tare"), b.mass("net")
	}
	switch {
	case w.Gross > 0 && w.Tare > 0 && w.Gross <= w.Tare:
		b.wrong("tare", "The empty vessel weighs as much as all of it.")
	case w.Gross > 0 && w.Tare > 0 && w.Net == 0:
		w.Net = w.Gross - w.Tare
	case w.Tare > 0 && w.Gross == 0:
		b.wrong("gross", "Write what it weighs with its vessel, or leave the vessel out.")
	case w.Net == 0:
		b.wrong("gross", "Write what it weighs.")
	}
	if all, each := b.planned(w.Dish, w.Output); far(w.Net, all) && far(w.Net, each) {
		b.ask("That is %s of %s, and the plan has %s%s. Is it right?", w.Net.Show(b.rd.units), w.Output, all.Show(b.rd.units), eachText(each, b.rd.units))
	}
	return w
}

func eachText(each unit.Mass, units unit.System) string {
	if each == 0 {
		return ""
	}
	return ", " + each.Show(units) + " in each load"
}

// planned is how much of an output the plan has, and of each load when there are several.
func (b *boardRead) planned(dish, output string) (all, each unit.Mass) {
	for _, s := range dishSteps(b.p.First, dish) {
		for _, l := range s.Out {
			if l.ID == output {
				all, each = l.Mass, l.Each
				if each == 0 && s.Loads.Count > 1 {
					each = l.Mass / unit.Mass(s.Loads.Count)
				}
			}
		}
	}
	return all, each
}

func dishSteps(p plan.Plan, dish string) []plan.Step {
	for _, d := range p.Dishes {
		if d.ID == dish {
			return d.Steps
		}
	}
	return nil
}

func (b *boardRead) measured() record.Body {
	m := record.Measured{Run: b.p.Run.Name, Dish: b.text("dish"), Task: b.task(), Place: record.Place(b.text("place")), Temp: b.temp("temp"), Instrument: b.text("instrument")}
	if c := m.Temp.C(); c < -40 || c > 150 {
		b.ask("That is %s. Is it right?", m.Temp.Show(b.rd.units))
	}
	return m
}

func (b *boardRead) checked() record.Body {
	c := record.CheckWeighed{Run: b.p.Run.Name, Pack: b.must("pack", "Nobody said which pack."), Tares: b.masses("tares"), Gross: b.masses("gross")}
	if len(c.Tares) == 0 {
		b.wrong("tares", "Weigh an empty bag with its label, or more than one.")
	}
	if len(c.Gross) == 0 {
		b.wrong("gross", "Weigh filled packs, in the order of filling.")
	}
	label, least := b.label(c.Pack), unit.Mass(0)
	for _, g := range c.Gross {
		if len(c.Tares) > 0 && (least == 0 || g-c.Tares[0] < least) {
			least = g - c.Tares[0]
		}
	}
	if far(least, label) && least != 0 {
		b.ask("The lightest has %s in it, and the label says %s. Is it right?", least.Show(b.rd.units), label.Show(b.rd.units))
	}
	return c
}

// label is the net mass that a pack's label says.
func (b *boardRead) label(pack string) unit.Mass {
	for _, f := range b.p.First.Fill {
		if f.Pack == pack {
			return f.Net
		}
	}
	return 0
}

func (b *boardRead) usedLot() record.Body {
	u := record.Used{Run: b.p.Run.Name, Dish: b.text("dish"), Step: b.text("step"), Lot: b.lot(), Mass: b.mustMass("mass")}
	b.doubt(u.Lot, b.text("of"), u.Mass)
	return u
}

// lot is a lot that was scanned or typed, or else the one that was chosen.
func (b *boardRead) lot() record.Lot {
	if typed := b.text("lot-typed"); typed != "" {
		return record.Lot(typed)
	}
	return record.Lot(b.must("lot", "Choose a lot, or scan it."))
}

// doubt asks about a lot that is not there, is held or past its day, is of something else, or of which there is less.
func (b *boardRead) doubt(id record.Lot, of string, mass unit.Mass) {
	if id == "" {
		return
	}
	i := slices.IndexFunc(b.lots, func(l lotHere) bool { return l.id == id })
	if i < 0 {
		if b.used[id] {
			b.ask("Nothing of lot %s is on hand any more.", id)
		} else {
			b.ask("No lot %s is known here. Is it written so on the tub?", id)
		}
		return
	}
	l := b.lots[i]
	if of != "" && l.what != of {
		b.ask("Lot %s is of %s.", id, l.what)
	}
	if l.held != "" {
		b.ask("Lot %s is held: %s. It must not be used before somebody releases it.", id, l.held)
	}
	if l.past {
		b.ask("Lot %s was good until %s.", id, l.last)
	}
	if mass > l.mass && l.mass > 0 {
		b.ask("Of lot %s only %s is on hand.", id, l.mass.Show(b.rd.units))
	}
}

func (b *boardRead) madeLot() record.Body {
	m := record.Made{Run: b.p.Run.Name, Dish: b.text("dish"), Output: b.must("output", "Choose what was made."), Lot: record.Lot(b.must("lot", "Write the name that stands on the tub.")), Mass: b.mustMass("mass"),
		UseBy: b.day("use-by"), Place: record.Place(b.text("place"))}
	b.mustBeNew(m.Lot)
	if all, each := b.planned(m.Dish, m.Output); far(m.Mass, all) && far(m.Mass, each) {
		b.ask("That is %s, and the plan has %s%s. Is it right?", m.Mass.Show(b.rd.units), all.Show(b.rd.units), eachText(each, b.rd.units))
	}
	return m
}

func (b *boardRead) mustBeNew(lot record.Lot) {
	if b.used[lot] && b.text("corrects") == "" {
		b.wrong("lot", "There is a lot of that name already.")
	}
}

func (b *boardRead) packedLot() record.Body {
	k := record.Packed{Run: b.p.Run.Name, Pack: b.must("pack", "Nobody said which pack."), Lot: record.Lot(b.must("lot", "Write the name that stands on the bags.")), Mass: b.mustMass("mass"), BagLot: b.text("bag-lot"),
		BestBefore: b.day("best-before"), Place: record.Place(b.text("place"))}
	b.mustBeNew(k.Lot)
	b.keeps(k)
	numbers, err := record.ParseNumbers(strings.ReplaceAll(b.must("numbers", "Write the numbers of the packs, such as 1-40."), "–", "-"))
	if err != nil {
		b.wrong("numbers", sentence(err))
	}
	k.Numbers, k.Label = numbers, b.label(k.Pack)
	b.keepSome(k)
	if k.Label == 0 {
		k.Label = b.mass("label")
	}
	for _, i := range []string{"1", "2", "3"} {
		lot := b.text("from-" + i)
		if typed := b.text("from-typed-" + i); typed != "" {
			lot = typed
		}
		if lot == "" {
			continue
		}
		part := record.Part{Lot: record.Lot(lot), Mass: b.mass("from-mass-" + i)}
		if part.Mass == 0 {
			b.wrong("from-mass-"+i, "Write how much of it went into the packs.")
		}
		b.doubt(part.Lot, "", part.Mass)
		k.From = append(k.From, part)
	}
	if len(k.From) == 0 {
		b.wrong("from-typed-1", "Say which lot is in the packs.")
	}
	if labels := k.Label * unit.Mass(numbers.Count()); labels > 0 && k.Mass > 0 && (k.Mass < labels || k.Mass > labels+labels/5) {
		b.ask("%s are in %d packs, and by the labels it is %s. Is it right?", k.Mass.Show(b.rd.units), numbers.Count(), labels.Show(b.rd.units))
	}
	return k
}

func (b *boardRead) wasted() record.Body {
	return record.Wasted{Run: b.p.Run.Name, Dish: b.must("dish", "Nobody said which dish."), Output: b.text("output"), Mass: b.mustMass("mass"), Why: b.must("why", "Say what happened to it.")}
}
