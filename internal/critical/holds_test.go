package critical_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/critical"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// judgement is how all of it stands.
func (k *kitchen) judgement() critical.Judgement {
	j := critical.Judgement{Runs: map[string][]critical.Verdict{}, Goods: map[record.Lot]critical.Verdict{}, Plans: k.plans}
	for _, name := range k.state.Runs() {
		p, _ := k.state.Run(name)
		j.Runs[name] = p.Judge(k.work, k.setting())
	}
	for d := range k.state.Goods() {
		if v, needed := d.Door(k.setting()); needed {
			j.Goods[d.Lot] = v
		}
	}
	return j
}

// lots are the lots, with what is held put into them.
func (k *kitchen) lots() *lots.State {
	s := &lots.State{}
	for _, e := range k.all {
		s.Take(e)
	}
	s.Keep(critical.Holds(s, k.judgement()))
	return s
}

// goodDay enters a run of which everything is written down: goods at the door, cooking, cooling, a lot in bulk, packs and their label.
func goodDay(t testing.TB) *kitchen {
	k := open(t, haccp.Poultry)
	cold := unit.TempF(38)
	k.say(hours(-4), record.Received{Lot: "R1", Ingredient: "meat", Supplier: "farm", Mass: 20 * unit.Kilogram, Door: &cold})
	k.say(hours(-2), record.Opened{Run: "tuesday", Request: "soup", Day: "2026-12-01", Plan: record.Hash{1}})
	k.say(hours(-1), record.Used{Run: "tuesday", Dish: "soup", Lot: "R1", Mass: 10 * unit.Kilogram})
	k.typed(simmer, point{-0.2, 196})
	k.typed(chill, point{0, 140}, point{1.5, 68}, point{5, 40})
	k.say(hours(5.1), record.Made{Run: "tuesday", Dish: "soup", Output: "soup", Lot: "B1", Mass: 10 * unit.Kilogram})
	k.say(hours(5.5), record.Packed{Run: "tuesday", Pack: "soup-lb", Lot: "L1", Numbers: numbers(t, "1-10"), Label: unit.Pound, Mass: 10 * unit.Pound, From: []record.Part{{Lot: "B1", Mass: 5 * unit.Kilogram}}, BestBefore: "2027-03-01"})
	k.say(hours(5.6), record.Signed{About: "tuesday/L1/label", As: record.AsVerifier})
	return k
}

// find is an entry of a kind whose body a question fits.
func (k *kitchen) find(is func(record.Body) bool) record.Entry {
	for _, e := range k.all {
		if b, err := record.Decode(e.Kind, e.Body); err == nil && is(b) {
			return e
		}
	}
	k.t.Fatal("no such entry")
	return record.Entry{}
}

func (k *kitchen) held() (held []record.Lot) {
	for l := range k.lots().All() {
		if l.Held() {
			held = append(held, l.ID)
		}
	}
	return held
}

// Where every record passes nothing is held; without one, everything that it is about and that was made of it is.
func TestWhatIsHeld(t *testing.T) {
	if held := goodDay(t).held(); len(held) > 0 {
		t.Fatalf("everything is written down, and %v are held", held)
	}
	for _, c := range []struct {
		without string
		is      func(record.Body) bool
		want    []record.Lot
	}{
		{"cooling", func(b record.Body) bool {
			m, ok := b.(record.Measured)
			return ok && m.Task == chill && m.Temp.F() < 41
		}, []record.Lot{"B1", "L1"}},
		{"cooking", func(b record.Body) bool { m, ok := b.(record.Measured); return ok && m.Task == simmer }, []record.Lot{"B1", "L1"}},
		{"label", func(b record.Body) bool { _, ok := b.(record.Signed); return ok }, []record.Lot{"L1"}},
	} {
		k := goodDay(t)
		e := k.find(c.is)
		k.state.Drop(e.ID)
		k.all = slices.DeleteFunc(k.all, func(x record.Entry) bool { return x.ID == e.ID })
		if got := k.held(); !slices.Equal(got, c.want) {
			t.Errorf("without %s %v are held, want %v", c.without, got, c.want)
		}
		k.state.Put(e)
		k.all = append(k.all, e)
		slices.SortFunc(k.all, record.Compare)
		if got := k.held(); len(got) > 0 {
			t.Errorf("%s came late, and %v are held", c.without, got)
		}
	}
	k := goodDay(t)
	warm := unit.TempF(55)
	k.say(hours(-4), record.Received{Lot: "R2", Ingredient: "cream", Supplier: "dairy", Mass: unit.Kilogram, Door: &warm})
	if got := k.held(); !slices.Equal(got, []record.Lot{"R2"}) {
		t.Errorf("goods that came warm: %v", got)
	}
	k.say(hours(-1), record.Used{Run: "tuesday", Dish: "soup", Lot: "R2", Mass: unit.Kilogram})
	slices.SortFunc(k.all, record.Compare)
	if got := k.held(); !slices.Equal(got, []record.Lot{"B1", "L1", "R2"}) {
		t.Errorf("and went into the soup: %v", got)
	}
}

