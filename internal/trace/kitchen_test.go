package trace_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/trace"
	"kettlefrost/internal/unit"
)

const kg, g = unit.Kilogram, unit.Gram

// The lots of an invented week.
const (
	onions = iota
	beef
	pot      // 4 kg of onions, 16 kg of beef and 5 kg of water that nobody wrote down
	stew     // forty packs of 500 g
	leftOver // 5 kg of the pot
	lentils
	soupPot // the left-over and 10 kg of lentils, cooked down from 15 to 12 kg
	soup    // twenty-four packs of 500 g
)

func week(t *testing.T) *trace.Graph {
	t.Helper()
	g, err := trace.New([]trace.Lot{
		onions: {Came: 10 * kg, AtMs: 1}, beef: {Came: 20 * kg, AtMs: 2}, pot: {Came: 25 * kg, AtMs: 3}, stew: {Came: 20 * kg, AtMs: 3, Packs: 40},
		leftOver: {Came: 5 * kg, AtMs: 3}, lentils: {Came: 25 * kg, AtMs: 4}, soupPot: {Came: 12 * kg, AtMs: 5}, soup: {Came: 12 * kg, AtMs: 5, Packs: 24},
	}, []trace.Flow{
		{onions, pot, 4 * kg, 3}, {beef, pot, 16 * kg, 3}, {pot, stew, 20 * kg, 3}, {pot, leftOver, 5 * kg, 3},
		{leftOver, soupPot, 5 * kg, 5}, {lentils, soupPot, 10 * kg, 5}, {soupPot, soup, 12 * kg, 5},
	})
	if err != nil {
		t.Fatal(err)
	}
	return g
}

type found struct {
	lot, layer           int
	expected, least, max unit.Mass
	rest, lost           unit.Mass
}

func sameLots(t *testing.T, r trace.Reach, want []found) {
	t.Helper()
	if len(r.Lots) != len(want) {
		t.Fatalf("%d lots are reached, want %d: %+v", len(r.Lots), len(want), r.Lots)
	}
	for _, w := range want {
		i := slices.IndexFunc(r.Lots, func(l trace.Reached) bool { return l.Lot == w.lot })
		if i < 0 {
			t.Errorf("lot %d is not reached", w.lot)
			continue
		}
		l := r.Lots[i]
		if got := (found{l.Lot, l.Layer, l.Expected, l.Least, l.Most, l.Rest, l.Lost}); got != w {
			t.Errorf("got %+v, want %+v", got, w)
		}
	}
}

// Where the beef went. The pot is 16/25 beef: the stew has 12.8 kg and the left-over 3.2 kg if it was mixed. At most 5 of the 25 kg
// can have stayed away from the stew, so it has at least 11 kg; the left-over can be beef alone or none. Of 15 kg of soup 3 kg boiled
// away, a fifth of the beef with it.
func TestForwardThroughALeftOver(t *testing.T) {
	r, err := week(t).Forward(beef)
	if err != nil {
		t.Fatal(err)
	}
	sameLots(t, r, []found{
		{beef, 0, 20 * kg, 20 * kg, 20 * kg, 4 * kg, 0},
		{pot, 1, 16 * kg, 16 * kg, 16 * kg, 0, 0},
		{stew, 2, 12800 * g, 11 * kg, 16 * kg, 12800 * g, 0},
		{leftOver, 2, 3200 * g, 0, 5 * kg, 0, 0},
		{soupPot, 3, 2560 * g, 0, 5 * kg, 0, 640 * g},
		{soup, 4, 2560 * g, 0, 5 * kg, 2560 * g, 0},
	})
	if r.Whole != 20*kg || r.Absorbed != 0 || len(r.Flows) != 5 {
		t.Errorf("whole %d, absorbed %d, %d flows", r.Whole, r.Absorbed, len(r.Flows))
	}
}

// What the soup was made of: 12 kg of the pot's 15, so 4 kg of the left-over and 8 kg of lentils. At most 3 kg of either boiled away.
// The left-over is a fifth of the first pot: 0.64 kg of onions, 2.56 kg of beef, and 0.8 kg that nobody wrote down.
func TestBackwardToWhatWasBought(t *testing.T) {
	r, err := week(t).Backward(soup)
	if err != nil {
		t.Fatal(err)
	}
	sameLots(t, r, []found{
		{soup, 0, 12 * kg, 12 * kg, 12 * kg, 0, 0},
		{soupPot, 1, 12 * kg, 12 * kg, 12 * kg, 0, 0},
		{lentils, 2, 8 * kg, 7 * kg, 10 * kg, 8 * kg, 0},
		{leftOver, 2, 4 * kg, 2 * kg, 5 * kg, 0, 0},
		{pot, 3, 4 * kg, 2 * kg, 5 * kg, 800 * g, 0},
		{onions, 4, 640 * g, 0, 4 * kg, 640 * g, 0},
		{beef, 4, 2560 * g, 0, 5 * kg, 2560 * g, 0},
	})
}

