// Package barcode makes what scanners read: check digits, element strings of the GS1 application identifiers, Digital Link addresses, and the
// symbols Code 128, GS1-128 and QR as modules with their quiet zones. It draws nothing; whoever draws multiplies modules by a size.
//
// The rules are those of the GS1 General Specifications and the Digital Link standard. Each figure stands in a table or beside its name with its
// source; what is from memory says so, and should be confirmed in the text first. What cannot be said in a symbol is an error, never left out.
package barcode

import "fmt"

// InputError says what cannot be encoded, why, and what would do.
type InputError struct {
	What   string // "lot (10)": what was to be encoded
	Value  string // as it was given
	Reason string
	Fix    string
}

// Error is one line.
func (e *InputError) Error() string {
	return fmt.Sprintf("barcode: %s %q: %s; %s", e.What, e.Value, e.Reason, e.Fix)
}
