package invoice

import (
	"cmp"
	"fmt"
	"slices"
)

// Issued is an invoice that has a number, with the day and the year it is dated.
type Issued struct {
	Number    string
	Day, Year int
}

// Fault is what is wrong with the numbers of a series.
type Fault struct {
	What     FaultKind
	Year     int
	From, To int   // numbers: of a gap the first and the last that are missing, else both the one
	Issued   []int // which of the issued; of a gap the one behind it
}

// FaultKind says what is wrong.
type FaultKind int

const (
	Gap        FaultKind = iota + 1 // numbers that no invoice has
	Double                          // a number that several have
	OutOfOrder                      // a number dated before a lower one
	WrongYear                       // the year in the number is not that of its date
	Foreign                         // not a number of the series
)

var faultNames = [...]string{Gap: "gap", Double: "double", OutOfOrder: "out of date order", WrongYear: "wrong year", Foreign: "not of the series"}

func (k FaultKind) String() string {
	if k < Gap || k > Foreign {
		return "unknown"
	}
	return faultNames[k]
}

// numbered is one number that could be read.
type numbered struct{ year, n, at int }

// read reads the numbers, sorted by year and number; those that cannot be are faults.
func (s Series) read(issued []Issued) ([]numbered, []Fault) {
	var all []numbered
	var faults []Fault
	for i, v := range issued {
		year, n, err := s.Parse(v.Number)
		if err != nil {
			faults = append(faults, Fault{What: Foreign, Year: v.Year, Issued: []int{i}})
			continue
		}
		if s.Yearly && year != v.Year {
			faults = append(faults, Fault{WrongYear, year, n, n, []int{i}})
		}
		all = append(all, numbered{year, n, i})
	}
	slices.SortStableFunc(all, func(a, b numbered) int { return cmp.Or(cmp.Compare(a.year, b.year), cmp.Compare(a.n, b.n)) })
	return all, faults
}

// Check finds what is wrong with the numbers used so far: those that are not of the series or of another year first, then year by year.
func (s Series) Check(issued []Issued) []Fault {
	all, faults := s.read(issued)
	var before numbered
	latest := -1 // of the year's invoices so far, the one with the latest day
	for i := 0; i < len(all); {
		n := i + 1
		for n < len(all) && all[n].year == all[i].year && all[n].n == all[i].n {
			n++
		}
		if i == 0 || all[i].year != before.year {
			before, latest = numbered{year: all[i].year}, -1
		}
		if first := before.n + 1; all[i].n > first {
			faults = append(faults, Fault{Gap, all[i].year, first, all[i].n - 1, []int{all[i].at}})
		}
		var same []int
		for _, v := range all[i:n] {
			same = append(same, v.at)
		}
		if len(same) > 1 {
			faults = append(faults, Fault{Double, all[i].year, all[i].n, all[i].n, same})
		}
		for _, at := range same {
			if latest >= 0 && issued[at].Day < issued[latest].Day {
				faults = append(faults, Fault{OutOfOrder, all[i].year, all[i].n, all[i].n, []int{at, latest}})
			}
		}
		for _, at := range same {
			if latest < 0 || issued[at].Day > issued[latest].Day {
				latest = at
			}
		}
		before, i = all[i], n
	}
	return faults
}

// Next is the number of the next invoice, dated on a day of a year: one more than the highest of the series, or of the year. It is an
// error if that would be out of date order. Gaps are not filled: Check finds them. Errors are *SeriesError.
func (s Series) Next(issued []Issued, day, year int) (string, error) {
	if year < 0 || year > 9999 {
		return "", &SeriesError{s.String(), fmt.Sprintf("there is no number for the year %d", year), "give a year from 0 to 9999"}
	}
	all, _ := s.read(issued)
	n := 0
	for _, v := range all {
		if s.Yearly && v.year != year {
			continue
		}
		n = max(n, v.n)
		if issued[v.at].Day > day {
			return "", &SeriesError{issued[v.at].Number, "it is dated after the day of the next one", "date the next one on its day or later"}
		}
	}
	if n == 1<<31-1 {
		return "", &SeriesError{s.Format(year, n), "it is the highest there is", "begin another series"}
	}
	return s.Format(year, n+1), nil
}
