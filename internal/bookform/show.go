package bookform

import (
	"encoding"
	"reflect"
	"regexp"
	"strconv"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

var grouped = regexp.MustCompile(`^[1-9][0-9]{0,2}(,[0-9]{3})+$`)

// shown is a value as a form has it: in the kitchen's units where that reads back as the same value.
func shown(v reflect.Value, h House) string {
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return ""
		}
		v = v.Elem()
	}
	switch x := v.Interface().(type) {
	case unit.Money:
		return withSign(x.String(), h)
	case unit.Wage:
		return withSign(unit.Money(x).String(), h) + "/h"
	case unit.Tariff:
		return withSign(x.String(), h)
	case kitchen.Allergens:
		return strings.Join(x.List(), ", ")
	}
	switch {
	case quantity(v.Type()):
		return shownQuantity(v, h)
	case v.Kind() == reflect.Slice:
		return strings.Join(listed(v, h), ", ")
	case v.Kind() == reflect.Bool:
		return strconv.FormatBool(v.Bool())
	case v.Kind() == reflect.Int:
		return strconv.FormatInt(v.Int(), 10)
	case v.Kind() == reflect.Float64:
		return strconv.FormatFloat(v.Float(), 'f', -1, 64)
	}
	return v.String()
}

func listed(v reflect.Value, h House) []string {
	all := make([]string, v.Len())
	for i := range all {
		all[i] = shown(v.Index(i), h)
	}
	return all
}

func shownQuantity(v reflect.Value, h House) string {
	if x, ok := v.Interface().(interface{ Show(unit.System) string }); ok {
		text := x.Show(h.Units)
		back := reflect.New(v.Type())
		err := back.Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte(text))
		if err == nil && back.Elem().Interface() == v.Interface() {
			return text
		}
	}
	text, err := v.Interface().(encoding.TextMarshaler).MarshalText()
	if err != nil { // a value that no file can hold
		return ""
	}
	return string(text)
}

// usual is a value as the book writes it by itself.
func usual(r reading) string {
	if !quantity(r.value.Type()) {
		return r.tidy
	}
	text, err := r.value.Interface().(encoding.TextMarshaler).MarshalText()
	if err != nil {
		return ""
	}
	return string(text)
}
