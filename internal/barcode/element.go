package barcode

import (
	"fmt"
	"slices"
	"strings"
)

// Element is a value with the identifier that says what it is: {"10", "L-0917"}.
type Element struct{ AI, Value string }

// Elements are what one symbol says.
type Elements []Element

// Separator stands between elements in what a scanner sends: FNC1 in the symbol, group separator (ASCII 29) in the data.
const Separator = '\x1d'

// Check says what cannot be encoded: an unknown identifier, a value that breaks its rule, an identifier twice.
func (all Elements) Check() error {
	if len(all) == 0 {
		return &InputError{"elements", "", "there are none", "give at least one"}
	}
	seen := map[string]bool{}
	for _, e := range all {
		a, err := Find(e.AI)
		if err != nil {
			return err
		}
		if err := a.check(e.AI, e.Value); err != nil {
			return err
		}
		if seen[a.AI] {
			return &InputError{a.Holds + " (" + e.AI + ")", e.Value, "it is given twice", "keep one of them"}
		}
		seen[a.AI] = true
	}
	return nil
}

// Ordered puts those first that need no separator, which makes the string shortest; the order is kept otherwise. Unknown identifiers stay where
// they are among the separated.
func (all Elements) Ordered() Elements {
	out := slices.Clone(all)
	slices.SortStableFunc(out, func(x, y Element) int { return last(x) - last(y) })
	return out
}

func last(e Element) int {
	if a, err := Find(e.AI); err == nil && !a.Separated {
		return 0
	}
	return 1
}

// Data is the element string in the order given, as a scanner sends it: identifiers and values with a Separator where one is needed.
func (all Elements) Data() (string, error) {
	if err := all.Check(); err != nil {
		return "", err
	}
	var out strings.Builder
	for i, e := range all {
		out.WriteString(e.AI + e.Value)
		if a, _ := Find(e.AI); a.Separated && i < len(all)-1 { // Check found it
			out.WriteRune(Separator)
		}
	}
	return out.String(), nil
}

// Readable is what stands below the symbol: identifiers in parentheses, which the symbol itself does not hold.
func (all Elements) Readable() string {
	var out strings.Builder
	for _, e := range all {
		fmt.Fprintf(&out, "(%s)%s", e.AI, e.Value)
	}
	return out.String()
}

// symbologies are what a scanner may send before the data to say which symbol it read: GS1-128, GS1 DataMatrix, GS1 QR (from memory).
var symbologies = []string{"]C1", "]d2", "]Q3"}

// Scanned reads what a scanner sends. Separators and FNC1 come as ASCII 29; one at the beginning or the end is passed over.
func Scanned(text string) (Elements, error) {
	rest := text
	for _, s := range symbologies {
		rest = strings.TrimPrefix(rest, s)
	}
	rest = strings.Trim(rest, string(Separator))
	var all Elements
	for rest != "" {
		e, after, err := next(rest)
		if err != nil {
			return nil, err
		}
		all, rest = append(all, e), after
	}
	return all, all.Check()
}

// next takes the first element off a string.
func next(text string) (Element, string, error) {
	for n := 2; n <= 4 && n <= len(text); n++ {
		a, err := Find(text[:n])
		if err != nil {
			continue
		}
		ai, rest := text[:n], text[n:]
		end := strings.IndexRune(rest, Separator)
		switch {
		case !a.Separated && len(rest) >= a.Most && (end < 0 || end >= a.Most):
			return Element{ai, rest[:a.Most]}, strings.TrimPrefix(rest[a.Most:], string(Separator)), nil
		case !a.Separated:
			return Element{}, "", &InputError{a.Holds + " (" + ai + ")", rest, "it ends too early", "scan it again"}
		case end < 0:
			return Element{ai, rest}, "", nil
		default:
			return Element{ai, rest[:end]}, rest[end+1:], nil
		}
	}
	return Element{}, "", &InputError{"what was scanned", text, "it does not begin with an identifier that is known here", "known are " + knownAIs()}
}

// Doubt is something to look at before printing; it does not keep anything from being printed.
type Doubt struct{ Says, Source string }

// Doubts are what is odd about elements that can be encoded.
func (all Elements) Doubts() []Doubt {
	value := map[string]string{}
	for _, e := range all {
		if a, err := Find(e.AI); err == nil {
			value[a.AI] = e.Value
		}
	}
	var found []Doubt
	if gtin := value["01"]; gtin != "" && gtin[0] != '9' && (value["310"] != "" || value["320"] != "" || value["392"] != "") {
		found = append(found, Doubt{"a weight or a price of its own goes with the GTIN of an item whose weight varies, which begins with 9; a pack of fixed weight has its weight in its GTIN", "GS1 General Specifications, from memory"})
	}
	if (value["02"] == "") != (value["37"] == "") {
		found = append(found, Doubt{"the number of the items in a case (02) and their count (37) go together", "GS1 General Specifications, from memory"})
	}
	return found
}
