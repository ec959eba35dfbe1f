package homemeasure

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"kettlefrost/internal/unit"
)

// Line is a line of a home recipe, read.
type Line struct {
	Text    string // as it was given
	Heading bool   // "For the sauce:": the rest is empty but for Words

	Low, High unit.Amount // as written; alike unless it is a range; of kind 0 if the line gives none
	Size      unit.Amount // of one container or piece: 1 (14 oz) can; kind 0 if it is not given
	Words     string      // what it is: "coconut milk"
	Prep      string      // what is said of it: "finely chopped"
	Other     string      // "margarine" in "butter or margarine"
	Notes     []string    // what stood in brackets, and what else was said of the amount
	Optional  bool
	About     bool

	// Best is what to reckon with until everything that is asked is answered; kind 0 if nothing sensible can be assumed. Assumed says that it
	// rests on an assumption, which is in Asks. BestShare is a share of the finished food's weight, where that is what can be assumed.
	Best      unit.Amount
	BestShare unit.Share
	Assumed   bool
	Asks      []Ask
}

// AskCode is what must be asked.
type AskCode string

const (
	AskHowMuch   AskCode = "how-much"  // no amount, or to taste
	AskMore      AskCode = "more"      // an amount, and more to taste or as needed
	AskRange     AskCode = "range"     // two amounts
	AskNumber    AskCode = "number"    // a few, a couple
	AskDecimal   AskCode = "decimal"   // 1,5
	AskSmall     AskCode = "small"     // a pinch, a handful
	AskSize      AskCode = "size"      // a can, of what size
	AskPiece     AskCode = "piece"     // what one of them weighs
	AskOunces    AskCode = "ounces"    // of a liquid: by weight or fluid
	AskSpoon     AskCode = "spoon"     // T or t
	AskHeaped    AskCode = "heaped"    // heaped, scant, packed
	AskWhich     AskCode = "which"     // one food or the other
	AskPart      AskCode = "part"      // the juice of a lemon
	AskFoods     AskCode = "foods"     // two foods in one line
	AskWhat      AskCode = "what"      // no food
	AskAgree     AskCode = "agree"     // the two amounts given for the same are far apart
	AskBackwards AskCode = "backwards" // 3-2
)

// Ask is a question that a line leaves open.
type Ask struct {
	Code     AskCode
	Question string
	Assumed  string // what is reckoned with until it is answered; empty if nothing is
	Source   string // of the assumption
	Memory   bool   // the assumption is from memory or common practice, and to be confirmed
}

// LineError is a line that cannot be taken.
type LineError struct {
	Text, Problem, Fix string
}

// Error is one line.
func (e *LineError) Error() string {
	return fmt.Sprintf("%q %s; %s", e.Text, e.Problem, e.Fix)
}

// longestLine is the most bytes a line may have.
const longestLine = 400

// ParseLine reads a line of a home recipe. Whatever can be read is read, and what is open is asked; errors are *LineError, for lines that are
// empty, too long or not text, and for amounts that cannot be counted.
func ParseLine(text string) (Line, error) {
	clean, problem := tidy(text)
	if problem != "" {
		return Line{}, &LineError{short(text), problem, "write one ingredient on a line, such as 2 1/2 cups flour"}
	}
	l := Line{Text: text}
	if heading, ok := strings.CutSuffix(clean, ":"); ok && !strings.ContainsAny(clean, "0123456789") {
		l.Heading, l.Words = true, strings.TrimSpace(heading)
		return l, nil
	}
	r := reader{text: clean, line: &l}
	if problem := r.read(); problem != "" {
		return Line{}, &LineError{short(text), problem, "write the amount as a number with its unit, such as 2 1/2 cups"}
	}
	return l, nil
}

func short(text string) string {
	if len(text) > 60 {
		return strings.ToValidUTF8(text[:60], "") + "..."
	}
	return text
}

// plainRunes writes what looks alike one way.
var plainRunes = strings.NewReplacer("\u2044", "/", "\u2215", "/", "\u2010", "-", "\u2011", "-", "\u2012", "-", "\u2013", "-", "\u2014", "-", "\u2212", "-",
	"\u2019", "'", "\u2018", "'", "\u00d7", " x ", "\u00ad", "", "\u200b", "", "\ufeff", "")

// tidy is text with single spaces, without the mark of a list, or what is wrong with it.
func tidy(text string) (clean, problem string) {
	switch {
	case len(text) > longestLine:
		return "", "is too long"
	case !utf8.ValidString(text):
		return "", "is not text"
	}
	for _, r := range text {
		if unicode.IsControl(r) && !unicode.IsSpace(r) || r == unicode.ReplacementChar {
			return "", "holds a character that is not text"
		}
	}
	clean = strings.Join(strings.Fields(plainRunes.Replace(text)), " ")
	for _, mark := range []string{"[ ]", "[x]", "-", "*", "\u2022", "\u00b7", "\u25e6", "\u25a2", "\u2610", "\u25a1"} {
		if rest, ok := strings.CutPrefix(clean, mark); ok {
			clean = strings.TrimSpace(rest)
			break
		}
	}
	if clean == "" || !strings.ContainsFunc(clean, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsNumber(r) }) {
		return "", "is empty"
	}
	return clean, ""
}
