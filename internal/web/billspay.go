package web

import (
	"net/http"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// unitSum adds money up for a page.
type unitSum struct{ m unit.Money }

func (s *unitSum) add(m unit.Money)       { s.m += m }
func (s unitSum) Show(sign string) string { return s.m.Show(sign) }

// dateText is a day in words: 5 December 2026. An invoice is read months later, so that the year is always told.
func dateText(day record.Day) string {
	t, err := time.Parse(time.DateOnly, string(day))
	if err != nil {
		return string(day)
	}
	return t.Format("2 January 2006")
}

// shortDate is a day in a column.
func shortDate(day record.Day) string {
	t, err := time.Parse(time.DateOnly, string(day))
	if err != nil {
		return string(day)
	}
	return t.Format("2 Jan 2006")
}

// read reads a payment, and puts what is wrong beside its field.
func (f *payForm) read(r *http.Request, number string, today record.Day, now time.Time) (record.Paid, time.Time, bool) {
	f.Amount.Value, f.By.Value, f.Day.Value = tidy(r.PostFormValue("amount")), tidy(r.PostFormValue("by")), tidy(r.PostFormValue("day"))
	for i := range f.Way.Options {
		f.Way.Options[i].Here = f.Way.Options[i].Value == r.PostFormValue("way")
	}
	amount, err := unit.ParseMoney(f.Amount.Value)
	switch {
	case err != nil:
		f.Amount.Problem = "Write an amount, such as 40.00."
	case amount <= 0 || amount%unit.Cent != 0:
		f.Amount.Problem = "Write an amount above zero, in whole cents."
	}
	at := now
	if day := record.Day(f.Day.Value); day != "" && day != today {
		t, err := time.ParseInLocation(time.DateOnly, f.Day.Value, now.Location())
		at = t.Add(12 * time.Hour)
		switch {
		case err != nil:
			f.Day.Problem = "Write a day, such as " + string(today) + "."
		case day > today:
			f.Day.Problem = "That day is still to come."
		case t.Year() < 2000:
			f.Day.Problem = "That is too long ago."
		}
	}
	if len(f.By.Value) > 100 {
		f.By.Problem = "Write it shorter."
	}
	if r.PostFormValue("way") == "back" {
		amount = -amount
	}
	return record.Paid{Invoice: number, Amount: amount, By: f.By.Value}, at, f.Amount.Problem+f.Day.Problem+f.By.Problem == ""
}

// atCounterOf reads something of what is billed for a form that was sent; without records, or when they cannot be read, nothing is read.
func (s *server) atCounterOf(r *http.Request, read func(cashDesk)) {
	book, _ := s.house.Book()
	x := cashDesk{book: book, currency: readerOf(book.Kitchen, r).currency}
	_ = s.records.Till(r.Context(), app.Today(s.house.Now()), func(t app.Till) error { // what cannot be read is told by the page that is then shown
		x.Till = t
		read(x)
		return nil
	})
}
