package coldwatch_test

import (
	"math"
	"testing"

	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/record"
)

// The worked example of time-temperature tolerance in full: 30 days at -18 °C, 2 at -10 °C and half a day at -6 °C of a food that keeps 90 days at
// -18 °C with Q10 = 3 use 0.33333 + 0.05352 + 0.02076 = 0.40761 of its life.
func TestStorageTakesItsShare(t *testing.T) {
	days := func(from, until, c float64) coldwatch.Warmth {
		return coldwatch.Warmth{Span: coldwatch.Span{From: at(24 * from), Until: at(24 * until)}, TempC: c}
	}
	read := []coldwatch.Warmth{days(0, 30, -18), days(30, 32, -10), days(32, 32.5, -6)}
	state := told(t, say{0, packed(t, "P", "1-9", "chest/basket")}, say{24 * 10, record.Moved{Lot: "P", Numbers: nos(t, "1-2"), To: "shed"}}, say{24 * 20, record.HandedOver{Customer: "inn", Lot: "P", Numbers: nos(t, "3")}})
	got, err := coldwatch.SpentBy(state.Lot("P"), at(24*33), coldwatch.Life{Days: 90}, func(p record.Place, _ coldwatch.Span) ([]coldwatch.Warmth, bool, error) {
		return read, p == "chest/basket", nil
	})
	if err != nil || len(got) != 3 {
		t.Fatal(got, err)
	}
	for i, want := range []struct {
		numbers             string
		share               float64
		read, unread, other float64 // days
	}{{"4-9", 0.40761, 32.5, 0.5, 0}, {"1-2", 10.0 / 90, 10, 0, 23}, {"3", 20.0 / 90, 20, 0, 0}} {
		g := got[i]
		if g.Numbers.String() != want.numbers || math.Abs(g.Used.Share-want.share) > 2e-5 || g.ReadMs != int64(want.read*day) || g.UnreadMs != int64(want.unread*day) || g.ElsewhereMs != int64(want.other*day) {
			t.Errorf("%+v, want %+v", g, want)
		}
	}
}

func TestWhatIsKnownOfAPlace(t *testing.T) {
	in := coldwatch.Span{From: at(0), Until: at(20)}
	got := chest().Known(append(hourly(0, -18, -18, -10, -18), hourly(12, -18, -18)...), in)
	var known, warm int64
	for _, x := range got {
		known += x.Ms()
		if x.TempC == -10 {
			warm += x.Ms()
		}
	}
	if known != 4*hour || warm != 2*hour {
		t.Errorf("%d ms are known and %d of them at -10 °C: %+v", known, warm, got)
	}
}
