package barcode

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Examples of the GS1 General Specifications and of pages of its member organisations (quoted), and two numbers that everybody knows (from memory).
func TestCheckDigits(t *testing.T) {
	for _, number := range []string{
		"6291041500213",      // GTIN-13, a member organisation's worked example: sum 57
		"09521234543213",     // GTIN-14, Digital Link standard
		"05060917510011",     // GTIN-14, an example of element strings
		"09506000134352",     // GTIN-14
		"106141411234567897", // SSCC
		"036000291452",       // GTIN-12, from memory
		"4006381333931",      // GTIN-13, from memory
	} {
		last := len(number) - 1
		if got, err := CheckDigit(number[:last]); err != nil || got != number[last] {
			t.Errorf("%s: check digit %c, %v", number, got, err)
		}
	}
}

func TestGTINs(t *testing.T) {
	for _, c := range []struct{ text, want, says string }{
		{"6291041500213", "06291041500213", ""},
		{"036000291452", "00036000291452", ""},
		{"09521234543213", "09521234543213", ""},
		{"6291041500214", "", "check digit is 4 and should be 3"},
		{"629104150021", "", "check digit is 1 and should be"}, // the check digit forgotten: 12 digits, taken for a GTIN-12
		{"62910415002", "", "has 11 digits"},
		{"6291041 500213", "", `character 8 is ' '`},
		{"６２９", "", `character 1 is '６'`},
		{"", "", "empty"},
	} {
		got, err := ParseGTIN(c.text)
		if string(got) != c.want || (c.says == "") != (err == nil) || err != nil && !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: %q, %v", c.text, got, err)
		}
	}
	if s, err := ParseSSCC("106141411234567897"); err != nil || s != "106141411234567897" {
		t.Errorf("%q, %v", s, err)
	}
	for _, bad := range []string{"106141411234567890", "10614141123456789", "x"} {
		if s, err := ParseSSCC(bad); err == nil || s != "" {
			t.Errorf("%q is taken for an SSCC", bad)
		}
	}
}

// One digit wrong is always noticed; two neighbours swapped unless they differ by 5.
func TestWhatACheckDigitNotices(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		data := rapid.StringMatching(`[0-9]{13}`).Draw(t, "digits")
		digit, err := CheckDigit(data)
		if err != nil {
			t.Fatal(err)
		}
		good := []byte(data + string(digit))
		at := rapid.IntRange(0, 12).Draw(t, "at")
		wrong := []byte(string(good))
		wrong[at] = '0' + (wrong[at]-'0'+byte(rapid.IntRange(1, 9).Draw(t, "by")))%10
		if _, err := ParseGTIN(string(wrong)); err == nil {
			t.Fatalf("%s for %s is not noticed", wrong, good)
		}
		swapped := []byte(string(good))
		swapped[at], swapped[at+1] = swapped[at+1], swapped[at]
		apart := int(good[at]) - int(good[at+1])
		_, err = ParseGTIN(string(swapped))
		if blind := apart == 0 || apart == 5 || apart == -5; blind != (err == nil) {
			t.Fatalf("%s for %s: %v", swapped, good, err)
		}
	})
}

func TestErrorsAreTyped(t *testing.T) {
	_, err := ParseGTIN("1")
	var bad *InputError
	if !errors.As(err, &bad) || bad.Fix == "" || bad.Reason == "" {
		t.Errorf("%#v", err)
	}
}
