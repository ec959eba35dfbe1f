package homepaper

import (
	"fmt"
	"strings"

	"kettlefrost/internal/homecard"
	"kettlefrost/internal/language"
)

// Text is a card for a terminal.
func Text(c homecard.Card) string {
	in, words := language.In(c.Language), WordsOf(c)
	var t strings.Builder
	fmt.Fprintf(&t, "%s\n%s\n\n%s\n", c.Name, Headline(c), in.Say("What goes in (at step)"))
	for _, x := range c.Items {
		fmt.Fprintf(&t, "  %2d  %s\n", x.Step, joined(x.Amount.Text+" "+x.Called(in), x.Amount.About, Weigh(c, x)))
	}
	fmt.Fprintf(&t, "\n%s\n", words.How)
	for _, s := range c.Steps {
		fmt.Fprintf(&t, "  %2d  %s\n", s.Number, strings.TrimSpace(s.Do+" "+s.How))
		if under := Under(s); under != "" {
			fmt.Fprintf(&t, "      %s\n", under)
		}
	}
	if words.AsWritten != "" {
		fmt.Fprintf(&t, "      (%s)\n", words.AsWritten)
	}
	kept(&t, c)
	if len(c.Ratios) > 0 {
		fmt.Fprintf(&t, "\n%s\n", words.Proportions)
	}
	for _, r := range c.Ratios {
		fmt.Fprintf(&t, "  %s\n", in.Say("%s: %s of %s allowed", r.Of, in.Measure(r.Off.Show(c.Units)), in.Measure(r.Bound.Show(c.Units))))
	}
	if facts := Facts(c); facts != "" {
		fmt.Fprintf(&t, "\n%s\n      (%s)\n", in.Say("%s: %s", words.Holds, facts), c.FactsSource)
	}
	fmt.Fprintf(&t, "\n%s\n", in.Say("%s: %s", words.Allergens, Allergens(c)))
	for _, f := range c.Findings {
		fmt.Fprintf(&t, "\n%s\n", in.Say("%s: %s", strings.ToUpper(in.Say(f.Severity.String())), f.Message))
	}
	return t.String()
}

// kept is what is done with the food once it is cooked, each with its source.
func kept(t *strings.Builder, c homecard.Card) {
	for _, section := range homecard.Sections() {
		fmt.Fprintf(t, "\n%s\n", language.In(c.Language).Say(section.Name))
		for _, k := range c.Keep {
			if k.Section == section.ID {
				fmt.Fprintf(t, "  %s\n      (%s)\n", k.Text, k.Source)
			}
		}
	}
}
