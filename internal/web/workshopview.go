package web

import (
	"cmp"
	"fmt"
	"strings"

	"kettlefrost/internal/formula"
	"kettlefrost/internal/sheet"
)

// formulaFinding is one thing that goes wrong, in words.
type formulaFinding struct {
	Class, Sign, Word string
	About             string
	Message, Because  string
	Remedies          []formulaRemedy
	Compared          []compared
	Source, Confirm   string
}

// formulaRemedy is what would help.
type formulaRemedy struct {
	Do, Dose, Basis string
	After           string // what is left then; empty where that could not be tried
	Class, Sign     string // of that
	Source          string
}

// formulaPassed is what the tables warn of and this pot need not.
type formulaPassed struct{ About, ByItself, Why string }

// formulaLine is one thing that is dosed.
type formulaLine struct {
	Name, In, Anchor string
	Class, Sign      string
	Verdict, Says    string
	Now, NowShare    string
	Target, Share    string
	Range, Basis     string
	Confirm          string // what of the range is from memory or common practice
	Most, MostIs     string
	Weigh            []formulaWeigh
	Gauge            *gaugeView
	More             []string // by other customs
	Sources          []string
	Found            []reminder
	OwnSays          string
	Disperse         string // address of how it is got in without lumps; empty where that is no question
}

// formulaWeigh is how an amount is weighed.
type formulaWeigh struct {
	What, Show, Says string
	Off              bool // not within the tolerance
}

// gaugeView is a range with what is in the dish, drawn; along it are thousandths of its width.
type gaugeView struct {
	Low, Wide, Target, Now, Most int
	Has, Capped                  bool // there is some in it; there is a maximum within the drawing
	Alt                          string
}

// formulaPart is one ingredient of the pot.
type formulaPart struct {
	Name, Steps   string
	PutIn         figure
	Share         string
	Role, Guessed string
	Done          string
	Made          string // of what it is made
}

// view puts a report into words.
func (a formulaAsked) view(rd reader) workshopDishPage {
	r := a.report
	v := workshopDishPage{Name: r.Name, Written: rd.mass(r.Written), State: gradeView(r.Review.Grade), Problems: r.Problems, Assumed: r.Review.Assumed}
	for _, s := range formula.SubjectsOf(a.book, r.Subject.Dish) {
		name := cmp.Or(a.book.Packs[s.Pack].Name, string(s.Output))
		v.Tabs = append(v.Tabs, navLink{name, workshopDishURL(s), s.Pack == r.Pack && (s.Pack != "" || s.Output == r.Output)})
	}
	if len(v.Tabs) < 2 {
		v.Tabs = nil
	}
	if r.Review.Slow != r.Review.Worst {
		v.Slow = "If it freezes as slowly as the doubt allows: " + r.Review.Slow + "."
	}
	for _, f := range r.Review.Findings {
		v.Findings = append(v.Findings, viewFormulaFinding(f))
	}
	for _, p := range r.Review.Passed {
		v.Passed = append(v.Passed, formulaPassed{listed(p.About), p.ByItself, capital(p.Why) + "."})
	}
	v.Holds = listed(r.Review.Holds)
	if f := r.Front; f.Known {
		v.Front = fmt.Sprintf("%.1f mm an hour (%.1f to %.1f), lying %s in the %s, %s thick", f.Usual, f.Slow, f.Fast, f.Lies, f.Freezer, f.Thickness.Show(rd.units))
	}
	for _, name := range r.Review.Unknown {
		v.Assumed = append(v.Assumed, "nothing is known of how "+name+" freezes")
	}
	for _, x := range r.Asks {
		v.Asks = append(v.Asks, formulaAsk{x.Where, x.Asks, x.Assumed, x.Path})
	}
	v.Doses = a.viewDoses(rd)
	v.Freezer = a.viewFreezer(rd)
	for _, p := range r.Parts {
		v.Parts = append(v.Parts, viewPart(p, rd))
	}
	return v
}

// listed is a list in a sentence.
func listed(all []string) string { return strings.Join(all, ", ") }

