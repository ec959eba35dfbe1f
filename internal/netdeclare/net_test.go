package netdeclare_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/netdeclare"
	"kettlefrost/internal/unit"
)

// The examples of 21 CFR 101.105(m), 2015 (read): 1 1/2 lb and 3/4 lb, and a random pack of 3/4 lb; the joint form of both systems and what 680 g may
// claim are derived from the rules.
func TestStatements(t *testing.T) {
	for _, c := range []struct {
		net   unit.Mass
		style netdeclare.Style
		want  string
		or    []string
	}{
		{24 * unit.Ounce, netdeclare.Style{NoMetric: true}, "Net Wt 24 oz (1 lb 8 oz)", []string{"Net Wt 24 oz (1 1/2 lb)", "Net Wt 24 oz (1.5 lb)"}},
		{12 * unit.Ounce, netdeclare.Style{NoMetric: true}, "Net Wt 12 oz", nil},
		{12 * unit.Ounce, netdeclare.Style{Random: true}, "Net Wt .75 lb", nil},
		{24 * unit.Ounce, netdeclare.Style{}, "Net Wt 24 oz (1 lb 8 oz) 680 g", []string{"Net Wt 24 oz (1 1/2 lb) 680 g", "Net Wt 24 oz (1.5 lb) 680 g"}},
		{680 * unit.Gram, netdeclare.Style{}, "Net Wt 23.98 oz (1 lb 7.98 oz) 680 g", nil},
		{680 * unit.Gram, netdeclare.Style{Parts: 8}, "Net Wt 23 7/8 oz (1 lb 7 7/8 oz) 680 g", nil},
		{unit.Pound, netdeclare.Style{}, "Net Wt 16 oz (1 lb) 453 g", nil},
		{15 * unit.Ounce, netdeclare.Style{}, "Net Wt 15 oz (425 g)", nil},
		{63 * unit.Ounce, netdeclare.Style{}, "Net Wt 63 oz (3 lb 15 oz) 1.78 kg", []string{"Net Wt 63 oz (3 15/16 lb) 1.78 kg"}},
		{4 * unit.Pound, netdeclare.Style{}, "Net Wt 4 lb (1.81 kg)", nil},
		{84 * unit.Ounce, netdeclare.Style{}, "Net Wt 5 lb 4 oz (2.38 kg)", []string{"Net Wt 5 1/4 lb (2.38 kg)", "Net Wt 5.25 lb (2.38 kg)"}},
		{unit.Ounce / 2, netdeclare.Style{Parts: 2}, "Net Wt 1/2 oz (14 g)", nil},
		{15 * unit.Ounce / 2, netdeclare.Style{}, "Net Wt 7.5 oz (212 g)", nil}, // no whole number of nanograms
		{500 * unit.Gram, netdeclare.Style{Random: true}, "Net Wt 1.1 lb", nil}, // 1.1023
	} {
		s, err := netdeclare.US(c.net, c.style)
		if err != nil || s.Text != c.want || !slices.Equal(s.Or, c.or) {
			t.Errorf("%v: %q, or %q (%v), want %q, or %q", c.net, s.Text, s.Or, err, c.want, c.or)
		}
		if s.Declared > c.net || s.Declared+s.Unsaid != c.net {
			t.Errorf("%v: claims %v and leaves %v", c.net, s.Declared, s.Unsaid)
		}
	}
}

// 24 oz are 680.388555 g, so the average must reach that and not 680 g (derived from 1 oz = 28.349523125 g).
func TestTheLargerFigureIsEnforced(t *testing.T) {
	s, err := netdeclare.US(24*unit.Ounce, netdeclare.Style{})
	if err != nil || s.Declared != 680_388_555_000 || s.Unsaid != 0 {
		t.Errorf("%+v (%v)", s, err)
	}
	if s, err = netdeclare.US(680*unit.Gram, netdeclare.Style{}); err != nil || s.Declared != 680*unit.Gram { // 23.98 oz are 679.82 g
		t.Errorf("%+v (%v)", s, err)
	}
}

