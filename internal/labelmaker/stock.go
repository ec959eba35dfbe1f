package labelmaker

import (
	_ "embed"
	"fmt"
	"math"
	"slices"
	"strconv"

	"kettlefrost/internal/sourced"
)

// Stock is what labels are printed on. Lengths are millimetres.
type Stock struct {
	Name           string
	WideMm, HighMm float64 // of one label
	MarginMm       float64 // kept free at every edge: how far off a printer may be
	DPI            int     // dots to the inch of the printer; modules of symbols are whole dots
	Sheet          *Sheet  // nil: a roll, one label a page
	Source         string
	Confirm        string
}

// Sheet is how labels lie on a sheet.
type Sheet struct {
	WideMm, HighMm float64
	Columns, Rows  int
	LeftMm, TopMm  float64 // of the first label
	GapXMm, GapYMm float64
}

const (
	usualMarginMm = 1.5 // common practice
	rollDPI       = 203 // the coarsest that label printers have: what is read there is read on finer ones
	sheetDPI      = 600
	smallestMm    = 10.0
	largestMm     = 500.0
)

// Roll is a free size on a roll, with the usual margin, for a printer of 203 dots to the inch.
func Roll(wideMm, highMm float64) Stock {
	return Stock{Name: fmt.Sprintf("%g x %g mm", wideMm, highMm), WideMm: wideMm, HighMm: highMm, MarginMm: usualMarginMm, DPI: rollDPI, Source: "free size"}
}

// OnSheet is labels of a free size in the middle of a sheet, with the usual margin.
func OnSheet(wideMm, highMm float64, s Sheet) Stock {
	s.LeftMm = (s.WideMm - float64(s.Columns)*wideMm - float64(s.Columns-1)*s.GapXMm) / 2
	s.TopMm = (s.HighMm - float64(s.Rows)*highMm - float64(s.Rows-1)*s.GapYMm) / 2
	return Stock{Name: fmt.Sprintf("%d of %g x %g mm", s.Columns*s.Rows, wideMm, highMm), WideMm: wideMm, HighMm: highMm, MarginMm: usualMarginMm, DPI: sheetDPI, Sheet: &s, Source: "free size"}
}

//go:embed data/stocks.csv
var stocksCSV string

var stocks = sourced.MustRead(stocksCSV, func(row sourced.Row) (Stock, error) {
	x := map[string]float64{}
	for _, name := range []string{"wide_mm", "high_mm", "paper_wide_mm", "paper_high_mm", "columns", "rows", "gap_x_mm", "gap_y_mm"} {
		if row[name] == "" {
			continue
		}
		var err error
		if x[name], err = strconv.ParseFloat(row[name], 64); err != nil {
			return Stock{}, err
		}
	}
	s := Roll(x["wide_mm"], x["high_mm"])
	if row["kind"] == "sheet" {
		s = OnSheet(x["wide_mm"], x["high_mm"], Sheet{WideMm: x["paper_wide_mm"], HighMm: x["paper_high_mm"], Columns: int(x["columns"]), Rows: int(x["rows"]), GapXMm: x["gap_x_mm"], GapYMm: x["gap_y_mm"]})
	}
	s.Name, s.Source, s.Confirm = row["name"], row["source"], row["confirm"]
	return s, s.Check()
})

// Stocks are common sizes.
func Stocks() []Stock { return slices.Clone(stocks) }

// StockError says what a stock cannot be.
type StockError struct{ Stock, Reason, Fix string }

func (e *StockError) Error() string {
	return fmt.Sprintf("labelmaker: labels %q: %s; %s", e.Stock, e.Reason, e.Fix)
}

// Check says what a stock cannot be. The error is a *StockError.
func (s Stock) Check() error {
	bad := func(reason, fix string) error { return &StockError{s.Name, reason, fix} }
	inside := func(x, least, most float64) bool { return x >= least && x <= most } // false for what is no number
	switch {
	case !inside(s.WideMm, smallestMm, largestMm) || !inside(s.HighMm, smallestMm, largestMm):
		return bad(fmt.Sprintf("a label of %g by %g mm", s.WideMm, s.HighMm), fmt.Sprintf("give %g to %g mm", smallestMm, largestMm))
	case !inside(s.MarginMm, 0, min(s.WideMm, s.HighMm)/4):
		return bad(fmt.Sprintf("a margin of %g mm", s.MarginMm), "give 0 to a quarter of the label")
	case s.DPI < 150 || s.DPI > 2400:
		return bad(fmt.Sprintf("a printer of %d dots to the inch", s.DPI), "give 150 to 2400; label printers have 203 or 300")
	case s.Sheet != nil:
		return s.checkSheet(bad)
	}
	return nil
}

func (s Stock) checkSheet(bad func(reason, fix string) error) error {
	p := *s.Sheet
	if p.Columns < 1 || p.Rows < 1 || p.Columns > 100 || p.Rows > 100 {
		return bad(fmt.Sprintf("%d columns of %d", p.Columns, p.Rows), "give at least one of each")
	}
	right := p.LeftMm + float64(p.Columns)*s.WideMm + float64(p.Columns-1)*p.GapXMm
	low := p.TopMm + float64(p.Rows)*s.HighMm + float64(p.Rows-1)*p.GapYMm
	const slack = 0.01
	if !(p.LeftMm >= -slack && p.TopMm >= -slack && p.GapXMm >= 0 && p.GapYMm >= 0 && right <= p.WideMm+slack && low <= p.HighMm+slack && p.WideMm <= 2*largestMm && p.HighMm <= 2*largestMm) {
		return bad(fmt.Sprintf("%d by %d of %g by %g mm take %.1f by %.1f mm of a sheet of %g by %g", p.Columns, p.Rows, s.WideMm, s.HighMm, right, low, p.WideMm, p.HighMm), "correct the sheet, its edges or its gaps")
	}
	return nil
}

// Per is how many labels a page has.
func (s Stock) Per() int {
	if s.Sheet == nil {
		return 1
	}
	return s.Sheet.Columns * s.Sheet.Rows
}

// areaMm2 is that of one label.
func (s Stock) areaMm2() float64 { return s.WideMm * s.HighMm }

// pt is millimetres in points, to a ten-thousandth: sizes in inches come out whole.
func pt(mm float64) float64 { return math.Round(mm*PtPerMm*1e4) / 1e4 }
