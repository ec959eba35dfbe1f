package orders

import (
	"slices"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// noon of the first day of a story: 2026-12-01 12:00 UTC.
const noon record.Instant = 1_796_126_400_000

// story is entries one after another, a minute apart.
type story struct {
	t       testing.TB
	entries []record.Entry
}

// told is a story of some bodies.
func tell(t testing.TB, bodies ...record.Body) *story {
	t.Helper()
	s := &story{t: t}
	for _, b := range bodies {
		s.add(b)
	}
	return s
}

func (s *story) add(b record.Body) record.Entry {
	s.t.Helper()
	n := len(s.entries) + 1
	e, err := record.Say(record.ID{byte(n >> 8), byte(n), 1}, noon+record.Instant(n)*60_000, "ada", "tablet", b)
	if err != nil {
		s.t.Fatal(err)
	}
	e.Seq = uint64(n)
	s.entries = append(s.entries, e)
	return e
}

func (s *story) fold() (*State, finding.List) { return Of(slices.Values(s.entries)) }

// codes are the codes of findings.
func codes(found finding.List) []string {
	var all []string
	for _, f := range found {
		all = append(all, f.Code)
	}
	return all
}

func nos(text string) record.Numbers {
	n, err := record.ParseNumbers(text)
	if err != nil {
		panic(err)
	}
	return n
}

// lotOf is packs numbered 1 to n, in one place.
func lotOf(lot record.Lot, pack string, n int64, best record.Day, place record.Place) record.Packed {
	numbers, err := record.NumbersOf(record.Range{First: 1, Last: n})
	if err != nil {
		panic(err)
	}
	return record.Packed{Run: "run", Pack: pack, Lot: lot, Numbers: numbers, Label: 650 * unit.Gram, Mass: unit.Mass(n) * 650 * unit.Gram, From: []record.Part{{Lot: "M", Mass: unit.Mass(n) * 650 * unit.Gram}}, BestBefore: best, Place: place}
}

func order(id, customer string, due record.Day, lines ...record.OrderLine) record.Ordered {
	return record.Ordered{Order: id, Customer: customer, Lines: lines, Due: due, Way: record.Deliver}
}

func line(pack string, n int64) record.OrderLine { return record.OrderLine{Pack: pack, Count: n} }

// the reads order of a state, which must be there.
func the(t testing.TB, s *State, id string) Order {
	t.Helper()
	o, ok := s.Order(id, "2026-12-01")
	if !ok {
		t.Fatalf("there is no order %s", id)
	}
	return o
}
