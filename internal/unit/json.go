package unit

import (
	"encoding/json"
	"math/big"
	"strconv"
	"strings"
)

// JSON is for programs: plain numbers in one unit per type, not the spelling of a cook. Money, wages and times of day are
// strings. Numbers are exact decimals, but for temperatures: a number of °C that has no finite decimal is rounded to 1e-6 °C,
// which still reads back as the same Temp. A reader that holds numbers as float64 keeps some 16 digits of them.
// A string is read as text, "12 lb 4 oz"; encoding/json needs that for the keys of maps, which it writes as text. Values of either sign are written and read, since a plan also holds differences. null leaves a value as it was.

// MarshalJSON writes grams.
func (m Mass) MarshalJSON() ([]byte, error) { return jsonDecimal(int64(m), 9), nil }

// UnmarshalJSON reads grams.
func (m *Mass) UnmarshalJSON(data []byte) error {
	return readNumber(m, massKind, data, int64(Gram), "a mass in grams", "1200")
}

// MarshalJSON writes millilitres.
func (v Volume) MarshalJSON() ([]byte, error) { return jsonDecimal(int64(v), 12), nil }

// UnmarshalJSON reads millilitres.
func (v *Volume) UnmarshalJSON(data []byte) error {
	return readNumber(v, volumeKind, data, int64(Millilitre), "a volume in millilitres", "1500")
}

// MarshalJSON writes millimetres.
func (l Length) MarshalJSON() ([]byte, error) { return jsonDecimal(int64(l), 6), nil }

// UnmarshalJSON reads millimetres.
func (l *Length) UnmarshalJSON(data []byte) error {
	return readNumber(l, lengthKind, data, int64(Millimetre), "a length in millimetres", "25")
}

// MarshalJSON writes °C, rounded to 1e-6 °C where that is not exact.
func (t Temp) MarshalJSON() ([]byte, error) {
	text := big.NewRat(int64(t), int64(degreeC)).FloatString(6)
	return []byte(strings.TrimSuffix(strings.TrimRight(text, "0"), ".")), nil
}

// UnmarshalJSON reads °C.
func (t *Temp) UnmarshalJSON(data []byte) error {
	return readNumber(t, tempKind, data, int64(degreeC), "a temperature in °C", "74")
}

// MarshalJSON writes °C, rounded to 1e-6 °C where that is not exact.
func (d TempDiff) MarshalJSON() ([]byte, error) { return Temp(d).MarshalJSON() }

// UnmarshalJSON reads °C.
func (d *TempDiff) UnmarshalJSON(data []byte) error {
	return readNumber(d, tempDiffKind, data, int64(degreeC), "a difference of temperature in °C", "0.5")
}

// MarshalJSON writes seconds.
func (d Span) MarshalJSON() ([]byte, error) { return jsonDecimal(int64(d), 0), nil }

// UnmarshalJSON reads seconds.
func (d *Span) UnmarshalJSON(data []byte) error {
	return readNumber(d, spanKind, data, int64(Second), "a time span in seconds", "2700")
}

// MarshalJSON writes watts.
func (p Power) MarshalJSON() ([]byte, error) { return jsonDecimal(int64(p), 6), nil }

// UnmarshalJSON reads watts.
func (p *Power) UnmarshalJSON(data []byte) error {
	return readNumber(p, powerKind, data, int64(Watt), "a power in watts", "24000")
}

// MarshalJSON writes a fraction of one.
func (s Share) MarshalJSON() ([]byte, error) { return jsonDecimal(int64(s), 9), nil }

// UnmarshalJSON reads a fraction of one.
func (s *Share) UnmarshalJSON(data []byte) error {
	return readNumber(s, shareKind, data, int64(Whole), "a share as a fraction of one", "0.125")
}

// MarshalJSON writes the count.
func (c Count) MarshalJSON() ([]byte, error) { return jsonDecimal(int64(c), 6), nil }

// UnmarshalJSON reads the count.
func (c *Count) UnmarshalJSON(data []byte) error {
	return readNumber(c, countKind, data, int64(One), "a count", "2.5")
}

// The inexact types are written and read as float64 in the unit of their definition.

func (d Density) MarshalJSON() ([]byte, error)     { return json.Marshal(float64(d)) }
func (a AreaLoad) MarshalJSON() ([]byte, error)    { return json.Marshal(float64(a)) }
func (e Evaporation) MarshalJSON() ([]byte, error) { return json.Marshal(float64(e)) }
func (p Pace) MarshalJSON() ([]byte, error)        { return json.Marshal(float64(p)) }
func (f Film) MarshalJSON() ([]byte, error)        { return json.Marshal(float64(f)) }

func (d *Density) UnmarshalJSON(data []byte) error     { return readReal(d, densityKind, data) }
func (a *AreaLoad) UnmarshalJSON(data []byte) error    { return readReal(a, areaLoadKind, data) }
func (e *Evaporation) UnmarshalJSON(data []byte) error { return readReal(e, evaporationKind, data) }
func (p *Pace) UnmarshalJSON(data []byte) error        { return readReal(p, paceKind, data) }
func (f *Film) UnmarshalJSON(data []byte) error        { return readReal(f, filmKind, data) }

func jsonDecimal(v int64, places int) []byte {
	var text []byte
	if v < 0 {
		text = append(text, '-')
	}
	return appendDecimal(text, magnitude(v), places, 0)
}

// readNumber reads a JSON number of units, each perUnit grains, rounded half away from zero.
func readNumber[T ~int64](dst *T, k kind, data []byte, perUnit int64, want, example string) error {
	text := string(data)
	if text == "null" {
		return nil
	}
	if quoted(data) {
		return readString(dst, func(text string) (T, error) { return parseAs[T](k, text) }, data)
	}
	v, problem := numberGrains(text, perUnit)
	if problem != "" {
		return &ParseError{Text: text, Want: want, Problem: problem, Example: example}
	}
	*dst = T(v)
	return nil
}

// readReal reads a JSON number in the unit of the type's definition.
func readReal[T ~float64](dst *T, k kind, data []byte) error {
	if quoted(data) {
		return readString(dst, func(text string) (T, error) { return parseRealAs[T](k, text) }, data)
	}
	x := float64(*dst) // null leaves it
	if err := json.Unmarshal(data, &x); err != nil {
		return err
	}
	*dst = T(x)
	return nil
}

func quoted(data []byte) bool { return len(data) > 0 && data[0] == '"' }

// readString reads a JSON string as text.
func readString[T any](dst *T, parse func(string) (T, error), data []byte) error {
	var text string
	if err := json.Unmarshal(data, &text); err != nil {
		return err
	}
	return readInto(dst, parse, []byte(text))
}

func numberGrains(text string, perUnit int64) (int64, string) {
	if text == "" || len(text) > maxText || strings.Trim(text, "+-.0123456789eE") != "" {
		return 0, "is no number"
	}
	if i := strings.IndexAny(text, "eE"); i >= 0 { // a big.Rat would spell any power of ten out
		if power, err := strconv.Atoi(text[i+1:]); err != nil || power > maxText || power < -maxText {
			return 0, tooPrecise
		}
	}
	x, ok := new(big.Rat).SetString(text)
	if !ok {
		return 0, "is no number"
	}
	n := roundRat(x.Mul(x, new(big.Rat).SetInt64(perUnit)))
	if !n.IsInt64() {
		return 0, tooBig
	}
	return n.Int64(), ""
}
