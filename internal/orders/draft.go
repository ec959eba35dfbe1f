package orders

import (
	"cmp"
	"strconv"
	"strings"

	"kettlefrost/internal/record"
)

// Draft is an order as somebody means it, before it is one.
type Draft struct {
	Order    string             `json:"order,omitempty"` // its number; "" for the next that is free
	Customer string             `json:"customer"`
	Lines    []record.OrderLine `json:"lines"`
	Due      record.Day         `json:"due"`
	Way      record.Way         `json:"way,omitempty"` // delivered when left out
	Weeks    int64              `json:"every_weeks,omitempty"`
	Until    record.Day         `json:"until,omitempty"`
	Whole    bool               `json:"whole,omitempty"`
	Note     record.Text        `json:"note,omitempty"`
	// Changes is the number of the order that this takes the place of; "" for a new one. That of a single delivery changes it alone.
	Changes string `json:"changes,omitempty"`
}

// Problem is what is wrong with a draft, or what has to be asked about it.
type Problem struct {
	Field   string `json:"field"`   // "due", "lines[1].pack"
	Problem string `json:"problem"` // to be read after the field: "is no pack of the book"
	Fix     string `json:"fix"`
	Ask     bool   `json:"ask"` // it may be meant: whoever says so may go on
}

func (p Problem) Error() string { return p.Field + " " + p.Problem + ": " + p.Fix }

// Body is the draft as an entry says it, under a number.
func (d Draft) Body(number string) record.Ordered {
	return record.Ordered{Order: number, Customer: d.Customer, Lines: d.Lines, Due: d.Due, Way: cmp.Or(d.Way, record.Deliver), Weeks: d.Weeks, Until: d.Until, Whole: d.Whole, Note: d.Note}
}

// NextNumber is the number that an order gets when nobody gives it one: O- and one more than any had.
func (s *State) NextNumber() string {
	most := 0
	for id := range s.told {
		if text, ours := strings.CutPrefix(id, "O-"); ours {
			if n, err := strconv.Atoi(text); err == nil && n < 1<<40 {
				most = max(most, n)
			}
		}
	}
	return "O-" + strconv.Itoa(most+1)
}

// Entry is what has to be entered for a draft that nothing speaks against: its body, and the entry that it corrects, zero for none. A change
// of a standing order that begins after the terms in force do is new terms from that day on, so that what was delivered stays as it was.
func (s *State) Entry(d Draft, today record.Day) (record.Ordered, record.ID) {
	if d.Changes == "" {
		return d.Body(cmp.Or(d.Order, s.NextNumber())), record.ID{}
	}
	body := d.Body(d.Changes)
	t := s.told[d.Changes]
	switch {
	case t == nil: // a delivery that was as its rule has it
		return body, record.ID{}
	case t.standing() && t.last().Due < today && t.last().Due < d.Due:
		return body, record.ID{}
	}
	return body, t.last().entry
}
