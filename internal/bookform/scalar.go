package bookform

import (
	"encoding"
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/spelling"
	"kettlefrost/internal/unit"
)

// reading is what a text was understood as.
type reading struct {
	value reflect.Value
	tidy  string // as the book will have it
	says  string // how it was read, for the cook; "" when there is nothing to say
}

// scalar reads one value from what somebody typed, which is not empty. The error says what is wrong and what to do.
func scalar(k bookfile.Key, t reflect.Type, text string, h House) (reading, error) {
	v := reflect.New(t).Elem()
	switch {
	case t == systemType || quantity(t):
		tidy, err := tidied(v.Interface(), text, h)
		if err != nil {
			return reading{}, err
		}
		if err := v.Addr().Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte(tidy)); err != nil {
			return reading{}, err
		}
		return reading{v, tidy, said(v.Interface(), text, tidy, h)}, nil
	case t.Kind() == reflect.Bool:
		v.SetBool(text == "true" || text == "on")
		return reading{v, strconv.FormatBool(v.Bool()), ""}, nil
	case t.Kind() == reflect.Int || t.Kind() == reflect.Float64:
		return number(k, v, text)
	default:
		return word(k, v, text)
	}
}

// tidied is what the book will say for a quantity that somebody typed in their own way.
func tidied(like any, text string, h House) (string, error) {
	switch like.(type) {
	case unit.Money:
		m, err := unit.ParseMoney(looseMoney(text))
		return withSign(m.String(), h), err
	case unit.Wage:
		w, err := unit.ParseWage(looseWage(text))
		return withSign(unit.Money(w).String(), h) + "/h", err
	case unit.Clock:
		c, err := unit.ParseClock(looseClock(text))
		return c.String(), err
	case unit.Moment:
		var m unit.Moment
		err := m.UnmarshalText([]byte(looseClock(text)))
		return m.String(), err
	case kitchen.Take:
		if strings.EqualFold(squeezed(text), "all") {
			return "all", nil
		}
		return unit.Tidy(unit.Share(0), loose(unit.Share(0), text, h))
	case unit.Tariff, unit.System:
		return strings.TrimSpace(points(squeezed(text))), nil
	}
	tidy, err := unit.Tidy(like, loose(like, text, h))
	if wrong, ok := err.(*unit.ParseError); ok {
		again := *wrong
		again.Text = squeezed(text) // what was typed, not what was made of it
		return "", &again
	}
	return tidy, err
}

func withSign(money string, h House) string {
	if amount, below := strings.CutPrefix(money, "-"); below {
		return "-" + h.sign() + amount
	}
	return h.sign() + money
}

// said tells how a quantity was read, where it was not written as the book has it, and what it is in the other system of units.
func said(v any, text, tidy string, h House) string {
	var says []string
	if !sameText(text, tidy) {
		says = append(says, "read as "+tidy)
	}
	if other := inOther(v, tidy); other != "" {
		says = append(says, other)
	}
	return strings.Join(says, ", ")
}

// sameText says that a text is what will be written, but for spaces and a sign of money.
func sameText(a, b string) bool {
	bare := func(s string) string { return strings.NewReplacer(" ", "", "$", "", "°", "").Replace(s) }
	return bare(a) == bare(b)
}

// inOther is a mass, volume, length or temperature in the system of units that it is not written in.
func inOther(v any, tidy string) string {
	shown, ok := v.(interface{ Show(unit.System) string })
	if !ok {
		return ""
	}
	switch x := v.(type) {
	case unit.Mass, unit.Volume, unit.Length, unit.Temp, unit.Density:
	case unit.Amount:
		if x.Kind == unit.AmountCount {
			return ""
		}
	default:
		return ""
	}
	us := false
	for _, word := range []string{"lb", "oz", "cup", "gal", "qt", "pt", "tbsp", "tsp", "°F", "in", "ft"} {
		us = us || strings.Contains(tidy, " "+word)
	}
	if us {
		return shown.Show(unit.Metric)
	}
	return shown.Show(unit.US)
}

func number(k bookfile.Key, v reflect.Value, text string) (reading, error) {
	plain := squeezed(text)
	if v.Kind() == reflect.Int {
		digits := plain
		if grouped.MatchString(digits) {
			digits = strings.ReplaceAll(digits, ",", "")
		}
		n, err := strconv.ParseInt(digits, 10, 32)
		if err != nil {
			return reading{}, fmt.Errorf("%.40q is not a whole number: write it in digits, such as 3", plain)
		}
		v.SetInt(n)
		return reading{v, strconv.FormatInt(n, 10), readAs(plain, strconv.FormatInt(n, 10))}, nil
	}
	x, err := strconv.ParseFloat(points(plain), 64)
	if err != nil || math.IsInf(x, 0) || math.IsNaN(x) || math.Abs(x) >= 1e15 || strings.ContainsAny(plain, "xXpP_eE") {
		return reading{}, fmt.Errorf("%.40q is not a number: write it in digits, such as 12.5", plain)
	}
	v.SetFloat(x)
	tidy := strconv.FormatFloat(x, 'f', -1, 64)
	return reading{v, tidy, readAs(plain, tidy)}, nil
}

func readAs(text, tidy string) string {
	if text == tidy {
		return ""
	}
	return "read as " + tidy
}

func word(k bookfile.Key, v reflect.Value, text string) (reading, error) {
	switch kindOf(k, false) {
	case Day:
		d := looseDay(text)
		if _, ok := kitchen.DaysUntil(d, d); !ok {
			return reading{}, fmt.Errorf("%.40q is not a day that can only be read in one way: write it like 2026-12-05 or 5 Dec 2026", squeezed(text))
		}
		v.SetString(d)
		return reading{v, d, readAs(squeezed(text), d)}, nil
	case Long, Lines:
		text = strings.TrimRight(strings.ReplaceAll(text, "\r\n", "\n"), " \n\t")
	default:
		text = squeezed(text)
	}
	if k.Choices != nil {
		return chosen(k.Choices, v, text)
	}
	v.SetString(text)
	return reading{v, text, ""}, nil
}

func chosen(choices []string, v reflect.Value, text string) (reading, error) {
	for _, c := range choices {
		if strings.EqualFold(c, text) {
			v.SetString(c)
			return reading{v, c, readAs(text, c)}, nil
		}
	}
	fix := "choose one of " + strings.Join(choices, ", ")
	if near := spelling.Nearest(text, choices); near != "" {
		fix = "did you mean " + near + "?"
	}
	return reading{}, fmt.Errorf("%.40q cannot stand here: %s", text, fix)
}