func TestNoStatement(t *testing.T) {
	for name, of := range map[string]func() error{
		"nothing":    func() error { _, err := netdeclare.US(0, netdeclare.Style{}); return err },
		"sevenths":   func() error { _, err := netdeclare.US(unit.Pound, netdeclare.Style{Parts: 7}); return err },
		"dust":       func() error { _, err := netdeclare.US(unit.Milligram, netdeclare.Style{}); return err },
		"a dust lb":  func() error { _, err := netdeclare.US(unit.Gram, netdeclare.Style{Random: true}); return err },
		"a shipload": func() error { _, err := netdeclare.US(1001*unit.Pound, netdeclare.Style{}); return err },
		"no panel":   func() error { _, err := netdeclare.USHeight(0, false); return err },
		"eu":         func() error { _, err := netdeclare.EU(0, 1, false); return err },
		"eu packs":   func() error { _, err := netdeclare.EU(unit.Kilogram, 0, false); return err },
		"eu height":  func() error { _, err := netdeclare.EUHeight(0); return err },
	} {
		if wrong := (*netdeclare.InputError)(nil); !errors.As(of(), &wrong) || wrong.Fix == "" {
			t.Errorf("%s: %v", name, of())
		}
	}
}

// 21 CFR 101.105(i), 2015 (read).
func TestHeightByPanel(t *testing.T) {
	for sqIn, want := range map[float64]unit.Length{1: unit.Inch / 16, 5: unit.Inch / 16, 5.01: unit.Inch / 8, 25: unit.Inch / 8, 25.01: 3 * unit.Inch / 16, 100: 3 * unit.Inch / 16,
		100.01: unit.Inch / 4, 400: unit.Inch / 4, 400.01: unit.Inch / 2} {
		h, err := netdeclare.USHeight(sqIn, false)
		if err != nil || h.Least != want || h.Fraction != want/2 {
			t.Errorf("%g sq in: %+v (%v), want %v", sqIn, h, err, want)
		}
		if m, _ := netdeclare.USHeight(sqIn, true); m.Least != want+unit.Inch/16 {
			t.Errorf("%g sq in, moulded: %v", sqIn, m.Least)
		}
	}
}

// 21 CFR 101.1 (read), areas by hand.
func TestPanelArea(t *testing.T) {
	if got := netdeclare.FlatSqIn(5*unit.Inch, 5*unit.Inch); got != 25 {
		t.Errorf("a flat side of 5 by 5 in: %g", got)
	}
	if got := netdeclare.CylinderSqIn(4*unit.Inch, 10*unit.Inch); got != 16 {
		t.Errorf("a tub 4 in high and 10 in round: %g", got)
	}
	if got := netdeclare.OtherSqIn(62.5); got != 25 {
		t.Errorf("40 %% of 62.5 sq in: %g", got)
	}
}

// Directive 76/211/EEC, annex I, 3.1, from memory.
func TestEU(t *testing.T) {
	for g, mm := range map[unit.Mass]unit.Length{50: 2, 51: 3, 200: 3, 201: 4, 1000: 4, 1001: 6} {
		if h, err := netdeclare.EUHeight(g * unit.Gram); err != nil || h.Least != mm*unit.Millimetre || h.Confirm == "" {
			t.Errorf("%d g: %+v (%v)", g, h, err)
		}
	}
	for _, c := range []struct {
		net   unit.Mass
		packs int
		e     bool
		want  string
	}{{680 * unit.Gram, 1, true, "680 g ℮"}, {1500 * unit.Gram, 1, false, "1.5 kg"}, {400 * unit.Gram, 6, false, "6 × 400 g"}, {24 * unit.Ounce, 1, false, "680 g"}} {
		if s, err := netdeclare.EU(c.net, c.packs, c.e); err != nil || s.Text != c.want {
			t.Errorf("%q (%v), want %q", s.Text, err, c.want)
		}
	}
}

