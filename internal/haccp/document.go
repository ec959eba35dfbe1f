package haccp

import (
	"encoding/json"
	"fmt"
)

// Schema names the shape of a Document.
const Schema = "kettlefrost.hazard-plan/1"

// Document is one version of a plan as it is kept: what it was drafted from, what people changed, and the plan itself, to be read without the
// program.
type Document struct {
	Schema  string   `json:"schema"`
	Product Product  `json:"product"`
	Edits   []Edit   `json:"edits,omitempty"`
	Misfits []Misfit `json:"misfits,omitempty"` // edits of the version before that have no place in this one
	Plan    Plan     `json:"plan"`
}

// Write puts a plan and what it rests on together. Edits without a place are kept as misfits and are no longer among the edits. Errors are
// *ProductError.
func Write(p Product, edits []Edit) (Document, error) {
	plan, misfits, err := With(p, edits)
	if err != nil {
		return Document{}, err
	}
	for _, m := range misfits {
		edits = Without(edits, m.Edit.Do, m.Edit.At, m.Edit.What)
	}
	return Document{Schema: Schema, Product: p, Edits: edits, Misfits: misfits, Plan: plan}, nil
}

// Text is a document as JSON, always the same for the same plan.
func (d Document) Text() string {
	text, err := json.MarshalIndent(d, "", " ")
	if err != nil { // floats were checked when they were put in
		return fmt.Sprintf(`{"schema": %q, "error": %q}`, Schema, err)
	}
	return string(text)
}

// DocumentError says why a text is no document.
type DocumentError struct{ Problem string }

func (e *DocumentError) Error() string {
	return "haccp: the text of a hazard plan: " + e.Problem + ": it was not written by this program, or by a later one"
}

// Read reads what Text wrote. The error is *DocumentError.
func Read(text string) (Document, error) {
	var d Document
	if err := json.Unmarshal([]byte(text), &d); err != nil {
		return Document{}, &DocumentError{err.Error()}
	}
	if d.Schema != Schema {
		return Document{}, &DocumentError{fmt.Sprintf("it is %.60q, not %q", d.Schema, Schema)}
	}
	return d, nil
}
