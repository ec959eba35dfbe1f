package cli

import (
	"fmt"

	"kettlefrost/schema"
)

// schemaCommand prints a published schema; it is JSON as it is.
type schemaCommand struct {
	Of string `arg:"" name:"what" enum:"plan,day,seal,week,after,filling,heat,recall,trace,stock,book,request" help:"plan, day, seal, week, after, filling, heat, recall, trace, stock, book or request."`
}

func (c schemaCommand) Run(s *surroundings) error {
	text, err := schema.Of(c.Of)
	if err != nil {
		return fmt.Errorf("the schema of a %s is not in this build: %w", c.Of, err)
	}
	return s.show(string(text))
}