// without the end of its cooling
func lateDay(t testing.TB) *kitchen {
	k := goodDay(t)
	e := k.find(func(b record.Body) bool {
		m, ok := b.(record.Measured)
		return ok && m.Task == chill && m.Temp.F() < 41
	})
	k.state.Drop(e.ID)
	k.all = slices.DeleteFunc(k.all, func(x record.Entry) bool { return x.ID == e.ID })
	return k
}

const cooling = "tuesday/soup/soup-chill/1/cooling"

// A release frees what it names as it stood then: it is held again when it turns out worse. To be reworked or destroyed frees nothing.
func TestDecisions(t *testing.T) {
	k := lateDay(t)
	hold := k.lots().Lot("L1").Holds[0]
	if !slices.Equal(hold.Points, []string{cooling + "=incomplete"}) || !strings.Contains(hold.Why, "incomplete") {
		t.Fatalf("%+v", hold)
	}
	k.say(hours(7), record.Released{Lot: "L1", Disposition: record.Destroy, Why: "nobody knows", Points: hold.Points})
	if l := k.lots().Lot("L1"); !l.Held() || l.Holds[0].Decided != record.Destroy {
		t.Fatalf("%+v", l.Holds)
	}
	k.say(hours(8), record.Released{Lot: "L1", Disposition: record.ReleaseForUse, Why: "the logger was found", Points: hold.Points})
	if got := k.held(); !slices.Equal(got, []record.Lot{"B1"}) {
		t.Fatalf("released, and %v are held", got)
	}
	k.typed(chill, point{7, 50})
	if got := k.held(); !slices.Equal(got, []record.Lot{"B1", "L1"}) {
		t.Fatalf("it fails now, and only %v are held", got)
	}
	k.say(hours(9), record.Released{Lot: "L1", Disposition: record.ReleaseForUse, Why: "a reason", Points: []string{cooling}})
	if !k.lots().Lot("L1").Held() {
		t.Error("a point without how it stood covers a failure")
	}
	k.say(hours(10), record.Released{Lot: "L1", Disposition: record.ReleaseForUse, Why: "a reason", Points: []string{cooling + "=fail"}})
	if k.lots().Lot("L1").Held() {
		t.Error("a failure was released, and is held")
	}
}

// What is decided on a lot in bulk holds for the packs that are filled from it, and a release by hand ends no hold of records, nor the other way.
func TestDecisionsGoOn(t *testing.T) {
	k := lateDay(t)
	k.say(hours(6), record.Released{Lot: "B1", Disposition: record.ReleaseForUse, Why: "a reason", Points: []string{cooling + "=incomplete"}})
	if got := k.held(); len(got) > 0 {
		t.Errorf("the soup was released, and %v are held", got)
	}
	k = lateDay(t)
	k.say(hours(6), record.Released{Lot: "L1", Disposition: record.ReleaseForUse, Why: "a slip"})
	if !k.lots().Lot("L1").Held() {
		t.Error("a release that names no point ended the hold of one")
	}
	k.say(hours(6), record.Held{Lot: "L1", Why: "by hand"})
	k.say(hours(7), record.Released{Lot: "L1", Disposition: record.ReleaseForUse, Why: "a reason", Points: []string{cooling + "=incomplete"}})
	if l := k.lots().Lot("L1"); len(l.Holds) != 1 || l.Holds[0].Why != "by hand" {
		t.Errorf("%+v", l.Holds)
	}
	k = lateDay(t)
	k.say(hours(6), record.Released{Lot: "L1", Disposition: record.ReleaseForUse, Numbers: numbers(t, "1-4"), Why: "those were measured", Points: []string{cooling + "=incomplete"}})
	l := k.lots().Lot("L1")
	if got := l.HeldOf(l.Numbers).String(); got != "5-10" {
		t.Errorf("held %s after packs 1-4 were released", got)
	}
}

