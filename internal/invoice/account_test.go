package invoice

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

func TestWhatIsOpenAndForHowLong(t *testing.T) {
	owed := []Owed{
		{Number: "1", Customer: 1, Due: 10, Amount: c(100_00)},
		{Number: "2", Customer: 1, Due: 70, Amount: c(50_00), Credited: c(5_00)},
		{Number: "3", Customer: 2, Due: 100, Amount: c(30_00)}, // due today: not overdue
		{Number: "4", Customer: 2, Due: 69, Amount: c(20_00)},
		{Number: "5", Customer: 3, Due: 70, Amount: c(40_00)}, // 30 days past
	}
	payments := []Payment{
		{Invoice: "5", Customer: 3, Day: 90, Amount: c(15_00)},
		{Invoice: "5", Customer: 3, Day: 101, Amount: c(25_00)}, // tomorrow
		{Customer: 1, Day: 95, Amount: c(110_00)},               // 100.00 for 1, 10.00 for 2
		{Customer: 2, Day: 99, Amount: c(60_00)},                // 20.00 for 4, 30.00 for 3, 10.00 on account
	}
	a, err := OpenOn(100, owed, payments, UsualAges[:]...)
	if err != nil {
		t.Fatal(err)
	}
	var open []unit.Money
	for _, o := range a.Invoices {
		open = append(open, o.Open)
	}
	if want := []unit.Money{0, c(35_00), 0, 0, c(25_00)}; !reflect.DeepEqual(open, want) {
		t.Errorf("open %v, want %v", open, want)
	}
	if want := map[int]unit.Money{2: c(10_00)}; !reflect.DeepEqual(a.OnAccount, want) {
		t.Errorf("on account %v, want %v", a.OnAccount, want)
	}
	if want := []Age{{From: -1, To: 0}, {1, 30, 2, c(60_00)}, {From: 31, To: 60}, {From: 61, To: 90}, {From: 91, To: -1}}; !reflect.DeepEqual(a.Ages, want) {
		t.Errorf("ages %+v, want %+v", a.Ages, want)
	}
	if a, err = OpenOn(100, owed, nil, UsualAges[:]...); err != nil {
		t.Fatal(err)
	}
	if want := []Age{{-1, 0, 1, c(30_00)}, {1, 30, 2, c(85_00)}, {31, 60, 1, c(20_00)}, {61, 90, 1, c(100_00)}, {From: 91, To: -1}}; !reflect.DeepEqual(a.Ages, want) {
		t.Errorf("ages %+v, want %+v", a.Ages, want)
	}
}

func TestAnAccountThatCannotBe(t *testing.T) {
	one := []Owed{{Number: "1", Customer: 1}}
	for _, x := range []struct {
		owed     []Owed
		payments []Payment
		ages     []int
		want     string
	}{
		{append(one, one...), nil, nil, `invoice "1": the number is used twice`},
		{[]Owed{{}}, nil, nil, "or is none"},
		{one, []Payment{{Invoice: "2", Customer: 1}}, nil, `payment 1: there is no invoice "2" of that customer`},
		{one, []Payment{{Invoice: "1", Customer: 2}}, nil, "of that customer"},
		{one, nil, []int{30, 30}, "30 days do not follow 30"},
	} {
		_, err := OpenOn(1, x.owed, x.payments, x.ages...)
		var e *AccountError
		if !errors.As(err, &e) || !strings.Contains(err.Error(), x.want) {
			t.Errorf("got %v, want %s", err, x.want)
		}
	}
}

// What was sent, less what was credited and paid, is open or on account.
func TestAnAccountCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(least, most int, name string) int { return rapid.IntRange(least, most).Draw(t, name) }
		var owed []Owed
		var payments []Payment
		var want unit.Money
		for i := range n(0, 6, "invoices") {
			o := Owed{Number: string(rune('a' + i)), Customer: n(0, 1, "customer"), Due: n(0, 200, "due"), Amount: c(int64(n(-50, 500, "amount"))), Credited: c(int64(n(0, 20, "credited")))}
			owed = append(owed, o)
			want += o.Amount - o.Credited
		}
		for range n(0, 6, "payments") {
			p := Payment{Customer: n(0, 1, "customer"), Day: n(0, 200, "day"), Amount: c(int64(n(-20, 600, "paid")))}
			if len(owed) > 0 && n(0, 1, "named") == 0 {
				o := owed[n(0, len(owed)-1, "invoice")]
				p.Invoice, p.Customer = o.Number, o.Customer
			}
			payments = append(payments, p)
			if p.Day <= 120 {
				want -= p.Amount
			}
		}
		a, err := OpenOn(120, owed, payments, UsualAges[:]...)
		if err != nil {
			t.Fatal(err)
		}
		var ages, open, onAccount unit.Money
		for _, g := range a.Ages {
			ages += g.Open
		}
		for _, o := range a.Invoices {
			open += o.Open
		}
		for _, m := range a.OnAccount {
			onAccount += m
		}
		if ages != a.Open || open != a.Open || open-onAccount != want {
			t.Errorf("ages %s, invoices %s, in all %s, on account %s: want %s", ages, open, a.Open, onAccount, want)
		}
	})
}
