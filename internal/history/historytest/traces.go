package historytest

import (
	"fmt"
	"maps"

	"kettlefrost/internal/history"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/trace"
	"kettlefrost/internal/unit"
)

// traces says in which lots of packs each delivery is.
func (c *comparison) traces(n int) {
	in := map[record.Lot][]*history.Packs{}
	for i, p := range c.h.Packs {
		for of := range p.Of {
			in[of] = append(in[of], p)
		}
		if i%n == 0 {
			c.backward(p)
		}
	}
	i := 0
	for _, b := range c.h.Bulk {
		if !b.Received {
			continue
		}
		if i%n == 0 {
			c.forward(b, in[b.Lot])
			c.recall(b, in[b.Lot])
		}
		i++
	}
}

// rounding is how many nanograms the exact tracing may differ from fractions in floating point: it cuts at whole nanograms for each of the
// thousands of flows of a long history.
const rounding = 10_000

// forward: a delivery is in these packs and no others, and there is so much of it in each as its fraction says.
func (c *comparison) forward(b *history.Bulk, in []*history.Packs) {
	reach, err := c.s.Forward(b.Lot)
	want(c, b.Lot, "error of the trace", nil, err)
	have := map[record.Lot]trace.Content{}
	for _, r := range reach {
		if r.Sort == lots.Packs {
			have[r.ID] = r.Content
		}
	}
	want(c, b.Lot, "lots of packs with it", len(in), len(have))
	for _, p := range in {
		content, ok := have[p.Lot]
		mass := p.Of[b.Lot] * float64(p.Came)
		if !ok || !near(float64(content.Expected), mass, rounding) {
			want(c, b.Lot, "mass in "+string(p.Lot), unit.Mass(mass), content.Expected)
		}
		if content.Least > content.Expected || content.Most < content.Expected {
			want(c, b.Lot, "bounds around it in "+string(p.Lot), true, false)
		}
	}
}

// backward: a lot of packs holds these deliveries and no others.
func (c *comparison) backward(p *history.Packs) {
	reach, err := c.s.Backward(p.Lot)
	want(c, p.Lot, "error of the trace", nil, err)
	goods := 0
	for _, r := range reach {
		if r.Sort == lots.Goods {
			goods++
			want(c, p.Lot, "holds "+string(r.ID), true, p.Of[r.ID] > 0)
		}
	}
	want(c, p.Lot, "deliveries in it", len(p.Of), goods)
}

// recall: it names each customer with as many packs as they have, and finds all but the missing packs.
func (c *comparison) recall(b *history.Bulk, in []*history.Packs) {
	r, err := c.s.Recall(b.Lot)
	want(c, b.Lot, "error of the recall", nil, err)
	var made, found int64
	has, told := map[history.Spot]int64{}, map[history.Spot]int64{}
	doubted, toldDoubted := map[string]int64{}, map[string]int64{}
	for _, p := range in {
		made += int64(len(p.At))
		found += int64(len(p.At)) - p.Count(history.Missing)
		for _, at := range p.At {
			if at.State == history.With {
				at.Where = c.s.Customer(at.Where).Name
			}
			has[at]++
		}
		for customer, n := range p.Doubted {
			doubted[customer] += n
		}
	}
	want(c, b.Lot, "packs to recall", made, r.Made.Count)
	want(c, b.Lot, "packs found", found, r.Found.Count)
	states := map[trace.State]history.State{trace.OnHand: history.Here, trace.Handed: history.With, trace.WrittenOff: history.Gone, trace.Reused: history.Opened, trace.Unknown: history.Missing}
	for _, line := range r.Lines {
		if line.Doubted {
			toldDoubted[line.Customer.Customer] += line.Packs.Count()
			continue
		}
		told[history.Spot{State: states[line.State], Where: line.Where}] += line.Packs.Count()
	}
	want(c, b.Lot, "who may have got packs that others have", true, maps.Equal(doubted, toldDoubted))
	want(c, b.Lot, "places of recalled packs", len(has), len(told))
	for at, n := range has {
		want(c, b.Lot, fmt.Sprint("recalled packs at ", at), n, told[at])
	}
}
