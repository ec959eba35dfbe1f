package trace_test

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"kettlefrost/internal/trace"
	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

// drawn is a random history of few lots. Flows go from a lower to a higher number, but lots are numbered and flows come in any order.
func drawn(t *rapid.T, mostMass int64) (lots []trace.Lot, flows []trace.Flow) {
	n := rapid.IntRange(1, 10).Draw(t, "lots")
	name := rapid.Permutation(upTo(n)).Draw(t, "names")
	for range n {
		lots = append(lots, trace.Lot{Came: unit.Mass(rapid.Int64Range(0, mostMass).Draw(t, "came"))})
		if rapid.IntRange(0, 9).Draw(t, "unweighed") == 0 {
			lots[len(lots)-1] = trace.Lot{Unweighed: true}
		}
	}
	for range rapid.IntRange(0, 20).Draw(t, "flows") {
		a, b := rapid.IntRange(0, n-1).Draw(t, "one"), rapid.IntRange(0, n-1).Draw(t, "other")
		if a == b {
			continue
		}
		flows = append(flows, trace.Flow{From: name[min(a, b)], To: name[max(a, b)], Mass: unit.Mass(rapid.Int64Range(0, mostMass).Draw(t, "mass"))})
	}
	return lots, flows
}

func upTo(n int) []int {
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	return all
}

// reachable is Floyd and Warshall's closure, a lot itself included.
func reachable(n int, flows []trace.Flow) [][]bool {
	r := make([][]bool, n)
	for i := range r {
		r[i] = make([]bool, n)
		r[i][i] = true
	}
	for _, f := range flows {
		r[f.From][f.To] = true
	}
	for k := range n {
		for i := range n {
			for j := range n {
				r[i][j] = r[i][j] || r[i][k] && r[k][j]
			}
		}
	}
	return r
}

func lotsOf(r trace.Reach) []int {
	var lots []int
	for _, l := range r.Lots {
		lots = append(lots, l.Lot)
	}
	slices.Sort(lots)
	return lots
}

// A closure is what Floyd and Warshall reach, both ways, and does not care how the graph was built.
func TestClosuresAreReachability(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lots, flows := drawn(t, 100)
		whole, err := trace.New(lots, flows)
		if err != nil {
			t.Fatal(err)
		}
		grown := grow(t, lots, flows)
		reach := reachable(len(lots), flows)
		for from := range lots {
			var forward, backward []int
			for to := range lots {
				if reach[from][to] {
					forward = append(forward, to)
				}
				if reach[to][from] {
					backward = append(backward, to)
				}
			}
			a, b := must(whole.Forward(from)), must(whole.Backward(from))
			if !slices.Equal(lotsOf(a), forward) || !slices.Equal(lotsOf(b), backward) {
				t.Fatalf("lot %d: forward %v, want %v; backward %v, want %v", from, lotsOf(a), forward, lotsOf(b), backward)
			}
			inOrder(t, whole, a)
			inOrder(t, whole, b)
			for _, g := range []trace.Reach{must(grown.Forward(from)), must(grown.Backward(from))} {
				same := a
				if !g.Forward {
					same = b
				}
				if contents(g) != contents(same) {
					t.Fatalf("grown %s\nwhole %s", contents(g), contents(same))
				}
			}
		}
	})
}

// contents is what is in every lot, by number.
func contents(r trace.Reach) string {
	lots := slices.SortedFunc(slices.Values(r.Lots), func(a, b trace.Reached) int { return a.Lot - b.Lot })
	return fmt.Sprint(r.Whole, r.Absorbed, lots)
}

// inOrder holds a reach to its promises: each flow leads down the list and to a higher layer, and a layer is one more than the highest before.
func inOrder(t *rapid.T, g *trace.Graph, r trace.Reach) {
	at, layer := map[int]int{}, map[int]int{}
	for i, l := range r.Lots {
		at[l.Lot] = i
	}
	for _, c := range r.Flows {
		f := g.Flow(c.Flow)
		if !r.Forward {
			f.From, f.To = f.To, f.From
		}
		if at[f.From] >= at[f.To] {
			t.Fatalf("flow %d leads up the list", c.Flow)
		}
		layer[f.To] = max(layer[f.To], r.Lots[at[f.From]].Layer+1)
	}
	for _, l := range r.Lots {
		if l.Layer != layer[l.Lot] {
			t.Fatalf("lot %d is in layer %d, want %d", l.Lot, l.Layer, layer[l.Lot])
		}
	}
}

// Flows come in any direction; one is refused exactly when its end already leads to its beginning, and the loop that is named is there.
func TestRefusedExactlyWhenALoopWouldClose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "lots")
		g := grow(t, make([]trace.Lot, n), nil)
		var kept []trace.Flow
		for range rapid.IntRange(0, 40).Draw(t, "flows") {
			f := trace.Flow{From: rapid.IntRange(0, n-1).Draw(t, "from"), To: rapid.IntRange(0, n-1).Draw(t, "to"), Mass: 1}
			_, err := g.AddFlow(f)
			if closes := reachable(n, kept)[f.To][f.From]; closes != (err != nil) {
				t.Fatalf("%+v closes a loop: %v; %v", f, closes, err)
			}
			if err == nil {
				kept = append(kept, f)
				continue
			}
			realLoop(t, err, append(slices.Clone(kept), f))
			_, err = trace.New(make([]trace.Lot, n), append(slices.Clone(kept), f))
			realLoop(t, err, append(slices.Clone(kept), f))
		}
		for from := range n {
			for to, there := range reachable(n, kept)[from] {
				p := must(g.Path(from, to))
				if (len(p) > 0) != (there && from != to) || len(p) > 0 && (g.Flow(p[0]).From != from || g.Flow(p[len(p)-1]).To != to) {
					t.Fatalf("path from %d to %d: %v", from, to, p)
				}
			}
		}
	})
}

func realLoop(t *rapid.T, err error, flows []trace.Flow) {
	var loop *trace.LoopError
	if !errors.As(err, &loop) {
		t.Fatalf("want a loop, got %v", err)
	}
	for i, from := range loop.Lots {
		to := loop.Lots[(i+1)%len(loop.Lots)]
		if !slices.ContainsFunc(flows, func(f trace.Flow) bool { return f.From == from && f.To == to }) {
			t.Fatalf("%v: nothing goes from %d to %d", err, from, to)
		}
	}
	if loop.Flow.To != loop.Lots[0] || loop.Flow.From != loop.Lots[len(loop.Lots)-1] {
		t.Fatalf("%v: the flow that closes it is %+v", err, loop.Flow)
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}
