package unit

import "fmt"

// ParseError says why a text is not the quantity that is meant.
type ParseError struct {
	Text    string // as written
	Want    string // "a mass"
	Problem string // what is wrong, to be read after the text: "is a volume"
	Example string // what would do: "1.2 kg or 2 lb 10 oz"
}

// Error is one line, such as: "12 cups" is a volume; a mass is meant, e.g. 1.2 kg or 2 lb 10 oz.
func (e *ParseError) Error() string {
	text := e.Text
	if r := []rune(text); len(r) > 60 {
		text = string(r[:57]) + "..."
	}
	return fmt.Sprintf("%q %s; %s is meant, e.g. %s", text, e.Problem, e.Want, e.Example)
}

func fail(k kind, text, problem string) *ParseError {
	return &ParseError{Text: text, Want: kinds[k].want, Problem: problem, Example: kinds[k].example}
}

// The problems that several readers find.
const (
	tooBig     = "is bigger than this program counts"
	tooSmall   = "is smaller than this program counts"
	tooLong    = "is too long to be read"
	belowZero  = "is below zero"
	withPlus   = "starts with a plus sign; leave it out"
	noNumber   = "does not start with a number"
	tooPrecise = "has more digits than this program counts"
)
