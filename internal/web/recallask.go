package web

import (
	"errors"
	"net/url"
	"slices"
	"time"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// The keys of a question which lots are meant. They stand in addresses, so that an answer can be opened again.
const (
	codeKey        = "lot"
	supplierKey    = "supplier"
	supplierLotKey = "supplier-lot"
	whatKey        = "what"
	madeInKey      = "in-run"
	sortKey        = "sort"
	fromKey        = "from"
	untilKey       = "until"
	drillKey       = "drill"
)

var askKeys = []string{codeKey, supplierKey, supplierLotKey, whatKey, madeInKey, sortKey, fromKey, untilKey}

var sortOptions = []option{{Value: "", Says: "everything"}, {Value: "received", Says: "what was received"}, {Value: "made", Says: "what was made"}, {Value: "packed", Says: "what was packed"}}

var sortsAsked = map[string]lots.Sort{"received": lots.Goods, "made": lots.Batch, "packed": lots.Packs}

// lotsAsked is which lots a query asks for, and the fields that ask, each with what was typed and what is wrong with it.
type lotsAsked struct {
	lots.Ask
	fields []field
	wrong  bool
}

// askGroup is fields that belong together.
type askGroup struct {
	Title  string
	Fields []field
}

// groups are the fields as a form shows them.
func (a lotsAsked) groups() []askGroup {
	return []askGroup{{"What you have in your hands", a.fields[:1]}, {"What a supplier says", a.fields[1:3]}, {"All of a kind, a run or some days", a.fields[3:]}}
}

// askLots reads a question which lots are meant. Days are those of the kitchen, the last one included.
func askLots(query url.Values, here *time.Location) lotsAsked {
	a := lotsAsked{fields: []field{
		{Key: codeKey, Label: "Tub, bag or pack", Hint: "As it stands on it: R-1126-2, or P-1201-3#17 for pack 17. Several with commas."},
		{Key: supplierKey, Label: "Supplier", Hint: "Part of the name will do."},
		{Key: supplierLotKey, Label: "Their lot number", Hint: "Case, spaces and strokes do not matter."},
		{Key: whatKey, Label: "Ingredient, dish or pack", Hint: "Part of the name will do."},
		{Key: madeInKey, Label: "Run", Hint: "All that was made and packed in it."},
		{Key: sortKey, Label: "Only", Hint: "What came into the house, or into being.", Options: slices.Clone(sortOptions)},
		{Key: fromKey, Label: "From", Hint: "The first day.", Date: true},
		{Key: untilKey, Label: "Until", Hint: "The last day.", Date: true},
	}}
	typed := map[string]string{}
	for i := range a.fields {
		f := &a.fields[i]
		f.Value = tidy(query.Get(f.Key))
		typed[f.Key] = f.Value
		for k := range f.Options {
			f.Options[k].Here = f.Options[k].Value == f.Value
		}
	}
	if code := typed[codeKey]; code != "" {
		a.Codes = []string{code}
	}
	a.Supplier, a.SupplierLot, a.What, a.Run, a.Sort = typed[supplierKey], typed[supplierLotKey], typed[whatKey], typed[madeInKey], sortsAsked[typed[sortKey]]
	a.From = a.day(fromKey, here, 0)
	a.Before = a.day(untilKey, here, 1)
	if a.From != 0 && a.Before != 0 && a.From >= a.Before {
		a.problem(untilKey, "The last day is before the first.")
	}
	return a
}

// day is the beginning of a day that was typed, or of one so many days later; 0 when none was.
func (a *lotsAsked) day(key string, here *time.Location, later int) record.Instant {
	i := slices.IndexFunc(a.fields, func(f field) bool { return f.Key == key })
	if a.fields[i].Value == "" {
		return 0
	}
	t, err := time.ParseInLocation(time.DateOnly, a.fields[i].Value, here)
	if err != nil {
		a.problem(key, "This is no day: write it as 2026-12-01.")
		return 0
	}
	return record.Instant(t.AddDate(0, 0, later).UnixMilli())
}

func (a *lotsAsked) problem(key, text string) {
	a.wrong = true
	for i := range a.fields {
		if a.fields[i].Key == key {
			a.fields[i].Problem = text
		}
	}
}

// words is what was asked, with the days as they were typed.
func (a lotsAsked) words() string {
	text := a.Words()
	if a.From == 0 && a.Before == 0 {
		return text
	}
	for _, f := range a.fields {
		if f.Value != "" && (f.Key == fromKey || f.Key == untilKey) {
			text += ", " + f.Key + " " + f.Value
		}
	}
	return text
}

// askOnly is what of a query asks which lots are meant.
func askOnly(query url.Values) url.Values {
	q := url.Values{}
	for _, key := range askKeys {
		if v := query.Get(key); v != "" {
			q.Set(key, v)
		}
	}
	return q
}

// unknownLot says whether an error is that nobody named a lot.
func unknownLot(err error) (record.Lot, bool) {
	unknown := (*lots.UnknownError)(nil)
	if errors.As(err, &unknown) {
		return unknown.Lot, true
	}
	return "", false
}

// misread says whether an error is that a code comes near to that of a lot or a pack, and is none.
func misread(err error) bool {
	wrong := (*lots.CodeError)(nil)
	return errors.As(err, &wrong)
}

// recallTime is a time as it is read in the kitchen.
func (s *server) recallTime(at record.Instant) string {
	if at == 0 {
		return ""
	}
	return time.UnixMilli(int64(at)).In(s.house.Now().Location()).Format("Mon 2 Jan 2006 15:04")
}

// recallDay is the day of a time in the kitchen.
func (s *server) recallDay(at record.Instant) string {
	return time.UnixMilli(int64(at)).In(s.house.Now().Location()).Format(time.DateOnly)
}

func (s *server) nowMs() record.Instant { return record.Instant(s.house.Now().UnixMilli()) }
