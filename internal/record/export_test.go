package record

import (
	"bytes"
	"errors"
	"strings"
	"testing"
)

func TestLinesComeBack(t *testing.T) {
	for _, e := range sealed(t, 4) {
		line, err := e.Line()
		if err != nil {
			t.Fatal(err)
		}
		back, err := ParseLine(append(line, '\n'))
		if err != nil {
			t.Fatal(err)
		}
		if again, _ := back.Line(); !bytes.Equal(again, line) || back.Hash != e.Hash {
			t.Errorf("%s comes back as %s", line, again)
		}
	}
}

func TestLinesThatAreRefused(t *testing.T) {
	text, err := sealed(t, 1)[0].Line()
	if err != nil {
		t.Fatal(err)
	}
	line := string(text)
	for name, bad := range map[string]string{
		"nothing":            "",
		"no JSON":            line[:len(line)-1],
		"a field more":       strings.Replace(line, `"who"`, `"colour":"red","who"`, 1),
		"a field twice":      strings.Replace(line, `"who"`, `"device":"x","who"`, 1),
		"a field less":       strings.Replace(line, `"corrects":"",`, "", 1),
		"another order":      strings.Replace(line, `"seq":1,`, "", 1),
		"capital letters":    strings.Replace(line, `"seq"`, `"Seq"`, 1),
		"white space":        " " + line,
		"two lines":          line + "\n" + line,
		"a hash in capitals": strings.Replace(line, `"prev":"0`, `"prev":"A`, 1),
		"a float":            strings.Replace(line, `"seq":1`, `"seq":1.0`, 1),
		"null":               strings.Replace(line, `"site":"kitchen"`, `"site":null`, 1),
	} {
		var wrong *LineError
		if _, err := ParseLine([]byte(bad)); !errors.As(err, &wrong) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// What is read is written back byte for byte, and verifying it never panics.
func FuzzParseLine(f *testing.F) {
	for _, e := range sealed(f, 3) {
		line, err := e.Line()
		if err != nil {
			f.Fatal(err)
		}
		f.Add(line)
	}
	f.Add([]byte(`{"seq":1}`))
	f.Fuzz(func(t *testing.T, line []byte) {
		e, err := ParseLine(line)
		if err != nil {
			return
		}
		if again, err := e.Line(); err != nil || !bytes.Equal(again, bytes.TrimSuffix(line, []byte("\n"))) {
			t.Fatalf("%s was read and is written %s (%v)", line, again, err)
		}
		var v Verifier
		_ = v.Next(e)
	})
}
