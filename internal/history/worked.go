package history

import (
	"encoding/binary"
	"fmt"
	"math/rand/v2"

	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Worked is one production as it truly went. Telling it is as a kitchen tells: on scales that round, with buttons that tired people forget.
type Worked struct {
	Opened   record.Opened
	Start    record.Instant // the first thing of the day
	Stints   []Stint        // in the order in which they were begun
	Pots     []Pot
	Fillings []Filling
}

// Stint is one task of the timetable as it was done.
type Stint struct {
	Task, Who   string
	From, Until float64 // minutes after Start
}

// Pot is what truly came out of a step. It is weighed at once, load by load.
type Pot struct {
	Dish, Output string
	Mass         unit.Mass
	Loads        int
	At           float64 // minutes after Start
}

// Filling is packs that were filled and weighed one by one.
type Filling struct {
	Pack   string
	Label  unit.Mass
	Count  int
	SD, At float64 // g; minutes after Start
}

// Slip is what was told of a stint otherwise than it went.
type Slip string

// Slips of those who press the buttons.
const (
	NoBeginning Slip = "no beginning"
	NoEnd       Slip = "no end"
	TickedOff   Slip = "ticked off" // begun and done within seconds, at its end
)

// Tell is the entries of a production, in the order in which they happen. One stint in so many is told wrongly, none when oneIn is 0; what
// slipped is told by task. The same seed gives the same. Errors are of entries that make no sense.
func (w Worked) Tell(seed uint64, oneIn int) (entries []record.Entry, slips map[string]Slip, err error) {
	t := &teller{random: rand.New(rand.NewPCG(seed, 0x776b)), start: w.Start, slips: map[string]Slip{}}
	t.say(0, "nora", w.Opened)
	last := 0.0
	for _, s := range w.Stints {
		t.stint(w.Opened.Run, s, oneIn)
		last = max(last, s.Until)
	}
	for _, p := range w.Pots {
		t.pot(w.Opened.Run, p)
		last = max(last, p.At)
	}
	for _, f := range w.Fillings {
		t.filling(w.Opened.Run, f)
		last = max(last, f.At)
	}
	t.say(last+30, "nora", record.Closed{Run: w.Opened.Run})
	return t.entries, t.slips, t.err
}

type teller struct {
	random  *rand.Rand
	start   record.Instant
	entries []record.Entry
	slips   map[string]Slip
	err     error
}

func (t *teller) say(at float64, who string, b record.Body) {
	var id record.ID
	binary.BigEndian.PutUint64(id[:], t.random.Uint64())
	binary.BigEndian.PutUint64(id[8:], t.random.Uint64())
	e, err := record.Say(id, t.start+record.Instant(at*float64(minute)), who, deviceNames[tablet], b)
	if err != nil && t.err == nil {
		t.err = err
	}
	t.entries = append(t.entries, e)
}

func (t *teller) stint(run string, s Stint, oneIn int) {
	slip := Slip("")
	if oneIn > 0 && t.random.IntN(oneIn) == 0 {
		slip = []Slip{NoBeginning, NoEnd, TickedOff}[t.random.IntN(3)]
		t.slips[s.Task] = slip
	}
	begun := s.From
	if slip == TickedOff {
		begun = s.Until - 0.1
	}
	if slip != NoBeginning {
		t.say(begun, s.Who, record.Started{Run: run, Task: s.Task})
	}
	if slip != NoEnd {
		t.say(s.Until, s.Who, record.Finished{Run: run, Task: s.Task})
	}
}

// tubScale is what the scale under a pot shows.
const tubScale = 5 * unit.Gram

func (t *teller) pot(run string, p Pot) {
	left := p.Mass
	for load := range p.Loads {
		each := (left/unit.Mass(p.Loads-load) + tubScale/2) / tubScale * tubScale
		left -= each
		t.say(p.At+float64(load)/100, "sam", record.Weighed{Run: run, Dish: p.Dish, Output: p.Output, Net: max(tubScale, each)})
	}
}

func (t *teller) filling(run string, f Filling) {
	x := record.CheckWeighed{Run: run, Pack: f.Pack, Tares: []unit.Mass{11 * unit.Gram, 11 * unit.Gram}}
	for range f.Count {
		grams := f.Label.Kg()*1000 + 11 + 4 + f.SD*t.random.NormFloat64()
		x.Gross = append(x.Gross, unit.Mass(grams*10+0.5)*unit.Gram/10)
	}
	t.say(f.At, "ines", x)
}

// RunOn is the name of a production on a day.
func RunOn(request string, day record.Day) string { return fmt.Sprintf("%s-%s", request, day) }
