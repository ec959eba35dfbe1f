package netdeclare

import (
	"fmt"
	"strconv"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

// Placed is how a statement stands on the principal display panel of a pack for the United States.
type Placed struct {
	Text                      string
	PanelHeight               unit.Length
	PanelSqIn                 float64
	Top                       unit.Length // of the statement, above the base of the panel
	Letter                    unit.Length // height of its capitals, or of the lower-case o where both are used
	Wide                      unit.Length // of its capital N
	Fraction                  unit.Length // height of the numerals of a common fraction; 0: there is none
	Parallel                  bool        // its lines are parallel to the base
	Moulded                   bool
	Above, Below, Left, Right unit.Length // to what else is printed
}

// bottomShare is the part of the panel that it stands in.
const bottomShare = 30 // per cent

const (
	noPlaceSqIn = 5 // up to here a panel need not keep to the bottom
	tallest     = 3 // times as high as wide
)

// puffed are words that a net quantity may not be called by, and how sure that is: jumbo and full were read, the others are from memory.
var puffed = map[string]finding.Severity{"jumbo": finding.Stop, "full": finding.Stop, "giant": finding.Caution, "minimum": finding.Caution, "approximately": finding.Caution}

// Check says what is wrong with a placed statement. Errors are *InputError.
func Check(p Placed) (finding.List, error) {
	h, err := USHeight(p.PanelSqIn, p.Moulded)
	if err != nil {
		return nil, err
	}
	if p.PanelHeight <= 0 || p.Letter <= 0 || p.Wide <= 0 {
		return nil, &InputError{"the panel and its letters", "have no size", "give the height of the panel, and height and width of a letter"}
	}
	var all finding.List
	tell := func(code, message, fix string, figures ...finding.Figure) {
		all = append(all, finding.Finding{Code: code, Severity: finding.Stop, Where: "net quantity", Message: message, Figures: figures, Source: usSource, Fix: fix})
	}
	if p.Letter < h.Least {
		tell("net-type-small", fmt.Sprintf("its type is too low for a panel of %g sq in", p.PanelSqIn), "set it taller", length("height", p.Letter), length("at least", h.Least))
	}
	if p.Fraction > 0 && p.Fraction < h.Fraction {
		tell("net-fraction-small", "the numerals of its fraction are too low", "set them at least half as tall as the type must be", length("height", p.Fraction), length("at least", h.Fraction))
	}
	if p.Letter > tallest*p.Wide {
		tell("net-type-narrow", "its letters are more than 3 times as high as wide", "use a wider type", length("height", p.Letter), length("width", p.Wide))
	}
	if p.PanelSqIn > noPlaceSqIn && 100*p.Top > bottomShare*p.PanelHeight {
		tell("net-too-high", "it stands above the bottom 30 % of the panel", "move it down", length("top of it", p.Top), length("at most", p.PanelHeight*bottomShare/100))
	}
	if !p.Parallel {
		tell("net-slanted", "its lines are not parallel to the base", "set them straight")
	}
	if near := min(p.Above, p.Below); near < p.Letter {
		tell("net-crowded", "above or below it there is less room than its letters are high", "leave that much free", length("free", near), length("at least", p.Letter))
	}
	if near := min(p.Left, p.Right); near < 2*p.Wide {
		tell("net-crowded", "beside it there is less room than two of its letters N are wide", "leave that much free", length("free", near), length("at least", 2*p.Wide))
	}
	return append(all, CheckWords(p.Text)...), nil
}

// CheckWords says what is wrong with the words of a statement by weight.
func CheckWords(text string) finding.List {
	var all finding.List
	low := strings.ToLower(text)
	if !strings.HasPrefix(low, "net wt ") && !strings.HasPrefix(low, "net weight ") {
		all = append(all, finding.Finding{Code: "net-words", Severity: finding.Stop, Where: "net quantity", Message: strconv.Quote(text) + " does not begin with Net Wt or Net weight",
			Source: "21 CFR 101.105(j)(3), 2015 (read): compulsory for weight", Fix: "write Net Wt before it"})
	}
	for _, w := range strings.Fields(low) {
		if severity, is := puffed[strings.Trim(w, ".,()")]; is {
			all = append(all, finding.Finding{Code: "net-puffed", Severity: severity, Where: "net quantity", Message: strconv.Quote(text) + " says " + strconv.Quote(w),
				Source: "21 CFR 101.105, 2015 (read): jumbo, full; the other words from memory", Fix: "leave the word out"})
		}
	}
	return all
}

func length(name string, l unit.Length) finding.Figure {
	return finding.Figure{Name: name, Value: l.M() * 1000, Unit: "mm", Text: l.Show(unit.Metric)}
}
