package history

import (
	"fmt"
	"slices"

	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// batch is one dish of a production on its way.
type batch struct {
	dish
	run    string
	counts []int64     // of its packs
	masses []unit.Mass // net, of all packs of a kind
	over   unit.Mass   // that will not fill a pack
	in     unit.Mass   // all that goes in
	old    part        // left-over that goes in too
	from   []part      // goods
	of     mixture
}

// mixture adds up what is put together.
type mixture struct {
	all unit.Mass
	of  Content
}

func (x *mixture) add(mass unit.Mass, of Content) {
	if x.of == nil {
		x.of = Content{}
	}
	x.all += mass
	for lot, share := range of {
		x.of[lot] += share * mass.Kg()
	}
}

// content is the mixture's own.
func (x *mixture) content() Content {
	of := make(Content, len(x.of))
	for lot, kilograms := range x.of {
		of[lot] = kilograms / x.all.Kg()
	}
	return of
}

// run is a production of three dishes.
func (m *maker) run() {
	name := fmt.Sprintf("run-%s", date(m.day))
	m.Runs = append(m.Runs, name)
	var batches []*batch
	for range 3 {
		batches = append(batches, m.plan(name, menu[m.turn%len(menu)]))
		m.turn++
	}
	m.at(6, 0)
	m.put(tablet, record.Opened{Run: name, Request: "week", Day: date(m.day), Plan: hashOf(name)}, record.ID{}, 0)
	for _, b := range batches {
		m.cook(b)
	}
	if m.one(10) {
		m.put(tablet, record.Changed{Run: name, Late: []record.LateTask{{Task: batches[1].task(0, 1), Minutes: 15}}}, record.ID{}, 0)
	}
	m.at(13, 0)
	var packed []*Packs
	for _, b := range batches {
		packed = append(packed, m.fill(b)...)
	}
	m.put(tablet, record.Closed{Run: name}, record.ID{}, 0)
	for _, p := range packed {
		m.shelve(p)
	}
}

// plan decides how much is made, and takes goods in where there are not enough.
func (m *maker) plan(run string, d dish) *batch {
	b := &batch{dish: d, run: run}
	all := 0
	for _, p := range d.packs {
		all += p.parts
	}
	total := m.size.Packs*9/10 + m.random.IntN(m.size.Packs/5+1)
	out := unit.Mass(0)
	for _, p := range d.packs {
		n := int64(max(4, total*p.parts/all))
		each := p.label + unit.Mass(m.random.IntN(9))*unit.Gram
		b.counts = append(b.counts, n)
		b.masses = append(b.masses, (each*unit.Mass(n)+unit.Mass(m.random.IntN(90))*unit.Gram)/unit.Gram*unit.Gram)
		out += b.masses[len(b.masses)-1]
	}
	b.over = unit.Mass(m.random.IntN(30)) * 100 * unit.Gram
	out += b.over
	b.in = out * 100 / unit.Mass(86+m.random.IntN(9)) / unit.Gram * unit.Gram
	if old := m.rest[d.name]; old != nil && old.Here > 0 && m.one(2) {
		part := old.Here
		if m.one(2) {
			part = max(unit.Gram, old.Here/2/unit.Gram*unit.Gram)
		}
		b.old = old.take(part)
	}
	left := b.in - b.old.mass
	for _, n := range d.needs {
		b.from = append(b.from, m.get(n.ingredient, max(unit.Gram, left*unit.Mass(n.parts)/1000/unit.Gram*unit.Gram))...)
	}
	return b
}

func (b *batch) task(step, load int) string {
	return fmt.Sprintf("%s/%s/%d", b.name, b.steps[step], load)
}

// cook uses the goods, and weighs what comes of them.
func (m *maker) cook(b *batch) {
	loads := 1
	if b.getsAll {
		loads = 2
	}
	if b.sauce > 0 {
		m.use(b, m.makeSauce(b))
	}
	for _, p := range b.from {
		m.use(b, p)
	}
	if b.old.of != nil {
		m.use(b, b.old)
	}
	m.reopen(b)
	for step := range b.steps {
		for load := range loads {
			task := b.task(step, load+1)
			if step == 1 && m.one(60) {
				m.put(tablet, record.Skipped{Run: b.run, Task: task, Why: "all went into the first load"}, record.ID{}, 0)
				continue
			}
			m.put(tablet, record.Started{Run: b.run, Task: task}, record.ID{}, 0)
			m.now += minute * record.Instant(1+m.random.IntN(4))
			m.put(tablet, record.Finished{Run: b.run, Task: task}, record.ID{}, 0)
			m.put(tablet, record.Measured{Run: b.run, Dish: b.name, Task: task, Temp: unit.TempC(74 + float64(m.random.IntN(200))/10), Instrument: "probe-1"}, record.ID{}, 0)
		}
	}
}

// use puts mass of a lot into the pot.
func (m *maker) use(b *batch, p part) {
	b.of.add(p.mass, p.of.Of)
	m.say(tablet, record.Used{Run: b.run, Dish: b.name, Step: b.steps[0], Lot: p.of.Lot, Mass: p.mass})
}

// makeSauce makes the first goods into a lot of its own, all of which goes into the pot.
func (m *maker) makeSauce(b *batch) part {
	s := &Bulk{Lot: record.Lot("S-" + b.name + "-" + b.run), What: b.name + " sauce", Place: "kitchen"}
	into := slices.IndexFunc(b.from, func(p part) bool { return p.of.What == b.needs[b.sauce].ingredient })
	var x mixture
	var from []record.Part
	for _, p := range b.from[:into] {
		x.add(p.mass, p.of.Of)
		from = append(from, record.Part{Lot: p.of.Lot, Mass: p.mass})
	}
	b.from = b.from[into:]
	s.Came, s.Of = x.all*95/100/unit.Gram*unit.Gram, x.content()
	s.Here = s.Came
	m.Bulk = append(m.Bulk, s)
	m.put(tablet, record.Made{Run: b.run, Dish: b.name, Output: s.What, Lot: s.Lot, Mass: s.Came, From: from, Place: s.Place}, record.ID{}, 0)
	return s.take(s.Came)
}

// reopen sometimes puts packs with a bad label back into the pot.
func (m *maker) reopen(b *batch) {
	if !m.one(12) {
		return
	}
	for _, p := range m.Packs[m.sold:] {
		if p.dish != b.name {
			continue
		}
		if taken := m.free(p, 1+m.random.IntN(4)); len(taken) > 0 {
			mass := (p.label*unit.Mass(len(taken)) + unit.Mass(m.random.IntN(40))*unit.Gram) / unit.Gram * unit.Gram
			p.Used += mass
			p.move(taken, Spot{State: Opened})
			b.of.add(mass, p.Of)
			m.say(tablet, record.Used{Run: b.run, Dish: b.name, Lot: p.Lot, Mass: mass, Numbers: numbers(taken)})
			return
		}
	}
}
