package nutrition

import (
	"fmt"
	"slices"
)

// euRow is a line of the declaration: where the tables have its rounding and its reference intake.
type euRow struct {
	Row
	rounding, intake string
	voluntary        bool
}

// euLayout is the order of annex XV, from memory.
var euLayout = []euRow{
	{Row{Nutrient: Fat, Name: "Fat"}, "nutrients", "fat", false},
	{Row{Nutrient: SaturatedFat, Name: "of which saturates", Indent: 1}, "fatty_acids", "saturates", false},
	{Row{Nutrient: MonounsaturatedFat, Name: "mono-unsaturates", Indent: 1}, "fatty_acids", "", true},
	{Row{Nutrient: PolyunsaturatedFat, Name: "polyunsaturates", Indent: 1}, "fatty_acids", "", true},
	{Row{Nutrient: Carbohydrate, Name: "Carbohydrate"}, "nutrients", "carbohydrate", false},
	{Row{Nutrient: Sugars, Name: "of which sugars", Indent: 1}, "nutrients", "sugars", false},
	{Row{Nutrient: SugarAlcohol, Name: "polyols", Indent: 1}, "nutrients", "", true},
	{Row{Nutrient: Fibre, Name: "Fibre"}, "nutrients", "", true},
	{Row{Nutrient: Protein, Name: "Protein"}, "nutrients", "protein", false},
	{Row{Nutrient: Sodium, Name: "Salt"}, "salt", "salt", false},
	{Row{Nutrient: VitaminD, Name: "Vitamin D"}, "vitamin_d", "vitamin_d", true},
	{Row{Nutrient: Calcium, Name: "Calcium"}, "calcium", "calcium", true},
	{Row{Nutrient: Iron, Name: "Iron"}, "iron", "iron", true},
	{Row{Nutrient: Potassium, Name: "Potassium"}, "potassium", "potassium", true},
}

const (
	euConfirm      = "the order of the lines, and how they are rounded, are from memory: read annex XV and the guidance on tolerances"
	intakeSays     = "Reference intake of an average adult (8 400 kJ/2 000 kcal)"
	naturalSays    = "The salt content is exclusively due to the presence of naturally occurring sodium."
	significantPct = 15 // of the reference value in 100 g, annex XIII A.2, from memory
)

// EUDeclarationOf makes a declaration, per 100 g and, where one is asked for, per portion. A vitamin or mineral that is asked for stands only if
// 100 g have 15 % of its reference value. Errors are *InputError.
func EUDeclarationOf(a EUAsked) (EUDeclaration, error) {
	d := EUDeclaration{Headings: []string{"Per 100 g"}, Confirm: []string{euConfirm}}
	if a.Food.Mass <= 0 {
		return d, &InputError{"a declaration", "has no food", "give what the pack holds"}
	}
	columns := []EUAmounts{a.Food.Per100g().EU()}
	if a.Portion > 0 {
		if a.Portions < 1 {
			return d, &InputError{"a declaration per portion", "needs the number of portions in the pack", "give it"}
		}
		columns = append(columns, a.Food.In(a.Portion).EU())
		d.Headings = append(d.Headings, fmt.Sprintf("Per portion of %.0f g", a.Portion.Kg()*1000))
		d.Statements = append(d.Statements, fmt.Sprintf("The pack contains %s.", plural(fmt.Sprint(a.Portions), a.Portions > 1, "portion")))
	}
	d.Assumed = columns[0].Assumed
	d.add(Row{Nutrient: Energy, Name: "Energy"}, euEnergy(columns, a.Intakes))
	for _, row := range euLayout {
		if row.voluntary && !slices.Contains(a.Voluntary, row.Nutrient) || row.Nutrient.Micronutrient() && !significant(row, columns[0]) {
			continue
		}
		d.add(row.Row, euCells(row, columns, a.Intakes))
	}
	if a.Intakes {
		d.Statements = append(d.Statements, intakeSays)
	}
	if a.SaltIsNatural {
		d.Statements = append(d.Statements, naturalSays)
	}
	return d, nil
}

func (d *EUDeclaration) add(row Row, cells []Cell) {
	row.Cells = cells
	if i := slices.IndexFunc(cells, func(c Cell) bool { return c.Open }); i >= 0 {
		d.Open = append(d.Open, Open{row.Nutrient, cells[i].Actual})
	}
	d.Rows = append(d.Rows, row)
}

func significant(row euRow, per100g EUAmounts) bool {
	ref, has := intakeOf(row.intake)
	return has && 100*per100g.Amounts[row.Nutrient].Least >= significantPct*ref.amount
}

// of is an amount as a line of the declaration has it.
func (e EUAmounts) of(n Nutrient) Amount {
	switch n {
	case Carbohydrate:
		return e.Carb
	case Sodium:
		return e.SaltG
	}
	return e.Amounts[n]
}

func euCells(row euRow, columns []EUAmounts, intakes bool) []Cell {
	var cells []Cell
	for _, e := range columns {
		a := e.of(row.Nutrient)
		cells = append(cells, cellOf(a, func(x float64) Cell { return euPrinted(row.rounding, row.intake, x, intakes) }))
	}
	return cells
}

func euPrinted(rounding, intake string, x float64, intakes bool) Cell {
	may := AllowedEU(rounding, x)
	if len(may) == 0 {
		return Cell{Open: true}
	}
	c := Cell{Amount: may[0].Text, Or: may[1:]}
	if ref, has := intakeOf(intake); has && intakes {
		c.Percent = AllowedEU("intake", 100*x/ref.amount)[0].Text
	}
	return c
}

// euEnergy is kilojoules and then kilocalories, each by its own factors: neither is converted from the other.
func euEnergy(columns []EUAmounts, intakes bool) []Cell {
	var cells []Cell
	for _, e := range columns {
		kj := cellOf(e.KJ, func(x float64) Cell { return euPrinted("energy_kj", "energy_kj", x, intakes) })
		kcal := cellOf(e.Kcal, func(x float64) Cell { return euPrinted("energy_kcal", "energy_kcal", x, intakes) })
		c := Cell{Actual: e.Kcal, Open: kj.Open || kcal.Open}
		if !c.Open {
			c.Amount, c.Percent = kj.Amount+" / "+kcal.Amount+" kcal", kj.Percent
		}
		cells = append(cells, c)
	}
	return cells
}
