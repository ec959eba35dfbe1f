// Package kitchentest draws kitchens for property tests.
package kitchentest

import (
	"encoding"
	"math"
	"reflect"
	"strings"

	"pgregory.net/rapid"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// Book draws a book that can be written down: every quantity has a text, every choice is one of its words. Nothing in it need make
// sense; names may be anything.
func Book(t *rapid.T) kitchen.Book {
	var book kitchen.Book
	fill(t, reflect.ValueOf(&book).Elem(), "")
	return book
}

// Fill draws a value of any of the book's types into v, which can be set; enum is the words that may stand there, joined by commas.
func Fill(t *rapid.T, v reflect.Value, enum string) { fill(t, v, enum) }

// fill draws a value of any of the book's types; enum is the words that may stand there, when only some may.
func fill(t *rapid.T, v reflect.Value, enum string) {
	switch value := v.Addr().Interface().(type) {
	case *kitchen.Allergens:
		*value = rapid.SampledFrom([]kitchen.Allergens{
			{}, {Answered: true}, {Answered: true, Names: []string{"milk"}}, {Answered: true, Names: []string{"fish: trout", "wheat"}},
			{Answered: true, Names: []string{rapid.String().Filter(func(s string) bool { return s != "none" }).Draw(t, "name")}},
		}).Draw(t, "allergens")
		return
	case *kitchen.Take:
		if rapid.Bool().Draw(t, "take") {
			*value = kitchen.Take{Given: true, Share: unit.Share(rapid.Int64Range(0, 1<<40).Draw(t, "share"))}
		}
		return
	case *unit.Amount:
		*value = rapid.SampledFrom([]unit.Amount{
			{Kind: unit.AmountMass, Mass: unit.Mass(rapid.Int64Min(0).Draw(t, "mass"))},
			{Kind: unit.AmountVolume, Volume: unit.Volume(rapid.Int64Min(0).Draw(t, "volume"))},
			{Kind: unit.AmountVolume, Volume: 3 * unit.Cup / 4, Measure: "chopped"},
			{Kind: unit.AmountCount, Count: 5 * unit.One / 2, Measure: "each"},
		}).Draw(t, "amount")
		return
	case *unit.System:
		*value = unit.System(rapid.IntRange(0, 1).Draw(t, "system"))
		return
	case *unit.Clock:
		*value = unit.Clock(rapid.IntRange(0, 1440).Draw(t, "clock"))
		return
	case *unit.Moment:
		*value = unit.Moment(rapid.IntRange(0, 7*1440).Draw(t, "moment"))
		return
	case encoding.TextMarshaler:
		if v.Kind() == reflect.Float64 {
			v.SetFloat(math.Abs(rapid.Float64().Draw(t, "rate")))
		} else {
			v.SetInt(rapid.Int64Min(0).Draw(t, "quantity"))
		}
		return
	}
	fillPlain(t, v, enum)
}

func fillPlain(t *rapid.T, v reflect.Value, enum string) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			fill(t, v.Field(i), v.Type().Field(i).Tag.Get("enum"))
		}
	case reflect.Pointer:
		if rapid.Bool().Draw(t, "given") {
			v.Set(reflect.New(v.Type().Elem()))
			fill(t, v.Elem(), enum)
		}
	case reflect.Slice:
		for range rapid.IntRange(0, 2).Draw(t, "length") {
			one := reflect.New(v.Type().Elem()).Elem()
			fill(t, one, enum)
			v.Set(reflect.Append(v, one))
		}
	case reflect.Map:
		for range rapid.IntRange(0, 2).Draw(t, "length") {
			if v.IsNil() {
				v.Set(reflect.MakeMap(v.Type()))
			}
			key, one := reflect.New(v.Type().Key()).Elem(), reflect.New(v.Type().Elem()).Elem()
			fill(t, key, "")
			fill(t, one, enum)
			v.SetMapIndex(key, one)
		}
	case reflect.String:
		if enum != "" {
			v.SetString(rapid.SampledFrom(strings.Split(enum, ",")).Draw(t, "choice"))
		} else {
			v.SetString(rapid.OneOf(rapid.String(), rapid.StringMatching(`[a-z0-9:#&*!|>'"%@{}\[\],?\n\t~ .-]{0,12}`)).Draw(t, "text"))
		}
	case reflect.Bool:
		v.SetBool(rapid.Bool().Draw(t, "bool"))
	case reflect.Int:
		v.SetInt(int64(rapid.Int32().Draw(t, "int")))
	case reflect.Float64:
		v.SetFloat(rapid.Float64().Draw(t, "float"))
	default:
		t.Fatalf("a book has no %v", v.Type())
	}
}
