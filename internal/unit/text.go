package unit

import (
	"fmt"
	"math"
)

// Reading and writing as text, type by type. What Parse reads is exact and then rounded once, half away from zero, to the
// type's grain. Every error of a Parse function is a *ParseError.
//
// String and MarshalText give the spelling that a cook would have typed, in metric or US units, and that parses back to
// exactly the same value. MarshalText refuses what Parse would refuse, such as a mass below zero; String shows it with a sign.

// ParseMass reads kg, g, mg, µg, lb and oz: 1.2 kg, 12 lb 4 oz, 2 lb 3 1/2 oz.
func ParseMass(text string) (Mass, error) { return parseAs[Mass](massKind, text) }

// ParseVolume reads L, ml, dl, cl, m3, the US measures from gal to tsp, ft3 and in3: 2 1/2 cups, 3 qt 1 pt, 1.5 L.
func ParseVolume(text string) (Volume, error) { return parseAs[Volume](volumeKind, text) }

// ParseLength reads mm, cm, m, in and ft: 25 mm, 1 ft 4 in.
func ParseLength(text string) (Length, error) { return parseAs[Length](lengthKind, text) }

// ParseTemp reads °C and °F, not below absolute zero: 74 °C, 165F, -18 C.
func ParseTemp(text string) (Temp, error) { return parseAs[Temp](tempKind, text) }

// ParseTempDiff reads a difference of temperature in °C and °F: 0.5 °C, 1 °F.
func ParseTempDiff(text string) (TempDiff, error) { return parseAs[TempDiff](tempDiffKind, text) }

// ParseSpan reads s, min, h and days: 1 h 20 min, 1.5 h, 2 days.
func ParseSpan(text string) (Span, error) { return parseAs[Span](spanKind, text) }

// ParsePower reads W, kW and Btu/h: 24 kW, 30,000 Btu/h.
func ParsePower(text string) (Power, error) { return parseAs[Power](powerKind, text) }

// ParseShare reads a percentage, with its sign: 12.5 %. It may be above 100 %.
func ParseShare(text string) (Share, error) { return parseAs[Share](shareKind, text) }

// ParseCount reads a number: 3, 2 1/2, 0.25.
func ParseCount(text string) (Count, error) { return parseAs[Count](countKind, text) }

// ParseDensity reads kg/L, g/ml, kg/m3 and lb/gal.
func ParseDensity(text string) (Density, error) { return parseRealAs[Density](densityKind, text) }

// ParseAreaLoad reads kg/m2, g/cm2 and lb/ft2.
func ParseAreaLoad(text string) (AreaLoad, error) { return parseRealAs[AreaLoad](areaLoadKind, text) }

// ParseEvaporation reads kg/m2h and lb/ft2h, also as kg/m²·h or kg/(m² h).
func ParseEvaporation(text string) (Evaporation, error) {
	return parseRealAs[Evaporation](evaporationKind, text)
}

// ParsePace reads s/kg, min/kg, min/lb and s/lb.
func ParsePace(text string) (Pace, error) { return parseRealAs[Pace](paceKind, text) }

// ParseFilm reads W/m2K and Btu/hft2F, also as W/m²·K and Btu/h·ft²·°F.
func ParseFilm(text string) (Film, error) { return parseRealAs[Film](filmKind, text) }

func parseAs[T ~int64](k kind, text string) (T, error) {
	v, err := parse(k, text)
	return T(v), err
}

func parseRealAs[T ~float64](k kind, text string) (T, error) {
	x, err := parseReal(k, text)
	return T(x), err
}

// readInto is UnmarshalText for every type: dst is left alone if text cannot be read.
func readInto[T any](dst *T, parse func(string) (T, error), text []byte) error {
	v, err := parse(string(text))
	if err == nil {
		*dst = v
	}
	return err
}

// write is MarshalText for the whole-number types.
func write(k kind, v int64) ([]byte, error) {
	if v < kinds[k].lowest {
		return nil, fmt.Errorf("%s cannot be written: it is below %s", spell(k, v), spell(k, kinds[k].lowest))
	}
	return []byte(spell(k, v)), nil
}

