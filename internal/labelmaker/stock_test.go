package labelmaker

import (
	"errors"
	"math"
	"testing"
)

func TestStocks(t *testing.T) {
	names := map[string]bool{}
	for _, s := range Stocks() {
		if err := s.Check(); err != nil {
			t.Error(err)
		}
		if names[s.Name] || s.Source == "" || s.Confirm == "" {
			t.Errorf("%+v", s)
		}
		names[s.Name] = true
	}
	// Thirty on a letter sheet: 3/16 in from the left, 1/2 in from above, columns 2 3/4 in apart (common practice of such sheets).
	thirty := stockOf(t, "letter, 30 of 2.625 x 1 in").Sheet
	if math.Abs(thirty.LeftMm-25.4*3/16) > 0.001 || math.Abs(thirty.TopMm-12.7) > 0.001 {
		t.Errorf("%+v", thirty)
	}
	// Twenty-one on A4: 15.15 mm from above (worked by hand: 297 less 7 times 38.1, halved).
	if a4 := stockOf(t, "A4, 21 of 63.5 x 38.1 mm").Sheet; math.Abs(a4.TopMm-15.15) > 0.001 || math.Abs(a4.LeftMm-7.25) > 0.001 {
		t.Errorf("%+v", a4)
	}
}

func TestStocksThatCannotBe(t *testing.T) {
	sheet := func(columns, rows int) Stock {
		return OnSheet(100, 50, Sheet{WideMm: 210, HighMm: 297, Columns: columns, Rows: rows})
	}
	margin, dpi := Roll(50, 25), Roll(50, 25)
	margin.MarginMm, dpi.DPI = 8, 72
	for name, s := range map[string]Stock{"narrow": Roll(5, 50), "long": Roll(50, 900), "no number": Roll(math.NaN(), 50), "endless": Roll(50, math.Inf(1)), "margin": margin, "dots": dpi,
		"too many columns": sheet(3, 2), "too many rows": sheet(2, 6), "none": sheet(0, 1)} {
		var bad *StockError
		if err := s.Check(); !errors.As(err, &bad) || bad.Fix == "" {
			t.Errorf("%s: %v", name, err)
		}
		if l, found := Lay(Content{Name: "soup"}, s, Rules{}); !l.Empty() || len(found) != 1 || found[0].Code != CodeStock {
			t.Errorf("%s: %v", name, found)
		}
	}
}
