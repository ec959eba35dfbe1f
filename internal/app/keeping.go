package app

import (
	"context"
	"maps"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/keeping"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
	"kettlefrost/internal/retained"
)

// KeepingSchema names the shape of a KeepingSheet.
const KeepingSchema = "kettlefrost.keeping/1"

// KeepingNotSafety stands beside every best-before.
const KeepingNotSafety = "Best-before is about quality, never about safety: food that stays frozen at 0 °F (-18 °C) stays as safe as it was when it froze."

// KeepingSheet is for how long the packs of a book may be called at their best, and what lies in stock, as one value.
type KeepingSheet struct {
	Schema   string              `json:"schema"`
	Day      record.Day          `json:"day"`
	Says     string              `json:"says"`
	Packs    []PackKeeping       `json:"packs"`
	Table    []keeping.Published `json:"table"`
	Findings finding.List        `json:"findings"`
}

// PackKeeping is one kind of pack.
type PackKeeping struct {
	Pack     string           `json:"pack"`
	Name     string           `json:"name"`
	Dish     string           `json:"dish"`
	Weeks    int              `json:"book_weeks,omitempty"` // by the book; 0 when it does not say
	Source   string           `json:"book_source,omitempty"`
	Fits     []FoodClass      `json:"classes"` // rows of the published table that it fits
	Proposal keeping.Proposal `json:"proposal"`
	Lots     []LotKeeping     `json:"lots"` // on hand, the oldest first
}

// Longer says that the book calls packs good for longer than is supported.
func (p PackKeeping) Longer() bool { return p.Proposal.Known && p.Weeks > p.Proposal.Weeks }

// LotKeeping is packs of a lot that are on hand.
type LotKeeping struct {
	Lot        record.Lot    `json:"lot"`
	Packed     record.Day    `json:"packed"`
	BestBefore record.Day    `json:"best_before"`
	Packs      int64         `json:"packs"`              // without those that are kept to be tasted
	Kept       int64         `json:"kept,omitempty"`     // those
	Until      record.Day    `json:"until,omitempty"`    // supported; "" when nothing is known
	Beyond     int           `json:"beyond_days"`        // so much later is its best-before day; 0 when it is not
	Past       bool          `json:"past,omitempty"`     // Until is over
	Promised   []PromisedTo  `json:"promised,omitempty"` // of Packs: those that orders get
	Storage    *StorageTaken `json:"storage,omitempty"`  // nil when nothing was read
}

// PromisedTo is packs of a lot that an order gets.
type PromisedTo struct {
	Order    string         `json:"order"`
	Customer string         `json:"customer"`
	Name     string         `json:"name"`
	Due      record.Day     `json:"due"`
	Numbers  record.Numbers `json:"numbers"`
}

// KeepingAsk is what is to be looked at.
type KeepingAsk struct {
	Pack    string        // one kind; "" for all
	As      keeping.Class // the row of the published table that it is to be taken for; "" for those that it fits
	Storage bool          // how warm the freezers were is read too, which takes longer
}

// Keeping works out for how long packs may be called at their best, as of a time. Errors are *store.Error.
func (r *Records) Keeping(ctx context.Context, book kitchen.Book, now record.Instant, ask KeepingAsk) (KeepingSheet, error) {
	k, err := r.keepingFacts(ctx, book, r.dayOf(now))
	if err != nil {
		return KeepingSheet{}, err
	}
	v := KeepingSheet{Schema: KeepingSchema, Day: k.today, Says: KeepingNotSafety, Packs: []PackKeeping{}, Table: keeping.Table(), Findings: finding.List{}}
	var warmth map[record.Lot]StorageTaken
	if ask.Storage {
		if warmth, err = r.storageOf(ctx, book, now, k.lots, ask.Pack); err != nil {
			return v, err
		}
	}
	for _, id := range slices.Sorted(maps.Keys(book.Packs)) {
		if ask.Pack == "" || string(id) == ask.Pack {
			p := k.pack(id, ask.As, warmth)
			v.Packs = append(v.Packs, p)
			v.Findings = append(v.Findings, p.findings()...)
		}
	}
	v.Findings.Sort()
	return v, nil
}

// keepingFacts is what the records tell of how packs keep.
type keepingFacts struct {
	r        *Records
	book     kitchen.Book
	today    record.Day
	lots     []lots.Lot // of packs, on hand; what was told of them is never changed
	tastings []retained.Tasting
	packed   map[record.Lot]record.Instant
	promised map[record.Lot][]PromisedTo
	trials   trialsFound
}

