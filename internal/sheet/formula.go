package sheet

import (
	"fmt"
	"strconv"
	"strings"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/formula"
	"kettlefrost/internal/unit"
)

// FormulasText is how every dish stands in the freezer, the worst first.
func FormulasText(l formula.List) string {
	w := listWriter("What the freezer does to each dish", nil, unit.Metric)
	t := table{columns: []column{{head: "pack"}, {head: "verdict", wraps: true}, {head: "notes", right: true}, {head: "to be asked", right: true}, {head: "first of all", wraps: true}}}
	for _, x := range l.Dishes {
		id := string(x.Pack)
		if id == "" {
			id = string(x.Subject.Dish) + "/" + string(x.Output)
		}
		if x.Problem != "" {
			t.add(id, "cannot be told")
			t.under(2, x.Problem)
			continue
		}
		t.add(id, verdictOf(x.Grade), strconv.Itoa(x.Notes), strconv.Itoa(x.Asks), x.First)
		if x.Fix != "" {
			t.under(2, "what helps: "+x.Fix)
		}
		if x.Slow > x.Grade {
			t.under(2, "if it freezes slower than reckoned: "+verdictOf(x.Slow))
		}
	}
	w.table(t)
	w.para(0, "A verdict is advice from published tables for the pot as the book has it; only a test batch in your own freezer settles it. kettlefrost formula PACK shows one.")
	return w.String()
}

// verdictOf is a grade of stability in a few words.
func verdictOf(grade int) string {
	return [...]string{"nothing to change", "nothing to change", "CHANGE THE RECIPE", "LEAVE OUT OR ADD AT REHEATING"}[grade]
}

// FormulaPart is a part of the text of a formula.
type FormulaPart int

// Parts of the text.
const (
	FormulaAll FormulaPart = iota
	FormulaReview
	FormulaDoses
	FormulaFreezer
)

// FormulaText is a dish's review, doses and what becomes of it in the freezer.
func FormulaText(r formula.Report, units unit.System, part FormulaPart) string {
	w := listWriter(r.Name, nil, units)
	w.para(0, fmt.Sprintf("The dish as it is written gives %s.", r.Written.Show(units)))
	for _, p := range r.Problems {
		w.hang(0, "! ", p)
	}
	if part == FormulaAll || part == FormulaReview {
		w.formulaReview(r)
	}
	if part == FormulaAll || part == FormulaDoses {
		w.formulaDoses(r.Doses)
	}
	if part == FormulaAll || part == FormulaFreezer {
		w.formulaFreezer(r)
	}
	w.formulaAsks(r.Asks)
	return w.String()
}

func (w *writer) formulaReview(r formula.Report) {
	v := r.Review
	w.heading("In the freezer", verdictOf(v.Grade))
	for _, f := range v.Findings {
		w.hang(0, "- ", fmt.Sprintf("%s: %s (%s)", strings.ToUpper(f.Severity), f.Mechanism, strings.Join(f.About, ", ")))
		w.para(2, f.Because)
		for _, m := range f.Remedies {
			w.hang(2, "> ", RemedySays(m))
		}
		w.para(2, "source: "+withConfirm(f.Source, f.Confirm))
	}
	if len(v.Holds) > 0 {
		w.para(0, "What holds the pot together: "+strings.Join(v.Holds, ", ")+".")
	}
	for _, p := range v.Passed {
		w.hang(0, "passed: ", fmt.Sprintf("%s, by itself “%s”: %s", strings.Join(p.About, ", "), p.ByItself, p.Why))
	}
	if f := r.Front; f.Known {
		w.para(0, fmt.Sprintf("It freezes inwards at %.1f mm/h (%.1f to %.1f), %s, in the %s.", f.Usual, f.Slow, f.Fast, f.Lies, f.Freezer))
	}
	for _, a := range append(v.Assumed, v.Unknown...) {
		w.hang(0, "assumed: ", a)
	}
	t := table{columns: []column{{head: "what is in it", wraps: true}, {head: "put in", right: true}, {head: "of the pot", right: true}, {head: "as", wraps: true}, {head: "done", wraps: true}}}
	for _, p := range r.Parts {
		as := p.Role
		if p.Guessed != "" {
			as += " (guessed)"
		}
		t.add(p.Name, dosing.Grams(p.PutIn), PerCent(p.Share), as, strings.Join(p.Done, ", "))
	}
	w.gap()
	w.table(t)
}

