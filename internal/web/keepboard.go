package web

import (
	"errors"
	"fmt"
	"strconv"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
)

// Fields of the form of a filling by which some of its packs are kept for tasting.
const (
	keepCountKey = "keep-count"
	keepOpenKey  = "keep-open"
)

// keepSome are the fields by which some packs of a filling are kept for tasting.
func (f *taskForms) keepSome(pack string) []field {
	open := "4, 8, 13"
	if weeks := f.now.Packs[kitchen.PackID(pack)].BestBefore.Weeks; weeks >= 3 {
		open = fmt.Sprintf("%d, %d, %d", weeks/3, 2*weeks/3, weeks)
	}
	return []field{{Key: keepCountKey, Label: "Kept for tasting", Hint: "how many of them: the last numbers; they are not sold. Empty for none", Number: true},
		{Key: keepOpenKey, Label: "Open those after", Hint: "weeks, or days such as 2027-01-05; only when some are kept", Value: open}}
}

// keeps reads how long packs keep, and asks about a day that is later than the book's.
func (b *boardRead) keeps(k record.Packed) {
	if k.BestBefore == "" {
		b.wrong("best-before", "Write the day that stands on the bags.")
		return
	}
	if weeks := b.book.Packs[kitchen.PackID(k.Pack)].BestBefore.Weeks; weeks > 0 {
		if until := orders.Plus(b.p.Opened.Day, 7*weeks); k.BestBefore > until {
			b.ask("Best before is %s, and by the book it keeps %s, until %s. Is the day right?", k.BestBefore, weeksWord(weeks), until)
		}
	}
}

// keepSome reads how many of the packs are kept for tasting: the last numbers.
func (b *boardRead) keepSome(k record.Packed) {
	text := b.text(keepCountKey)
	if text == "" || text == "0" || k.Numbers.Empty() {
		return
	}
	n, err := strconv.ParseInt(text, 10, 64)
	switch {
	case err != nil || n < 0:
		b.wrong(keepCountKey, "Write how many, such as 3.")
		return
	case n > k.Numbers.Count():
		b.wrong(keepCountKey, fmt.Sprintf("Only %s filled.", times(int(k.Numbers.Count()), "pack was", "packs were")))
		return
	}
	days, err := app.OpeningDays(b.text(keepOpenKey), b.p.Opened.Day, b.p.Opened.Day)
	if why := (*coldstore.Refusal)(nil); errors.As(err, &why) {
		b.wrong(keepOpenKey, sentence(why))
		return
	}
	_, last := k.Numbers.Take(k.Numbers.Count() - n)
	b.also = append(b.also, record.SetAside{Run: k.Run, Pack: k.Pack, Lot: k.Lot, Numbers: last, Open: days})
}