func viewFormulaFinding(f formula.FindingShown) formulaFinding {
	g := gradeView(f.Grade)
	v := formulaFinding{Class: g.Class, Sign: g.Sign, Word: strings.ToUpper(f.Severity), About: listed(f.About), Message: capital(f.Mechanism) + ".", Source: f.Source, Confirm: f.Confirm}
	if f.Because != "" {
		v.Because = capital(f.Because) + "."
	}
	for _, x := range f.Figures {
		v.Compared = append(v.Compared, compared{x.Name, x.Text})
	}
	for _, m := range f.Remedies {
		y := formulaRemedy{Do: capital(m.Do) + ".", Source: m.Source}
		if m.HighG > 0 {
			y.Dose = fmt.Sprintf("%s to %s", grams(m.LowG), grams(m.HighG))
			y.Basis = fmt.Sprintf("%s to %s %s", perCent(m.Low), perCent(m.High), m.Basis)
		}
		if m.After != "" {
			y.After, y.Class, y.Sign = m.After, "no", "–"
			if m.AfterGrade < f.Grade {
				y.Class, y.Sign = "yes", "✓"
			}
		}
		v.Remedies = append(v.Remedies, y)
	}
	return v
}

func (a formulaAsked) viewDoses(rd reader) formulaDoses {
	d := a.report.Doses
	v := formulaDoses{Mass: rd.mass(d.Mass), Fields: a.doseFields(rd.units), Own: a.ownFields()}
	if d.Sauce < d.Mass {
		v.Sauce = rd.mass(d.Sauce)
	}
	for _, l := range d.Lines {
		line := viewLine(l)
		line.Disperse = a.disperseURL(l)
		v.Lines = append(v.Lines, line)
	}
	return v
}

func (a formulaAsked) viewFreezer(rd reader) *formulaFreezer {
	y := a.report.Predicted
	if y == nil {
		return nil
	}
	v := &formulaFreezer{At: degreesFigure(y.StoreC, rd), Where: y.Where, Fields: a.freezerFields(rd.units)}
	if y.Assumed {
		v.Where = "as nobody has said how cold the freezer is"
	}
	tenth := func(c float64) figure {
		first, second := sheet.TenthOfDegree(c, rd.units), sheet.TenthOfDegree(c, rd.other())
		return figure{First: together(first), Second: together(second)}
	}
	lowers := make([]string, 0, len(y.Lowers))
	for _, s := range y.Lowers {
		lowers = append(lowers, fmt.Sprintf("%s %.2f °C", s.Name, s.K))
	}
	v.Facts = append(v.Facts,
		formulaFact{"Starts to freeze at", tenth(y.WarmestC), "and not under " + sheet.TenthOfDegree(y.ColdestC, rd.units) + " as far as is known; lowered by " + listed(lowers)},
		formulaFact{"Ice in the freezer", figure{First: perCent(y.Ice)}, "of the food, at most"},
		formulaFact{"Still liquid", figure{First: perCent(y.Liquid)}, "of its water, up to " + perCent(y.LiquidMost)},
		formulaFact{"As strong", figure{First: fmt.Sprintf("%.0f times", y.Concentrated)}, "is what is dissolved in that liquid: salt, sugar and acid work on the food there, and slowly"},
		formulaFact{"Salt", figure{First: perCent(y.Salt)}, "of the food, by its sodium without that of citrate"})
	l := y.Life
	v.Facts = append(v.Facts, formulaFact{"Keeps its quality", figure{First: sheet.DaysRange(l.Low, l.High)}, "at 0 °F (-18 °C): " + l.Source})
	v.Notes = append(v.Notes, fmt.Sprintf("By the time-temperature rule that is about %s at %s; %.0f to %.0f over the doubt of the rule (Q10 %g, %g to %g, an assumption). A best-before day goes by the figure above: a rule is no trial.",
		sheet.DaysRange(l.From, l.To), v.At.First, l.Least, l.Most, l.Q10, l.Q10Low, l.Q10Hi), "Not in the freezing point: "+y.LeftOut+".")
	if y.Guide {
		v.Notes = append(v.Notes, "As cold as this the law of thin solutions is a guide to the order of things.")
	}
	if x := y.Excursion; x != nil {
		v.Cost, v.Warm = sheet.ExcursionSays(*x, rd.units), x.TooWarm
	}
	return v
}

func viewPart(p formula.PartShown, rd reader) formulaPart {
	v := formulaPart{Name: p.Name, Steps: listed(p.Steps), PutIn: rd.mass(p.PutIn), Share: perCent(p.Share), Role: p.Role, Done: listed(p.Done)}
	if p.Guessed != "" {
		v.Guessed = "assumed, by " + p.Guessed
	}
	var made []string
	for _, x := range []struct {
		of    string
		share float64
	}{{"water", p.Water}, {"fat", p.Fat}, {"protein", p.Protein}, {"starch", p.Starch}, {"sugars", p.Sugars}} {
		if x.share >= 0.005 {
			made = append(made, fmt.Sprintf("%.0f %% %s", 100*x.share, x.of))
		}
	}
	v.Made = listed(made)
	return v
}