// PerCent is a share in per cent, as near as anybody needs it.
func PerCent(share float64) string { return strconv.FormatFloat(100*share, 'g', 3, 64) + " %" }

func withConfirm(source, confirm string) string {
	if confirm == "" {
		return source
	}
	return source + " [to be confirmed: " + confirm + "]"
}

// RemedySays is what would help, with its dose and what is left then.
func RemedySays(m formula.RemedyShown) string {
	text := m.Do
	if m.HighG > 0 {
		text += fmt.Sprintf(": %s to %s more (%s to %s %s)", dosing.Grams(m.LowG), dosing.Grams(m.HighG), PerCent(m.Low), PerCent(m.High), m.Basis)
	}
	if m.After != "" {
		text += "; then: " + m.After
	}
	return text
}

func (w *writer) formulaFreezer(r formula.Report) {
	y := r.Predicted
	if y == nil {
		return
	}
	w.heading("What becomes of it in the freezer", "at "+unit.TempC(y.StoreC).Show(w.units))
	w.para(0, fmt.Sprintf("Starts to freeze between %s and %s. Not in this: %s.", w.tenth(y.WarmestC), w.tenth(y.ColdestC), y.LeftOut))
	guide := ""
	if y.Guide {
		guide = " So cold this is a guide to the order of things."
	}
	w.para(0, fmt.Sprintf("In the freezer %s of it is ice at most; %s to %s of its water is liquid, and what is dissolved in it up to %.0f times as strong. Salt: %.2f %% of the food, without the sodium of citrate.%s",
		PerCent(y.Ice), PerCent(y.Liquid), PerCent(y.LiquidMost), y.Concentrated, 100*y.Salt, guide))
	l := y.Life
	w.para(0, fmt.Sprintf("Keeps its quality for %s at 0 °F, -18 °C (%s). By the time-temperature rule that is about %s at this temperature, %.0f to %.0f over the doubt of the rule (Q10 %g, %g to %g). A best-before day goes by the first figure: a rule is no trial.",
		DaysRange(l.Low, l.High), l.Source, DaysRange(l.From, l.To), l.Least, l.Most, l.Q10, l.Q10Low, l.Q10Hi))
	if x := y.Excursion; x != nil {
		w.para(0, ExcursionSays(*x, w.units))
	}
}

func (w *writer) tenth(c float64) string { return TenthOfDegree(c, w.units) }

// TenthOfDegree is a temperature to a tenth of a degree.
func TenthOfDegree(c float64, units unit.System) string {
	if units == unit.US {
		return fmt.Sprintf("%.1f °F", c*1.8+32)
	}
	return fmt.Sprintf("%.1f °C", c)
}

// DaysRange is one number of days, or two.
func DaysRange(from, to float64) string {
	if int(from+0.5) == int(to+0.5) {
		return fmt.Sprintf("%.0f days", from)
	}
	return fmt.Sprintf("%.0f to %.0f days", from, to)
}

// ExcursionSays is what a time in warmth costs.
func ExcursionSays(x formula.ExcursionCost, units unit.System) string {
	at := fmt.Sprintf("%.3g h at %s", x.Hours, TenthOfDegree(x.TempC, units))
	if x.TooWarm {
		return at + ": too warm for any rule. The packs must be looked at, one by one: what has thawed is no question of days."
	}
	return fmt.Sprintf("%s age it as %.1f days at 0 °F (-18 °C) do (%.1f to %.1f): %.1f days of its life lost, %s of it used.", at, x.Days, x.Low, x.High, x.Lost, PerCent(x.Share))
}

func (w *writer) formulaAsks(asks []formula.Ask) {
	if len(asks) == 0 {
		return
	}
	w.heading("What nobody has said", "")
	for _, a := range asks {
		w.hang(0, "? ", fmt.Sprintf("%s: %s", a.Where, a.Asks))
		w.para(2, fmt.Sprintf("assumed: %s (%s)", a.Assumed, a.Path))
	}
}
