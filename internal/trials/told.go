package trials

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"kettlefrost/internal/record"
	"kettlefrost/internal/tastetrial"
)

// Told is one pair of variants, with everything that stands beside a p.
type Told struct {
	Of, Against    int // variants; the base is what others are held against
	Blocks         int // tasters, or packs opened together
	Estimate       float64
	Low, High      float64
	Level          float64 // that the interval attains
	Wanted         float64 // that it must attain, so that all hold together
	P, PAmong      float64 // alone; adjusted for all that is compared in the trial
	ByRanks        bool
	Verdict        tastetrial.Verdict
	Text           string
	Better, Enough bool // Of is better; there are enough blocks to tell anything
}

// told turns a pair so that it reads as the new against the base.
func (t Trial) told(f record.Figured, c tastetrial.Comparison, p tastetrial.Pair) Told {
	x := Told{Of: p.First, Against: p.Second, Blocks: p.Blocks, Estimate: p.Effect.Estimate, Low: p.Effect.Interval.Low, High: p.Effect.Interval.High, Level: p.Effect.Interval.Level,
		Wanted: c.Each, P: p.Effect.P, PAmong: p.PHolm, ByRanks: p.ByRanks, Verdict: p.Verdict}
	if base := t.Base(); p.First == base || base < 0 {
		x.Of, x.Against = p.Second, p.First
		x.Estimate, x.Low, x.High = 0-x.Estimate, 0-x.High, 0-x.Low
		switch x.Verdict {
		case tastetrial.MattersMore:
			x.Verdict = tastetrial.MattersLess
		case tastetrial.MattersLess:
			x.Verdict = tastetrial.MattersMore
		}
	}
	x.Enough = x.Blocks > 0 && x.Level >= x.Wanted-1e-9
	x.Better = x.Estimate > 0 == (f.Better == record.HighIsBetter) && x.Estimate != 0
	x.Text = x.text(f)
	return x
}

// text is the verdict in a sentence without a subject: "better by what matters, 1.2 to 2.3 points".
func (x Told) text(f record.Figured) string {
	low, high := x.Low, x.High
	better, worse := "better", "worse"
	if f.Better == record.LowIsBetter { // turned, so that more is better
		low, high = -high, -low
	}
	matters := Difference(f, number(f.Matters))
	switch {
	case x.Blocks == 0:
		return "nothing of the two was seen together yet"
	case !x.Enough:
		return fmt.Sprintf("cannot tell: %s are too few for any answer, however they differ%s", x.blocks(), x.fewest())
	}
	switch x.Verdict {
	case tastetrial.TooSmall:
		return fmt.Sprintf("no difference that matters: %s, and %s would matter", between(f, low, high), matters)
	case tastetrial.Some:
		return fmt.Sprintf("%s, %s; whether by what matters (%s) cannot be told", choose(low > 0, better, worse), between(f, low, high), matters)
	case tastetrial.MattersMore, tastetrial.MattersLess:
		return fmt.Sprintf("%s by a difference that matters, %s", choose(low > 0, better, worse), between(f, low, high))
	}
	return fmt.Sprintf("cannot tell: it may be anything from %s", between(f, low, high))
}

// fewest says how many would do, where ranks decide.
func (x Told) fewest() string {
	if !x.ByRanks {
		return ""
	}
	return fmt.Sprintf("; it takes %d at least, who all say the same", FewestRanked(x.Wanted))
}

// FewestRanked are the fewest tasters of whom ranks can tell anything at a level: all agree, which has a chance of 2 in 2^n (the least p of
// the signed-rank test).
func FewestRanked(level float64) int {
	n := 1
	for ; n < 60 && math.Ldexp(2, -n) > 1-level+1e-12; n++ {
	}
	return n
}

func (x Told) blocks() string {
	if x.ByRanks {
		return counted(x.Blocks, "taster", "tasters")
	}
	return counted(x.Blocks, "pair of packs", "pairs of packs")
}

func choose(first bool, a, b string) string {
	if first {
		return a
	}
	return b
}

func counted(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + more
}

// between is an interval in which more is better, in words: "0.3 points worse to 1.9 points better", "1.2 to 2.3 points".
func between(f record.Figured, low, high float64) string {
	switch {
	case low >= 0:
		return plain(f, low, fine) + " to " + Difference(f, high)
	case high <= 0:
		return plain(f, -high, fine) + " to " + Difference(f, -low)
	}
	worst, best := Difference(f, -low)+" worse", Difference(f, high)+" better"
	if plain(f, low, fine) == "0" {
		worst = "no difference"
	}
	if plain(f, high, fine) == "0" {
		best = "no difference"
	}
	return worst + " to " + best
}

// Digits behind the point: of values as they are read, and of differences, whose ends may lie close to what matters.
const (
	coarse = 1
	fine   = 2
)

// Amount is a value of a figure with its unit: "2.5 %", "12.3 g", "7.5 points".
func Amount(f record.Figured, v float64) string {
	if f.Unit == Share {
		return plain(f, v, coarse) + " %"
	}
	return withUnit(f, plain(f, v, coarse))
}

// Range is from one value to another: "0.5 to 2.1 %".
func Range(f record.Figured, from, to float64) string {
	return plain(f, from, coarse) + " to " + Amount(f, to)
}

// Difference is what lies between two values: "1.95 percentage points", "3.2 g", "0.85 points".
func Difference(f record.Figured, v float64) string {
	if f.Unit == Share {
		return plain(f, v, fine) + " percentage points"
	}
	return withUnit(f, plain(f, v, fine))
}

func withUnit(f record.Figured, number string) string {
	if f.Unit == Points {
		return number + " " + choose(number == "1", "point", "points")
	}
	return number + " " + f.Unit
}

// plain is a value in its unit, without it: shares in per cent.
func plain(f record.Figured, v float64, digits int) string {
	if f.Unit == Share {
		v *= 100
	}
	text := strconv.FormatFloat(v, 'f', digits, 64)
	if text = strings.TrimRight(strings.TrimRight(text, "0"), "."); text == "-0" {
		return "0"
	}
	return text
}