// Whatever is entered in whatever order, a lot of packs that is not held has no record of its own, or of a lot that it was made of, that is not
// passed and was not released by a decision on it or on what it is made of; and the holds are the same however the entries came.
func TestNothingUnrecordedIsFree(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		k := goodDay(t)
		points := []string{cooling, "tuesday/soup/simmer/1/cooking.simmer", "tuesday/L1/label", "received/R1/door"}
		for range rapid.IntRange(0, 4).Draw(r, "losses") {
			i := rapid.IntRange(0, len(k.all)-1).Draw(r, "entry")
			switch k.all[i].Kind {
			case record.Measured{}.Kind(), record.Signed{}.Kind():
				k.state.Drop(k.all[i].ID)
				k.all = slices.Delete(k.all, i, i+1)
			}
		}
		for range rapid.IntRange(0, 4).Draw(r, "decisions") {
			k.say(hours(rapid.Float64Range(6, 9).Draw(r, "at")), record.Released{Lot: rapid.SampledFrom([]record.Lot{"R1", "B1", "L1"}).Draw(r, "lot"), Why: "a reason",
				Disposition: rapid.SampledFrom([]record.Disposition{record.ReleaseForUse, record.ReleaseForUse, record.Rework, record.Destroy}).Draw(r, "disposition"),
				Points:      []string{rapid.SampledFrom(points).Draw(r, "point") + rapid.SampledFrom([]string{"", "=missing", "=incomplete", "=fail"}).Draw(r, "stood")}})
		}
		if rapid.Bool().Draw(r, "later") {
			k.typed(chill, point{rapid.Float64Range(0, 7).Draw(r, "h"), rapid.Float64Range(30, 150).Draw(r, "f")})
		}
		slices.SortFunc(k.all, record.Compare)
		s, j := k.lots(), k.judgement()
		for _, id := range []record.Lot{"B1", "L1"} {
			l := s.Lot(id)
			if l.Held() {
				continue
			}
			for _, v := range j.Runs["tuesday"] {
				mine := v.Lot == "" || v.Lot == id
				if mine && v.Troubles() && !releasedSomewhere(s, v, id) {
					r.Fatalf("%s is free, and %s is %s: %s", id, v.Point, v.Outcome, v.Says)
				}
			}
		}
		free := allotted(r, s)
		for _, v := range j.Runs["tuesday"] {
			if mine := v.Lot == "" || v.Lot == "L1"; mine && v.Troubles() && free > 0 && !releasedSomewhere(s, v, "L1") {
				r.Fatalf("%d packs go to an order, and %s is %s", free, v.Point, v.Outcome)
			}
		}
		if free == 0 && !s.Lot("L1").Held() {
			r.Fatal("nothing is held, and no order gets a pack")
		}
		var again critical.State
		for _, i := range rapid.Permutation(indexes(len(k.all))).Draw(r, "order") {
			again.Put(k.all[i])
		}
		other := *k
		other.state = again
		if got, want := fmt.Sprint(critical.Holds(s, other.judgement())), fmt.Sprint(critical.Holds(s, j)); got != want {
			r.Fatalf("held %s, and in another order %s", want, got)
		}
	})
}

func indexes(n int) (all []int) {
	for i := range n {
		all = append(all, i)
	}
	return all
}

// releasedSomewhere looks for a decision that frees a point of a lot, or of what the lot was made of: written apart from the fold.
func releasedSomewhere(s *lots.State, v critical.Verdict, id record.Lot) bool {
	from := []record.Lot{id}
	if id == "L1" {
		from = append(from, "B1")
	}
	for _, lot := range from {
		last := record.Disposition("")
		for _, d := range s.Lot(lot).Decisions {
			for _, named := range d.Points {
				point, stood, says := strings.Cut(named, "=")
				bad := map[string]int{"missing": 1, "incomplete": 1, "fail": 2}
				if point == v.Point && (says && bad[stood] >= bad[string(v.Outcome)] || !says && v.Outcome != critical.Fail) {
					last = d.Disposition
				}
			}
		}
		if last == record.ReleaseForUse {
			return true
		}
	}
	return false
}

// allotted is how many packs of L1 an order gets.
func allotted(r *rapid.T, s *lots.State) (n int64) {
	var o orders.State
	for i, b := range []record.Body{record.Customer{Customer: "cafe", Name: "Cafe"}, record.Ordered{Order: "1", Customer: "cafe", Lines: []record.OrderLine{{Pack: "soup-lb", Count: 3}}, Due: "2026-12-03", Way: record.Collect}} {
		e, err := record.Say(record.ID{9, byte(i)}, hours(10), "Nora", "tablet", b)
		if err != nil {
			r.Fatal(err)
		}
		e.Seq = uint64(1000 + i)
		o.Take(e)
	}
	a, err := o.Allot(s, "2026-12-02", "2026-12-20")
	if err != nil {
		r.Fatal(err)
	}
	if v, ok := a.Of("1"); ok {
		for _, p := range v.ToPick() {
			n += p.Numbers.Count()
			if held := s.Lot(p.Lot).HeldOf(p.Numbers); !held.Empty() {
				r.Fatalf("packs %s of %s go to an order, and are held", held, p.Lot)
			}
		}
	}
	return n
}
