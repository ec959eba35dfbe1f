package people

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Secret is a password, a PIN or a key as somebody types it. It is printed as dots, whatever prints it.
type Secret string

const dots = "…"

func (Secret) String() string               { return dots }
func (Secret) GoString() string             { return dots }
func (Secret) MarshalText() ([]byte, error) { return []byte(dots), nil }

// Length of passwords in characters. SP 800-63B of NIST asks for at least 8 in its third revision (2017, 5.1.1.1) and for 15 in its fourth where
// nothing else is asked for, and in both for at least 64 to be taken, any character, and no rules about which (from memory). Tries are
// limited here, so that 12 is our own middle.
const (
	shortestPassword = 12
	longestPassword  = 256 // bytes: the hash takes any length, the form does not
)

// SecretError says why a password or a PIN cannot be taken. It does not hold it.
type SecretError struct {
	What    string // password or PIN
	Problem string
	Fix     string
}

func (e *SecretError) Error() string { return fmt.Sprintf("the %s %s: %s", e.What, e.Problem, e.Fix) }

// CheckPassword says whether a password may be used by a person. The error is *SecretError.
func CheckPassword(password Secret, p Person) error {
	const fix = "four words that have nothing to do with one another are good, and easy to keep"
	wrong := func(problem string) error { return &SecretError{"password", problem, fix} }
	text := string(password)
	lower := strings.ToLower(text)
	rest := lower
	for _, known := range append(strings.Fields(strings.ToLower(p.Name)), p.Person, "kettlefrost", "password", "kitchen") {
		if len(known) > 2 {
			rest = strings.ReplaceAll(rest, known, "")
		}
	}
	switch {
	case !utf8.ValidString(text) || strings.ContainsFunc(text, unicode.IsControl):
		return wrong("has a character that cannot be typed")
	case len(text) > longestPassword:
		return wrong(fmt.Sprintf("has more than %d bytes", longestPassword))
	case utf8.RuneCountInString(text) < shortestPassword:
		return wrong(fmt.Sprintf("has fewer than %d characters", shortestPassword))
	case distinct(lower) < 5:
		return wrong("repeats itself")
	case isRun(lower):
		return wrong("only counts up or down")
	case utf8.RuneCountInString(rest) < shortestPassword/2:
		return wrong("is hardly more than a name that everybody knows")
	}
	return nil
}

// Length of PINs in digits.
const (
	shortestPIN = 4
	longestPIN  = 8
)

// CheckPIN says whether a PIN may be used. What people choose first when they are free to choose (all the same digit, counting up or down, a
// pair twice, a year) is refused: common practice. The error is *SecretError.
func CheckPIN(pin Secret) error {
	text := string(pin)
	wrong := func(problem, fix string) error { return &SecretError{"PIN", problem, fix} }
	const other = "take digits that nobody would try first"
	switch {
	case text == "" || strings.Trim(text, "0123456789") != "":
		return wrong("is not of digits", fmt.Sprintf("type %d to %d digits", shortestPIN, longestPIN))
	case len(text) < shortestPIN || len(text) > longestPIN:
		return wrong(fmt.Sprintf("has %d digits", len(text)), fmt.Sprintf("type %d to %d digits", shortestPIN, longestPIN))
	case distinct(text) == 1:
		return wrong("is one digit again and again", other)
	case isRun(text):
		return wrong("only counts up or down", other)
	case len(text)%2 == 0 && text[:len(text)/2] == text[len(text)/2:]:
		return wrong("is the same twice", other)
	case len(text) == 4 && (strings.HasPrefix(text, "19") || strings.HasPrefix(text, "20")):
		return wrong("looks like a year", other)
	}
	return nil
}

func distinct(s string) int {
	seen := map[rune]bool{}
	for _, r := range s {
		seen[r] = true
	}
	return len(seen)
}

// isRun says whether each character is the next, or each the one before: 1234, 7654, abcdef. After 9 comes 0.
func isRun(s string) bool {
	for _, step := range []int{1, -1} {
		run := true
		for i := 1; i < len(s); i++ {
			d := int(s[i]) - int(s[i-1])
			run = run && (d == step || d == -9*step && (s[i] == '0' || s[i] == '9'))
		}
		if run {
			return true
		}
	}
	return false
}
