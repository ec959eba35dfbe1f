package stability

import (
	"fmt"
	"strconv"

	"kettlefrost/internal/finding"
)

// Severity is how bad it is in this pot.
type Severity int

// Severities of the published advice.
const (
	Good     Severity = iota
	Note              // good to know
	Change            // change the recipe
	LeaveOut          // leave out, or add at reheating
)

var severities = [...]string{"good", "note", "change the recipe", "leave out or add at reheating"}

// String is the severity in words.
func (s Severity) String() string {
	if s < Good || s > LeaveOut {
		return fmt.Sprintf("severity(%d)", int(s))
	}
	return severities[s]
}

// less is one step less.
func (s Severity) less() Severity { return max(Good, s-1) }

// Finding is one thing that goes wrong in the freezer.
type Finding struct {
	Code       string
	Components []string // empty: the whole pot
	Severity   Severity // in this pot
	ByItself   Severity // by the tables, whatever the pot
	Mechanism  string   // what happens
	Because    string   // why it counts so here; empty: in full
	Figures    []finding.Figure
	Source     string
	Confirm    string // what of it is from memory, common practice or judgement
	Remedies   []Remedy
}

// Remedy is what would help.
type Remedy struct {
	ID        string
	Do        string
	Low, High float64 // dose as a share of Basis; both 0 where there is none
	Basis     string
	Source    string
	Confirm   string
	Tried     bool     // on this pot, by reviewing it so changed
	After     Severity // of the same finding then
}

// Passed is a risk of the tables that does not count in this pot, and why.
type Passed struct {
	Code       string
	Components []string
	ByItself   Severity
	Why        string
}

// percent is a share as a figure; its value is 0 to 1.
func percent(name string, share float64) finding.Figure {
	return finding.Figure{Name: name, Value: share, Unit: "1", Text: strconv.FormatFloat(100*share, 'g', 3, 64) + " %"}
}

func plain(name string, x float64, unit string) finding.Figure {
	text := strconv.FormatFloat(x, 'g', 3, 64)
	if unit != "" {
		text += " " + unit
	}
	return finding.Figure{Name: name, Value: x, Unit: unit, Text: text}
}

// given is a figure where it is known, and none where it is 0.
func given(name string, x float64, unit string) []finding.Figure {
	if x == 0 {
		return nil
	}
	return []finding.Figure{plain(name, x, unit)}
}
