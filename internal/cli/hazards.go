package cli

import (
	"errors"
	"fmt"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/hazardplan"
	"kettlefrost/internal/hazards"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
)

// hazardsCommand is the hazard plans.
type hazardsCommand struct {
	bookFlag
	Pack    string `arg:"" optional:"" help:"The pack whose plan is shown; without it, how the plans of all packs stand."`
	Version int    `placeholder:"N" help:"That version as it was entered, instead of what the plan would be today."`
	Changes bool   `help:"What changed from that version (or the last one entered) to the dish as the book has it today."`
	Enter   bool   `help:"Enter what the plan would be today as a new version, to be reviewed."`
	Who     string `placeholder:"NAME" help:"Who enters it."`
	Note    string `placeholder:"TEXT" help:"Why there is a new version."`
	JSON    bool   `name:"json" help:"As JSON (kettlefrost.hazards/1, of one pack kettlefrost.hazard-plan/1)."`
}

// Help is the longer help of the command.
func (hazardsCommand) Help() string {
	return `A plan is drafted from the dish's own steps: flow, hazards, control points with limits and their sources, how they are watched, what is done when
one is missed, how it is verified and what is written down. People change it on the pages (/hazards), a named qualified person accepts it
there, and a change of the dish that touches what it rests on opens it again.

A draft is a draft: your local code and a licensed professional decide. Packing cooked food under vacuum usually needs an approved plan.`
}

// Run shows, lists or enters.
func (c hazardsCommand) Run(s *surroundings) error {
	h, err := c.open(s)
	if err != nil {
		return err
	}
	book, err := h.sound(s)
	if err != nil {
		return err
	}
	if c.Pack == "" {
		return c.list(s, h, book)
	}
	x, known, err := app.HazardPlanOf(s.ctx, h.records, book, h.Foods(), kitchen.PackID(c.Pack), record.Instant(s.now().UnixMilli()))
	switch {
	case err != nil:
		return err
	case !known:
		return failure{badUsage, "pack " + c.Pack, "the book has no such pack", "kettlefrost hazards lists them"}
	case x.Bad != "":
		return failure{mistakes, "pack " + c.Pack, x.Bad, "write the dish first"}
	case c.Enter:
		return c.enter(s, h, x)
	}
	return c.show(s, x)
}

func (c hazardsCommand) list(s *surroundings, h house, book kitchen.Book) error {
	all, misfits, err := app.HazardPlans(s.ctx, h.records, book, h.Foods(), record.Instant(s.now().UnixMilli()))
	if err != nil {
		return err
	}
	report := app.HazardReport(book, all, misfits)
	if c.JSON {
		return s.showJSON(report)
	}
	return s.show(sheet.HazardsText(report, clockHere))
}

// show shows the plan of today, or a version of it.
func (c hazardsCommand) show(s *surroundings, x app.HazardPlan) error {
	doc, inForce := x.Standing.Shown()
	stands := planStands(x, inForce)
	if c.Version > 0 {
		if c.Version > len(x.Versions) {
			return failure{badUsage, fmt.Sprintf("--version %d", c.Version), fmt.Sprintf("%d versions were entered", len(x.Versions)), "kettlefrost hazards " + c.Pack + " shows what it would be today"}
		}
		v := x.Versions[c.Version-1]
		if v.Bad != "" {
			return failure{mistakes, fmt.Sprintf("version %d", c.Version), v.Bad, "enter a new one"}
		}
		inForce = x.Standing.InForce != nil && x.Standing.InForce.Entry == v.Entry && x.Standing.Word == hazardplan.Accepted
		doc, stands = v.Doc, fmt.Sprintf("Version %d, entered by %s, %s.", v.Number, v.Who, clockHere(v.At))
	}
	switch {
	case c.Changes:
		return s.show(sheet.ChangesText(haccp.Changes(c.before(x), x.Standing.Today)))
	case c.JSON:
		return s.showJSON(doc)
	}
	for _, f := range x.Asked {
		s.say("%s", f)
	}
	return s.show(sheet.HazardPlanText(doc, stands, !inForce))
}

// before is the version that today is held against.
func (c hazardsCommand) before(x app.HazardPlan) haccp.Document {
	switch {
	case c.Version > 0:
		return x.Versions[c.Version-1].Doc
	case len(x.Versions) > 0:
		return x.Versions[len(x.Versions)-1].Doc
	}
	return x.Standing.Today
}

// planStands is how a plan stands, in a sentence.
func planStands(x app.HazardPlan, inForce bool) string {
	word := strings.ToUpper(string(x.Standing.Word))
	by := ""
	if f := x.Standing.InForce; f != nil {
		by = fmt.Sprintf(" Version %d was accepted %s by %s (%s).", f.Number, clockHere(x.Standing.By.At), x.Standing.By.Reviewer, x.Standing.By.Qualified)
	}
	if inForce {
		return word + "." + by
	}
	return word + "." + by + " This is what the plan would be today."
}

func (c hazardsCommand) enter(s *surroundings, h house, x app.HazardPlan) error {
	if h.records == nil {
		_, err := c.recordsFlag.open(s) // says how to say where they are
		return err
	}
	if c.Who == "" {
		return failure{badUsage, "--who", "nobody says who enters it", "give --who NAME"}
	}
	err := h.records.WritePlan(s.ctx, app.Said{Who: c.Who, Device: "command line", At: s.now()}, app.PlanChange{Product: x.Product, From: len(x.Versions), Note: c.Note})
	if bad := (*app.PlanError)(nil); errors.As(err, &bad) {
		return failure{mistakes, "hazard plan", bad.Problem, bad.Fix}
	}
	if err != nil {
		return err
	}
	return s.show(fmt.Sprintf("version %d of the hazard plan of %s, to be reviewed by a qualified person\n", len(x.Versions)+1, x.Name))
}

// rulesCommand is the rules of food safety as this kitchen holds them.
type rulesCommand struct {
	bookFlag
	JSON bool `name:"json" help:"As JSON (kettlefrost.rules/1)."`
}

// Help is the longer help of the command.
func (rulesCommand) Help() string {
	return `The published rules with their source, edition and jurisdiction; which of them this kitchen holds otherwise, why, and who decided it. The book
chooses under safety: a stricter figure is free, a laxer one takes a reason and a name. What is from memory is shown as such and never
stops anything.`
}

// Run shows them.
func (c rulesCommand) Run(s *surroundings) error {
	h, err := c.open(s)
	if err != nil {
		return err
	}
	book, found := h.read()
	if found.Worst() == finding.Stop {
		return mistaken(h.name(), found)
	}
	rules := hazards.SheetOf(book)
	if c.JSON {
		return s.showJSON(rules)
	}
	return s.show(sheet.RulesText(rules))
}