// keepingFacts gathers them. Who has been promised what is left out when it cannot be worked out.
func (r *Records) keepingFacts(ctx context.Context, book kitchen.Book, today record.Day) (*keepingFacts, error) {
	k := &keepingFacts{r: r, book: book, today: today, packed: map[record.Lot]record.Instant{}}
	err := r.Kept(ctx, func(s *retained.State, stock *lots.State, _ finding.List) error {
		k.tastings = s.Tastings("")
		for l := range stock.All() {
			if l.Sort == lots.Packs && !l.OnHand().Numbers.Empty() {
				k.lots = append(k.lots, *l)
			}
		}
		for _, t := range k.tastings {
			if at, _, ok := s.Packed(t.Lot); ok {
				k.packed[t.Lot] = at
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	slices.SortStableFunc(k.lots, func(a, b lots.Lot) int { return int(a.Born/1000 - b.Born/1000) })
	err = r.Desk(ctx, today, func(d Desk) error {
		a, err := d.Allot(orders.Plus(today, Horizon))
		if err == nil {
			k.promised = promisedLots(d, a)
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	k.trials, err = r.trialsFound(ctx)
	return k, err
}

// promisedLots are the packs of each lot that orders get.
func promisedLots(d Desk, a orders.Allotment) map[record.Lot][]PromisedTo {
	all := map[record.Lot][]PromisedTo{}
	for _, v := range a.Orders {
		mine := map[record.Lot]record.Numbers{}
		for _, g := range v.Gets {
			for _, p := range g.Pieces {
				mine[p.Lot] = mine[p.Lot].Union(p.Numbers)
			}
		}
		for _, lot := range slices.Sorted(maps.Keys(mine)) {
			all[lot] = append(all[lot], PromisedTo{v.ID, v.Customer, d.Customer(v.Customer).Name, v.Due, mine[lot]})
		}
	}
	return all
}

func (k *keepingFacts) pack(id kitchen.PackID, as keeping.Class, warmth map[record.Lot]StorageTaken) PackKeeping {
	pack := k.book.Packs[id]
	p := PackKeeping{Pack: string(id), Name: pack.Name, Dish: string(pack.Dish), Weeks: pack.BestBefore.Weeks, Source: pack.BestBefore.Source, Fits: classesOf(k.book, pack, as), Lots: []LotKeeping{}}
	food := keeping.Food{Opened: k.opened(string(id), pack.Dish), Trials: k.trials.of(string(pack.Dish), string(id))}
	for _, c := range p.Fits {
		food.Classes = append(food.Classes, c.Class)
	}
	food.Storage = together(k.lots, string(id), warmth)
	p.Proposal = keeping.Propose(food)
	for i := range k.lots {
		if l := &k.lots[i]; l.What == string(id) {
			x := k.lot(l, p.Proposal)
			if w, ok := warmth[l.ID]; ok {
				x.Storage = &w
			}
			p.Lots = append(p.Lots, x)
		}
	}
	return p
}

// opened are the packs of a kind that were opened and tasted, each by itself.
func (k *keepingFacts) opened(pack string, dish kitchen.DishID) []keeping.Opened {
	changed := k.trials.changed(string(dish))
	var all []keeping.Opened
	for _, t := range k.tastings {
		if t.Pack != pack || t.Weeks < 0 {
			continue
		}
		for range max(1, t.Numbers.Count()) {
			all = append(all, keeping.Opened{Lot: string(t.Lot), Weeks: t.Weeks, Good: t.Verdict == record.StillGood, Found: string(t.Verdict), Old: k.packed[t.Lot] < changed})
		}
	}
	return all
}

// lot holds the best-before day of a lot against what is supported.
func (k *keepingFacts) lot(l *lots.Lot, p keeping.Proposal) LotKeeping {
	here := l.OnHand().Numbers
	kept := l.Kept(here)
	x := LotKeeping{Lot: l.ID, Packed: k.r.dayOf(l.Born), BestBefore: l.BestBefore, Packs: here.Count() - kept.Count(), Kept: kept.Count(), Promised: k.promised[l.ID]}
	if !p.Known {
		return x
	}
	x.Until = orders.Plus(x.Packed, 7*p.Weeks)
	x.Beyond = max(0, orders.Days(x.Until, x.BestBefore))
	x.Past = x.Until < k.today
	return x
}