// writeReal is MarshalText for the inexact types.
func writeReal(k kind, x float64) ([]byte, error) {
	if !(x >= 0) || math.IsInf(x, 0) {
		return nil, fmt.Errorf("%v cannot be written as %s", x, kinds[k].want)
	}
	return []byte(spellReal(k, math.Abs(x))), nil // Abs: minus zero is zero
}

func (m Mass) String() string        { return spell(massKind, int64(m)) }
func (v Volume) String() string      { return spell(volumeKind, int64(v)) }
func (l Length) String() string      { return spell(lengthKind, int64(l)) }
func (t Temp) String() string        { return spell(tempKind, int64(t)) }
func (d TempDiff) String() string    { return spell(tempDiffKind, int64(d)) }
func (d Span) String() string        { return spell(spanKind, int64(d)) }
func (p Power) String() string       { return spell(powerKind, int64(p)) }
func (s Share) String() string       { return spell(shareKind, int64(s)) }
func (c Count) String() string       { return spell(countKind, int64(c)) }
func (d Density) String() string     { return spellReal(densityKind, float64(d)) }
func (a AreaLoad) String() string    { return spellReal(areaLoadKind, float64(a)) }
func (e Evaporation) String() string { return spellReal(evaporationKind, float64(e)) }
func (p Pace) String() string        { return spellReal(paceKind, float64(p)) }
func (f Film) String() string        { return spellReal(filmKind, float64(f)) }

func (m Mass) MarshalText() ([]byte, error)        { return write(massKind, int64(m)) }
func (v Volume) MarshalText() ([]byte, error)      { return write(volumeKind, int64(v)) }
func (l Length) MarshalText() ([]byte, error)      { return write(lengthKind, int64(l)) }
func (t Temp) MarshalText() ([]byte, error)        { return write(tempKind, int64(t)) }
func (d TempDiff) MarshalText() ([]byte, error)    { return write(tempDiffKind, int64(d)) }
func (d Span) MarshalText() ([]byte, error)        { return write(spanKind, int64(d)) }
func (p Power) MarshalText() ([]byte, error)       { return write(powerKind, int64(p)) }
func (s Share) MarshalText() ([]byte, error)       { return write(shareKind, int64(s)) }
func (c Count) MarshalText() ([]byte, error)       { return write(countKind, int64(c)) }
func (d Density) MarshalText() ([]byte, error)     { return writeReal(densityKind, float64(d)) }
func (a AreaLoad) MarshalText() ([]byte, error)    { return writeReal(areaLoadKind, float64(a)) }
func (e Evaporation) MarshalText() ([]byte, error) { return writeReal(evaporationKind, float64(e)) }
func (p Pace) MarshalText() ([]byte, error)        { return writeReal(paceKind, float64(p)) }
func (f Film) MarshalText() ([]byte, error)        { return writeReal(filmKind, float64(f)) }

func (m *Mass) UnmarshalText(text []byte) error        { return readInto(m, ParseMass, text) }
func (v *Volume) UnmarshalText(text []byte) error      { return readInto(v, ParseVolume, text) }
func (l *Length) UnmarshalText(text []byte) error      { return readInto(l, ParseLength, text) }
func (t *Temp) UnmarshalText(text []byte) error        { return readInto(t, ParseTemp, text) }
func (d *TempDiff) UnmarshalText(text []byte) error    { return readInto(d, ParseTempDiff, text) }
func (d *Span) UnmarshalText(text []byte) error        { return readInto(d, ParseSpan, text) }
func (p *Power) UnmarshalText(text []byte) error       { return readInto(p, ParsePower, text) }
func (s *Share) UnmarshalText(text []byte) error       { return readInto(s, ParseShare, text) }
func (c *Count) UnmarshalText(text []byte) error       { return readInto(c, ParseCount, text) }
func (d *Density) UnmarshalText(text []byte) error     { return readInto(d, ParseDensity, text) }
func (a *AreaLoad) UnmarshalText(text []byte) error    { return readInto(a, ParseAreaLoad, text) }
func (e *Evaporation) UnmarshalText(text []byte) error { return readInto(e, ParseEvaporation, text) }
func (p *Pace) UnmarshalText(text []byte) error        { return readInto(p, ParsePace, text) }
func (f *Film) UnmarshalText(text []byte) error        { return readInto(f, ParseFilm, text) }
