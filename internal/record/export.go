package record

import (
	"bytes"
	"encoding/json"
	"fmt"
)

// Line is the entry as it is exported: one JSON object without white space, the fields in the order of the struct.
// encoding/json writes the same bytes.
func (e Entry) Line() ([]byte, error) { return json.Marshal(e) }

// ParseLine reads what Line writes, and nothing else: a line with other fields, a field twice, in another order or spelling is not what
// was exported. A line break at the end is left out. The error is *LineError. Whether the entry makes sense is for Verify.
func ParseLine(line []byte) (Entry, error) {
	line = bytes.TrimSuffix(line, []byte("\n"))
	var e Entry
	d := json.NewDecoder(bytes.NewReader(line))
	d.DisallowUnknownFields()
	if err := d.Decode(&e); err != nil {
		return Entry{}, &LineError{Problem: "is no entry", Err: err}
	}
	same, err := e.Line()
	if err != nil {
		return Entry{}, &LineError{Problem: "is no entry", Err: err}
	}
	if at := firstDifference(line, same); at >= 0 {
		return Entry{}, &LineError{At: at + 1, Problem: "is not as an entry is exported from here on"}
	}
	return e, nil
}

// firstDifference is the first byte in which a and b differ; -1 when they are the same.
func firstDifference(a, b []byte) int {
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			return i
		}
	}
	if len(a) != len(b) {
		return min(len(a), len(b))
	}
	return -1
}

// LineError says what of an exported line is no entry.
type LineError struct {
	At      int // the byte, from 1; 0 when it is not known
	Problem string
	Err     error
}

func (e *LineError) Error() string {
	text := "record: the line " + e.Problem
	if e.At > 0 {
		text += fmt.Sprintf(" (byte %d)", e.At)
	}
	if e.Err != nil {
		text += ": " + e.Err.Error()
	}
	return text + ": take the line from an export that verifies"
}

func (e *LineError) Unwrap() error { return e.Err }
