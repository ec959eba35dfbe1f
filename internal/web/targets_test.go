package web

import (
	"net/url"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/roster"
	"kettlefrost/internal/unit"
)

func TestRetarget(t *testing.T) {
	book := kitchen.Book{
		Packs:       map[kitchen.PackID]kitchen.Pack{"pie": {Name: "Pie filling"}},
		Ingredients: map[kitchen.IngredientID]kitchen.Ingredient{"leek": {Name: "leeks"}},
	}
	run := kitchen.Request{Finish: 18 * 60, Reserve: 3 * unit.PerCent, Want: []kitchen.Want{
		{Pack: "pie", Count: 40},
		{Dish: "soup", Use: &kitchen.UseUp{Of: "leek", Amount: unit.Amount{Kind: unit.AmountMass, Mass: 20 * unit.Pound}}},
	}}
	for _, c := range []struct {
		key, text string
		problem   string // part of it; "" when the text can be read
		count     int
		mass      unit.Mass
		finish    unit.Clock
		reserve   unit.Share
	}{
		{key: "count.pie", text: "120", count: 120},
		{key: "count.pie", text: " 1,200 packs ", count: 1200},
		{key: "count.pie", text: "1 Pack", count: 1},
		{key: "count.pie", text: "0", problem: "1 or more"},
		{key: "count.pie", text: "-4", problem: "1 or more"},
		{key: "count.pie", text: "", problem: "Write a number"},
		{key: "count.pie", text: "12.5", problem: "whole number"},
		{key: "count.pie", text: "9999999", problem: "more than this program plans"},
		{key: "count.pie", text: "99999999999999999999999", problem: "whole number"},
		{key: "use.leek", text: "9 kg", mass: 9 * unit.Kilogram},
		{key: "use.leek", text: "20 LB 4 oz", mass: 20*unit.Pound + 4*unit.Ounce},
		{key: "use.leek", text: "0 kg", problem: "Nothing to use up"},
		{key: "use.leek", text: "some", problem: "number"},
		{key: "finish", text: "16:15", finish: 16*60 + 15},
		{key: "finish", text: " ", finish: 0},
		{key: "finish", text: "half past four", problem: "24-hour clock"},
		{key: "reserve", text: "5", reserve: 5 * unit.PerCent},
		{key: "reserve", text: "2.5 %", reserve: 25 * unit.PerCent / 10},
		{key: "reserve", text: "", reserve: 0},
		{key: "reserve", text: "300 %", problem: "twice"},
		{key: "reserve", text: "much", problem: "number"},
	} {
		got, fields := retarget(book, run, url.Values{c.key: {c.text}})
		var at field
		for _, f := range fields {
			if f.Key == c.key {
				at = f
			}
		}
		if at.Value != c.text {
			t.Errorf("%s=%q: the field shows %q, want what was typed", c.key, c.text, at.Value)
		}
		if c.problem != "" {
			if !strings.Contains(at.Problem, c.problem) || !wrong(fields) {
				t.Errorf("%s=%q: the problem is %q, want %q in it", c.key, c.text, at.Problem, c.problem)
			}
			continue
		}
		if at.Problem != "" || wrong(fields) {
			t.Errorf("%s=%q: %s", c.key, c.text, at.Problem)
		}
		want := run.Want[0].Count
		if c.key == "count.pie" {
			want = c.count
		}
		if got.Want[0].Count != want {
			t.Errorf("%s=%q: %d packs, want %d", c.key, c.text, got.Want[0].Count, want)
		}
		if c.key == "use.leek" && got.Want[1].Use.Amount.Mass != c.mass {
			t.Errorf("%q: %v, want %v", c.text, got.Want[1].Use.Amount, c.mass)
		}
		if c.key == "finish" && got.Finish != c.finish {
			t.Errorf("%q: finish %v, want %v", c.text, got.Finish, c.finish)
		}
		if c.key == "reserve" && got.Reserve != c.reserve {
			t.Errorf("%q: reserve %v, want %v", c.text, got.Reserve, c.reserve)
		}
	}
	if run.Want[0].Count != 40 || run.Want[1].Use.Amount.Mass != 20*unit.Pound {
		t.Error("the book's own run was changed")
	}
}

