package bookform

import (
	"regexp"
	"strings"

	"kettlefrost/internal/unit"
)

// House is what a reading depends on: "165" is in the kitchen's units.
type House struct {
	Units    unit.System
	Currency string // "" is $
}

// sign is what is put before money in the book; a currency that is a word is left out there.
func (h House) sign() string {
	if h.Currency == "" {
		return "$"
	}
	if _, err := unit.ParseMoney(h.Currency + "1"); err != nil {
		return ""
	}
	return h.Currency
}

// degree is the kitchen's unit of temperature.
func (h House) degree() string {
	if h.Units == unit.US {
		return " °F"
	}
	return " °C"
}

// What cooks type in ways of their own.
var (
	decimalComma = regexp.MustCompile(`(^|[^0-9.,])(0,[0-9]+|[0-9]+,[0-9]{1,2})($|[^0-9.,])`)
	hyphenMixed  = regexp.MustCompile(`\b([0-9]+)-([0-9]+/[0-9]+)`)
	bareNumber   = regexp.MustCompile(`^-?[0-9][0-9.,]*$|^-?\.[0-9]+$`)
	wholeNumber  = regexp.MustCompile(`^[0-9]+$`)
	lastBare     = regexp.MustCompile(`^(.*[0-9½¼¾⅓⅔⅛⅜⅝⅞]\s*)(lbs?|pounds?|kgs?|ft|feet|foot|gals?|gallons?|l|litres?|liters?|h|hrs?|hours?|days?|min|mins|minutes?)\.?\s*(?:and|&)?\s*([0-9]+(?:\s+[0-9]+/[0-9]+|/[0-9]+|\.[0-9]+)?|[0-9]*[½¼¾⅓⅔⅛⅜⅝⅞])$`)
	hoursMinutes = regexp.MustCompile(`^([0-9]{1,3}):([0-5][0-9])$`)
	degreesAlone = regexp.MustCompile(`^(-?[0-9][0-9.,]*)\s*(°|º|deg|degs|degree|degrees)\.?$`)
	thousands    = regexp.MustCompile(`^([0-9]+)\s*k\s*(btu.*)$`)
	twoParts     = regexp.MustCompile(`([0-9a-z.])\s*(?:\band\b|&)\s*([0-9])`)
)

// smaller is the unit that a cook leaves out behind the larger one: "2 lb 3" is 2 lb 3 oz.
var smaller = map[byte]string{'p': "oz", 'k': "g", 'f': "in", 'g': "qt", 'h': "min", 'd': "h", 'm': "s"}

// squeezed is text without spaces at its ends, and single ones within.
func squeezed(text string) string { return strings.Join(strings.Fields(text), " ") }

// points makes a decimal comma a point where nothing else can be meant: 1,5 and 0,250, but not 1,250.
func points(text string) string {
	for range 4 { // one number after another: the matches touch
		next := decimalComma.ReplaceAllStringFunc(text, func(m string) string { return strings.Replace(m, ",", ".", 1) })
		if next == text {
			break
		}
		text = next
	}
	return text
}

// loose is a text with a quantity, rewritten so that the strict reader of its type takes it. What it does not know it leaves alone.
func loose(like any, text string, h House) string {
	text = squeezed(text)
	if text == "" || len(text) > 200 {
		return text
	}
	text = hyphenMixed.ReplaceAllString(points(text), "$1 $2")
	switch like.(type) {
	case unit.Temp, unit.TempDiff:
		return looseTemp(text, h)
	case unit.Share:
		return looseShare(text)
	case unit.Span:
		return looseSpan(text)
	case unit.Length:
		return completed(strings.NewReplacer(`"`, " in", "″", " in", "”", " in", "''", " in", "'", " ft", "′", " ft").Replace(text))
	case unit.Mass, unit.Volume, unit.Amount:
		return completed(pounds(text))
	case unit.Power:
		return loosePower(text)
	case unit.Pace, unit.Evaporation, unit.Density, unit.AreaLoad, unit.Film:
		return strings.ReplaceAll(text, " per ", "/")
	}
	return text
}

// completed puts the unit behind a last number that has none, by the unit before it.
func completed(text string) string {
	text = twoParts.ReplaceAllString(text, "$1 $2")
	m := lastBare.FindStringSubmatch(strings.ToLower(text))
	if m == nil {
		return text
	}
	key := m[2][0]
	switch {
	case key == 'l' && strings.HasPrefix(m[2], "lb"):
		key = 'p'
	case key == 'l':
		return text + " ml"
	}
	if unit, ok := smaller[key]; ok {
		return text + " " + unit
	}
	return text
}

// pounds reads the trade's sign behind a number: 5# is 5 lb.
func pounds(text string) string {
	if number, ok := strings.CutSuffix(text, "#"); ok && bareNumber.MatchString(strings.TrimSpace(number)) {
		return strings.TrimSpace(number) + " lb"
	}
	return text
}

func looseTemp(text string, h House) string {
	if m := degreesAlone.FindStringSubmatch(strings.ToLower(text)); m != nil {
		text = m[1]
	}
	if bareNumber.MatchString(strings.Replace(text, "−", "-", 1)) {
		return text + h.degree()
	}
	return text
}

// looseShare takes 50 and 1/2. A decimal below one may be a part of one or of a hundred, and is left for the cook to say.
func looseShare(text string) string {
	switch number, over, fraction := strings.Cut(text, "/"); {
	case fraction && wholeNumber.MatchString(number) && wholeNumber.MatchString(over):
		if share, ok := perCent(number, over); ok {
			return share
		}
	case bareNumber.MatchString(text) && strings.Trim(text, "0.,") != "" && !strings.HasPrefix(text, "0.") && !strings.HasPrefix(text, "."):
		return text + " %"
	case strings.Trim(text, "0") == "":
		return "0 %"
	}
	return text
}

func looseSpan(text string) string {
	lower := strings.ToLower(text)
	if m := hoursMinutes.FindStringSubmatch(lower); m != nil {
		return m[1] + " h " + m[2] + " min"
	}
	if wholeNumber.MatchString(lower) {
		return lower + " min"
	}
	return completed(lower)
}

func loosePower(text string) string {
	lower := strings.ToLower(text)
	if m := thousands.FindStringSubmatch(lower); m != nil {
		lower = m[1] + "000 " + m[2]
	}
	if number, ok := strings.CutSuffix(lower, "btu"); ok {
		return number + "btu/h"
	}
	return lower
}
