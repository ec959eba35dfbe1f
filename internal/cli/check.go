package cli

import (
	"strings"

	"kettlefrost/internal/finding"
)

// checkCommand finds what is wrong in a book.
type checkCommand struct {
	bookFlag
	JSON bool `name:"json" help:"As JSON (kettlefrost.check/1)."`
}

// Checked is the JSON of a check.
type Checked struct {
	Schema   string       `json:"schema"`
	Book     string       `json:"book"`
	Findings finding.List `json:"findings"` // gravest first
}

// Run lists the findings, one on a line, as compilers do: file, line and column first.
func (c checkCommand) Run(s *surroundings) error {
	h, err := c.open(s)
	if err != nil {
		return err
	}
	_, found := h.read()
	if found == nil {
		found = finding.List{}
	}
	if c.JSON {
		err = s.showJSON(Checked{checkSchema, h.name(), found})
	} else {
		err = s.show(checkSheet(h.name(), found))
	}
	if err == nil && found.Worst() == finding.Stop {
		return failure{code: mistakes, place: h.name(), what: "this book cannot be planned with", fix: "mend what is marked stop"}
	}
	return err
}

func checkSheet(name string, found finding.List) string {
	var b strings.Builder
	for _, f := range found {
		b.WriteString(f.String())
		if f.Source != "" {
			b.WriteString(" [" + f.Source + "]")
		}
		b.WriteByte('\n')
	}
	b.WriteString(name + ": " + tally(found) + "\n")
	return b.String()
}