// TestAimsAreChosen: each aim once, in the order chosen, and nothing where it is what the book says without a word.
func TestAimsAreChosen(t *testing.T) {
	const finish, waiting, short, change = kitchen.Finish, kitchen.LeastWaiting, kitchen.ShortDay, kitchen.LeastChange
	for _, c := range []struct {
		book   []kitchen.Aim
		query  []string
		want   []kitchen.Aim
		fields int
		wrong  bool
	}{
		{nil, nil, nil, 2, false},
		{nil, []string{"finish", ""}, nil, 2, false},
		{nil, []string{"least-waiting", ""}, []kitchen.Aim{waiting}, 2, false},
		{nil, []string{"least-waiting", "finish"}, []kitchen.Aim{waiting, finish}, 2, false},
		{nil, []string{"short-day", "short-day"}, []kitchen.Aim{short}, 2, false},
		{[]kitchen.Aim{short, waiting, finish}, nil, []kitchen.Aim{short, waiting, finish}, 3, false},
		{[]kitchen.Aim{short}, []string{"finish"}, []kitchen.Aim{finish}, 2, false},
		{[]kitchen.Aim{change, finish}, nil, []kitchen.Aim{change, finish}, 2, false},
		{nil, []string{"<quiet>"}, nil, 2, true},
	} {
		got, fields := retarget(kitchen.Book{}, kitchen.Request{Aims: c.book}, url.Values{"aim": c.query})
		var aims []field
		for _, f := range fields {
			if f.Key == "aim" {
				aims = append(aims, f)
			}
		}
		if !slices.Equal(got.Aims, c.want) || len(aims) != c.fields || wrong(fields) != c.wrong {
			t.Errorf("book %v, query %q: aims %v in %d fields, wrong %t; want %v in %d, %t", c.book, c.query, got.Aims, len(aims), wrong(fields), c.want, c.fields, c.wrong)
		}
	}
}

// Two targets for one pack have a field each, and a query gives to each its own.
func TestRetargetOfTheSamePackTwice(t *testing.T) {
	run := kitchen.Request{Want: []kitchen.Want{{Pack: "pie", Count: 1}, {Pack: "pie", Count: 2}}}
	got, fields := retarget(kitchen.Book{}, run, url.Values{"count.pie": {"5", "7"}})
	if got.Want[0].Count != 5 || got.Want[1].Count != 7 {
		t.Errorf("%d and %d packs, want 5 and 7", got.Want[0].Count, got.Want[1].Count)
	}
	if fields[0].ID() == fields[1].ID() {
		t.Errorf("both fields have the id %s", fields[0].ID())
	}
}

// Whatever is typed, it is either read or named as wrong, and stays in its field.
func FuzzRetarget(f *testing.F) {
	for _, text := range []string{"120", "1,200 packs", "9 kg", "18:30", "3 %", "", "\xff", "-0", "1e9", "½", strings.Repeat("9", 400)} {
		f.Add(text)
	}
	run := kitchen.Request{Want: []kitchen.Want{{Pack: "pie", Count: 1}, {Dish: "soup", Use: &kitchen.UseUp{Of: "leek"}}}}
	f.Fuzz(func(t *testing.T, text string) {
		got, fields := retarget(kitchen.Book{}, run, url.Values{"count.pie": {text}, "use.leek": {text}, "finish": {text}, "reserve": {text}, "aim": {text, text}, "day": {text}})
		for _, field := range fields {
			if field.Value != text {
				t.Errorf("%s holds %q, want %q", field.Key, field.Value, text)
			}
		}
		if n := got.Want[0].Count; fields[0].Problem == "" && (n < 1 || n > mostPacks) {
			t.Errorf("%q was read as %d packs", text, n)
		}
		if len(got.Aims) > 1 || len(got.Aims) == 1 && roster.AimName(got.Aims[0]) == text {
			t.Errorf("%q was read as the aims %v", text, got.Aims)
		}
		if got.Reserve < 0 || fields[3].Problem == "" && got.Reserve > unit.Whole {
			t.Errorf("%q was read as a reserve of %v", text, got.Reserve)
		}
	})
}
