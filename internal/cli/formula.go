package cli

import (
	"errors"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/formula"
	"kettlefrost/internal/sheet"
)

// formulaCommand is what a dish is made up of, and what the freezer does to it.
type formulaCommand struct {
	bookFlag
	Pack      string            `arg:"" optional:"" help:"The pack, or DISH/OUTPUT of a dish that no pack is filled from; without it, how all dishes stand."`
	Only      string            `default:"all" enum:"all,review,dose,predict" help:"Only the review, the doses or the predictions."`
	Mass      string            `placeholder:"MASS" help:"Doses for so much finished food, such as 250 lb; as the dish is written when left out."`
	Use       string            `placeholder:"USE" help:"Dose gums as in a soup or a sauce; by what the dish is called when left out."`
	Thickness string            `placeholder:"HOW" help:"thin, medium or thick."`
	Series    string            `placeholder:"WHOSE" help:"By whose figures: professional, home or slurry (corn starch)."`
	Taste     string            `placeholder:"HOW" help:"How salty: light, usual or strong."`
	Own       map[string]string `placeholder:"KEY=DOSE" help:"A dose of your own, such as xanthan=0.25% or xanthan='0.5 g per cup'."`
	Store     string            `placeholder:"TEMP" help:"How cold the freezer is; the kitchen's warmest when left out."`
	Warm      string            `placeholder:"TEMP" help:"What it costs if the freezer got so warm."`
	WarmFor   string            `placeholder:"TIME" help:"And for how long."`
	JSON      bool              `name:"json" help:"As JSON (kettlefrost.formula/1, of all dishes kettlefrost.formulas/1)."`
}

// Help is the longer help of the command.
func (formulaCommand) Help() string {
	return `The review looks at the whole pot, from the dish's own mass flow: what goes wrong with it in the freezer, why, how much that counts in this pot,
what would help and with what dose, and what the tables warn of that this pot need not. Doses are at any scale, as the kitchen's fine scale shows
them, with their range, their legal maximum and their source. Predictions are where it freezes, how much is ice, for how long it keeps and what a
warm freezer costs.

What the book does not say is asked in plain words, with what was taken meanwhile. All of it is advice: a test batch in your own freezer decides.`
}

// Run shows it.
func (c formulaCommand) Run(s *surroundings) error {
	h, err := c.open(s)
	if err != nil {
		return err
	}
	book, err := h.sound(s)
	if err != nil {
		return err
	}
	if c.Pack == "" {
		list := formula.ListOf(book, h.Foods())
		if c.JSON {
			return s.showJSON(list)
		}
		return s.show(sheet.FormulasText(list))
	}
	asked, problems := c.typed().Asked(book.Kitchen.Units)
	if len(problems) > 0 {
		return failure{badUsage, "--" + problems[0].Field, problems[0].Problem, "kettlefrost formula --help"}
	}
	r, err := formula.ReportOf(book, h.Foods(), asked)
	if none := (*formula.NoSubjectError)(nil); errors.As(err, &none) {
		return failure{badUsage, "formula", none.What, "kettlefrost formula lists what there is"}
	}
	if err != nil {
		return failure{mistakes, "formula of " + c.Pack, err.Error(), "kettlefrost check shows what is wrong in the book"}
	}
	if c.JSON {
		return s.showJSON(r)
	}
	part := map[string]sheet.FormulaPart{"all": sheet.FormulaAll, "review": sheet.FormulaReview, "dose": sheet.FormulaDoses, "predict": sheet.FormulaFreezer}[c.Only]
	return s.show(sheet.FormulaText(r, book.Kitchen.Units, part))
}

// typed is what was typed, for the use case to read.
func (c formulaCommand) typed() app.FormulaTyped {
	t := app.FormulaTyped{Pack: c.Pack, Mass: c.Mass, Use: c.Use, Thickness: c.Thickness, Series: c.Series, Taste: c.Taste, Store: c.Store, Warm: c.Warm, WarmFor: c.WarmFor, Own: c.Own}
	if dish, output, ok := strings.Cut(c.Pack, "/"); ok {
		t.Pack, t.Dish, t.Output = "", dish, output
	}
	return t
}
