package plan

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"math"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/productmix"
	"kettlefrost/internal/unit"
)

// WeekSchema names the shape of a Week's JSON.
const WeekSchema = "kettlefrost.week/1"

// Week is what a week is best spent on.
type Week struct {
	Schema       string         `json:"schema"`
	Kitchen      string         `json:"kitchen"`
	Note         string         `json:"note,omitempty"`
	Units        unit.System    `json:"units"`
	Currency     string         `json:"currency"`
	Findings     finding.List   `json:"findings"`
	Contribution unit.Money     `json:"contribution"` // what the mix leaves, overhead and the week's fixed costs aside
	Gap          unit.Money     `json:"gap"`          // a better mix could leave so much more at most; 0: none does
	Resources    []WeekResource `json:"resources"`
	Packs        []WeekPack     `json:"packs"` // what earns most for an hour of hands in front
}

// WeekResource is something there is only so much of in a week.
type WeekResource struct {
	Name string     `json:"name"`
	Unit string     `json:"unit"` // of a step
	Have float64    `json:"have"`
	Used float64    `json:"used"`
	More unit.Money `json:"one_more"`     // what one more would earn; at least, when the proof is missing
	Pays int        `json:"pays_from"`    // the fewest more that earn something; 0 when none up to eight does
	Earn unit.Money `json:"pays_so_much"` // what so many would earn
	Less unit.Money `json:"one_less"`     // what one less would cost
}

// WeekPack is a pack to choose.
type WeekPack struct {
	Pack         string       `json:"pack"`
	Name         string       `json:"name"`
	Batch        int          `json:"batch"`        // packs made at once
	Batches      int          `json:"batches"`      // to make
	Count        int          `json:"count"`        // packs
	Sells        int          `json:"sells"`        // in a week, at most; 0: not said
	Contribution unit.Money   `json:"contribution"` // of a batch
	AtMost       bool         `json:"at_most"`      // a price is missing
	Uses         []float64    `json:"uses"`         // of each resource, by a batch
	Per          []unit.Money `json:"per"`          // what it leaves for a step of each resource; 0 when it uses none
	Stops        string       `json:"stops"`        // what stops one more batch
}

// What counts of a week until the book says otherwise: common practice.
const (
	usualDays    = 5   // working days
	storedKgL    = 0.6 // of flat bags in a freezer, with the air between them
	usualBatches = 2   // a week's sales in so many batches, where the book has no batch
)

// PlanWeek decides which packs a week is best spent on, with the hands, the largest vessel and the freezer of the book. Each pack's batch is
// planned alone for what it takes; a pack without a price is left out and told.
func PlanWeek(ctx context.Context, book kitchen.Book, foods *foodtable.Table) Week {
	w := weekPlanner{ctx: ctx, book: book, foods: foods}
	w.out = Week{Schema: WeekSchema, Kitchen: book.Kitchen.Name, Note: book.Kitchen.Note, Units: book.Kitchen.Units, Currency: cmp.Or(book.Kitchen.Currency, "$"), Findings: finding.List{}, Resources: []WeekResource{}, Packs: []WeekPack{}}
	w.resources()
	for _, id := range slices.Sorted(maps.Keys(book.Packs)) {
		w.product(id)
	}
	w.choose()
	w.rank()
	return w.out
}

type weekPlanner struct {
	ctx     context.Context
	book    kitchen.Book
	foods   *foodtable.Table
	largest kitchen.EquipmentID
	problem productmix.Problem
	out     Week
}

// The resources, in their order.
const (
	weekHands = iota
	weekVessel
	weekFreezer
)

func (w *weekPlanner) resources() {
	days := int64(cmp.Or(w.book.Kitchen.Days, usualDays))
	hands, opens, closes := int64(0), int64(24*60), int64(0)
	for _, who := range w.book.People {
		minutes := int64(who.Shift.To - who.Shift.From)
		for _, b := range who.Shift.Breaks {
			minutes -= int64(b.To - b.From)
		}
		hands += max(0, minutes)
		opens, closes = min(opens, int64(who.Shift.From)), max(closes, int64(who.Shift.To))
	}
	for _, id := range slices.Sorted(maps.Keys(w.book.Equipment)) {
		if e := w.book.Equipment[id]; e.Kind == kitchen.Vessel && (w.largest == "" || workingL(e) > workingL(w.book.Equipment[w.largest])) {
			w.largest = id
		}
	}
	litres := 0.0
	for _, f := range w.book.Freezers {
		litres += f.Volume.L()*float64(f.Count) - f.Holds.Kg()/storedKgL
	}
	vessel := w.book.Equipment[w.largest]
	w.problem.Resources = []productmix.Resource{
		{Name: "hands on", Have: hands * 60 * days, Step: 3600},
		{Name: cmp.Or(vessel.Name, "the largest vessel"), Have: max(0, closes-opens) * 60 * days * int64(max(1, vessel.Count)), Step: 3600},
		{Name: "room in the freezers", Have: int64(max(0, litres) * 1000), Step: 1000},
	}
}

