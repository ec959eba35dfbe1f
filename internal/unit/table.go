package unit

// kind is what a quantity is of. Every kind has one row in kinds, and that row drives reading and printing.
type kind uint8

const (
	massKind kind = iota
	volumeKind
	lengthKind
	tempKind
	tempDiffKind
	spanKind
	powerKind
	shareKind
	densityKind
	areaLoadKind
	evaporationKind
	paceKind
	filmKind
	wageKind
	tariffKind
	moneyKind
	clockKind
	countKind
	amountKind
	systemKind
	kindCount
)

// kindRow describes a kind: how messages speak of it and the units it is read and printed in.
type kindRow struct {
	want     string // "a mass"
	names    string // the units that would do, for messages
	example  string
	zero     string    // how nothing is printed
	units    []unitRow // metric before US, big before small: on equal terms the first is printed
	signed   bool      // may be below zero
	compound bool      // may have several parts: 12 lb 4 oz
	lowest   int64     // in grains, if signed
}

// unitRow is one unit. A grain is 1 of the whole-number type: 1 ng, 1 fL and so on.
type unitRow struct {
	word, plural string // as printed; plural only where it differs
	also         string // other spellings that are read, lower case, divided by |
	num, den     uint64 // one unit is num/den grains; den 0 stands for 1
	factor       float64
	offset       int64 // grains from this unit's zero up to the type's zero; only for °F
	system       System
	style        style
}

// style is how a unit is printed; the zero style is a unit that is only read.
type style struct {
	fractions []uint64 // denominators that are tried, in this order; none means decimals only
	places    int      // decimals at most; on a unit with fractions only if no fraction fits
	low, high uint64   // printing outside low <= quantity <= high grains costs outOfBand; high 0 is no limit
	extra     int      // cost of choosing this unit at all
	chain     bool     // stands beside the neighbours that are chained too: lb and oz
}

var (
	wholes  = []uint64{1}
	spoons  = []uint64{1, 2, 4, 8, 3}
	cups    = []uint64{1, 2, 4, 3}
	halves  = []uint64{1, 2}
	pitcher = []uint64{1, 2, 4}
)

// Volumes that unit.go does not name.
const (
	cubicInch Volume = 16_387_064_000_000 // (25.4 mm)³
	cubicFoot Volume = 1728 * cubicInch
)

// Conversions of the inexact types, all from the definitions in unit.go.
const (
	kgPerLb     = 0.45359237
	litrePerGal = 3.785411784 // litres per US gallon
	m2PerFt2    = 0.3048 * 0.3048
	kPerF       = 5.0 / 9
)

