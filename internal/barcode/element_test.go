package barcode

import (
	"net/url"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"kettlefrost/internal/unit"
)

// Element strings as published (quoted): <GS> is ASCII 29.
func TestElementStrings(t *testing.T) {
	for _, c := range []struct {
		all                  Elements
		data, says, readable string
	}{
		{all: Elements{{"01", "05060917510011"}, {"10", "628S93R"}, {"17", "241000"}, {"21", "8898847482518646"}},
			data: "010506091751001110628S93R\x1d17241000218898847482518646", readable: "(01)05060917510011(10)628S93R(17)241000(21)8898847482518646"},
		{all: Elements{{"01", "09521234543213"}, {"17", "261231"}, {"10", "ABC123"}}, data: "01095212345432131726123110ABC123", readable: "(01)09521234543213(17)261231(10)ABC123"},
		{all: Elements{{"3103", "000450"}}, data: "3103000450"},
		{all: Elements{{"3922", "1250"}, {"10", "L1"}}, data: "39221250\x1d10L1"},
		{all: Elements{{"10", "L 1"}}, says: `character 2 is ' ', which this identifier may not hold; write "-" or "."`},
		{all: Elements{{"10", "ñ"}}, says: `character 1 is 'ñ'`},
		{all: Elements{{"10", "A#1"}}, says: `'#'`},
		{all: Elements{{"10", ""}}, says: "1 to 20"},
		{all: Elements{{"10", strings.Repeat("9", 21)}}, says: "has 21 characters"},
		{all: Elements{{"17", "261331"}}, says: "no such day"},
		{all: Elements{{"17", "260230"}}, says: "no such day"},
		{all: Elements{{"15", "26-1-1"}}, says: "'-', not a digit"},
		{all: Elements{{"01", "09521234543214"}}, says: "should be 3"},
		{all: Elements{{"01", "9521234543213"}}, says: "it must have 14"},
		{all: Elements{{"3107", "000450"}}, says: "not known here"},
		{all: Elements{{"99", "x"}}, says: "use one of 00, 01"},
		{all: Elements{{"10", "A"}, {"10", "B"}}, says: "twice"},
		{all: Elements{{"3102", "000045"}, {"3103", "000450"}}, says: "twice"},
		{says: "there are none"},
	} {
		data, err := c.all.Data()
		if data != c.data || (c.says == "") != (err == nil) || err != nil && !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v: %q, %v", c.all, data, err)
		}
		if c.readable != "" && c.all.Readable() != c.readable {
			t.Errorf("%v reads %q", c.all, c.all.Readable())
		}
		if c.data == "" {
			continue
		}
		for _, before := range []string{"", "]C1", "\x1d", "]Q3"} {
			if back, err := Scanned(before + data); err != nil || !slices.Equal(back, c.all) {
				t.Errorf("%q read back: %v, %v", data, back, err)
			}
		}
	}
}

func TestOrderedNeedsTheFewestSeparators(t *testing.T) {
	all := Elements{{"10", "A"}, {"21", "B"}, {"01", "09521234543213"}, {"17", "261231"}}
	want := Elements{{"01", "09521234543213"}, {"17", "261231"}, {"10", "A"}, {"21", "B"}}
	if got := all.Ordered(); !slices.Equal(got, want) {
		t.Error(cmp.Diff(want, got))
	}
}

func TestScannedRubbish(t *testing.T) {
	for _, text := range []string{"", "]C1", "hello", "01123", "0109521234543213", "01095212345432130", "10", "17261231x", "31", "01095212345\x1d2131"} {
		got, err := Scanned(text)
		if text == "0109521234543213" {
			if err != nil {
				t.Errorf("%q: %v", text, err)
			}
			continue
		}
		if err == nil {
			t.Errorf("%q is read as %v", text, got)
		}
	}
}