// product plans one batch of a pack for what it takes and leaves.
func (w *weekPlanner) product(id kitchen.PackID) {
	pack := w.book.Packs[id]
	batch := cmp.Or(pack.Batch, (pack.Sells+usualBatches-1)/usualBatches)
	if pack.Price == 0 || batch == 0 {
		w.leaveOut(id, "it has no price, or nothing says how many are made at once or sold in a week", "write price:, and batch: or sells:")
		return
	}
	p := newPlanner(w.ctx, w.book, w.foods, kitchen.Request{Name: "a batch", Want: []kitchen.Want{{Pack: id, Count: batch}}})
	p.trial = true
	plan := p.make()
	if len(plan.Fill) != 1 || len(plan.Cost) != 1 || plan.Fill[0].Count < batch || p.starts == nil {
		w.leaveOut(id, "a batch of it cannot be planned", "kettlefrost plan --pack "+string(id)+"="+fmt.Sprint(batch)+" says why")
		return
	}
	lot := productmix.Lot{Name: pack.Name, Packs: int64(batch), Contribution: (pack.Price - plan.Cost[0].Total + plan.Cost[0].Overhead) * unit.Money(batch), AtMost: len(plan.Cost[0].Missing) > 0, Uses: make([]int64, len(w.problem.Resources))}
	lot.Uses[weekHands] = int64(plan.Summary.HandsOn)
	for _, t := range p.day.tasks {
		if t.in == w.largest && t.in != "" {
			lot.Uses[weekVessel] += int64(t.length) * 60
		}
	}
	lot.Uses[weekFreezer] = int64(math.Ceil(plan.Fill[0].filled().Kg() * float64(batch) / storedKgL * 1000))
	demand := int64(-1)
	if pack.Sells > 0 {
		demand = int64(pack.Sells)
	}
	w.problem.Products = append(w.problem.Products, productmix.Product{Name: pack.Name, Demand: demand, Lots: []productmix.Lot{lot}})
	show := WeekPack{Pack: string(id), Name: pack.Name, Batch: batch, Sells: pack.Sells, Contribution: lot.Contribution, AtMost: lot.AtMost}
	for r, use := range lot.Uses {
		step := w.problem.Resources[r].Step
		show.Uses = append(show.Uses, float64(use)/float64(step))
		show.Per = append(show.Per, 0)
	}
	w.out.Packs = append(w.out.Packs, show)
}

func (w *weekPlanner) leaveOut(id kitchen.PackID, why, fix string) {
	w.out.Findings = append(w.out.Findings, finding.Finding{Code: CodeLeftOut, Severity: finding.Note, Where: "pack " + string(id), Path: "packs." + string(id), Message: "left out of the week: " + why, Fix: fix})
}

// choose finds the mix, and what one more of each resource would be worth.
func (w *weekPlanner) choose() {
	mix, err := productmix.Best(w.problem)
	if err != nil {
		w.out.Findings = append(w.out.Findings, finding.Finding{Code: CodeNoWeek, Severity: finding.Stop, Where: "the week", Message: "no mix can be chosen: " + err.Error(), Fix: "check prices, shifts and freezers"})
		return
	}
	w.out.Contribution, w.out.Gap = mix.Contribution, mix.Gap()
	for i := range w.out.Packs {
		x := &w.out.Packs[i]
		x.Batches, x.Count, x.Stops = int(mix.Lots[i][0]), int(mix.Packs[i]), w.stops(mix.Stops[i][0])
	}
	for r, res := range w.problem.Resources {
		w.out.Resources = append(w.out.Resources, WeekResource{Name: res.Name, Unit: [...]string{"h", "h", "L"}[r], Have: float64(res.Have) / float64(res.Step), Used: float64(mix.Uses[r]) / float64(res.Step)})
	}
	worths, err := productmix.Worths(w.problem, mix)
	if err != nil {
		return
	}
	for _, x := range worths {
		show := &w.out.Resources[x.Resource]
		show.More, show.Pays, show.Earn = x.More.Low, int(x.Pays), x.Earn.Low
		if x.CanLess {
			show.Less = x.Less.High
		}
	}
}

// rank says what each pack earns for one step of each resource, and puts those first that earn most for an hour of hands.
func (w *weekPlanner) rank() {
	packs := slices.Clone(w.out.Packs)
	for r := range w.problem.Resources {
		ranked, err := productmix.Rank(w.problem, r)
		if err != nil {
			return // the same mistake leaves no mix, and is told there
		}
		for _, one := range ranked {
			packs[one.Product].Per[r] = one.PerStep // what uses none of it has 0
		}
		if r == weekHands {
			for place, one := range ranked {
				w.out.Packs[place] = packs[one.Product]
			}
		}
	}
}

func (w *weekPlanner) stops(s productmix.Stop) string {
	switch {
	case s.Demand:
		return "no more are sold"
	case len(s.Resources) > 0:
		return "not enough of: " + w.problem.Resources[s.Resources[0]].Name
	}
	return "one more would leave nothing"
}
