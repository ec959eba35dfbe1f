package formula

import (
	"fmt"
	"strconv"
	"strings"

	"kettlefrost/internal/unit"
)

// Own is a dose of one's own: a share of what its line is a share of, or a mass in all.
type Own struct {
	Share   float64   // 0 to 1
	Mass    unit.Mass // in place of the share
	Assumed string    // what was taken for what was not said
}

// soupKgL is what a litre of soup weighs: 1.036 kg, the middle of 119 soups of USDA SR28.
const soupKgL = 1.036

// OwnError says what is wrong with a dose that was typed.
type OwnError struct{ Text, Reason, Fix string }

// Error is one line.
func (e *OwnError) Error() string { return fmt.Sprintf("%q %s; %s", e.Text, e.Reason, e.Fix) }

const ownFix = "give a percentage (0.25 %), grams in all (22 g), or grams in so much food (2 g/L, 0.5 g per cup, 1 g/lb)"

// ParseOwn reads a dose as people give it: a percentage, a mass in all, or a mass in a measure of the finished food. A bare number is a percentage. A
// measure by volume takes the density of soup, and says so. Errors: *OwnError.
func ParseOwn(text string) (Own, error) {
	text = strings.TrimSpace(text)
	if much, of, each := cutPer(text); each {
		return perMeasure(text, much, of)
	}
	if number, ok := strings.CutSuffix(strings.ReplaceAll(text, "percent", "%"), "%"); ok {
		return percentOf(text, number, "")
	}
	if _, err := strconv.ParseFloat(text, 64); err == nil {
		return percentOf(text, text, "a bare number is taken as a percentage")
	}
	m, err := unit.ParseMass(text)
	if err != nil {
		return Own{}, &OwnError{text, "is neither a percentage nor a mass", ownFix}
	}
	if m <= 0 {
		return Own{}, &OwnError{text, "is nothing", ownFix}
	}
	return Own{Mass: m}, nil
}

func cutPer(text string) (much, of string, ok bool) {
	for _, by := range []string{" per ", "/", " to the ", " to a ", " in a "} {
		if much, of, ok = strings.Cut(text, by); ok {
			return strings.TrimSpace(much), strings.TrimSpace(of), true
		}
	}
	return "", "", false
}

func percentOf(text, number, assumed string) (Own, error) {
	x, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if err != nil || !(x > 0 && x <= 100) {
		return Own{}, &OwnError{text, "is no percentage from 0 to 100", ownFix}
	}
	return Own{Share: x / 100, Assumed: assumed}, nil
}

// perMeasure is so much in a cup, a litre, a pound.
func perMeasure(text, much, of string) (Own, error) {
	m, err := unit.ParseMass(much)
	if err != nil {
		return Own{}, &OwnError{text, "does not begin with a mass", "weigh it: a spoon of powder can be off by a third. " + capital(ownFix)}
	}
	if of == "" || of[0] < '0' || of[0] > '9' {
		of = "1 " + of
	}
	if base, err := unit.ParseMass(of); err == nil && base > 0 {
		return shareOf(text, Own{Share: m.Kg() / base.Kg()})
	}
	v, err := unit.ParseVolume(of)
	if err != nil || v <= 0 {
		return Own{}, &OwnError{text, "does not say in how much food", ownFix}
	}
	return shareOf(text, Own{Share: m.Kg() / (v.L() * soupKgL), Assumed: fmt.Sprintf("a litre of it is taken to weigh %g kg, the middle of 119 soups (USDA SR28)", soupKgL)})
}

func shareOf(text string, o Own) (Own, error) {
	if !(o.Share > 0 && o.Share <= 1) {
		return Own{}, &OwnError{text, "is nothing, or more than the food itself", ownFix}
	}
	return o, nil
}

func capital(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// of is a dose of one's own as an amount of a basis.
func (o Own) of(base unit.Mass) *Amount {
	if o.Mass > 0 {
		return &Amount{Mass: o.Mass, Share: ratio(o.Mass, base)}
	}
	return &Amount{Mass: unit.MassKg(o.Share * base.Kg()), Share: o.Share}
}
