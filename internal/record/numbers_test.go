package record

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseNumbers(t *testing.T) {
	for _, c := range []struct {
		text, want string
		count      int64
	}{
		{"", "", 0},
		{"7", "7", 1},
		{"1-40, 52", "1-40, 52", 41},
		{"52,1-40", "1-40, 52", 41},
		{" 3 - 5 ,6", "3-6", 4},
		{"10-20, 15-30, 12", "10-30", 21},
		{"1-1", "1", 1},
		{"007", "7", 1},
		{"1-1000000", "1-1000000", 1_000_000},
		{"1-1000000000000", "1-1000000000000", 1_000_000_000_000},
	} {
		n, err := ParseNumbers(c.text)
		if err != nil || n.String() != c.want || n.Count() != c.count {
			t.Errorf("%q: %q, %d packs, %v; want %q, %d", c.text, n, n.Count(), err, c.want, c.count)
		}
	}
}

func TestParseNumbersRefuses(t *testing.T) {
	for text, want := range map[string]string{
		"40-1":                                "is reversed",
		"0-3":                                 "starts below 1",
		"-3":                                  "no number and no range",
		"1--3":                                "no number and no range",
		"1-2-3":                               "no number and no range",
		"1,,2":                                "no number and no range",
		"1;2":                                 "no number and no range",
		"+1":                                  "no number and no range",
		"1-1000000000001":                     "goes above",
		"9999999999999999999":                 "no number and no range",
		strings.Repeat("1,", maxRanges) + "1": "more than 100000 ranges",
	} {
		_, err := ParseNumbers(text)
		var bad *TextError
		if !errors.As(err, &bad) || !strings.Contains(bad.Problem, want) {
			t.Errorf("%.40q: %v, want it to say %q", text, err, want)
		}
	}
	if _, err := NumbersOf(Range{5, 4}); err == nil {
		t.Error("a reversed range is taken")
	}
}

// drawNumbers draws a set and its slow twin: a flag for each number up to 60.
func drawNumbers(t *rapid.T, label string) (Numbers, [61]bool) {
	var slow [61]bool
	var ranges []Range
	for range rapid.IntRange(0, 8).Draw(t, label) {
		first := rapid.Int64Range(1, 60).Draw(t, "first")
		last := min(60, first+rapid.Int64Range(0, 12).Draw(t, "more"))
		ranges = append(ranges, Range{first, last})
		for k := first; k <= last; k++ {
			slow[k] = true
		}
	}
	n, err := NumbersOf(ranges...)
	if err != nil {
		t.Fatal(err)
	}
	return n, slow
}

func TestNumbersAgreeWithTheirSlowTwin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, slowA := drawNumbers(t, "a")
		b, slowB := drawNumbers(t, "b")
		same := func(name string, n Numbers, in func(k int) bool) {
			var count int64
			for k := range 61 {
				want := k > 0 && in(k)
				if want {
					count++
				}
				if n.Has(int64(k)) != want {
					t.Fatalf("%s of %q and %q is %q: %d", name, a, b, n, k)
				}
			}
			if n.Count() != count || n.Empty() != (count == 0) {
				t.Fatalf("%s of %q and %q is %q: count %d, want %d", name, a, b, n, n.Count(), count)
			}
			wellKept(t, n)
		}
		same("union", a.Union(b), func(k int) bool { return slowA[k] || slowB[k] })
		same("intersection", a.Intersect(b), func(k int) bool { return slowA[k] && slowB[k] })
		same("difference", a.Minus(b), func(k int) bool { return slowA[k] && !slowB[k] })

		if a.Covers(b) != !slices.ContainsFunc(b.ranges, func(r Range) bool { return !a.Intersect(Numbers{[]Range{r}}).Equal(Numbers{[]Range{r}}) }) {
			t.Fatalf("%q covers %q: %v", a, b, a.Covers(b))
		}
		k := rapid.Int64Range(0, 70).Draw(t, "k")
		lowest, rest := a.Take(k)
		wellKept(t, lowest)
		wellKept(t, rest)
		if lowest.Count() != min(k, a.Count()) || !lowest.Union(rest).Equal(a) || !lowest.Intersect(rest).Empty() {
			t.Fatalf("%d of %q: %q and %q", k, a, lowest, rest)
		}
		if !lowest.Empty() && !rest.Empty() && lowest.ranges[len(lowest.ranges)-1].Last >= rest.ranges[0].First {
			t.Fatalf("%d of %q: %q are not the lowest, %q", k, a, lowest, rest)
		}
		if back, err := ParseNumbers(a.String()); err != nil || !back.Equal(a) {
			t.Fatalf("%q comes back as %q, %v", a, back, err)
		}
	})
}

// wellKept checks what the methods rely on: ascending, none reversed, a number missing between two.
func wellKept(t *rapid.T, n Numbers) {
	before := int64(-1)
	for r := range n.Ranges() {
		if r.First < 1 || r.First > r.Last || r.First <= before+1 {
			t.Fatalf("%v is not well kept", n.ranges)
		}
		before = r.Last
	}
}

func FuzzParseNumbers(f *testing.F) {
	for _, s := range []string{"", "1-40, 52", "40-1", "1--2", " 7 ", "1-1000000000000", "9223372036854775807", "0", "1,2,3,5", "１"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		n, err := ParseNumbers(text)
		if err != nil {
			var bad *TextError
			if !errors.As(err, &bad) || bad.Problem == "" {
				t.Fatalf("%q: %v", text, err)
			}
			return
		}
		written := n.String()
		back, err := ParseNumbers(written)
		if err != nil || !back.Equal(n) || back.String() != written || back.Count() != n.Count() {
			t.Fatalf("%q is %q and comes back as %q, %v", text, written, back, err)
		}
	})
}

func BenchmarkNumbers(b *testing.B) {
	var odd, even []Range
	for k := range int64(1000) {
		odd, even = append(odd, Range{4*k + 1, 4*k + 2}), append(even, Range{4*k + 2, 4*k + 3})
	}
	n, _ := NumbersOf(odd...)
	m, _ := NumbersOf(even...)
	for name, f := range map[string]func() Numbers{
		"union": func() Numbers { return n.Union(m) }, "minus": func() Numbers { return n.Minus(m) }, "intersect": func() Numbers { return n.Intersect(m) },
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				f()
			}
		})
	}
}
