package homepaper

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"kettlefrost/internal/homecard"
	"kettlefrost/internal/language"
	"kettlefrost/internal/unit"
)

// Words are the headings of a card in its language.
type Words struct {
	In, Step, HowMuch, With, Holds, Allergens, How string
	Proportions, What, Off, Allowed                string
	AsWritten                                      string // what of the card is in the language of the book; empty on an English card
}

// WordsOf are those of a card.
func WordsOf(c homecard.Card) Words {
	in := language.In(c.Language)
	w := Words{In: in.Say("What goes in"), Step: in.Say("Step"), HowMuch: in.Say("How much of what"), With: in.Say("In what"), Holds: in.Say("A serving holds"), Allergens: in.Say("Allergens"),
		How: in.Say("How"), Proportions: in.Say("Proportions after rounding"), What: in.Say("What to what"), Off: in.Say("Off"), Allowed: in.Say("Allowed")}
	if !strings.HasPrefix(string(in.Language()), "en") {
		w.AsWritten = in.Say("Names of ingredients and the steps are as the book has them.")
	}
	return w
}

// Headline is for how many, how much and how long.
func Headline(c homecard.Card) string {
	in := language.In(c.Language)
	each := in.Measure(c.Serving.Show(c.Units))
	if c.Pieces != "" {
		each = c.Pieces + ", " + each
	}
	return in.Say("For %s, %s each (%s in all). Hands on %s, ready in %s.", strconv.Itoa(c.People), each, in.Measure(c.Makes.Show(c.Units)), c.Hands.Text(in), c.Whole.Text(in))
}

// Weigh is by what scale an ingredient is weighed; empty where any will do.
func Weigh(c homecard.Card, x *homecard.Item) string {
	if x.Amount.Scale <= 0 || x.Amount.Class == "main" {
		return ""
	}
	in := language.In(c.Language)
	return in.Say("weigh it: a scale that shows %s will do", in.Measure(x.Amount.Scale.Show(c.Units)))
}

// Bought is how much of an ingredient is to be bought; empty where nothing of it is trimmed off.
func Bought(c homecard.Card, x *homecard.Item) string {
	if x.Buy <= 0 {
		return ""
	}
	in := language.In(c.Language)
	return in.Say("%s as bought", in.Measure(x.Buy.Show(c.Units)))
}

// Rounded is how far the rounded amount of an ingredient is off, of how much.
func Rounded(c homecard.Card, x *homecard.Item) string {
	in := language.In(c.Language)
	return in.Say("%s, %s allowed", Off(c, x.Amount.Off), in.Measure(x.Amount.Bound.Show(c.Units)))
}

// Off is how far something is off, to a tenth of a per cent.
func Off(c homecard.Card, off unit.Share) string {
	in, tenths := language.In(c.Language), math.Round(1000*off.F())
	switch {
	case tenths > 0:
		return in.Say("%s %% over", in.Number(tenths/10, 1))
	case tenths < 0:
		return in.Say("%s %% under", in.Number(-tenths/10, 1))
	}
	return "0 %"
}

// LeftOut is what of a step is nothing to a home; empty where there is nothing.
func LeftOut(c homecard.Card, s homecard.Step) string {
	if len(s.Left) == 0 {
		return ""
	}
	return language.In(c.Language).Say("Left out for a home: %s", strings.Join(s.Left, " "))
}

// Facts is what a serving holds, in one line.
func Facts(c homecard.Card) string {
	in := language.In(c.Language)
	var all, open []string
	for _, n := range c.Facts {
		if n.Amount == "" {
			open = append(open, n.Name)
			continue
		}
		all = append(all, n.Name+" "+n.Amount)
	}
	if len(open) > 0 {
		all = append(all, in.Say("not known: %s", strings.Join(open, ", ")))
	}
	if len(all) == 0 {
		return ""
	}
	return capital(strings.Join(all, ", ")) + "."
}

func capital(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[size:]
}

// Allergens is what the book answers of them.
func Allergens(c homecard.Card) string {
	in := language.In(c.Language)
	switch {
	case len(c.Unanswered) > 0:
		return in.Say("Not known: %s.", strings.Join(c.Unanswered, "; "))
	case c.Contains == "":
		return in.Say("None of the nine major allergens, by the answers in the book.")
	}
	return c.Contains
}
