package web

import (
	"errors"
	"net/http"
	"net/url"
	"regexp"
	"strings"

	"kettlefrost/internal/thermometers"
	"kettlefrost/internal/unit"
)

// checking is a check on its way.
type checking struct {
	x        thermometers.Instrument
	bench    thermometers.Bench
	method   thermometers.Method
	altitude unit.Length
	read     *unit.Temp
	reads    *unit.Temp // true, or what the reference reads
	bad      map[string]string
}

// longestName is more than any thermometer is called.
const longestInstrument = 60

// checkOf reads what is known of a check from a form; false when it was answered.
func (s *server) checkOf(w http.ResponseWriter, r *http.Request, form url.Values) (c checking, rd reader, ok bool) {
	book, _ := s.house.Book()
	rd = readerOf(book.Kitchen, r)
	id := tidy(form.Get("id"))
	if s.records == nil || id == "" || len(id) > longestInstrument {
		s.missing(w, r, book, "Choose the thermometer that is checked from the list of thermometers.")
		return c, rd, false
	}
	bench, _, err := s.records.Bench(r.Context(), book)
	if err != nil {
		s.refuse(w, r, http.StatusInternalServerError, sentence(err))
		return c, rd, false
	}
	c = checking{bench: bench, altitude: book.Kitchen.Altitude, bad: map[string]string{}}
	c.x, _ = bench.Instrument(id)
	if text := tidy(form.Get("altitude")); text != "" {
		c.altitude = c.readAltitude(text, rd)
	}
	methods := thermometers.Methods(c.altitude.M())
	c.method = methods[0]
	for _, m := range methods {
		if string(m.Method) == form.Get("method") {
			c.method = m
		}
	}
	c.read = c.degrees("read", form, rd)
	if c.method.TrueC != nil {
		is := unit.TempC(*c.method.TrueC)
		c.reads = &is
	} else {
		c.reads = c.degrees("true", form, rd)
	}
	return c, rd, true
}

// highest is above every town.
const highest = 6000 * unit.Metre

func (c checking) readAltitude(text string, rd reader) unit.Length {
	if bareNumber.MatchString(text) {
		text += map[unit.System]string{unit.US: " ft", unit.Metric: " m"}[rd.units]
	}
	at, err := unit.ParseLength(strings.ReplaceAll(text, ",", ""))
	switch {
	case err != nil:
		c.bad["altitude"] = sentence(err)
	case at > highest:
		c.bad["altitude"] = "Nobody cooks so high up."
	}
	return at
}

// degrees reads a temperature that may be left out.
func (c checking) degrees(key string, form url.Values, rd reader) *unit.Temp {
	text := tidy(form.Get(key))
	if text == "" {
		return nil
	}
	t, err := readDegrees(text, rd.units)
	if err != nil {
		c.bad[key] = sentence(err)
		return nil
	}
	return &t
}

var bareDegrees = regexp.MustCompile(`^-?[0-9]+([.,][0-9]+)?$`)

var errNoReading = errors.New("no thermometer reads that: check the unit")

// readDegrees reads a temperature as it is typed; a number alone is in degrees of the reader.
func readDegrees(text string, units unit.System) (unit.Temp, error) {
	text = strings.ReplaceAll(text, "−", "-")
	if bareDegrees.MatchString(text) {
		text = strings.ReplaceAll(text, ",", ".") + map[unit.System]string{unit.US: " F", unit.Metric: " C"}[units]
	}
	t, err := unit.ParseTemp(text)
	if err == nil && (t < unit.TempC(-90) || t > unit.TempC(320)) {
		err = errNoReading
	}
	return t, err
}

// bareHint says in which unit a number alone is.
func bareHint(rd reader) string {
	return "; a number alone is in " + map[unit.System]string{unit.US: "°F", unit.Metric: "°C"}[rd.units]
}
