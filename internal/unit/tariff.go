package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Tariff is money per kilowatt-hour of energy. A price by the therm is turned into it, which is exact to a millionth of the money.
type Tariff Money

// thermKWh is 100,000 Btu (NIST Handbook 44, app. C: 1055.05585262 J, international table) in kilowatt-hours.
const thermKWh = 100_000 * 1055.05585262 / 3.6e6

// ParseTariff reads money per kilowatt-hour or therm, not below zero: $0.18/kWh, 1.40 per therm.
func ParseTariff(text string) (Tariff, error) {
	m, rest, err := parseMoney(tariffKind, text)
	if err != nil {
		return 0, err
	}
	switch strings.ToLower(strings.ReplaceAll(rest, " ", "")) {
	case "/kwh", "perkwh", "akwh":
		return Tariff(m), nil
	case "/therm", "pertherm", "atherm":
		return Tariff(math.Round(float64(m) / thermKWh)), nil
	case "":
		return 0, fail(tariffKind, text, "does not say per what; write /kWh or /therm behind it")
	}
	return 0, fail(tariffKind, text, "has "+strconv.Quote(rest)+" at its end")
}

// Of is what so much energy costs, in joules.
func (t Tariff) Of(energyJ float64) Money { return Money(nearest(float64(t) * energyJ / 3.6e6)) }

// String is a decimal per kilowatt-hour, without a currency sign: 0.18/kWh.
func (t Tariff) String() string { return Money(t).String() + "/kWh" }

// MarshalText writes 0.18/kWh. A tariff below zero is an error.
func (t Tariff) MarshalText() ([]byte, error) {
	if t < 0 {
		return nil, fmt.Errorf("%s cannot be written as a tariff: it is below zero", t)
	}
	return []byte(t.String()), nil
}

// UnmarshalText reads what ParseTariff reads.
func (t *Tariff) UnmarshalText(text []byte) error { return readInto(t, ParseTariff, text) }