func FuzzScanned(f *testing.F) {
	f.Add("]C101095212345432131726123110ABC123")
	f.Add("10A\x1d21B")
	f.Fuzz(func(t *testing.T, text string) {
		all, err := Scanned(text)
		if err != nil {
			return
		}
		data, err := all.Data()
		if err != nil {
			t.Fatalf("%q reads as %v, which cannot be written: %v", text, all, err)
		}
		again, err := Scanned(data)
		if err != nil || !slices.Equal(again, all) {
			t.Fatalf("%q reads as %v, then as %v, %v", text, all, again, err)
		}
	})
}

// The three examples of the Digital Link standard (quoted), and what must be encoded.
func TestLinks(t *testing.T) {
	gtin := Element{"01", "09521234543213"}
	for _, c := range []struct {
		base string
		all  Elements
		want string
	}{
		{"https://id.gs1.org", Elements{gtin}, "https://id.gs1.org/01/09521234543213"},
		{"https://id.gs1.org", Elements{{"21", "12345"}, gtin, {"10", "ABC123"}}, "https://id.gs1.org/01/09521234543213/10/ABC123/21/12345"},
		{"https://id.gs1.org/", Elements{gtin, {"17", "261231"}, {"10", "ABC123"}}, "https://id.gs1.org/01/09521234543213/10/ABC123?17=261231"},
		{"https://kitchen.example/pack", Elements{gtin, {"10", "A/1?x&y"}, {"15", "261200"}, {"3103", "000450"}}, "https://kitchen.example/pack/01/09521234543213/10/A%2F1%3Fx%26y?15=261200&3103=000450"},
	} {
		got, err := c.all.Link(c.base)
		if err != nil || got != c.want {
			t.Errorf("%v: %s, %v; want %s", c.all, got, err, c.want)
		}
	}
	for _, base := range []string{"", "id.gs1.org", "ftp://x.example", "https://", "https://x.example?y=1", "https://x.example#a", "https://me@x.example", "https://x.example/%zz"} {
		if got, err := (Elements{gtin}).Link(base); err == nil {
			t.Errorf("%q: %s", base, got)
		}
	}
	if got, err := (Elements{{"10", "A"}}).Link("https://x.example"); err == nil {
		t.Errorf("a link without a number: %s", got)
	}
}

// Whatever a link holds, a program that reads addresses finds again.
func TestLinksReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lot := rapid.StringOfN(rapid.RuneFrom([]rune("AZaz09"+textSigns)), 1, 20, -1).Draw(t, "lot")
		link, err := Elements{{"01", "09521234543213"}, {"10", lot}, {"21", lot}, {"30", "12"}}.Link("https://x.example")
		if err != nil {
			t.Fatal(err)
		}
		u, err := url.Parse(link)
		if err != nil {
			t.Fatal(err)
		}
		parts := strings.Split(strings.TrimPrefix(u.EscapedPath(), "/"), "/")
		if len(parts) != 6 {
			t.Fatalf("%s has %d parts", link, len(parts))
		}
		for _, at := range []int{3, 5} {
			if got, err := url.PathUnescape(parts[at]); err != nil || got != lot {
				t.Fatalf("%s: %q, %v", link, got, err)
			}
		}
		if u.Query().Get("30") != "12" {
			t.Fatalf("%s: %v", link, u.Query())
		}
	})
}

