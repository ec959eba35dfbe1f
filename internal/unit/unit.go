// Package unit holds the quantities a kitchen speaks: masses, volumes, lengths, temperatures, spans of time, powers, shares,
// money and a few rates. Each is a type of its own, so that a volume cannot be passed where a mass is meant.
//
// Masses, volumes, lengths, temperatures and money are whole numbers of a very small unit, chosen so that the legal
// definitions of the US customary units are exact: adding up is exact and tests may use ==. What is not exact (powers in Btu,
// rates, and every conversion to float64) says so where it is defined.
//
// Definitions: 1 lb = 0.45359237 kg and 1 in = 25.4 mm (international yard and pound agreement, 1959); 1 US gallon = 231 cubic
// inches = 3.785411784 L (NIST Handbook 44, appendix C).
package unit

import "math"

// Mass is a whole number of nanograms. Pounds and ounces are exact; the range is about ±9,200 tonnes.
type Mass int64

const (
	Microgram Mass = 1_000
	Milligram Mass = 1_000_000
	Gram      Mass = 1_000_000_000
	Kilogram  Mass = 1_000_000_000_000
	Ounce     Mass = 28_349_523_125
	Pound     Mass = 16 * Ounce
)

// MassKg is the mass nearest to kg kilograms. Values out of range are held at its ends; NaN is zero.
func MassKg(kg float64) Mass { return Mass(nearest(kg * float64(Kilogram))) }

// Kg is m in kilograms, as near as a float64 comes.
func (m Mass) Kg() float64 { return float64(m) / float64(Kilogram) }

// Volume is a whole number of femtolitres, so that the US teaspoon (4.92892159375 mL) is exact. The range is about ±9,200 L.
type Volume int64

const (
	Millilitre Volume = 1_000_000_000_000
	Litre      Volume = 1_000_000_000_000_000
	Teaspoon   Volume = 4_928_921_593_750
	Tablespoon Volume = 3 * Teaspoon
	FluidOunce Volume = 2 * Tablespoon
	Cup        Volume = 8 * FluidOunce
	Pint       Volume = 2 * Cup
	Quart      Volume = 2 * Pint
	Gallon     Volume = 4 * Quart
)

// VolumeL is the volume nearest to l litres.
func VolumeL(l float64) Volume { return Volume(nearest(l * float64(Litre))) }

// L is v in litres, as near as a float64 comes.
func (v Volume) L() float64 { return float64(v) / float64(Litre) }

// Length is a whole number of nanometres. Inches and feet are exact.
type Length int64

const (
	Millimetre Length = 1_000_000
	Centimetre Length = 10 * Millimetre
	Metre      Length = 1000 * Millimetre
	Inch       Length = 25_400_000
	Foot       Length = 12 * Inch
)

// LengthM is the length nearest to m metres.
func LengthM(m float64) Length { return Length(nearest(m * float64(Metre))) }

// M is l in metres, as near as a float64 comes.
func (l Length) M() float64 { return float64(l) / float64(Metre) }

// Temp is a temperature, a whole number of 1/9000 °C above 0 °C: thousandths of a degree are exact in Celsius and Fahrenheit alike.
type Temp int64

// TempDiff is a difference of temperatures, or how far a thermometer may read wrong, in the same 1/9000 °C.
type TempDiff int64

const (
	degreeC Temp = 9000
	degreeF Temp = 5000
)

// TempC is the temperature nearest to c degrees Celsius.
func TempC(c float64) Temp { return Temp(nearest(c * float64(degreeC))) }

// TempF is the temperature nearest to f degrees Fahrenheit.
func TempF(f float64) Temp { return Temp(nearest((f - 32) * float64(degreeF))) }

// C is t in degrees Celsius.
func (t Temp) C() float64 { return float64(t) / float64(degreeC) }

// F is t in degrees Fahrenheit.
func (t Temp) F() float64 { return float64(t)/float64(degreeF) + 32 }

// TempDiffC is a difference in °C.
func TempDiffC(c float64) TempDiff { return TempDiff(nearest(c * float64(degreeC))) }

// TempDiffF is a difference in °F.
func TempDiffF(f float64) TempDiff { return TempDiff(nearest(f * float64(degreeF))) }

// C is the difference in °C.
func (d TempDiff) C() float64 { return float64(d) / float64(degreeC) }

// F is the difference in °F.
func (d TempDiff) F() float64 { return float64(d) / float64(degreeF) }

// Span is a length of time, a whole number of seconds.
type Span int64

const (
	Second Span = 1
	Minute Span = 60
	Hour   Span = 3600
	Day    Span = 24 * Hour
)

// SpanS is the span nearest to s seconds.
func SpanS(s float64) Span { return Span(nearest(s)) }

// S is d in seconds.
func (d Span) S() float64 { return float64(d) }

// Power is a whole number of microwatts. Btu per hour is not a whole number of them, so powers given in Btu/h are rounded to 1 µW.
type Power int64

const (
	Watt     Power = 1_000_000
	Kilowatt Power = 1000 * Watt
)

// wattsPerBtuH is 1055.05585262 J (international table Btu) over 3600 s.
const wattsPerBtuH = 1055.05585262 / 3600

// PowerW is the power nearest to w watts.
func PowerW(w float64) Power { return Power(nearest(w * float64(Watt))) }

// W is p in watts.
func (p Power) W() float64 { return float64(p) / float64(Watt) }

// Share is a part of a whole, a whole number of billionths: 12.5 % is 125,000,000.
type Share int64

const (
	PerCent Share = 10_000_000
	Whole   Share = 100 * PerCent
)

// ShareOf is the share nearest to f, where 1 is the whole.
func ShareOf(f float64) Share { return Share(nearest(f * float64(Whole))) }

// F is s as a fraction of one.
func (s Share) F() float64 { return float64(s) / float64(Whole) }

// Money is a whole number of millionths of the book's currency unit, so that adding up is exact.
type Money int64

const (
	MicroMoney Money = 1
	Cent       Money = 10_000
	MoneyUnit  Money = 1_000_000
)

// MoneyOf is the money nearest to x currency units.
func MoneyOf(x float64) Money { return Money(nearest(x * float64(MoneyUnit))) }

// Units is m in currency units, as near as a float64 comes.
func (m Money) Units() float64 { return float64(m) / float64(MoneyUnit) }

// Density is kilograms per litre (the same figure as grams per millilitre). Not exact.
type Density float64

// AreaLoad is kilograms per square metre: how much lies on a pan. Not exact.
type AreaLoad float64

// Evaporation is kilograms of water per square metre of open surface and hour. Not exact.
type Evaporation float64

// Pace is seconds of work per kilogram. Not exact.
type Pace float64

// Film is a surface heat transfer coefficient in W/(m²·K). Not exact.
type Film float64

// Wage is money per hour of work.
type Wage Money

// Clock is a time of day in whole minutes after midnight.
type Clock int32

func nearest(x float64) int64 {
	switch r := math.Round(x); {
	case math.IsNaN(r):
		return 0
	case r >= math.MaxInt64:
		return math.MaxInt64
	case r <= math.MinInt64:
		return math.MinInt64
	default:
		return int64(r)
	}
}
