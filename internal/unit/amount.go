package unit

import (
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Count is a number of things, a whole number of millionths.
type Count int64

// One is one thing.
const One Count = 1_000_000

// N is c as a float64.
func (c Count) N() float64 { return float64(c) / float64(One) }

// AmountKind says how an Amount is measured. The zero value is no kind.
type AmountKind uint8

const (
	AmountMass AmountKind = iota + 1
	AmountVolume
	AmountCount
)

// String is "mass", "volume" or "count".
func (k AmountKind) String() string {
	switch k {
	case AmountMass:
		return "mass"
	case AmountVolume:
		return "volume"
	case AmountCount:
		return "count"
	}
	return "no kind of amount"
}

// Amount is what a recipe line asks for: 5 lb; 2 cups, chopped; 3 each.
type Amount struct {
	Kind    AmountKind
	Mass    Mass   // if Kind is AmountMass
	Volume  Volume // if Kind is AmountVolume
	Count   Count  // if Kind is AmountCount
	Measure string // of a count: what is counted (each, bunch); of a volume: its form, if it matters (chopped); lower case
}

// longestMeasure is the most characters a measure or form may have.
const longestMeasure = 60

// ParseAmount reads a mass, a volume with or without a form (2 cups, chopped), or a count of something (1/2 bunch).
// A word that is no unit is taken as what is counted, in lower case. Errors are *ParseError.
func ParseAmount(text string) (Amount, error) {
	s := scanner{text: text}
	s.spaces()
	switch {
	case len(text) > maxText:
		return Amount{}, fail(amountKind, text, tooLong)
	case s.done():
		return Amount{}, fail(amountKind, text, "is empty")
	case s.accept('+'):
		return Amount{}, fail(amountKind, text, withPlus)
	case s.accept('-'):
		return Amount{}, fail(amountKind, text, belowZero)
	}
	n, problem := s.number()
	if problem != "" {
		return Amount{}, fail(amountKind, text, problem)
	}
	key, raw := s.unit()
	if problem := ambiguous(raw); problem != "" {
		return Amount{}, fail(amountKind, text, problem)
	}
	if _, ok := spellings[massKind][string(key)]; ok {
		m, err := ParseMass(text)
		return Amount{Kind: AmountMass, Mass: m}, err
	}
	if _, ok := spellings[volumeKind][string(key)]; ok {
		return volumeAmount(text)
	}
	return countAmount(text, n, raw, s.text[s.pos:])
}

func volumeAmount(text string) (Amount, error) {
	measured, form, formed := cutForm(text)
	a := Amount{Kind: AmountVolume}
	var err error
	if a.Volume, err = ParseVolume(measured); err != nil {
		return Amount{}, err
	}
	if formed {
		var problem string
		if a.Measure, problem = words(form); problem != "" {
			return Amount{}, fail(amountKind, text, problem)
		}
	}
	return a, nil
}

// cutForm cuts text at the first comma that is not inside a number.
func cutForm(text string) (measured, form string, found bool) {
	for i := range len(text) {
		if text[i] == ',' && (i+1 == len(text) || !isDigit(text[i+1])) {
			return text[:i], text[i+1:], true
		}
	}
	return text, "", false
}

func countAmount(text string, n number, raw, rest string) (Amount, error) {
	problem := ""
	a := Amount{Kind: AmountCount}
	switch {
	case raw == "" && rest == "":
		bare := strings.TrimSpace(text)
		problem = fmt.Sprintf("is a bare number: %s of what? Write %s each or %s lb", bare, bare, bare)
	case rest != "":
		problem = "cannot be read from " + strconv.Quote(rest) + " on"
	default:
		a.Measure, problem = measureWord(raw)
	}
	if problem == "" {
		var mag uint64
		if mag, problem = grains([]part{{n, &kinds[countKind].units[0]}}); problem == "" {
			var v int64
			v, problem = signed(mag, false, 0)
			a.Count = Count(v)
		}
	}
	if problem != "" {
		return Amount{}, fail(amountKind, text, problem)
	}
	return a, nil
}

// measureWord is what is counted, tidied; units are not counted.
func measureWord(raw string) (string, string) {
	if k, ok := otherKind(amountKind, strings.ToLower(raw)); ok {
		return "", "is " + kinds[k].want
	}
	measure, problem := words(raw)
	if problem != "" {
		return "", problem
	}
	for word := range strings.FieldsSeq(measure) {
		for _, k := range []kind{massKind, volumeKind} {
			if _, ok := spellings[k][word]; ok {
				return "", "has the unit " + strconv.Quote(word) + " in its words"
			}
		}
	}
	return measure, ""
}

// words is raw in lower case with single spaces. Only letters, spaces and hyphens will do, a letter first.
func words(raw string) (string, string) {
	tidy := strings.ToLower(strings.Join(strings.Fields(raw), " "))
	if tidy == "" {
		return "", "has nothing behind the comma"
	}
	if utf8.RuneCountInString(tidy) > longestMeasure {
		return "", tooLong
	}
	for i, r := range tidy {
		if !unicode.IsLetter(r) && (i == 0 || r != ' ' && r != '-' && !unicode.IsMark(r)) {
			return "", "has " + strconv.Quote(string(r)) + " where only letters, spaces and hyphens will do"
		}
	}
	return tidy, ""
}

// String is the amount as a cook would have typed it.
func (a Amount) String() string {
	switch {
	case a.Kind == AmountMass:
		return a.Mass.String()
	case a.Kind == AmountVolume && a.Measure != "":
		return a.Volume.String() + ", " + a.Measure
	case a.Kind == AmountVolume:
		return a.Volume.String()
	case a.Kind == AmountCount:
		return a.Count.String() + " " + a.Measure
	}
	return a.Kind.String()
}

// MarshalText writes String. What ParseAmount would not read back as the same amount is an error.
func (a Amount) MarshalText() ([]byte, error) {
	text := a.String()
	if back, err := ParseAmount(text); err != nil || back != a {
		return nil, fmt.Errorf("%q is not an amount that can be written", text)
	}
	return []byte(text), nil
}

// UnmarshalText reads what ParseAmount reads.
func (a *Amount) UnmarshalText(text []byte) error { return readInto(a, ParseAmount, text) }

// amountJSON holds exactly one of a mass, a volume and a count.
type amountJSON struct {
	Mass    *Mass   `json:"mass_g,omitempty"`
	Volume  *Volume `json:"volume_ml,omitempty"`
	Form    string  `json:"form,omitempty"` // of a volume
	Count   *Count  `json:"count,omitempty"`
	Measure string  `json:"measure,omitempty"` // of a count
}

// MarshalJSON writes {"mass_g":450}, {"volume_ml":250,"form":"chopped"} or {"count":3,"measure":"each"}.
func (a Amount) MarshalJSON() ([]byte, error) {
	switch a.Kind {
	case AmountMass:
		return json.Marshal(amountJSON{Mass: &a.Mass})
	case AmountVolume:
		return json.Marshal(amountJSON{Volume: &a.Volume, Form: a.Measure})
	case AmountCount:
		return json.Marshal(amountJSON{Count: &a.Count, Measure: a.Measure})
	}
	return nil, errors.New("an amount without a kind cannot be written")
}

// UnmarshalJSON reads what MarshalJSON writes, and a string as ParseAmount does.
func (a *Amount) UnmarshalJSON(data []byte) error {
	if string(data) == "null" {
		return nil
	}
	if quoted(data) {
		return readString(a, ParseAmount, data)
	}
	var j amountJSON
	if err := json.Unmarshal(data, &j); err != nil {
		return err
	}
	problem := ""
	read := Amount{}
	switch {
	case j.Mass != nil && j.Volume == nil && j.Count == nil && j.Form == "" && j.Measure == "":
		read = Amount{Kind: AmountMass, Mass: *j.Mass}
	case j.Volume != nil && j.Mass == nil && j.Count == nil && j.Measure == "":
		read = Amount{Kind: AmountVolume, Volume: *j.Volume}
		if j.Form != "" {
			read.Measure, problem = words(j.Form)
		}
	case j.Count != nil && j.Mass == nil && j.Volume == nil && j.Form == "":
		read = Amount{Kind: AmountCount, Count: *j.Count}
		read.Measure, problem = measureWord(j.Measure)
	default:
		problem = "is not one of mass_g, volume_ml with form, count with measure"
	}
	if problem != "" {
		return &ParseError{Text: string(data), Want: kinds[amountKind].want, Problem: problem, Example: `{"count":3,"measure":"each"}`}
	}
	*a = read
	return nil
}

// Show is the amount as a cook reads it: masses and volumes in the units of s, counts as they are.
func (a Amount) Show(s System) string {
	switch {
	case a.Kind == AmountMass:
		return a.Mass.Show(s)
	case a.Kind == AmountVolume && a.Measure != "":
		return a.Volume.Show(s) + ", " + a.Measure
	case a.Kind == AmountVolume:
		return a.Volume.Show(s)
	}
	return a.String()
}