// All that came on days 1 and 2 and the pot itself: what of the onions and the beef is in the pot counts once.
func TestALotAskedForInsideAnother(t *testing.T) {
	g := week(t)
	r, err := g.Forward(append(g.Window(1, 3), pot)...)
	if err != nil {
		t.Fatal(err)
	}
	if r.Whole != 55*kg || r.Absorbed != 20*kg {
		t.Errorf("whole %d, absorbed %d", r.Whole, r.Absorbed)
	}
	for _, l := range r.Lots {
		if l.Asked != (l.Lot <= pot) || l.Lot == stew && l.Expected != 20*kg {
			t.Errorf("%+v", l)
		}
	}
}

// 12 kg were taken of 10: no less than 12 kg can have been there, and the balance says that 2 kg are too much.
func TestMoreTakenThanCame(t *testing.T) {
	g := grow(t, []trace.Lot{{Came: 10 * kg}, {Came: 6 * kg}, {Came: 6 * kg}}, []trace.Flow{{0, 1, 6 * kg, 0}, {0, 2, 6 * kg, 0}})
	r, err := g.Forward(0)
	if err != nil {
		t.Fatal(err)
	}
	sameLots(t, r, []found{{0, 0, 12 * kg, 12 * kg, 12 * kg, 0, 0}, {1, 1, 6 * kg, 6 * kg, 6 * kg, 6 * kg, 0}, {2, 1, 6 * kg, 6 * kg, 6 * kg, 6 * kg, 0}})
	b, err := g.Balance(trace.Holding{Lot: 0})
	if err != nil || b.Unaccounted != -2*kg || b.UnaccountedShare != -0.2 {
		t.Errorf("%+v, %v", b, err)
	}
}

// A pot counts as all that went in until it is weighed; then what boiled away is lost.
func TestAPotBeforeItIsWeighed(t *testing.T) {
	g := grow(t, []trace.Lot{{Came: 10 * kg}, {Came: 10 * kg}, {Unweighed: true}}, []trace.Flow{{0, 2, 10 * kg, 0}, {1, 2, 10 * kg, 0}})
	for _, c := range []struct{ expected, least, lost unit.Mass }{{10 * kg, 10 * kg, 0}, {8 * kg, 6 * kg, 2 * kg}} {
		r, err := g.Forward(0)
		if err != nil {
			t.Fatal(err)
		}
		sameLots(t, r, []found{{0, 0, 10 * kg, 10 * kg, 10 * kg, 0, 0}, {2, 1, c.expected, c.least, 10 * kg, c.expected, c.lost}})
		if err := g.Weigh(2, 16*kg); err != nil {
			t.Fatal(err)
		}
	}
	if y := g.Yield(2); y != (trace.Yield{In: 20 * kg, Came: 16 * kg, Lost: 4 * kg}) {
		t.Errorf("%+v", y)
	}
}

// A pan that was not washed carries nothing that counts, and is followed.
func TestATouchIsFollowed(t *testing.T) {
	g := grow(t, []trace.Lot{{Came: kg}, {Came: kg}}, []trace.Flow{{0, 1, 0, 0}})
	r, err := g.Forward(0)
	if err != nil {
		t.Fatal(err)
	}
	sameLots(t, r, []found{{0, 0, kg, kg, kg, kg, 0}, {1, 1, 0, 0, 0, 0, 0}})
}

func TestOneStepAndThePath(t *testing.T) {
	g := week(t)
	if in, out := g.Inputs(pot), g.Outputs(pot); !slices.Equal(in, []int{0, 1}) || !slices.Equal(out, []int{2, 3}) {
		t.Errorf("in %v, out %v", in, out)
	}
	if p, err := g.Path(onions, soup); err != nil || !slices.Equal(p, []int{0, 3, 4, 6}) {
		t.Errorf("%v, %v", p, err)
	}
	for _, none := range [][2]int{{lentils, stew}, {soup, onions}, {pot, pot}} {
		if p, err := g.Path(none[0], none[1]); p != nil || err != nil {
			t.Errorf("%v: %v, %v", none, p, err)
		}
	}
	if g.Made(beef) || !g.Made(leftOver) || g.Into(pot) != 20*kg || g.OutOf(pot) != 25*kg {
		t.Error("what was made and what was received")
	}
}

