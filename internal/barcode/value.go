package barcode

import (
	"fmt"
	"strconv"

	"kettlefrost/internal/unit"
)

// Date is a day as an identifier holds it. Day 0 is a month without its day; it stands for the last day where something ends by it (15, 17).
type Date struct{ Year, Month, Day int }

// Value is YYMMDD.
func (d Date) Value() (string, error) {
	if d.Year < 1 || d.Year > 9999 || d.Month < 1 || d.Month > 12 || d.Day < 0 || d.Day > daysOf(d.Year, d.Month) {
		return "", &InputError{"date", fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day), "there is no such day", "correct it"}
	}
	return fmt.Sprintf("%02d%02d%02d", d.Year%100, d.Month, d.Day), nil
}

// LastDay is the date with its day: the last of the month where there is none.
func (d Date) LastDay() Date {
	if d.Day == 0 {
		d.Day = daysOf(d.Year, d.Month)
	}
	return d
}

// ReadDate reads YYMMDD in the century that is nearest to a year: up to 49 years back, up to 50 ahead (GS1 General Specifications 7.12, from
// memory).
func ReadDate(value string, thisYear int) (Date, error) {
	d, err := readDate("date", value)
	if err != nil {
		return Date{}, err
	}
	century := thisYear - thisYear%100
	switch apart := d.Year - thisYear%100; {
	case apart >= 51:
		century -= 100
	case apart <= -50:
		century += 100
	}
	d.Year += century
	if d.Day > daysOf(d.Year, d.Month) { // 29 February
		return Date{}, &InputError{"date", value, fmt.Sprintf("%d is no leap year", d.Year), "correct it"}
	}
	return d, nil
}

// readDate leaves the century out; a leap day is let through.
func readDate(what, value string) (Date, error) {
	if err := onlyDigits(what, value); err != nil {
		return Date{}, err
	}
	if len(value) != 6 {
		return Date{}, &InputError{what, value, fmt.Sprintf("it has %d digits", len(value)), "write YYMMDD"}
	}
	n, _ := strconv.Atoi(value) // six digits
	d := Date{n / 10000, n / 100 % 100, n % 100}
	if d.Month < 1 || d.Month > 12 || d.Day > daysOf(2000, d.Month) {
		return Date{}, &InputError{what, value, "there is no such day", "write YYMMDD: the year's last two digits, the month, the day"}
	}
	return d, nil
}

func daysOf(year, month int) int {
	switch month {
	case 2:
		if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
			return 29
		}
		return 28
	case 4, 6, 9, 11:
		return 30
	}
	return 31
}

// NetKilograms is the element (310n) of a net weight, rounded down: a label never claims more than there is. Decimals are 0 to 5.
func NetKilograms(m unit.Mass, decimals int) (Element, error) {
	return weight("310", m, unit.Kilogram, decimals)
}

// NetPounds is the element (320n) of a net weight, rounded down. Decimals are 0 to 5.
func NetPounds(m unit.Mass, decimals int) (Element, error) {
	return weight("320", m, unit.Pound, decimals)
}

func weight(ai string, m, one unit.Mass, decimals int) (Element, error) {
	if decimals < 0 || decimals > mostDecimals {
		return Element{}, &InputError{"net weight", strconv.Itoa(decimals) + " decimals", "the identifier has a digit for 0 to 5", "ask for 2 or 3"}
	}
	if m <= 0 {
		return Element{}, &InputError{"net weight", m.String(), "it is not above 0", "give what is in the pack"}
	}
	whole, rest := int64(m/one), int64(m%one)
	n := whole
	for range decimals { // rest is below one, at most a kilogram in nanograms: ten times it is no overflow
		rest *= 10
		n, rest = 10*n+rest/int64(one), rest%int64(one)
	}
	if n > 999999 || n < 1 {
		return Element{}, &InputError{"net weight", m.String(), fmt.Sprintf("with %d decimals it does not fit six digits", decimals), "ask for fewer decimals of a heavy pack, more of a light one"}
	}
	return Element{fmt.Sprintf("%s%d", ai, decimals), fmt.Sprintf("%06d", n)}, nil
}
