package trace_test

import (
	"math"
	"slices"
	"testing"

	"kettlefrost/internal/trace"
)

// Every lot that was marked is found wherever the maker of the history put it, in the share that it mixed, with every recipient that it
// handed packs to; and what it lost is missing.
func TestThreeYears(t *testing.T) {
	h := threeYears(1)
	g, err := trace.New(h.lots, h.flows)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%d runs, %d lots, %d flows, %d packs in %d stretches, %d marked", h.runs, len(h.lots), len(h.flows), h.made, len(h.packs), len(h.marked))
	if h.runs < 400 || len(h.lots) < 20_000 || h.made < 1_000_000 || len(h.marked) < 20 {
		t.Error("the history is smaller than it should be")
	}
	for mark, lot := range h.marked {
		r := must(g.Forward(lot))
		if !slices.Equal(lotsOf(r), h.with(mark)) {
			t.Fatalf("lot %d reaches %d lots, want %d", lot, len(r.Lots), len(h.with(mark)))
		}
		for _, l := range r.Lots {
			want := h.share[l.Lot][mark] * float64(h.lots[l.Lot].Came)
			if math.Abs(float64(l.Expected)-want) > 1e-9*want+3000 { // 3 µg: a nanogram for each cut on the way
				t.Fatalf("lot %d in %d: expected %d, want %.0f", lot, l.Lot, l.Expected, want)
			}
		}
		rec := must(g.Recall(r, h.packs, h.bulk))
		at := map[spot]int64{}
		for _, l := range rec.Lines {
			at[spot{l.State, l.Where}] = l.Count
		}
		for s, n := range h.at[mark] {
			if at[s] != n {
				t.Fatalf("lot %d: %d packs %v, want %d", lot, at[s], s, n)
			}
		}
		if len(at) != len(h.at[mark]) || rec.Made.Count-rec.Found.Count != h.missing[mark] || rec.Told != rec.Found {
			t.Fatalf("lot %d: %d places, want %d; made %d, found %d, missing %d", lot, len(at), len(h.at[mark]), rec.Made.Count, rec.Found.Count, h.missing[mark])
		}
		if rec.Open != 0 {
			t.Fatalf("lot %d: %d ng in bulk unaccounted", lot, rec.Open)
		}
	}
}

// Back from packs: of the marked lots, exactly those are reached that the maker put in.
func TestThreeYearsBack(t *testing.T) {
	h := threeYears(2)
	g, err := trace.New(h.lots, h.flows)
	if err != nil {
		t.Fatal(err)
	}
	for lot := len(h.lots) - 1; lot >= 0; lot -= 997 {
		var has uint64
		r := must(g.Backward(lot))
		for _, l := range r.Lots {
			if m := slices.Index(h.marked, l.Lot); m >= 0 {
				has |= 1 << m
				if want := h.share[lot][m] * float64(h.lots[lot].Came); math.Abs(float64(l.Expected)-want) > 1e-9*want+3000 {
					t.Fatalf("lot %d in %d: expected %d, want %.0f", l.Lot, lot, l.Expected, want)
				}
			}
		}
		if has != h.has[lot] {
			t.Fatalf("back from lot %d: marks %b, want %b", lot, has, h.has[lot])
		}
	}
}

func BenchmarkForwardFromTheFirstLot(b *testing.B)  { bench(b, false, (*trace.Graph).Forward) }
func BenchmarkBackwardFromTheLastPack(b *testing.B) { bench(b, true, (*trace.Graph).Backward) }

func bench(b *testing.B, last bool, ask func(*trace.Graph, ...int) (trace.Reach, error)) {
	h := threeYears(1)
	g := must(trace.New(h.lots, h.flows))
	lot := h.marked[0]
	if last {
		lot = h.packs[len(h.packs)-1].Lot
	}
	b.ReportMetric(float64(len(must(ask(g, lot)).Lots)), "lots")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ask(g, lot); err != nil {
			b.Fatal(err)
		}
	}
}

// A closure of a few lots in a long history.
func BenchmarkForwardFromALateLot(b *testing.B) {
	h := threeYears(1)
	g := must(trace.New(h.lots, h.flows))
	for b.Loop() {
		if _, err := g.Forward(len(h.lots) - 40); err != nil {
			b.Fatal(err)
		}
	}
}

// The least that any closure costs: who is reached, and nothing else.
func BenchmarkPlainBreadthFirst(b *testing.B) {
	h := threeYears(1)
	next := make([][]int32, len(h.lots))
	for _, f := range h.flows {
		next[f.From] = append(next[f.From], int32(f.To))
	}
	b.ReportAllocs()
	for b.Loop() {
		met := make([]bool, len(h.lots))
		queue := []int32{int32(h.marked[0])}
		met[queue[0]] = true
		for i := 0; i < len(queue); i++ {
			for _, to := range next[queue[i]] {
				if !met[to] {
					met[to] = true
					queue = append(queue, to)
				}
			}
		}
	}
}

func BenchmarkRecallOfTheFirstLot(b *testing.B) {
	h := threeYears(1)
	g := must(trace.New(h.lots, h.flows))
	r := must(g.Forward(h.marked[0]))
	b.ReportMetric(float64(len(must(g.Recall(r, h.packs, h.bulk)).Lines)), "lines")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := g.Recall(r, h.packs, h.bulk); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWholeHistory(b *testing.B) {
	h := threeYears(1)
	b.ReportAllocs()
	for b.Loop() {
		must(trace.New(h.lots, h.flows))
	}
}

func BenchmarkEntryByEntry(b *testing.B) {
	h := threeYears(1)
	for b.Loop() {
		grow(b, h.lots, h.flows)
	}
}
