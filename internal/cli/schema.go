package cli

import (
	"fmt"
	"strings"

	"kettlefrost/schema"
)

// schemaCommand prints a published schema; it is JSON as it is.
type schemaCommand struct {
	Of string `arg:"" name:"what" enum:"${schemas}" help:"What the schema field says between kettlefrost. and /1, or book or request: ${schemas}."`
}

// schemaNames is what there is a schema of, as the parser of the command line wants it.
func schemaNames() string { return strings.Join(schema.Names(), ",") }

func (c schemaCommand) Run(s *surroundings) error {
	text, err := schema.Of(c.Of)
	if err != nil {
		return fmt.Errorf("the schema of a %s is not in this build: %w", c.Of, err)
	}
	return s.show(string(text))
}
