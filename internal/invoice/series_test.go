package invoice

import (
	"errors"
	"fmt"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

func TestSeries(t *testing.T) {
	for _, x := range []struct {
		pattern string
		year, n int
		want    string
	}{{"R-YYYY-0000", 2026, 42, "R-2026-0042"}, {"R-YYYY-0000", 2026, 12345, "R-2026-12345"}, {"00000", 2026, 7, "00007"}, {"Küche/0", 0, 10, "Küche/10"}, {"YYYY-000", 2026, 1, "2026-001"}} {
		s, err := ParseSeries(x.pattern)
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Format(x.year, x.n); got != x.want || s.String() != x.pattern {
			t.Errorf("%s: got %s of %s, want %s", x.pattern, got, s, x.want)
		}
		year, n, err := s.Parse(x.want)
		if err != nil || n != x.n || s.Yearly && year != x.year {
			t.Errorf("%s reads as %d of %d: %v", x.want, n, year, err)
		}
	}
	for _, bad := range []string{"", "R-", "R1-0000", "R-YYYY0000", "YYYY-YYYY-00", "0000000000", "a very long word before the number 0"} {
		var e *SeriesError
		if s, err := ParseSeries(bad); !errors.As(err, &e) {
			t.Errorf("%q is a series: %+v", bad, s)
		}
	}
	s := Series{Before: "R-", Yearly: true, Digits: 4}
	for _, bad := range []string{"", "R-2026-42", "R-2026-0000", "R-26-0042", "R-2026-00042", "r-2026-0042", "R-2026-0042 ", "R-2026-+042", "R-2026-99999999999"} {
		var e *SeriesError
		if year, n, err := s.Parse(bad); !errors.As(err, &e) {
			t.Errorf("%q reads as %d of %d", bad, n, year)
		}
	}
}

func TestWhatIsWrongWithTheNumbers(t *testing.T) {
	s := Series{Before: "R-", Yearly: true, Digits: 3}
	for _, x := range []struct {
		name   string
		issued []Issued
		want   []Fault
	}{
		{"none", nil, nil},
		{"as it should be, over new year", []Issued{{"R-2025-001", 300, 2025}, {"R-2025-002", 300, 2025}, {"R-2026-001", 401, 2026}}, nil},
		{"one was torn up, and three", []Issued{{"R-2026-001", 1, 2026}, {"R-2026-003", 2, 2026}, {"R-2026-007", 3, 2026}}, []Fault{{Gap, 2026, 2, 2, []int{1}}, {Gap, 2026, 4, 6, []int{2}}}},
		{"the year does not begin at 1", []Issued{{"R-2026-002", 1, 2026}}, []Fault{{Gap, 2026, 1, 1, []int{0}}}},
		{"two devices took the same", []Issued{{"R-2026-001", 1, 2026}, {"R-2026-002", 2, 2026}, {"R-2026-002", 3, 2026}}, []Fault{{Double, 2026, 2, 2, []int{1, 2}}}},
		{"dated back", []Issued{{"R-2026-001", 5, 2026}, {"R-2026-002", 4, 2026}, {"R-2026-003", 5, 2026}}, []Fault{{OutOfOrder, 2026, 2, 2, []int{1, 0}}}},
		{"typed by hand, and last year's", []Issued{{"R-2026-1", 5, 2026}, {"R-2025-001", 4, 2026}}, []Fault{{What: Foreign, Year: 2026, Issued: []int{0}}, {WrongYear, 2025, 1, 1, []int{1}}}},
	} {
		if got := s.Check(x.issued); !reflect.DeepEqual(got, x.want) {
			t.Errorf("%s: %+v, want %+v", x.name, got, x.want)
		}
	}
}

func TestNextNumber(t *testing.T) {
	yearly, plain := Series{Before: "R-", Yearly: true, Digits: 3}, Series{Digits: 5}
	used := []Issued{{"R-2025-009", 300, 2025}, {"R-2026-001", 401, 2026}, {"R-2026-003", 402, 2026}, {"00017", 402, 2026}}
	for _, x := range []struct {
		s         Series
		day, year int
		want      string
	}{{yearly, 402, 2026, "R-2026-004"}, {yearly, 800, 2027, "R-2027-001"}, {yearly, 401, 2026, ""}, {plain, 402, 2026, "00018"}, {plain, 1, 2026, ""}} {
		got, err := x.s.Next(used, x.day, x.year)
		var e *SeriesError
		if got != x.want || (x.want == "") != errors.As(err, &e) {
			t.Errorf("%s on day %d of %d: %q (%v), want %q", x.s, x.day, x.year, got, err, x.want)
		}
	}
	if got, err := (Series{Digits: 1}).Next([]Issued{{Number: "2147483647"}}, 1, 1); err == nil {
		t.Errorf("after the highest comes %s", got)
	}
}

// Numbers that are always the next one have no faults, and taking some away leaves gaps of just those.
func TestNumbersTakenInTurnHaveNoFaults(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Series{Before: "R-", Yearly: rapid.Bool().Draw(t, "yearly"), Digits: 2}
		day, missing := 0, 0
		var issued, kept []Issued
		for range rapid.IntRange(1, 30).Draw(t, "invoices") {
			day += rapid.IntRange(0, 200).Draw(t, "days")
			number, err := s.Next(issued, day, 2020+day/365)
			if err != nil {
				t.Fatal(err)
			}
			issued = append(issued, Issued{number, day, 2020 + day/365})
		}
		if faults := s.Check(issued); len(faults) > 0 {
			t.Errorf("%v: %+v", issued, faults)
		}
		for i, v := range issued {
			last := i == len(issued)-1 || s.Yearly && issued[i+1].Year != v.Year
			if !last && rapid.IntRange(0, 3).Draw(t, "lost") == 0 {
				missing++
			} else {
				kept = append(kept, v)
			}
		}
		for _, f := range s.Check(kept) {
			if f.What != Gap {
				t.Errorf("%+v", f)
			}
			missing -= f.To - f.From + 1
		}
		if missing != 0 {
			t.Errorf("%d missing numbers are not found", missing)
		}
	})
}

func FuzzSeries(f *testing.F) {
	for _, seed := range [][2]string{{"R-YYYY-0000", "R-2026-0042"}, {"00000", "00007"}, {"YYYY-0", "12345-1"}, {"-0", "--1"}} {
		f.Add(seed[0], seed[1])
	}
	f.Fuzz(func(t *testing.T, pattern, number string) {
		s, err := ParseSeries(pattern)
		if err != nil {
			return
		}
		if s.String() != pattern {
			t.Errorf("pattern %q prints as %q", pattern, s)
		}
		year, n, err := s.Parse(number)
		if err == nil && s.Format(year, n) != number {
			t.Errorf("%q of %q reads as %d of %d, which is %q", number, pattern, n, year, s.Format(year, n))
		}
		if text := s.Format(2026, 7); fmt.Sprint(s.Parse(text)) != fmt.Sprint(map[bool]int{true: 2026}[s.Yearly], 7, nil) {
			t.Errorf("%q does not read back", text)
		}
	})
}
