package web

import (
	"fmt"
	"net/http"
	"net/url"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/dosing"
	"kettlefrost/internal/formula"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// workshopDishPage is all that templates/workshopdish.html may show: one dish in the freezer, its doses, and what becomes of it.
type workshopDishPage struct {
	shell
	Tabs     []navLink // what the dish is frozen as, where that is more than one thing
	Name     string
	JSON     string
	Written  figure
	State    verdictView
	Slow     string // if it freezes as slowly as the doubt allows
	Problems []string
	Findings []formulaFinding
	Passed   []formulaPassed
	Holds    string
	Front    string
	Assumed  []string
	Asks     []formulaAsk
	Doses    formulaDoses
	Freezer  *formulaFreezer // nil where it could not be worked out
	Parts    []formulaPart
}

// formulaAsk is a question that the book leaves open.
type formulaAsk struct{ Where, Says, Assumed, Path string }

// formulaDoses are the doses and the form that asks for them.
type formulaDoses struct {
	Mass, Sauce figure // Sauce is empty where it is all of it
	Fields      []field
	Own         []field
	Kept        []kept
	Lines       []formulaLine
}

// formulaFreezer is what becomes of it, and the form that asks.
type formulaFreezer struct {
	At     figure // the storage temperature
	Where  string
	Facts  []formulaFact
	Notes  []string
	Cost   string // of an excursion
	Warm   bool   // too warm for any rule
	Fields []field
	Kept   []kept
	Links  []link // to where trials and opened packs say more; none where there is no pack
}

// formulaFact is one figure with what it means.
type formulaFact struct {
	Name string
	Is   figure
	More string
}

var workshopDishTemplate = parse[workshopDishPage]("workshopdish")

// formulaTyped is the question in an address.
func formulaTyped(q url.Values) app.FormulaTyped {
	at := func(key string) string { return tidy(q.Get(key)) }
	t := app.FormulaTyped{Pack: at(packKey), Dish: at(dishKey), Output: at(outputKey), Mass: at(app.FormulaMass), Use: at(app.FormulaUse), Thickness: at(app.FormulaThickness), Series: at(app.FormulaSeries),
		Taste: at(app.FormulaTaste), Store: at(app.FormulaStore), Warm: at(app.FormulaWarm), WarmFor: at(app.FormulaWarmFor), Own: map[string]string{}}
	for key := range q {
		if of, ok := strings.CutPrefix(key, app.FormulaOwn); ok && at(key) != "" && len(of) < 40 {
			t.Own[of] = at(key)
		}
	}
	return t
}

// formulaAsked is a question with what the book has to say to it.
type formulaAsked struct {
	book     kitchen.Book
	typed    app.FormulaTyped
	problems []app.TypedProblem
	report   formula.Report
}

// formulaOf answers an address; false when it was answered because there is nothing to answer.
func (s *server) formulaOf(w http.ResponseWriter, r *http.Request) (formulaAsked, bool) {
	book, _ := s.house.Book()
	a := formulaAsked{book: book, typed: formulaTyped(r.URL.Query())}
	if a.typed.Pack == "" && a.typed.Output == "" {
		if all := formula.SubjectsOf(book, kitchen.DishID(a.typed.Dish)); len(all) > 0 {
			a.typed.Pack, a.typed.Output = string(all[0].Pack), string(all[0].Output)
		}
	}
	asked, problems := a.typed.Asked(readerOf(book.Kitchen, r).units)
	a.problems = problems
	var err error
	a.report, err = formula.ReportOf(book, s.house.Foods(), asked)
	if message, none := noSubject(err); none {
		s.missing(w, r, book, message)
		return a, false
	}
	if err != nil {
		s.missing(w, r, book, "The dish cannot be worked out: "+err.Error()+". The check of the book says what is wrong with it.")
		return a, false
	}
	return a, true
}

func (s *server) showWorkshopDishJSON(w http.ResponseWriter, r *http.Request) {
	a, ok := s.formulaOf(w, r)
	switch {
	case !ok:
	case len(a.problems) > 0:
		writeJSON(w, http.StatusUnprocessableEntity, refusal{Error: fmt.Sprintf("%s: %s.", a.problems[0].Field, a.problems[0].Problem)})
	default:
		writeJSON(w, http.StatusOK, a.report)
	}
}

func (s *server) showWorkshopDish(w http.ResponseWriter, r *http.Request) {
	a, ok := s.formulaOf(w, r)
	if !ok {
		return
	}
	query := r.URL.Query()
	rd := readerOf(a.book.Kitchen, r)
	status := http.StatusOK
	if len(a.problems) > 0 {
		status = http.StatusUnprocessableEntity
	}
	v := a.view(rd)
	v.shell = s.inShell(r, a.book.Kitchen, v.Name, "workshop")
	v.JSON = workshopDishPath + ".json?" + query.Encode()
	v.Doses.Kept = keep(query, doseKeys(query)...)
	if v.Freezer != nil {
		if pack := string(a.report.Pack); pack != "" && s.records != nil {
			v.Freezer.Links = []link{{"What trials and opened packs say of its best-before day", bestPath + "?" + url.Values{packKey: {pack}}.Encode()}, {"Lay out a trial", newTrialPath}}
		}
		v.Freezer.Kept = keep(query, app.FormulaStore, app.FormulaWarm, app.FormulaWarmFor)
	}
	workshopDishTemplate.show(w, status, v)
}

// doseKeys are the fields that the form of the doses asks itself.
func doseKeys(query url.Values) []string {
	keys := []string{app.FormulaMass, app.FormulaUse, app.FormulaThickness, app.FormulaSeries, app.FormulaTaste}
	for key := range query {
		if strings.HasPrefix(key, app.FormulaOwn) {
			keys = append(keys, key)
		}
	}
	return keys
}

// problem is what is wrong with a field.
func (a formulaAsked) problem(field string) string {
	for _, p := range a.problems {
		if p.Field == field {
			return capital(p.Problem) + "."
		}
	}
	return ""
}

// doseFields ask how much, how thick and how salty.
func (a formulaAsked) doseFields(units unit.System) []field {
	t, d := a.typed, a.report.Doses
	such := map[unit.System]string{unit.US: "such as 250 lb; a bare number is pounds", unit.Metric: "such as 110 kg; a bare number is kilograms"}[units]
	choose := func(key, label, hint, typed, now string, of ...option) field {
		f := field{Key: key, Label: label, Hint: hint, Value: typed, Problem: a.problem(key)}
		for _, o := range of {
			o.Here = o.Value == now
			f.Options = append(f.Options, o)
		}
		return f
	}
	return []field{
		{Key: app.FormulaMass, Label: "Finished food", Hint: such + "; empty: as the dish is written", Value: t.Mass, Problem: a.problem(app.FormulaMass)},
		choose(app.FormulaUse, "Gums as in a", "what published doses are for", t.Use, d.Use, option{Value: "soup", Says: "soup"}, option{Value: "sauce", Says: "sauce"}),
		choose(app.FormulaThickness, "Thickened", "flour or starch to the liquid", t.Thickness, d.Thickness, option{Value: string(dosing.Thin), Says: "thin"}, option{Value: string(dosing.Medium), Says: "medium"},
			option{Value: string(dosing.Thick), Says: "thick"}),
		choose(app.FormulaSeries, "By", "two series differ by a third: do not mix them", t.Series, d.Series, option{Value: string(dosing.Professional), Says: "flour, per gallon"},
			option{Value: string(dosing.Home), Says: "flour, per cup"}, option{Value: string(dosing.Slurry), Says: "corn starch"}),
		choose(app.FormulaTaste, "Salty", "all sodium counted", t.Taste, d.Taste, option{Value: string(dosing.Light), Says: "lightly"}, option{Value: string(dosing.Usual), Says: "as usual"},
			option{Value: string(dosing.Strong), Says: "strongly"}),
	}
}

// ownFields ask for doses of one's own.
func (a formulaAsked) ownFields() []field {
	var fields []field
	for _, l := range a.report.Doses.Lines {
		key := app.FormulaOwn + l.Key
		hint := "0.25 %, 22 g, 2 g/L or 0.5 g per cup"
		if l.Key == formula.KeySalt {
			hint = "all salt in the food, such as 0.8 %"
		}
		fields = append(fields, field{Key: key, Label: capital(l.Substance), Hint: hint, Value: a.typed.Own[l.Key], Problem: a.problem(key)})
	}
	return fields
}

// freezerFields ask how cold it is, and what a warm time costs.
func (a formulaAsked) freezerFields(units unit.System) []field {
	degrees := map[unit.System]string{unit.US: "°F; 0 °F is usual", unit.Metric: "°C; -18 °C is usual"}[units]
	warm := map[unit.System]string{unit.US: "such as 20 °F", unit.Metric: "such as -7 °C"}[units]
	return []field{
		{Key: app.FormulaStore, Label: "The freezer is at", Hint: degrees + "; empty: as the book has it", Value: a.typed.Store, Problem: a.problem(app.FormulaStore)},
		{Key: app.FormulaWarm, Label: "It got as warm as", Hint: warm, Value: a.typed.Warm, Problem: a.problem(app.FormulaWarm)},
		{Key: app.FormulaWarmFor, Label: "For", Hint: "such as 6 h; a bare number is hours", Value: a.typed.WarmFor, Problem: a.problem(app.FormulaWarmFor)},
	}
}
