package netdeclare

import (
	"fmt"
	"strconv"
	"strings"

	"kettlefrost/internal/unit"
)

// Fluid measures of the United States: the gallon is 231 cubic inches.
const (
	fluidOunce  unit.Volume = 29_573_529_562_500 // femtolitres, exact
	pint                    = 16 * fluidOunce
	quart                   = 2 * pint
	gallon                  = 4 * quart
	largestPack             = 20 * gallon // a hundred times that still is a number
)

// FluidStatement is a net quantity by fluid measure.
type FluidStatement struct {
	Text     string // "24 fl oz (1 pt 8 fl oz) 709 mL"
	Declared unit.Volume
	Unsaid   unit.Volume
	Source   string
	Confirm  string
}

// USFluid is the statement of food that is liquid: fluid ounces to hundredths, from a pint to a gallon with the largest whole measures in
// brackets, from a gallon on gallons and what is left over. Rounded down. The volume is that at 68 °F; at 40 °F of food sold refrigerated, and
// frozen of food that is sold and eaten so. Errors are *InputError.
func USFluid(net unit.Volume, noMetric bool) (FluidStatement, error) {
	if net < fluidOunce/100 || net > largestPack {
		return FluidStatement{}, &InputError{"the net volume", "is " + net.String(), "give what one pack holds"}
	}
	n := int64(100 * net / fluidOunce) // the ounce is a whole number of femtolitres
	s := FluidStatement{Declared: min(net, unit.Volume(n)*fluidOunce/100), Source: "21 CFR 101.105(b)(2) and (j), 2015 (temperatures read); 15 U.S.C. 1453(a)(2) (read)",
		Confirm: "the order of fluid measures is from memory"}
	ounces := hundredths(n) + " fl oz"
	whole := largest(n)
	metric := ""
	if !noMetric {
		text, declared := millilitres(net)
		metric, s.Declared = text, max(s.Declared, declared)
	}
	switch {
	case n >= 100*int64(gallon/fluidOunce):
		s.Text = bracketed(whole, metric)
	case n >= 100*int64(pint/fluidOunce):
		s.Text = strings.TrimSpace(ounces + " (" + whole + ") " + metric)
	default:
		s.Text = bracketed(ounces, metric)
	}
	s.Unsaid = net - s.Declared
	return s, nil
}

func bracketed(text, behind string) string {
	if behind == "" {
		return text
	}
	return text + " (" + behind + ")"
}

func hundredths(n int64) string { return strconv.FormatFloat(float64(n)/100, 'f', -1, 64) }

// largest says hundredths of fluid ounces in the largest whole measures.
func largest(n int64) string {
	var parts []string
	for _, m := range []struct {
		of   unit.Volume
		name string
	}{{gallon, "gal"}, {quart, "qt"}, {pint, "pt"}} {
		each := 100 * int64(m.of/fluidOunce)
		if whole := n / each; whole > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", whole, m.name))
			n %= each
		}
	}
	if n > 0 {
		parts = append(parts, hundredths(n)+" fl oz")
	}
	return strings.Join(parts, " ")
}

// millilitres are whole ones, from a litre on litres to two places, rounded down, and the volume that they say.
func millilitres(net unit.Volume) (string, unit.Volume) {
	const litre = 1000 * unit.Millilitre
	if net >= litre {
		v := net - net%(10*unit.Millilitre)
		return strconv.FormatFloat(float64(v)/float64(litre), 'f', -1, 64) + " L", v
	}
	v := net - net%unit.Millilitre
	return strconv.FormatInt(int64(v/unit.Millilitre), 10) + " mL", v
}
