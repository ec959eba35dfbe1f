package unit

import (
	"fmt"
	"strconv"
	"strings"
)

// Tidy is text as a cook would write it into a book: the same numbers and units, each in its usual spelling, so that "2.50 lbs" is "2.5 lb".
// It reads as the same value. like is a value of the type that is meant, such as Mass(0). Errors are *ParseError.
func Tidy(like any, text string) (string, error) {
	if _, ok := like.(Amount); ok {
		return tidyAmount(text)
	}
	k, real := kindLike(like)
	if k == kindCount {
		return "", fmt.Errorf("a %T has no units to tidy", like)
	}
	err := error(nil)
	if real {
		_, err = parseReal(k, text)
	} else {
		_, err = parse(k, text)
	}
	if err != nil {
		return "", err
	}
	return tidied(k, text)
}

// kindLike is the kind of a value, and whether it is one of the inexact kinds; kindCount when it has none that units are written for.
func kindLike(v any) (k kind, real bool) {
	switch v.(type) {
	case Mass:
		return massKind, false
	case Volume:
		return volumeKind, false
	case Length:
		return lengthKind, false
	case Temp:
		return tempKind, false
	case TempDiff:
		return tempDiffKind, false
	case Span:
		return spanKind, false
	case Power:
		return powerKind, false
	case Share:
		return shareKind, false
	case Density:
		return densityKind, true
	case AreaLoad:
		return areaLoadKind, true
	case Evaporation:
		return evaporationKind, true
	case Pace:
		return paceKind, true
	case Film:
		return filmKind, true
	}
	return kindCount, false
}

// tidied writes what was read part by part. The text can be read.
func tidied(k kind, text string) (string, error) {
	var buf [8]part
	r, wrong := read(k, text, buf[:0])
	if wrong != nil {
		return "", wrong
	}
	words := make([]string, 0, 2*len(r.parts))
	for _, p := range r.parts {
		words = append(words, p.n.plain(), p.u.named(p.n.num, max(p.n.den, 1)))
	}
	sign := ""
	if r.negative {
		sign = "-"
	}
	return sign + strings.Join(words, " "), nil
}

func tidyAmount(text string) (string, error) {
	a, err := ParseAmount(text)
	switch {
	case err != nil:
		return "", err
	case a.Kind == AmountMass:
		return tidied(massKind, text)
	case a.Kind == AmountVolume:
		measured, _, _ := cutForm(text)
		if measured, err = tidied(volumeKind, measured); a.Measure != "" {
			measured += ", " + a.Measure
		}
		return measured, err
	default:
		return a.String(), nil
	}
}

// plain is a number as it is written: a decimal, or a whole number and a fraction in its lowest terms.
func (n number) plain() string {
	if n.digits != "" {
		digits := strings.TrimLeft(n.digits, "0")
		if digits == "" || digits[0] == '.' {
			digits = "0" + digits
		}
		return digits
	}
	whole, rest, den := n.num/n.den, n.num%n.den, n.den
	a, b := den, rest
	for b != 0 {
		a, b = b, a%b
	}
	fraction := strconv.FormatUint(rest/a, 10) + "/" + strconv.FormatUint(den/a, 10)
	switch {
	case rest == 0:
		return strconv.FormatUint(whole, 10)
	case whole == 0:
		return fraction
	}
	return strconv.FormatUint(whole, 10) + " " + fraction
}