// 21 CFR 1.1350(a) (from memory): the record of a transformation names, for each lot used, its code and the quantity used of it; and for
// what came of it the new code, the quantity and the date it was completed. Codes and products are the caller's; the rest is here.
func TestRecordOfATransformation(t *testing.T) {
	g := week(t)
	var used []trace.Flow
	for _, f := range g.Inputs(soupPot) {
		used = append(used, g.Flow(f))
	}
	if !slices.Equal(used, []trace.Flow{{leftOver, soupPot, 5 * kg, 5}, {lentils, soupPot, 10 * kg, 5}}) {
		t.Errorf("used: %v", used)
	}
	if l := g.Lot(soupPot); l.Came != 12*kg || l.AtMs != 5 {
		t.Errorf("made: %+v", l)
	}
}

func TestLoopsAreRefusedAndNamed(t *testing.T) {
	g := week(t)
	for _, c := range []struct {
		flow trace.Flow
		loop []int
	}{
		{trace.Flow{From: soup, To: pot, Mass: kg}, []int{pot, leftOver, soupPot, soup}},
		{trace.Flow{From: pot, To: pot, Mass: kg}, []int{pot}},
	} {
		var loop *trace.LoopError
		_, err := g.AddFlow(c.flow)
		if !errors.As(err, &loop) || !slices.Equal(loop.Lots, c.loop) || loop.Flow != c.flow {
			t.Errorf("%v", err)
		}
	}
	if g.Flows() != 7 || g.OutOf(soup) != 0 {
		t.Error("a refused flow left something behind")
	}
	_, err := trace.New(make([]trace.Lot, 4), []trace.Flow{{0, 1, 1, 0}, {1, 2, 1, 0}, {2, 3, 1, 0}, {3, 1, 1, 0}})
	if err == nil || !strings.Contains(err.Error(), "goes into itself") {
		t.Errorf("%v", err)
	}
}

func TestWhatMakesNoSense(t *testing.T) {
	g := week(t)
	first := func(_ any, err error) error { return err }
	for _, c := range []struct {
		name string
		err  error
		says string
	}{
		{"less than nothing came", first(g.AddLot(trace.Lot{Came: -1})), "lot 8"},
		{"both weighed and not", first(g.AddLot(trace.Lot{Came: 1, Unweighed: true})), "one or the other"},
		{"from nowhere", first(g.AddFlow(trace.Flow{From: 8, To: 1})), "lot 8: there are 8 lots"},
		{"backwards", first(g.AddFlow(trace.Flow{From: 0, To: 1, Mass: -1})), "flow from 0 to 1"},
		{"too much", first(g.AddFlow(trace.Flow{From: 0, To: pot, Mass: 1<<63 - 1})), "more than can be counted"},
		{"no such lot", first(g.Forward(-1)), "lot -1"},
		{"no such lot back", first(g.Backward(99)), "lot 99"},
		{"no path", first(g.Path(0, 8)), "lot 8"},
		{"no balance", first(g.Balance(trace.Holding{Lot: 8})), "lot 8"},
		{"found less than nothing", first(g.Balance(trace.Holding{Waste: -1})), "less than nothing"},
		{"found too much", first(g.Balance(trace.Holding{OnHand: 1<<63 - 1, Waste: 1<<63 - 1})), "check the weights"},
		{"weighed less than nothing", g.Weigh(0, -1), "lot 0"},
		{"weighed nowhere", g.Weigh(8, 1), "lot 8"},
	} {
		var input *trace.InputError
		if !errors.As(c.err, &input) || !strings.Contains(c.err.Error(), c.says) || input.Fix == "" {
			t.Errorf("%s: %v", c.name, c.err)
		}
	}
}

// grow builds a graph entry by entry.
func grow(t interface{ Fatal(...any) }, lots []trace.Lot, flows []trace.Flow) *trace.Graph {
	var g trace.Graph
	for _, l := range lots {
		if _, err := g.AddLot(l); err != nil {
			t.Fatal(err)
		}
	}
	for _, f := range flows {
		if _, err := g.AddFlow(f); err != nil {
			t.Fatal(err)
		}
	}
	return &g
}
