package tables

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/unit"
)

// numeric says whether numbers stand in a field, in which thousands and decimals may have signs.
func (k FieldKind) numeric() bool { return k == Number || k == Mass || k == Money || k == Temp }

// ask finds out what the cells leave open and the settings do not say.
func (r *reader) ask(rows [][]Cell, number int) {
	proved := map[sign]string{} // by which cell
	open := ""
	first := map[string]string{} // the first cell for which something must be asked
	note := func(key, because string) {
		if first[key] == "" && r.settings[key] == "" {
			first[key] = because
		}
	}
	for i, cells := range rows {
		for _, m := range r.matches {
			if m.column >= len(cells) || strings.TrimSpace(cells[m.column].Text) == "" {
				continue
			}
			cell := cells[m.column]
			text := strings.TrimSpace(cell.Text)
			because := fmt.Sprintf("row %d, column %s (%s) has %.40q", number+i, Letters(m.column+1), m.head, text)
			if m.field.Kind == Date && !cell.Exact {
				if _, _, unread := readDay(text, ""); unread {
					note(AskDates, because)
				}
			}
			if !m.field.Kind.numeric() {
				continue
			}
			if key := map[FieldKind]string{Mass: AskMass, Temp: AskTemp}[m.field.Kind]; key != "" && m.unit == "" && bare(text) {
				note(key, because)
			}
			if cell.Exact {
				continue
			}
			numbers(text, func(from, to int) {
				sign, either := proof(text[from:to])
				if sign != unsaid && proved[sign] == "" {
					proved[sign] = because
				}
				if either && open == "" {
					open = because
				}
			})
		}
	}
	switch said := r.settings[AskDecimal]; {
	case said == "point":
		r.decimal = point
	case said == "comma":
		r.decimal = comma
	case proved[point] != "" && proved[comma] != "":
		first[AskDecimal] = proved[point] + ", and " + proved[comma]
	case proved[point] != "":
		r.decimal = point
	case proved[comma] != "":
		r.decimal = comma
	case open != "":
		first[AskDecimal] = open
	default:
		r.decimal = point
	}
	for _, key := range Asked() {
		if first[key] != "" {
			r.out.Questions = append(r.out.Questions, question(key, first[key]))
		}
	}
}

// bare says whether a number has no unit.
func bare(text string) bool {
	return strings.Trim(text, "0123456789.,'-+ \u00a0\u202f/") == ""
}

// cell reads one cell that is not empty. Open says that an answer is needed first.
func (r *reader) cell(m match, cell Cell) (v value, problem, fix string, open bool) {
	text := cell.Text
	if m.field.Kind.numeric() && !cell.Exact {
		if r.decimal == unsaid {
			return v, "", "", true
		}
		if text, problem = plainly(text, r.decimal); problem != "" {
			return v, problem, fmt.Sprintf("write it plainly, or say what stands before the decimals: here it is a %s", map[sign]string{point: "point", comma: "comma"}[r.decimal]), false
		}
	}
	var err error
	switch m.field.Kind {
	case Word:
		if strings.ContainsAny(text, "\r\n\t") {
			return v, "has a line break or a tab", "write it on one line", false
		}
		v.text = text
	case Lines:
		v.text = text
	case OneOf:
		return oneOf(m.field, text)
	case Date:
		var unread bool
		v.text, problem, unread = readDay(text, r.settings[AskDates])
		return v, problem, dateFix, unread
	case Number:
		if v.whole, err = strconv.ParseInt(strings.TrimSuffix(text, ".0"), 10, 64); err != nil {
			return v, "is no whole number", "write plain digits", false
		}
		v.text = strconv.FormatInt(v.whole, 10)
	case Mass:
		unitOf := m.unit
		if unitOf == "" {
			unitOf = r.settings[AskMass]
		}
		if bare(text) {
			if unitOf == "" {
				return v, "", "", true
			}
			text += " " + unitOf
		}
		v.text = text
		v.mass, err = unit.ParseMass(text)
	case Money:
		v.text = text
		v.money, err = unit.ParseMoney(text)
	case Temp:
		unitOf := m.unit
		if unitOf == "" {
			unitOf = r.settings[AskTemp]
		}
		if bare(text) {
			if unitOf == "" {
				return v, "", "", true
			}
			text += " °" + strings.ToUpper(unitOf)
		}
		v.text = text
		v.temp, err = unit.ParseTemp(text)
	}
	if parse := (*unit.ParseError)(nil); errors.As(err, &parse) {
		return v, parse.Problem, "write " + parse.Want + ", such as " + parse.Example, false
	} else if err != nil {
		return v, err.Error(), "write it otherwise", false
	}
	return v, "", "", false
}

func oneOf(f Field, text string) (v value, problem, fix string, open bool) {
	var all []string
	for _, w := range f.Words {
		if words(text) == words(w.Word) || slices.ContainsFunc(w.Also, func(also string) bool { return words(also) == words(text) }) {
			v.text = w.Word
			return v, "", "", false
		}
		all = append(all, w.Word)
	}
	return v, "is none of the words that may stand here", "write " + strings.Join(all, " or "), false
}