func TestWeights(t *testing.T) {
	for _, c := range []struct {
		of       func(unit.Mass, int) (Element, error)
		mass     unit.Mass
		decimals int
		want     Element
	}{
		{NetKilograms, 450 * unit.Gram, 3, Element{"3103", "000450"}}, // 0.450 kg
		{NetKilograms, 450 * unit.Gram, 2, Element{"3102", "000045"}}, // 0.45 kg
		{NetKilograms, 680*unit.Gram + 388*unit.Milligram, 3, Element{"3103", "000680"}},
		{NetKilograms, 999*unit.Gram + 999*unit.Milligram, 0, Element{}}, // rounds down to nothing
		{NetPounds, 24 * unit.Ounce, 2, Element{"3202", "000150"}},
		{NetPounds, unit.Pound - 1, 2, Element{"3202", "000099"}}, // never more than there is
		{NetKilograms, 1000 * unit.Kilogram, 3, Element{}},
		{NetKilograms, 0, 3, Element{}},
		{NetKilograms, unit.Kilogram, 6, Element{}},
	} {
		got, err := c.of(c.mass, c.decimals)
		if got != c.want || (err == nil) != (c.want != Element{}) {
			t.Errorf("%v with %d decimals: %v, %v", c.mass, c.decimals, got, err)
		}
	}
}

// Centuries and the day 00, worked by hand from the rule (General Specifications 7.12).
func TestDates(t *testing.T) {
	for _, c := range []struct {
		value string
		now   int
		want  Date
		last  int
	}{
		{"261231", 2026, Date{2026, 12, 31}, 31},
		{"240200", 2026, Date{2024, 2, 0}, 29},
		{"250200", 2026, Date{2025, 2, 0}, 28},
		{"241000", 2026, Date{2024, 10, 0}, 31},
		{"760101", 2026, Date{2076, 1, 1}, 1},
		{"770101", 2026, Date{1977, 1, 1}, 1},
		{"020101", 2099, Date{2102, 1, 1}, 1},
		{"490430", 2099, Date{2149, 4, 30}, 30},
	} {
		got, err := ReadDate(c.value, c.now)
		if err != nil || got != c.want || got.LastDay().Day != c.last {
			t.Errorf("%s in %d: %v, %v", c.value, c.now, got, err)
		}
		if v, err := c.want.Value(); err != nil || v != c.value {
			t.Errorf("%v writes %q, %v", c.want, v, err)
		}
	}
	for _, bad := range []string{"250229", "251301", "250431", "2501", "25010a"} {
		if got, err := ReadDate(bad, 2026); err == nil {
			t.Errorf("%s is %v", bad, got)
		}
	}
	for _, bad := range []Date{{2025, 2, 29}, {2025, 0, 1}, {2025, 1, 32}, {0, 1, 1}} {
		if v, err := bad.Value(); err == nil {
			t.Errorf("%v is written %s", bad, v)
		}
	}
}

func TestDoubts(t *testing.T) {
	for _, c := range []struct {
		all  Elements
		want int
	}{
		{Elements{{"01", "09521234543213"}, {"3103", "000450"}}, 1},
		{Elements{{"01", "99521234543216"}, {"3103", "000450"}}, 0},
		{Elements{{"02", "09521234543213"}}, 1},
		{Elements{{"02", "09521234543213"}, {"37", "12"}}, 0},
		{Elements{{"10", "A"}, {"3103", "000450"}}, 0},
	} {
		if got := c.all.Doubts(); len(got) != c.want {
			t.Errorf("%v: %v", c.all, got)
		}
	}
}

func TestTheTableOfIdentifiers(t *testing.T) {
	for _, a := range Identifiers() {
		ai := a.AI
		if a.Decimals {
			ai += "3"
		}
		if got, err := Find(ai); err != nil || got != a {
			t.Errorf("%s: %v, %v", ai, got, err)
		}
		if a.Title == "" || a.Holds == "" || a.Least < 1 || a.Most < a.Least {
			t.Errorf("%+v", a)
		}
		// Values of fixed length are those whose first two digits are 00-04, 11-20, 31-36 or 41 (GS1 General Specifications, from memory).
		two := a.AI[:2]
		fixed := two <= "04" || two >= "11" && two <= "20" || two >= "31" && two <= "36" || two == "41"
		if fixed == a.Separated || fixed && a.Least != a.Most {
			t.Errorf("%s: separated %v, %d to %d", a.AI, a.Separated, a.Least, a.Most)
		}
	}
}
