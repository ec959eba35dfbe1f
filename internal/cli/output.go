package cli

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
)

// show writes finished output in one piece.
func (s *surroundings) show(text string) error {
	if _, err := io.WriteString(s.stdout, text); err != nil {
		return fmt.Errorf("standard output cannot be written: %w", err)
	}
	return nil
}

// showJSON writes a value as indented JSON.
func (s *surroundings) showJSON(value any) error {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(value); err != nil {
		return fmt.Errorf("this cannot be written as JSON: %w", err)
	}
	return s.show(b.String())
}

// say tells the person at the terminal something on the way. If even that cannot be written there is nobody to tell.
func (s *surroundings) say(format string, args ...any) {
	fmt.Fprintf(s.stderr, "kettlefrost: "+format+"\n", args...)
}
