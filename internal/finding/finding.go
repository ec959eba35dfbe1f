// Package finding is how kettlefrost tells a cook that something is wrong, risky or worth knowing: as data, with the figures that
// were compared, the source of the rule and what would fix it. A finding is never a bare string.
package finding

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Severity says how much a finding matters.
type Severity int

const (
	Note    Severity = iota + 1 // good to know
	Caution                     // look at this before you start
	Stop                        // do not start like this
)

var severityNames = [...]string{Note: "note", Caution: "caution", Stop: "stop"}

// String is "note", "caution" or "stop".
func (s Severity) String() string {
	if s < Note || s > Stop {
		return fmt.Sprintf("severity(%d)", int(s))
	}
	return severityNames[s]
}

// MarshalText writes the severity as its word.
func (s Severity) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalText reads "note", "caution" or "stop".
func (s *Severity) UnmarshalText(text []byte) error {
	for v := Note; v <= Stop; v++ {
		if severityNames[v] == string(text) {
			*s = v
			return nil
		}
	}
	return fmt.Errorf("severity %q: want note, caution or stop", text)
}

// Position is a place in a text file; line and column count from 1.
type Position struct {
	File   string `json:"file"`
	Line   int    `json:"line,omitempty"`
	Column int    `json:"column,omitempty"`
}

// String is file:line:column, leaving out what is not known.
func (p Position) String() string {
	switch {
	case p.Line == 0:
		return p.File
	case p.Column == 0:
		return fmt.Sprintf("%s:%d", p.File, p.Line)
	default:
		return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column)
	}
}

// Figure is one number that a finding compared. Text is the number as a cook reads it, with its unit.
type Figure struct {
	Name  string  `json:"name"`
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
	Text  string  `json:"text"`
}

// Finding is one thing that a cook should know.
type Finding struct {
	Code     string    `json:"code"` // stable, for programs: "chill-too-slow"
	Severity Severity  `json:"severity"`
	Where    string    `json:"where"`             // in the kitchen's words: "dish dal, step simmer"
	Path     string    `json:"path,omitempty"`    // in the book: "dishes.dal.steps[2].in"
	At       *Position `json:"at,omitempty"`      // in the file, when it is known
	Message  string    `json:"message"`           // what is wrong, with its case
	Figures  []Figure  `json:"figures,omitempty"` // what was compared
	Source   string    `json:"source,omitempty"`  // where the rule comes from
	Fix      string    `json:"fix,omitempty"`     // what to do
}

// String is the finding on one line.
func (f Finding) String() string {
	var b strings.Builder
	if f.At != nil {
		fmt.Fprintf(&b, "%s: ", f.At)
	}
	fmt.Fprintf(&b, "%s: ", f.Severity)
	if f.Where != "" {
		fmt.Fprintf(&b, "%s: ", f.Where)
	}
	b.WriteString(f.Message)
	if f.Fix != "" {
		fmt.Fprintf(&b, " (%s)", f.Fix)
	}
	return b.String()
}

// List is findings about one book or one plan.
type List []Finding

// Worst is the gravest severity in the list, 0 when it is empty.
func (l List) Worst() Severity {
	var worst Severity
	for _, f := range l {
		worst = max(worst, f.Severity)
	}
	return worst
}

// Sort puts the gravest first and keeps the order of equals.
func (l List) Sort() {
	slices.SortStableFunc(l, func(a, b Finding) int { return cmp.Compare(b.Severity, a.Severity) })
}
