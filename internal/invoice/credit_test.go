package invoice

import (
	"errors"
	"reflect"
	"strings"
	"testing"
)

// Three packs at 3.33 with 19 %: 9.99 and 1.90 (1.8981). One back is a third of it, 3.33 and 0.63; the next half of the rest, 1.27: 0.64
// (half a cent up); the last what is left, 0.63.
func TestPacksThatComeBackOneByOne(t *testing.T) {
	inv, err := Total(Draft{Rates: []Rate{vat19}, Lines: []Line{{Name: "soup", Count: 3, Each: c(3_33)}}})
	if err != nil {
		t.Fatal(err)
	}
	var credits []Credit
	for i, tax := range []int64{63, 64, 63} {
		note, err := inv.Credit(credits, []Part{{Line: 0, Count: 1}})
		if err != nil {
			t.Fatal(err)
		}
		if note.Net != c(3_33) || note.Tax != c(tax) {
			t.Errorf("pack %d: %s and %s, want 3.33 and %s", i+1, note.Net, note.Tax, c(tax))
		}
		credits = append(credits, note)
	}
	for _, x := range []struct {
		part Part
		want string
	}{
		{Part{Line: 0, Count: 1}, "credit of line 1: 1 packs are not left; 0 packs and 0.00 are left"},
		{Part{Line: 0, Amount: c(1)}, "0.01 is not left"},
		{Part{Line: 1, Count: 1}, "the invoice has no such line"},
		{Part{Line: 0}, "neither a count nor an amount"},
		{Part{Line: 0, Count: 1, Amount: c(1)}, "or both"},
	} {
		_, err := inv.Credit(credits, []Part{x.part})
		var e *CreditError
		if !errors.As(err, &e) || !strings.Contains(err.Error(), x.want) {
			t.Errorf("got %v, want %s", err, x.want)
		}
	}
}

// 119.00 with the tax in it; 11.90 off for late delivery is 10.00 and 1.90.
func TestMoneyOffAfterwards(t *testing.T) {
	inv, err := Total(Draft{Prices: Inclusive, Rates: []Rate{vat19}, Lines: []Line{{Name: "soup", Count: 10, Each: c(11_90)}}})
	if err != nil {
		t.Fatal(err)
	}
	note, err := inv.Credit(nil, []Part{{Line: 0, Amount: c(11_90)}})
	if err != nil {
		t.Fatal(err)
	}
	want := Credit{Lines: []CreditLine{{0, 0, c(10_00), c(1_90), c(11_90)}}, Taxes: []TaxSum{{Net: c(10_00), Tax: c(1_90), Gross: c(11_90)}}, Net: c(10_00), Tax: c(1_90), Gross: c(11_90)}
	if !reflect.DeepEqual(note, want) {
		t.Errorf("got %+v, want %+v", note, want)
	}
}
