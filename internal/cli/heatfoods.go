package cli

import (
	"fmt"
	"strings"

	"kettlefrost/internal/unit"
)

// heatFoodsCommand lists what --of can name.
type heatFoodsCommand struct {
	bookFlag
	JSON bool `name:"json" help:"As JSON (kettlefrost.made/1)."`
}

// MadeFoods is the JSON of the list.
type MadeFoods struct {
	Schema string     `json:"schema"`
	Foods  []MadeFood `json:"foods"` // by dish and output
}

// MadeFood is what a step of a dish gives; parts of the whole by weight.
type MadeFood struct {
	Of           string  `json:"of"` // dish/output
	Name         string  `json:"name"`
	Dish         string  `json:"dish_name"`
	MassKg       float64 `json:"mass_kg"` // as the dish is written
	LeavesC      float64 `json:"leaves_step_at_c"`
	FreezesC     float64 `json:"freezes_at_c"`
	Assumed      bool    `json:"freezes_at_assumed"`
	Water        float64 `json:"water"`
	Protein      float64 `json:"protein"`
	Fat          float64 `json:"fat"`
	Carbohydrate float64 `json:"carbohydrate_without_fibre"`
	Fibre        float64 `json:"fibre"`
	Ash          float64 `json:"ash"`
	Alcohol      float64 `json:"alcohol"`
}

func (c heatFoodsCommand) Run(s *surroundings) error {
	h, err := c.open(s)
	if err != nil {
		return err
	}
	book, err := h.sound(s)
	if err != nil {
		return err
	}
	list := MadeFoods{Schema: madeSchema, Foods: []MadeFood{}}
	rows := [][]string{{"--of", "as written", "leaves at", "freezes at", "water", "fat", "what it is"}}
	units := book.Kitchen.Units
	for _, m := range h.Made(book) {
		x := m.Composition
		list.Foods = append(list.Foods, MadeFood{m.ID(), m.Name, m.DishName, m.Mass.Kg(), m.From.C(), m.FreezesC, m.Assumed, x.Water, x.Protein, x.Fat, x.Carb, x.Fibre, x.Ash, x.Alcohol})
		rows = append(rows, []string{m.ID(), m.Mass.Show(units), m.From.Show(units), fineTemp(m.FreezesC, units), fmt.Sprintf("%.1f %%", 100*x.Water), fmt.Sprintf("%.1f %%", 100*x.Fat), m.Name})
	}
	switch {
	case c.JSON:
		return s.showJSON(list)
	case len(list.Foods) == 0:
		s.say("%s makes nothing that can be computed", h.name())
		return nil
	}
	return s.show(columns(rows))
}

// fineTemp is a temperature to a tenth of a degree.
func fineTemp(c float64, units unit.System) string {
	if units == unit.US {
		return fmt.Sprintf("%.1f °F", unit.TempC(c).F())
	}
	return fmt.Sprintf("%.1f °C", c)
}

// columns lines up rows, two spaces between what is widest in each column.
func columns(rows [][]string) string {
	wide := make([]int, len(rows[0]))
	for _, row := range rows {
		for i, cell := range row {
			wide[i] = max(wide[i], len([]rune(cell)))
		}
	}
	var b strings.Builder
	for _, row := range rows {
		var line strings.Builder
		for i, cell := range row {
			line.WriteString(cell + strings.Repeat(" ", wide[i]-len([]rune(cell))+2))
		}
		b.WriteString(strings.TrimRight(line.String(), " ") + "\n")
	}
	return b.String()
}
