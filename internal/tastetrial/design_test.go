package tastetrial

import (
	"errors"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

// Williams 1949: every treatment at every position as often, and after every other as often.
func TestWilliamsIsBalanced(t *testing.T) {
	for n := 2; n <= mostVariants; n++ {
		rows := Williams(n)
		if want := n + n%2*n; len(rows) != want {
			t.Errorf("%d treatments: %d rows, want %d", n, len(rows), want)
		}
		at, after := map[[2]int]int{}, map[[2]int]int{}
		for _, row := range rows {
			for i, x := range row {
				at[[2]int{i, x}]++
				if i > 0 {
					after[[2]int{row[i-1], x}]++
				}
			}
		}
		if len(at) != n*n || len(after) != n*(n-1) {
			t.Errorf("%d treatments: %d places and %d followings", n, len(at), len(after))
		}
		for k, c := range at {
			if c != len(rows)/n {
				t.Errorf("%d treatments: %v %d times", n, k, c)
			}
		}
		for k, c := range after {
			if c != len(rows)/n {
				t.Errorf("%d treatments: %v after one another %d times", n, k, c)
			}
		}
	}
}

// Whatever the design: every taster gets every variant once a week under the code of that week and no other, and what says that it is
// balanced is.
func TestLayoutAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Design{
			Variants: rapid.IntRange(2, 6).Draw(t, "variants"), Tasters: rapid.IntRange(1, 14).Draw(t, "tasters"), Packs: 1,
			Weeks: rapid.SampledFrom([][]int{{0}, {1, 2}, {0, 4, 8, 13}}).Draw(t, "weeks"), Seed: rapid.Uint64().Draw(t, "seed"),
		}
		l, err := Lay(d)
		if err != nil {
			t.Fatal(err)
		}
		if again, _ := Lay(d); !reflect.DeepEqual(l, again) {
			t.Error("laid out otherwise the second time")
		}
		type who struct{ week, taster, variant int }
		seen, codes, places := map[who]int{}, map[int][2]int{}, map[[2]int]int{}
		for _, s := range l.Servings {
			seen[who{s.Week, s.Taster, s.Variant}]++
			places[[2]int{s.Position, s.Variant}]++
			of := [2]int{s.Week, s.Variant}
			if was, known := codes[s.Code]; known && was != of || s.Code < 123 || s.Code > 987 {
				t.Errorf("code %d stands for %v and %v", s.Code, was, of)
			}
			codes[s.Code] = of
			if week, variant, ok := l.Of(s.Code); !ok || week != s.Week || variant != s.Variant {
				t.Errorf("code %d is of %d in week %d (%v)", s.Code, variant, week, ok)
			}
		}
		if _, _, ok := l.Of(100); ok {
			t.Error("a code of nothing")
		}
		if len(seen) != d.Variants*d.Tasters*len(d.Weeks) || len(l.Servings) != len(seen) || len(codes) != d.Variants*len(d.Weeks) || l.Packs != len(codes) {
			t.Errorf("%d servings of %d, %d codes, %d packs", len(l.Servings), len(seen), len(codes), l.Packs)
		}
		rows := len(l.Servings) / d.Variants
		if l.Balanced != (rows%l.Rows == 0) {
			t.Errorf("%d rows of %d: balanced %v", rows, l.Rows, l.Balanced)
		}
		if l.Balanced {
			for k, n := range places {
				if n != rows/d.Variants {
					t.Errorf("position and variant %v: %d times", k, n)
				}
			}
		}
	})
}

func TestTrianglesAreBalanced(t *testing.T) {
	l, err := LayTriangles(12, 3)
	if err != nil || !l.Balanced || len(l.Servings) != 36 {
		t.Fatalf("%+v (%v)", l, err)
	}
	orders, codes := map[[3]int]int{}, map[int]bool{}
	for i := 0; i < len(l.Servings); i += 3 {
		orders[[3]int{l.Servings[i].Variant, l.Servings[i+1].Variant, l.Servings[i+2].Variant}]++
	}
	for _, s := range l.Servings {
		codes[s.Code] = true
	}
	if len(orders) != 6 || len(codes) != 36 {
		t.Errorf("%d orders, %d codes", len(orders), len(codes))
	}
	for o, n := range orders {
		if n != 2 {
			t.Errorf("%v: %d times", o, n)
		}
	}
}

func TestDesignsRefused(t *testing.T) {
	good := Design{Variants: 3, Tasters: 6, Weeks: []int{0, 4}, Packs: 1}
	for field, change := range map[string]func(*Design){
		"the variants": func(d *Design) { d.Variants = 9 },
		"the tasters":  func(d *Design) { d.Tasters = 0 },
		"the weeks":    func(d *Design) { d.Weeks = []int{4, 4} },
		"the packs":    func(d *Design) { d.Packs = 0 },
	} {
		d := good
		change(&d)
		_, err := Lay(d)
		if wrong := (*InputError)(nil); !errors.As(err, &wrong) || wrong.Field != field || wrong.Fix == "" {
			t.Errorf("%s: %v", field, err)
		}
	}
}
