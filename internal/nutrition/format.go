package nutrition

import (
	_ "embed"
	"slices"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/sourced"
)

// Format is how a panel is laid out.
type Format int

const (
	Standard Format = iota + 1 // one column under the title
	Tabular                    // side by side
	Linear                     // one line after another, as text
	Contact                    // no panel, but an address or telephone number where to ask for it
)

var formatWords = [...]string{Standard: "standard", Tabular: "tabular", Linear: "linear", Contact: "address in place of the panel"}

// String is its name.
func (f Format) String() string {
	if f < Standard || f > Contact {
		return "no format"
	}
	return formatWords[f]
}

// MarshalText writes what String says.
func (f Format) MarshalText() ([]byte, error) { return []byte(f.String()), nil }

// Room is what a pack has for its labelling.
type Room struct {
	AreaSqIn    float64 // total surface that can bear labelling
	ColumnFits  bool    // a column of the standard format fits: about 3 in of continuous height on the panel in use
	TabularFits bool
	Claims      bool // the label makes a nutrition claim, or gives other nutrition information
}

// FormatChoice is a format that may be used.
type FormatChoice struct {
	Format Format `json:"format"`
	Small  bool   `json:"small"` // the type sizes of small packages will do
	Why    string `json:"why"`
	Source string `json:"source"`
	// Confirm: which formats the areas allow is from memory, all of it.
	Confirm string `json:"confirm"`
}

const (
	smallSqIn   = 40
	tiniestSqIn = 12
)

// Formats are those that a pack may use, the usual one first. The areas are from memory: whoever prints on a small pack asks first.
func Formats(room Room) []FormatChoice {
	const confirm = "the areas and what they allow are from memory"
	const small = "21 CFR 101.9(j)(13)"
	var all []FormatChoice
	add := func(f Format, why, source string) {
		all = append(all, FormatChoice{Format: f, Small: room.AreaSqIn <= smallSqIn && f != Standard, Why: why, Source: source, Confirm: confirm})
	}
	switch isSmall := room.AreaSqIn <= smallSqIn; {
	case room.AreaSqIn < tiniestSqIn && !room.Claims:
		add(Contact, "less than 12 sq in can bear labelling, and no claim is made", small+"(i)")
		add(Linear, "if the figures are given all the same", small+"(ii)(A)(2)")
	case room.ColumnFits:
		add(Standard, "a column fits", "21 CFR 101.9(d)")
	case !isSmall:
		add(Tabular, "no column of about 3 in fits", "21 CFR 101.9(d)(11)(iii)")
	case room.TabularFits:
		add(Tabular, "40 sq in or less, and no column fits", small+"(ii)(A)(1)")
	default:
		add(Linear, "40 sq in or less, and neither a column nor a tabular display fits", small+"(ii)(A)(2)")
	}
	return all
}

// TypeSize is the least type of one element of a panel, in points. Not given: no figure.
type TypeSize struct {
	Element  string          `json:"element"`
	Standard foodtable.Value `json:"standard"`
	Small    foodtable.Value `json:"small"`
	Bold     bool            `json:"bold"`
	Source   string          `json:"source"`
	Confirm  string          `json:"confirm,omitempty"`
}

//go:embed data/type.csv
var typeData string

var typeSizes = sourced.MustRead(typeData, func(row sourced.Row) (s TypeSize, err error) {
	s = TypeSize{Element: row["element"], Bold: row["bold"] == "yes", Source: row["source"], Confirm: row["confirm"]}
	for name, to := range map[string]*foodtable.Value{"standard_pt": &s.Standard, "small_pt": &s.Small} {
		if row[name] != "" {
			x, err := number(row[name])
			if err != nil {
				return s, err
			}
			*to = foodtable.Given(x)
		}
	}
	return s, nil
})

// TypeSizes are the type sizes of a panel's elements, from the title down; all from memory.
func TypeSizes() []TypeSize { return slices.Clone(typeSizes) }