var kinds = [kindCount]kindRow{
	massKind: {want: "a mass", compound: true, names: "kg, g, mg, lb or oz", example: "1.2 kg or 2 lb 10 oz", zero: "0 kg", units: []unitRow{
		{word: "kg", also: "kgs|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes", num: uint64(Kilogram),
			style: style{places: 12, low: uint64(Kilogram)}},
		{word: "g", also: "gram|grams|gramme|grammes", num: uint64(Gram),
			style: style{places: 9, low: uint64(Gram), high: uint64(Kilogram) - 1}},
		{word: "mg", also: "milligram|milligrams", num: uint64(Milligram), style: style{places: 6, high: uint64(Gram) - 1}},
		{word: "ug", also: "mcg|microgram|micrograms", num: uint64(Microgram)},
		{word: "lb", also: "lbs|pound|pounds", num: uint64(Pound), system: US,
			style: style{fractions: wholes, places: 3, low: uint64(Pound), chain: true}},
		{word: "oz", also: "ounce|ounces", num: uint64(Ounce), system: US,
			style: style{fractions: spoons, places: 3, high: uint64(Pound), chain: true}},
	}},
	volumeKind: {want: "a volume", compound: true, names: "L, ml, gal, qt, pt, cups, fl oz, tbsp, tsp or ft3",
		example: "1.5 L, 2 1/2 cups or 8 fl oz", zero: "0 L", units: []unitRow{
			{word: "L", also: "l|litre|litres|liter|liters", num: uint64(Litre), style: style{places: 15, low: uint64(Litre)}},
			{word: "ml", also: "cc|cm3|millilitre|millilitres|milliliter|milliliters", num: uint64(Millilitre),
				style: style{places: 12, high: uint64(Litre) - 1}},
			{word: "dl", also: "decilitre|decilitres|deciliter|deciliters", num: uint64(100 * Millilitre)},
			{word: "cl", also: "centilitre|centilitres|centiliter|centiliters", num: uint64(10 * Millilitre)},
			{word: "m3", also: "cubic metre|cubic metres|cubic meter|cubic meters", num: uint64(1000 * Litre)},
			{word: "gal", also: "gals|gallon|gallons", num: uint64(Gallon), system: US,
				style: style{fractions: pitcher, places: 3, low: uint64(Gallon), chain: true}},
			{word: "qt", also: "qts|quart|quarts", num: uint64(Quart), system: US,
				style: style{fractions: pitcher, places: 3, low: uint64(Quart), high: uint64(4*Gallon) - 1, extra: 2, chain: true}},
			{word: "pt", also: "pts|pint|pints", num: uint64(Pint), system: US},
			{word: "cup", plural: "cups", also: "c", num: uint64(Cup), system: US,
				style: style{fractions: cups, places: 3, low: uint64(Cup / 4), high: uint64(12 * Cup), chain: true}},
			{word: "fl oz", also: "floz|fl ounce|fl ounces|fluid oz|fluid ounce|fluid ounces", num: uint64(FluidOunce), system: US,
				style: style{fractions: pitcher, places: 3, extra: 7}},
			{word: "tbsp", also: "tbs|tbsps|tablespoon|tablespoons", num: uint64(Tablespoon), system: US,
				style: style{fractions: halves, places: 3, low: uint64(Tablespoon), high: uint64(Cup/4) - 1, chain: true}},
			{word: "tsp", also: "tsps|teaspoon|teaspoons", num: uint64(Teaspoon), system: US,
				style: style{fractions: spoons, places: 3, high: uint64(Tablespoon) - 1, extra: 2, chain: true}},
			{word: "ft3", also: "cu ft|cubic foot|cubic feet", num: uint64(cubicFoot), system: US,
				style: style{fractions: halves, places: 3, low: uint64(cubicFoot), extra: 2}},
			{word: "in3", also: "cu in|cubic inch|cubic inches", num: uint64(cubicInch), system: US},
		}},
	lengthKind: {want: "a length", compound: true, names: "mm, cm, m, in or ft", example: "25 mm or 16 in", zero: "0 mm", units: []unitRow{
		{word: "m", also: "metre|metres|meter|meters", num: uint64(Metre), style: style{places: 9, low: uint64(Metre)}},
		{word: "cm", also: "centimetre|centimetres|centimeter|centimeters", num: uint64(Centimetre),
			style: style{places: 7, low: uint64(Centimetre), high: uint64(Metre) - 1}},
		{word: "mm", also: "millimetre|millimetres|millimeter|millimeters", num: uint64(Millimetre),
			style: style{places: 6, high: uint64(Metre) - 1}},
		{word: "ft", also: "foot|feet", num: uint64(Foot), system: US, style: style{fractions: wholes, chain: true}},
		{word: "in", also: "inch|inches", num: uint64(Inch), system: US, style: style{fractions: wholes, places: 3, chain: true}},
	}},
	tempKind: {want: "a temperature", names: "°C or °F", example: "74 °C or 165 °F", zero: "0 °C",
		signed: true, lowest: -273_150 * int64(degreeC) / 1000, units: []unitRow{
			{word: "°C", also: "c|deg c|degree c|degrees c|celsius|°celsius|degrees celsius", num: uint64(degreeC), style: style{places: 4}},
			{word: "°F", also: "f|deg f|degree f|degrees f|fahrenheit|°fahrenheit|degrees fahrenheit", num: uint64(degreeF),
				offset: 32 * int64(degreeF), system: US, style: style{fractions: wholes, places: 3}},
		}},
	tempDiffKind: {want: "a difference of temperature", names: "°C or °F", example: "0.5 °C or 1 °F", zero: "0 °C", units: []unitRow{
		{word: "°C", also: "c|k|deg c|degree c|degrees c|celsius|°celsius|degrees celsius", num: uint64(degreeC), style: style{places: 4}},
		{word: "°F", also: "f|deg f|degree f|degrees f|fahrenheit|°fahrenheit|degrees fahrenheit", num: uint64(degreeF), system: US,
			style: style{fractions: wholes, places: 3}},
	}},
	spanKind: {want: "a time span", compound: true, names: "s, min, h or days", example: "45 min or 1 h 20 min", zero: "0 s", units: []unitRow{
		{word: "d", also: "day|days", num: uint64(Day), style: style{fractions: wholes, chain: true}},
		{word: "h", also: "hr|hrs|hour|hours", num: uint64(Hour),
			style: style{fractions: wholes, low: uint64(Hour), high: uint64(2*Day) - 1, chain: true}},
		{word: "min", also: "mins|minute|minutes", num: uint64(Minute),
			style: style{fractions: wholes, low: uint64(Minute), high: uint64(Hour), chain: true}},
		{word: "s", also: "sec|secs|second|seconds", num: uint64(Second),
			style: style{fractions: wholes, high: uint64(2 * Minute), extra: 5, chain: true}},
	}},
	powerKind: {want: "a power", names: "W, kW or Btu/h", example: "24 kW or 30000 Btu/h", zero: "0 W", units: []unitRow{
		{word: "kW", also: "kilowatt|kilowatts", num: uint64(Kilowatt), style: style{places: 9, low: uint64(Kilowatt)}},
		{word: "W", also: "watt|watts", num: uint64(Watt), style: style{places: 6, high: uint64(Kilowatt) - 1}},
		// 1055.05585262 J over 3600 s is 52,752,792,631/180,000 µW.
		{word: "Btu/h", also: "btu/hr|btu/hour|btuh|btu per hour", num: 52_752_792_631, den: 180_000, system: US,
			style: style{fractions: wholes, places: 3}},
	}},
	shareKind: {want: "a share", names: "%", example: "12.5 %", zero: "0 %", units: []unitRow{
		{word: "%", also: "percent|per cent|pct", num: uint64(PerCent), style: style{places: 7}},
	}},
	densityKind: {want: "a density", names: "kg/L, g/ml or lb/gal", example: "1.03 kg/L or 8.6 lb/gal", units: []unitRow{
		{word: "kg/L", also: "g/ml|g/cm3|g/cc|kg/litre|kg/liter", factor: 1},
		{word: "kg/m3", also: "g/l", factor: 1e-3},
		{word: "lb/gal", also: "lbs/gal|lb/gallon", factor: kgPerLb / litrePerGal, system: US, style: style{places: 4}},
	}},
	areaLoadKind: {want: "a load on an area", names: "kg/m2, g/cm2 or lb/ft2", example: "16 kg/m2 or 3 lb/ft2", units: []unitRow{
		{word: "kg/m2", factor: 1},
		{word: "g/cm2", factor: 10},
		{word: "lb/ft2", also: "lbs/ft2", factor: kgPerLb / m2PerFt2, system: US, style: style{places: 4}},
	}},
	evaporationKind: {want: "an evaporation", names: "kg/m2h or lb/ft2h", example: "13.4 kg/m2h or 2.7 lb/ft2h", units: []unitRow{
		{word: "kg/m2h", also: "kg/m2/h|kg/hm2|kg/h/m2", factor: 1},
		{word: "lb/ft2h", also: "lb/ft2/h|lb/hft2|lb/h/ft2", factor: kgPerLb / m2PerFt2, system: US, style: style{places: 4}},
	}},
	paceKind: {want: "a pace of work", names: "s/kg, min/kg or min/lb", example: "3 min/kg or 6 min/lb", units: []unitRow{
		{word: "s/kg", also: "sec/kg", factor: 1},
		{word: "min/kg", factor: 60, style: style{places: 4}},
		{word: "min/lb", factor: 60 / kgPerLb, system: US, style: style{places: 4}},
		{word: "s/lb", also: "sec/lb", factor: 1 / kgPerLb, system: US, style: style{places: 4}},
	}},
	filmKind: {want: "a heat transfer coefficient", names: "W/m2K or Btu/hft2F", example: "10 W/m2K or 2 Btu/hft2F", units: []unitRow{
		{word: "W/m2K", also: "w/m2c|w/m2/k", factor: 1},
		{word: "Btu/hft2F", also: "btu/ft2hf|btu/h/ft2/f|btu/hrft2f", factor: wattsPerBtuH / m2PerFt2 / kPerF, system: US,
			style: style{places: 4}},
	}},
	wageKind:   {want: "a wage", names: "money/h", example: "$19.50/h"},
	tariffKind: {want: "a price of energy", names: "money/kWh", example: "$0.18/kWh or $1.40/therm"},
	moneyKind: {want: "an amount of money", example: "$18.75 or 18.75", signed: true, lowest: -1 << 63, units: []unitRow{
		{num: uint64(MoneyUnit)},
	}},
	clockKind: {want: "a time of day", example: "06:30 or 14:05"},
	countKind: {want: "a count", example: "3 or 1/2", zero: "0", units: []unitRow{
		{num: uint64(One), style: style{fractions: spoons, places: 6}},
	}},
	amountKind: {want: "an amount", example: "5 lb, 2 1/2 cups or 3 each"},
	systemKind: {want: "a system of units", example: "metric or us"},
}
