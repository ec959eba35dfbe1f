package cli

import (
	"kettlefrost/internal/app"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/labelrule"
	"kettlefrost/internal/nutrition"
)

// labelCommand is the labels of packs.
type labelCommand struct {
	List       labelListCommand       `cmd:"" default:"withargs" help:"How the labels of all packs stand, and lots in stock that carry an old one; as text or JSON."`
	Show       labelShowCommand       `cmd:"" help:"One label: what it rests on, its picture, or labels of a lot as PDF, entered as printed."`
	References labelReferencesCommand `cmd:"" help:"The amounts that are customarily eaten at once, from which servings are made."`
	Stocks     labelStocksCommand     `cmd:"" help:"Labels that are known by name."`
}

// Help is the longer help of the command.
func (labelCommand) Help() string {
	return `A label is what the book says, laid out by the rules of the United States or the European Union. It is no approval. A label that something stops, a
draft and a lot on hold are never printed: exit code 4.

    kettlefrost label
    kettlefrost label show ale-cheddar-lb --png label.png
    kettlefrost label show ale-cheddar-lb --lot P-1201 --pdf labels.pdf --count 40 --who Ada
    kettlefrost label show ale-cheddar-lb --lot P-1201 --pdf again.pdf --count 2 --why 'two were torn' --who Ada`
}

// smallFlags is how small the business is: exemptions from the nutrition panel go by it.
type smallFlags struct {
	Staff  float64 `placeholder:"PEOPLE" help:"People who work here, full-time: an exemption may lift the nutrition panel. What the book says when left out."`
	Yearly int     `placeholder:"PACKS" help:"Packs of the product sold in a year."`
}

func (f smallFlags) business() labelrule.Business {
	return labelrule.Business{Staff: f.Staff, YearlyUnits: f.Yearly}
}

// labelsOf makes the labels of a house.
func labelsOf(h house) *app.Labels {
	if h.records == nil {
		return app.NewLabels(h.App, nil, nil)
	}
	return app.NewLabels(h.App, h.records, app.NewBoards(h.records, h))
}

// labelListCommand lists how labels stand.
type labelListCommand struct {
	bookFlag
	smallFlags
	JSON bool `name:"json" help:"As JSON (kettlefrost.labels/1)."`
}

// Run lists them.
func (c labelListCommand) Run(s *surroundings) error {
	h, err := c.open(s)
	if err != nil {
		return err
	}
	book, err := h.sound(s)
	if err != nil {
		return err
	}
	list, err := labelsOf(h).List(s.ctx, book, c.business())
	switch {
	case err != nil:
		return err
	case c.JSON:
		return s.showJSON(list)
	}
	return s.show(labelListText(list))
}

// labelReferencesCommand lists reference amounts.
type labelReferencesCommand struct {
	JSON bool `name:"json" help:"As JSON: a list."`
}

// Run lists them.
func (c labelReferencesCommand) Run(s *surroundings) error {
	if c.JSON {
		return s.showJSON(nutrition.References())
	}
	return s.show(referencesText(nutrition.References()))
}

// labelStocksCommand lists labels.
type labelStocksCommand struct {
	JSON bool `name:"json" help:"As JSON: a list."`
}

// Run lists them.
func (c labelStocksCommand) Run(s *surroundings) error {
	all := []app.LabelStock{}
	for _, x := range labelmaker.Stocks() {
		all = append(all, app.StockOf(x))
	}
	if c.JSON {
		return s.showJSON(all)
	}
	return s.show(stocksText(all))
}
