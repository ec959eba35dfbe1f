package record

import (
	"fmt"
	"reflect"
	"strconv"

	"kettlefrost/internal/unit"
)

// rule is what a decimal may be.
type rule int

const (
	anything rule = iota
	aboveZero
	upToOne // 0 to 1
)

// decimalCodec is an exact decimal in quotation marks: "12.5". The Go value counts units of the last place.
type decimalCodec struct {
	places int // after the point, at most
	least  int // at least, when it is written
	rule   rule
}

func (d decimalCodec) write(dst []byte, v reflect.Value) []byte {
	return appendDecimal(dst, v.Int(), d.places, d.least)
}

func (d decimalCodec) read(r *reader, v reflect.Value) error {
	const want = "a decimal in quotation marks"
	s, err := r.text(want)
	if err != nil {
		return err
	}
	n, ok := parseDecimal(s, d.places)
	if !ok {
		return r.fail(fmt.Sprintf("is %.40q", s), fmt.Sprintf("write %s as in \"12.5\", with at most %d places, no unit and no sign but a minus", want, d.places))
	}
	v.SetInt(n)
	return nil
}

func (d decimalCodec) check(c *checker, v reflect.Value) {
	n, one := v.Int(), power10(d.places)
	switch {
	case d.rule == aboveZero && n == 0:
		c.wrong("is zero", "write how much it was, or leave the entry out")
	case d.rule != anything && n < 0:
		c.wrong("is below zero", "write how much it was, without a minus")
	case d.rule == upToOne && n > one:
		c.wrong("is more than one", "write a fraction of one: 0.125 for an eighth")
	}
}

func power10(n int) int64 {
	p := int64(1)
	for range n {
		p *= 10
	}
	return p
}

// appendDecimal writes v units of the last of so many places, in quotation marks, without zeros at the end beyond the least places.
func appendDecimal(dst []byte, v int64, places, least int) []byte {
	digits := fmt.Appendf(nil, "%0*d", places+1, v)
	if v < 0 {
		digits = fmt.Appendf(nil, "%0*d", places+2, v) // the minus takes a place
	}
	whole, part := digits[:len(digits)-places], digits[len(digits)-places:]
	for len(part) > least && part[len(part)-1] == '0' {
		part = part[:len(part)-1]
	}
	dst = append(dst, '"')
	dst = append(dst, whole...)
	if len(part) > 0 {
		dst = append(dst, '.')
		dst = append(dst, part...)
	}
	return append(dst, '"')
}

// parseDecimal reads digits with a point and at most so many places, and a minus before them.
func parseDecimal(s string, places int) (int64, bool) {
	if s == "" || s == "-" {
		return 0, false
	}
	digits := make([]byte, 0, len(s)+places)
	after := -1 // places behind the point
	for i := range len(s) {
		switch c := s[i]; {
		case c == '-' && i == 0:
			digits = append(digits, c)
		case c == '.' && after < 0 && i > 0 && s[i-1] != '-' && i < len(s)-1:
			after = 0
		case c >= '0' && c <= '9':
			digits = append(digits, c)
			if after >= 0 {
				after++
			}
		default:
			return 0, false
		}
	}
	after = max(after, 0)
	if after > places {
		return 0, false
	}
	for range places - after {
		digits = append(digits, '0')
	}
	n, err := strconv.ParseInt(string(digits), 10, 64)
	return n, err == nil
}

// tempCodec is a temperature in °C as a decimal, rounded to a millionth of a degree: finer than unit.Temp, so that it reads back the same.
type tempCodec struct{}

const (
	degree      = 9000      // units of unit.Temp in 1 °C
	microDegree = 1_000_000 // millionths of 1 °C
)

func (tempCodec) write(dst []byte, v reflect.Value) []byte {
	return appendDecimal(dst, rescale(v.Int(), microDegree, degree), 6, 0)
}

// rescale is v*num/den to the nearest whole number, half away from zero.
func rescale(v, num, den int64) int64 {
	half := den / 2
	if v < 0 {
		half = -half
	}
	return (v*num + half) / den
}

func (tempCodec) read(r *reader, v reflect.Value) error {
	var micro int64
	if err := (decimalCodec{places: 6}).read(r, reflect.ValueOf(&micro).Elem()); err != nil {
		return err
	}
	if micro < -1000*microDegree || micro > 100_000*microDegree {
		return r.fail("is no temperature", "write °C as a decimal in quotation marks, as in \"74.5\"")
	}
	v.SetInt(rescale(micro, degree, microDegree))
	return nil
}

// What a thermometer in a kitchen cannot show.
const (
	absoluteZero unit.Temp = -27315 * degree / 100
	hottest      unit.Temp = 600 * degree // a wok burner's flame is hotter, what lies in it is not
)

func (tempCodec) check(c *checker, v reflect.Value) {
	switch t := unit.Temp(v.Int()); {
	case t < absoluteZero:
		c.wrong("is below absolute zero, -273.15 °C", "read the thermometer again")
	case t > hottest:
		c.wrong("is above 600 °C", "read the thermometer again; write °C, not °F")
	}
}

// integerCodec is a whole number from 1: counts, loads, pack numbers.
type integerCodec struct{}

func (integerCodec) write(dst []byte, v reflect.Value) []byte {
	return strconv.AppendInt(dst, v.Int(), 10)
}

func (integerCodec) read(r *reader, v reflect.Value) error {
	n, err := r.integer()
	v.SetInt(n)
	return err
}

func (integerCodec) check(c *checker, v reflect.Value) {
	if n := v.Int(); n < 1 || n > maxNumber {
		c.wrong(fmt.Sprintf("is %d", n), fmt.Sprintf("write a number from 1 to %d", int64(maxNumber)))
	}
}

// weekCodec is a Week.
type weekCodec struct{ integerCodec }

// maxWeek is twenty years: no food is kept that long.
const maxWeek = 1040

func (weekCodec) check(c *checker, v reflect.Value) {
	if n := v.Int(); n < 0 || n > maxWeek {
		c.wrong(fmt.Sprintf("is %d", n), fmt.Sprintf("write weeks in the freezer, from 0 to %d", maxWeek))
	}
}

// instantCodec is an Instant.
type instantCodec struct{ integerCodec }

func (instantCodec) check(c *checker, v reflect.Value) {
	if problem := badInstant(Instant(v.Int())); problem != "" {
		c.wrong(problem, fixClock)
	}
}

// boolCodec is true or false.
type boolCodec struct{}

func (boolCodec) write(dst []byte, v reflect.Value) []byte { return strconv.AppendBool(dst, v.Bool()) }

func (boolCodec) read(r *reader, v reflect.Value) error {
	yes := r.word("true")
	if !yes && !r.word("false") {
		return r.expected("true or false")
	}
	v.SetBool(yes)
	return nil
}

func (boolCodec) check(*checker, reflect.Value) {}