// A pouch of 9 by 6 in (54 sq in): type of 3/16 in, its top at most 2.7 in above the base.
func placed() netdeclare.Placed {
	room := unit.Inch
	return netdeclare.Placed{Text: "Net Wt 24 oz (1 lb 8 oz) 680 g", PanelHeight: 9 * unit.Inch, PanelSqIn: 54, Top: 27 * unit.Inch / 10, Letter: 3 * unit.Inch / 16, Wide: unit.Inch / 10,
		Parallel: true, Above: room, Below: room, Left: room, Right: room}
}

func TestPlacement(t *testing.T) {
	for _, c := range []struct {
		name string
		with func(*netdeclare.Placed)
		want string
	}{
		{"as it should be", func(*netdeclare.Placed) {}, ""},
		{"a nanometre too high", func(p *netdeclare.Placed) { p.Top++ }, "net-too-high"},
		{"too high on a panel of 5 sq in, where it may be", func(p *netdeclare.Placed) { p.Top, p.PanelSqIn = 8*unit.Inch, 5 }, ""},
		{"too small", func(p *netdeclare.Placed) { p.Letter-- }, "net-type-small"},
		{"a fraction too small", func(p *netdeclare.Placed) { p.Fraction = 3*unit.Inch/32 - 1 }, "net-fraction-small"},
		{"too narrow", func(p *netdeclare.Placed) { p.Wide = unit.Inch / 17 }, "net-type-narrow"},
		{"slanted", func(p *netdeclare.Placed) { p.Parallel = false }, "net-slanted"},
		{"crowded above", func(p *netdeclare.Placed) { p.Above = 3*unit.Inch/16 - 1 }, "net-crowded"},
		{"crowded on the left", func(p *netdeclare.Placed) { p.Left = unit.Inch/5 - 1 }, "net-crowded"},
		{"moulded", func(p *netdeclare.Placed) { p.Moulded = true }, "net-type-small"},
		{"without net", func(p *netdeclare.Placed) { p.Text = "24 oz" }, "net-words"},
		{"a jumbo pound", func(p *netdeclare.Placed) { p.Text = "Net Wt 1 jumbo lb" }, "net-puffed"},
	} {
		p := placed()
		c.with(&p)
		found, err := netdeclare.Check(p)
		codes := ""
		for _, f := range found {
			codes += f.Code
			if f.Source == "" || f.Fix == "" || f.Severity != finding.Stop {
				t.Errorf("%s: %+v", c.name, f)
			}
		}
		if err != nil || codes != c.want {
			t.Errorf("%s: %q (%v), want %q", c.name, codes, err, c.want)
		}
	}
	if found := netdeclare.CheckWords("Net Wt 24 oz minimum"); len(found) != 1 || found[0].Severity != finding.Caution {
		t.Errorf("what is from memory stops nobody: %v", found)
	}
	if _, err := netdeclare.Check(netdeclare.Placed{PanelSqIn: 4}); err == nil {
		t.Error("a panel without a size")
	}
}

// Whatever is in a pack, the statement never says more, and never much less: at most a hundredth of an ounce or a gram, or 10 g from a kilogram.
func TestNeverOverstates(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		net := unit.Mass(rapid.Int64Range(int64(unit.Ounce), int64(20*unit.Kilogram)).Draw(t, "net"))
		style := netdeclare.Style{Parts: rapid.SampledFrom([]int{0, 2, 4, 8, 16, 32}).Draw(t, "parts"), NoMetric: rapid.Bool().Draw(t, "retail")}
		s, err := netdeclare.US(net, style)
		if err != nil {
			t.Fatal(err)
		}
		least := unit.Ounce / 100
		if style.Parts > 0 {
			least = unit.Ounce / unit.Mass(style.Parts)
		}
		if s.Declared > net || s.Unsaid > least+1 || !strings.HasPrefix(s.Text, "Net Wt ") || len(netdeclare.CheckWords(s.Text)) > 0 {
			t.Errorf("%v: %q leaves %v unsaid", net, s.Text, s.Unsaid)
		}
	})
}
