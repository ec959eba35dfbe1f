package app

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"kettlefrost/internal/critical"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/hazardplan"
	"kettlefrost/internal/hazards"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/loggerfile"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
	"kettlefrost/internal/thermometers"
)

// workMemo is what is heated and chilled for requests that were asked about before.
type workMemo map[string][]plan.Handled

// prepare makes what the book says ready to judge by: the control points of each pack, once, and the checks of thermometers as they stand.
func (j *judging) prepare(ctx context.Context) error {
	book := j.book.book
	var bench thermometers.Bench
	err := lookAt(ctx, j.records, j.records.checks, func(s *thermometers.State, _ finding.List) error {
		bench = thermometers.Look(ThermometersOf(book), s.Copy())
		return nil
	})
	if err != nil {
		return err
	}
	if j.book.set.Plans == nil {
		j.book.set = j.setting(book)
	}
	j.book.set.Trust = bench.Trust
	return lookAt(ctx, j.records, j.records.plans, func(s *hazardplan.State, _ finding.List) error {
		j.book.versions = s.Copy()
		return nil
	})
}

// plansAt are the control points of each pack at a time: those of the version of its plan that was in force, or of the draft.
func (j *judging) plansAt(at record.Instant) map[string]critical.Plan {
	plans, copied := j.book.set.Plans, false
	for _, pack := range j.book.versions.Packs() {
		p, known := plans[pack]
		v, _, inForce := j.book.versions.InForce(pack, at)
		if !known || !inForce {
			continue
		}
		key := fmt.Sprintf("%s %d", pack, v.Number)
		points, there := j.book.points[key]
		if !there {
			var err error
			if points, _, err = j.book.versions.Points(j.book.products[pack], at); err != nil {
				continue // the draft has the same trouble, and says so
			}
			j.book.points[key] = points
		}
		if !copied {
			plans, copied = maps.Clone(plans), true
		}
		p.Points = points
		plans[pack] = p
	}
	return plans
}

func (j *judging) setting(book kitchen.Book) critical.Setting {
	set := critical.Setting{Units: book.Kitchen.Units, Plans: map[string]critical.Plan{}}
	classes := map[string][]haccp.Class{}
	for id, pack := range book.Packs {
		p := critical.Plan{Dish: string(pack.Dish)}
		for _, f := range pack.Fill {
			p.Outputs = append(p.Outputs, string(f.Of))
		}
		product, _ := hazards.Of(book, j.house.foods, id)
		drafted, err := haccp.Draft(product)
		if err != nil {
			p.Problem = err.Error()
		}
		p.Points, j.book.products[string(id)] = drafted.Points, product
		for _, g := range product.Ingredients {
			for _, a := range g.Allergens {
				if !slices.Contains(p.Allergens, a) {
					p.Allergens = append(p.Allergens, a)
				}
			}
			if !slices.Contains(classes[p.Dish], g.Class) {
				classes[p.Dish] = append(classes[p.Dish], g.Class)
			}
		}
		slices.Sort(p.Allergens)
		set.Plans[string(id)] = p
	}
	set.Class = func(dish string) []haccp.Class { return classes[dish] }
	set.Keep = func(ingredient string) string {
		return keptAtTheDoor(book.Ingredients[kitchen.IngredientID(ingredient)])
	}
	return set
}

// keptAtTheDoor is how cold an ingredient must come: as it is stored, but for raw plants and dry goods, which are chilled to keep and need no
// temperature for safety (FDA Food Code 1-201.10, food that needs time and temperature control). What nobody has classed needs it.
func keptAtTheDoor(g kitchen.Ingredient) string {
	if g.Storage == string(kitchen.Chilled) && slices.Contains([]kitchen.IngredientClass{"produce", "dry", "beans", "water"}, g.Class) {
		return ""
	}
	return g.Storage
}

// judge is a run as it stands. One of a day before that from which lots are judged has no records; one that nobody opened has, by its first entry.
func (j *judging) judge(ctx context.Context, p critical.Production) (judgedRun, error) {
	day := j.dayOf(p)
	x := judgedRun{day: day, began: p.Began(), open: !p.Closed(), with: map[string]bool{}}
	x.judged = day >= j.book.book.Safety.From && p.Name != openingRun // what was there before the records began was made without them
	if !x.judged {
		return x, nil
	}
	set := j.book.set
	set.Plans, set.Clock = j.plansAt(p.Began()), j.clockOf(day)
	set.Read = map[record.ID][]critical.Reading{}
	now := record.Instant(j.house.now().UnixMilli())
	x.fresh = x.open
	for id, w := range p.Watches() {
		s := judgedSpan{probe: w.Probe, from: w.From, before: w.Until + 1}
		if w.Until == 0 {
			s.before = now + 366*dayMs // what is to come is looked for too
		}
		x.fresh = x.fresh || w.Until == 0 || now-w.Until < 2*dayMs
		var err error
		if s.mark, err = j.records.readingsMark(ctx, s.probe, s.from, s.before); err != nil {
			return x, err
		}
		read, err := j.records.Readings(ctx, s.probe, s.from, s.before)
		if err != nil {
			return x, err
		}
		set.Read[id] = readingsOf(read)
		x.spans = append(x.spans, s)
	}
	for name := range p.Instruments() {
		x.with[name] = true
	}
	x.verdicts = p.Judge(j.workOf(ctx, p), set)
	return x, nil
}

