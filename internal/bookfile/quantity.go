package bookfile

import (
	"encoding"
	"errors"
	"fmt"
	"reflect"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// complaint is what a quantity says about its text, without the example that the finding's fix gives.
func complaint(err error) string {
	if parse, ok := errors.AsType[*unit.ParseError](err); ok {
		parse.Example = ""
		said, _, _ := strings.Cut(parse.Error(), ", e.g. ")
		return said
	}
	return err.Error()
}

// examples shows how quantities of a type are written. The type knows: it says so when it is given nothing to read.
func examples(t reflect.Type) []string {
	t = pointee(t)
	switch t {
	case reflect.TypeFor[kitchen.Take]():
		return []string{"all", "60 %"}
	case reflect.TypeFor[unit.Moment](): // reads its clock, which knows no second day
		return []string{"09:00", "09:00+1"}
	}
	err := reflect.New(t).Interface().(encoding.TextUnmarshaler).UnmarshalText(nil)
	parse, ok := errors.AsType[*unit.ParseError](err)
	if !ok {
		panic(fmt.Sprintf("%v reads nothing as a quantity", t)) // a test goes through all types of the book
	}
	return strings.Split(strings.ReplaceAll(parse.Example, " or ", ", "), ", ")
}

// Patterns for the schema. They let everything through that the types read, and stop the commonest mistakes: no number, no unit.
const (
	digitText    = `[0-9½¼¾⅓⅔⅛⅜⅝⅞]`
	measuredText = digitText + `[\s\S]*[A-Za-z%]`
	amountText   = digitText + `[\s\S]*[^0-9½¼¾⅓⅔⅛⅜⅝⅞.,/\s]` // what is counted may be a word of any script
	clockText    = `[0-9]:[0-9]`
	systemText   = `[Mm][Ee][Tt][Rr][Ii][Cc]|[Uu][Ss]`
)

// pattern is what the text of a quantity must look like. bare says that a number without a unit will do.
func pattern(t reflect.Type) (text string, bare bool) {
	switch t {
	case reflect.TypeFor[unit.Money]():
		return digitText, true
	case reflect.TypeFor[unit.Amount]():
		return amountText, false
	case reflect.TypeFor[unit.Clock](), reflect.TypeFor[unit.Moment]():
		return clockText, false
	case reflect.TypeFor[unit.System]():
		return systemText, false
	case reflect.TypeFor[kitchen.Take]():
		return `all|` + measuredText, false
	default:
		return measuredText, false
	}
}
