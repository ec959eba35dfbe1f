package trace_test

import (
	"math/rand/v2"

	"kettlefrost/internal/trace"
	"kettlefrost/internal/unit"
)

// history is an invented kitchen's three years, with what its maker wrote down beside: it followed the lots that it marked with its own
// hands, tub by tub and pack by pack, and knows nothing of graphs.
type history struct {
	lots    []trace.Lot
	flows   []trace.Flow
	packs   []trace.Stretch
	bulk    []trace.Holding
	made    int64 // packs
	runs    int
	marked  []int            // lots that were bought
	has     []uint64         // of each lot, one bit for each mark that is in it
	share   [][]float64      // of each lot, the share of each mark, mixed
	at      []map[spot]int64 // of each mark, packs by where they are
	missing []int64          // of each mark, packs that nobody wrote down

	r     *rand.Rand
	nowMs int64
	open  []tub   // of each ingredient, what is in use
	old   [2]*tub // of each dish, what was left over of the last pot
}

type spot struct {
	state trace.State
	where int
}

// tub is what is left of a lot.
type tub struct {
	lot  int
	left unit.Mass
}

const (
	ingredients = 40
	recipients  = 300
	marks       = 48
	hourMs      = 3_600_000
)

// threeYears is three runs a week of two dishes each, every pot begun on what was left over of the last one.
func threeYears(seed uint64) *history {
	h := &history{r: rand.New(rand.NewPCG(seed, 3)), open: make([]tub, ingredients), at: make([]map[spot]int64, marks), missing: make([]int64, marks)}
	for i := range h.at {
		h.at[i] = map[spot]int64{}
	}
	for day := range 3 * 365 {
		if day%7 != 0 && day%7 != 2 && day%7 != 4 {
			continue
		}
		h.runs++
		for dish := range 2 {
			h.nowMs = int64(day*24+8+3*dish) * hourMs
			h.cook(dish)
		}
	}
	for _, t := range h.open {
		h.bulk = append(h.bulk, trace.Holding{Lot: t.lot, OnHand: t.left})
	}
	for _, t := range h.old {
		h.bulk = append(h.bulk, trace.Holding{Lot: t.lot, OnHand: t.left})
	}
	return h
}

// lot writes down a lot of these parts.
func (h *history) lot(came unit.Mass, packs int64, parts ...trace.Flow) int {
	id := len(h.lots)
	h.lots = append(h.lots, trace.Lot{Came: came, AtMs: h.nowMs, Packs: packs})
	h.has, h.share = append(h.has, 0), append(h.share, make([]float64, marks))
	var in float64
	for _, p := range parts {
		in += float64(p.Mass)
	}
	for _, p := range parts {
		p.To, p.AtMs = id, h.nowMs
		h.flows = append(h.flows, p)
		h.has[id] |= h.has[p.From]
		for m, s := range h.share[p.From] {
			h.share[id][m] += s * float64(p.Mass) / max(in, float64(came))
		}
	}
	return id
}

// take takes mass of an ingredient, of as many lots as it needs; what is received is now and then marked.
func (h *history) take(ingredient int, mass unit.Mass) (parts []trace.Flow) {
	for t := &h.open[ingredient]; mass > 0; {
		if t.left == 0 {
			t.left = unit.Mass(2+h.r.IntN(12)) * unit.Kilogram
			t.lot = h.lot(t.left, 0)
			if len(h.marked) < marks && h.r.IntN(200) == 0 || len(h.marked) == 0 {
				h.has[t.lot], h.share[t.lot][len(h.marked)] = 1<<len(h.marked), 1
				h.marked = append(h.marked, t.lot)
			}
		}
		m := min(mass, t.left)
		parts = append(parts, trace.Flow{From: t.lot, Mass: m})
		t.left -= m
		mass -= m
	}
	return parts
}

// cook sears eight loads, boils them down with the rest in one pot, and packs it in ten boxes.
func (h *history) cook(dish int) {
	var pot []trace.Flow
	var in unit.Mass
	for range 8 {
		var load []trace.Flow
		var raw unit.Mass
		for range 3 {
			m := unit.Mass(h.r.Int64N(int64(3 * unit.Kilogram)))
			load = append(load, h.take(h.r.IntN(ingredients), m)...)
			raw += m
		}
		seared := raw * 4 / 5
		pot = append(pot, trace.Flow{From: h.lot(seared, 0, load...), Mass: seared})
		in += seared
	}
	for range 6 {
		m := unit.Mass(h.r.Int64N(int64(8 * unit.Kilogram)))
		pot = append(pot, h.take(h.r.IntN(ingredients), m)...)
		in += m
	}
	if old := h.old[dish]; old != nil {
		pot = append(pot, trace.Flow{From: old.lot, Mass: old.left})
		in += old.left
	}
	came := in * unit.Mass(85+h.r.IntN(25)) / 100 // boiled down, or stretched with water that nobody weighed
	lot := h.lot(came, 0, pot...)
	for range 10 {
		mass := came * 97 / 1000
		h.hand(h.lot(mass, int64(90+h.r.IntN(50)), trace.Flow{From: lot, Mass: mass}))
	}
	left := came * 2 / 100
	h.old[dish] = &tub{h.lot(left, 0, trace.Flow{From: lot, Mass: left}), left}
	h.bulk = append(h.bulk, trace.Holding{Lot: lot, Waste: came - 10*(came*97/1000) - left})
}

// hand gives a box of packs away in stretches, keeps some, and loses one now and then.
func (h *history) hand(lot int) {
	made := h.lots[lot].Packs
	h.made += made
	for next := int64(1); next <= made; {
		n := min(1+h.r.Int64N(24), made-next+1)
		to := spot{trace.Handed, h.r.IntN(recipients)}
		switch h.r.IntN(20) {
		case 0:
			to = spot{trace.OnHand, h.r.IntN(5)}
		case 1:
			to = spot{trace.WrittenOff, 0}
		}
		lost := h.r.IntN(400) == 0
		if !lost {
			h.packs = append(h.packs, trace.Stretch{Lot: lot, First: next, Last: next + n - 1, State: to.state, Where: to.where})
		}
		for m := range h.marked {
			switch {
			case h.has[lot]>>m&1 == 0:
			case lost:
				h.missing[m] += n
			default:
				h.at[m][to] += n
			}
		}
		next += n
	}
}

// with is every lot that a mark is in.
func (h *history) with(mark int) []int {
	var lots []int
	for l, has := range h.has {
		if has>>mark&1 == 1 {
			lots = append(lots, l)
		}
	}
	return lots
}