// judgeGoods is a delivery as it stands.
func (j *judging) judgeGoods(d critical.Delivery) judgedGoods {
	var x judgedGoods
	day := time.UnixMilli(int64(d.Told.Happened)).In(j.house.now().Location()).Format(time.DateOnly)
	if day < j.book.book.Safety.From || d.FromSupplier() == openingRun {
		return x
	}
	set := j.book.set
	set.Clock = j.clockOf(day)
	x.verdict, x.needed = d.Door(set)
	return x
}

// dayOf is the day that a run is of; of one that nobody opened, the day of the first that was entered of it.
func (j *judging) dayOf(p critical.Production) string {
	if o, ok := p.Opened(); ok {
		return string(o.Day)
	}
	return time.UnixMilli(int64(p.Began())).In(j.house.now().Location()).Format(time.DateOnly)
}

// clockOf writes times of a run: by the clock on the wall, with the day where it is another.
func (j *judging) clockOf(day string) func(record.Instant) string {
	place := j.house.now().Location()
	return func(i record.Instant) string {
		t := time.UnixMilli(int64(i)).In(place)
		if t.Format(time.DateOnly) == day {
			return t.Format("15:04")
		}
		return t.Format("15:04 on Jan 2")
	}
}

// doubted are the flags of readings on which no verdict may turn: they may be of another unit, or of another time.
var doubted = []loggerfile.Flag{loggerfile.Jump, loggerfile.TimeBack, loggerfile.TwoHours, loggerfile.NoSuchHour}

// readingsOf are readings as they are judged. What has no temperature is left out: it is kept where it was received.
func readingsOf(read []store.Reading) []critical.Reading {
	var all []critical.Reading
	for _, r := range read {
		if !r.Valued {
			continue
		}
		x := critical.Reading{At: r.At, TempC: float64(r.MilliC) / 1000, Instrument: r.Probe, Flags: r.Flags, Unusable: !ReadingCounts(r)}
		x.Doubtful = slices.ContainsFunc(FlagsOf(r), func(f string) bool { return slices.Contains(doubted, loggerfile.Flag(f)) })
		all = append(all, x)
	}
	return all
}

// workOf is what is heated and chilled in a run: what it was opened for, and what else was packed or made in it. What makes as much as it can is
// taken by what was packed.
func (j *judging) workOf(ctx context.Context, p critical.Production) []plan.Handled {
	book := j.book.book
	opened, _ := p.Opened()
	req, err := Request(book, opened.Request)
	most := slices.ContainsFunc(req.Want, func(w kitchen.Want) bool { return w.Most })
	var work []plan.Handled
	if err == nil && !most {
		work = j.handled(ctx, req)
	}
	done := map[string]bool{}
	for _, h := range work {
		done[h.Dish] = true
	}
	if more := j.besides(p, done); len(more.Want) > 0 {
		work = append(work, j.handled(ctx, more)...)
	}
	return work
}

// besides wants the packs that were filled of dishes that were not planned; of dishes that only something in bulk was made of, one pack.
func (j *judging) besides(p critical.Production, done map[string]bool) kitchen.Request {
	var req kitchen.Request
	packed, made := p.Packed(), p.Made()
	for _, id := range slices.Sorted(maps.Keys(j.book.book.Packs)) {
		pack := j.book.book.Packs[id]
		if n := packed[string(id)]; n > 0 && !done[string(pack.Dish)] {
			req.Want = append(req.Want, kitchen.Want{Pack: id, Count: int(n)})
			delete(made, string(pack.Dish))
		}
	}
	for _, id := range slices.Sorted(maps.Keys(j.book.book.Packs)) {
		if pack := j.book.book.Packs[id]; made[string(pack.Dish)] && !done[string(pack.Dish)] {
			req.Want = append(req.Want, kitchen.Want{Pack: id, Count: 1})
		}
	}
	return req
}

// handled is what is heated and chilled for a request, worked out once.
func (j *judging) handled(ctx context.Context, req kitchen.Request) []plan.Handled {
	var key strings.Builder
	for _, w := range req.Want {
		fmt.Fprintf(&key, "%q %d %q %v %q %v\n", w.Pack, w.Count, w.Dish, w.Use, w.Vessel, w.Mix)
	}
	if w, there := j.book.work[key.String()]; there {
		return w
	}
	w := plan.Handles(ctx, j.book.book, j.house.foods, req)
	if ctx.Err() == nil {
		j.book.work[key.String()] = w
	}
	return w
}
