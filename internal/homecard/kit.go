package homecard

import (
	_ "embed"
	"fmt"
	"strconv"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/sourced"
	"kettlefrost/internal/unit"
)

//go:embed data/kit.csv
var kitCSV string

//go:embed data/figures.csv
var figuresCSV string

// Tool is a thing that a home has to cook with.
type Tool struct {
	ID      kitchen.EquipmentID
	Family  string // pot, pan, blender, oven or table
	Name    string
	Volume  unit.Volume
	Working unit.Share
	Across  unit.Length // inside, of base and open surface
	Least   unit.Volume // below this it does not work; a blender
	Trays   int         // baking sheets at once; an oven
	Source  string
	Confirm string // why the row is to be confirmed; empty if it is not
}

// Kit is what a home has, the smallest of each family first. The slice is the caller's.
func Kit() []Tool { return append([]Tool(nil), kit...) }

var kit = sourced.MustRead(kitCSV, readTool)

func readTool(row sourced.Row) (Tool, error) {
	t := Tool{ID: kitchen.EquipmentID(row["id"]), Family: row["family"], Name: row["name"], Source: row["source"], Confirm: row["confirm"]}
	if kinds[t.Family] == "" {
		return t, fmt.Errorf("%q is no family of tools", t.Family)
	}
	for _, cell := range []struct {
		column string
		read   func(string) error
	}{
		{"volume", func(s string) (err error) { t.Volume, err = unit.ParseVolume(s); return }},
		{"working", func(s string) (err error) { t.Working, err = unit.ParseShare(s); return }},
		{"across", func(s string) (err error) { t.Across, err = unit.ParseLength(s); return }},
		{"least", func(s string) (err error) { t.Least, err = unit.ParseVolume(s); return }},
		{"trays", func(s string) (err error) { t.Trays, err = strconv.Atoi(s); return }},
	} {
		if row[cell.column] == "" {
			continue
		}
		if err := cell.read(row[cell.column]); err != nil {
			return t, fmt.Errorf("%s: %w", cell.column, err)
		}
	}
	return t, nil
}

// kinds are what the families are to the plan.
var kinds = map[string]kitchen.Kind{"pot": kitchen.Vessel, "pan": kitchen.Vessel, "blender": kitchen.Blender, "oven": kitchen.Oven, "table": kitchen.Table}

// figure is something of a home that is only known as a range.
type figure struct {
	name             string
	low, usual, high float64
	unit             string
	source, confirm  string
}

var figures = sourced.MustRead(figuresCSV, func(row sourced.Row) (figure, error) {
	f := figure{name: row["figure"], unit: row["unit"], source: row["source"], confirm: row["confirm"]}
	for column, into := range map[string]*float64{"low": &f.low, "usual": &f.usual, "high": &f.high} {
		x, err := strconv.ParseFloat(row[column], 64)
		if err != nil {
			return f, err
		}
		*into = x
	}
	return f, nil
})

// of is a figure by its name; the table is part of the program, so that a name it does not have is a mistake of ours.
func of(name string) figure {
	for _, f := range figures {
		if f.name == name {
			return f
		}
	}
	panic("homecard: no figure " + name)
}

// text is a value of a figure with its unit, as the words of package unit want it.
func (f figure) text(value float64) string {
	return strings.TrimSpace(strconv.FormatFloat(value, 'f', -1, 64) + " " + f.unit)
}

// length is the usual value of a figure that is one.
func (f figure) length() unit.Length {
	l, err := unit.ParseLength(f.text(f.usual))
	if err != nil {
		panic("homecard: " + err.Error())
	}
	return l
}

func (f figure) temp() *unit.Temp {
	t, err := unit.ParseTemp(f.text(f.usual))
	if err != nil {
		panic("homecard: " + err.Error())
	}
	return &t
}
