package barcode

import (
	_ "embed"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/sourced"
)

// Kind is what the value of an identifier is made of.
type Kind string

// The kinds.
const (
	IsGTIN   Kind = "gtin"
	IsSSCC   Kind = "sscc"
	IsDate   Kind = "date" // YYMMDD; day 00 where only the month is known
	IsDigits Kind = "digits"
	IsText   Kind = "text" // of the 82 characters that every reader knows
)

// Identifier is one application identifier: what the digits before a value say it is.
type Identifier struct {
	AI          string // "10"; of one with decimals the first three digits: "310"
	Title       string // "BATCH/LOT"
	Holds       string // "batch or lot"
	Kind        Kind
	Least, Most int  // characters of the value
	Decimals    bool // one more digit of the AI, 0 to 5, says how many of the value's digits are decimals
	Separated   bool // its value ends with a separator, unless it is the last
	Source      string
	Confirm     string // what of it is from memory; empty when nothing
}

//go:embed data/identifiers.csv
var identifiersCSV string

var identifiers = sourced.MustRead(identifiersCSV, func(row sourced.Row) (Identifier, error) {
	a := Identifier{AI: row["ai"], Title: row["title"], Holds: row["holds"], Kind: Kind(row["kind"]), Decimals: row["decimals"] == "yes",
		Separated: row["separated"] == "yes", Source: row["source"], Confirm: row["confirm"]}
	var err error
	if a.Least, err = strconv.Atoi(row["least"]); err != nil {
		return a, err
	}
	a.Most, err = strconv.Atoi(row["most"])
	return a, err
})

// Identifiers are those that are known here.
func Identifiers() []Identifier { return slices.Clone(identifiers) }

// mostDecimals of a weight: the digit of its identifier goes from 0 to 5 (GS1 General Specifications 3, from memory).
const mostDecimals = 5

// Find is the identifier that an AI names: "10", "3103".
func Find(ai string) (Identifier, error) {
	for _, a := range identifiers {
		if !a.Decimals && a.AI == ai {
			return a, nil
		}
		if n, is := strings.CutPrefix(ai, a.AI); a.Decimals && is && len(n) == 1 && n[0] >= '0' && n[0] <= '0'+mostDecimals {
			return a, nil
		}
	}
	return Identifier{}, &InputError{"application identifier", ai, "it is not known here", "use one of " + knownAIs()}
}

func knownAIs() string {
	var all []string
	for _, a := range identifiers {
		if a.Decimals {
			a.AI += "n"
		}
		all = append(all, a.AI)
	}
	return strings.Join(all, ", ")
}

// check says what a value of an identifier cannot be.
func (a Identifier) check(ai, value string) error {
	what := fmt.Sprintf("%s (%s)", a.Holds, ai)
	if n := len([]rune(value)); n < a.Least || n > a.Most {
		return &InputError{what, value, fmt.Sprintf("it has %d characters", n), "it must have " + a.length()}
	}
	switch a.Kind {
	case IsText:
		return onlyText(what, value)
	case IsGTIN, IsSSCC:
		return checked(what, value)
	case IsDate:
		_, err := readDate(what, value)
		return err
	default:
		return onlyDigits(what, value)
	}
}

func (a Identifier) length() string {
	if a.Least == a.Most {
		return strconv.Itoa(a.Most)
	}
	return fmt.Sprintf("%d to %d", a.Least, a.Most)
}

// textSigns are the signs, besides letters and digits, of the 82 characters that a text value may hold (GS1 General Specifications 7.11, from
// memory).
const textSigns = `!"%&'()*+,-./:;<=>?_`

func onlyText(what, value string) error {
	for i, r := range value {
		if r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || strings.ContainsRune(textSigns, r) {
			continue
		}
		fix := "leave it out, or write another of A-Z a-z 0-9 " + textSigns
		if r == ' ' {
			fix = `write "-" or "." in place of the space`
		}
		return &InputError{what, value, fmt.Sprintf("character %d is %q, which this identifier may not hold", len([]rune(value[:i]))+1, r), fix}
	}
	return nil
}
