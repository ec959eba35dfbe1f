package bookform

import (
	"encoding"
	"reflect"
	"strings"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// Kind is how a field is entered.
type Kind string

// Kinds of fields.
const (
	Text     Kind = "text"     // a short text
	Long     Kind = "long"     // a text over several lines
	Lines    Kind = "lines"    // several texts, one on a line
	Words    Kind = "words"    // several words, divided by commas
	Quantity Kind = "quantity" // anything with a unit
	Money    Kind = "money"
	Clock    Kind = "clock"
	Day      Kind = "day"
	Number   Kind = "number"
	YesNo    Kind = "yes-no"
	One      Kind = "one"  // one of some choices
	Many     Kind = "many" // any of some choices
	Answer   Kind = "answer"
	Food     Kind = "food" // a number of the composition table
	Group    Kind = "group"
	Rows     Kind = "rows"
)

var (
	textType    = reflect.TypeFor[encoding.TextUnmarshaler]()
	answerType  = reflect.TypeFor[kitchen.Allergens]()
	momentType  = reflect.TypeFor[unit.Moment]()
	clockType   = reflect.TypeFor[unit.Clock]()
	moneyType   = reflect.TypeFor[unit.Money]()
	wageType    = reflect.TypeFor[unit.Wage]()
	tariffType  = reflect.TypeFor[unit.Tariff]()
	systemType  = reflect.TypeFor[unit.System]()
	dayKeys     = map[string]bool{"until": true, "day": true, "today": true, "date": true, "since": true}
	longKeys    = map[string]bool{"note": true, "about": true, "how": true, "at-home": true}
	foodKeys    = map[string]bool{"food": true}
	fromDayDesc = "are judged, such as 20"
)

func plain(t reflect.Type) reflect.Type {
	if t.Kind() == reflect.Pointer {
		return t.Elem()
	}
	return t
}

// quantity says that the type reads its own text.
func quantity(t reflect.Type) bool {
	return t != answerType && reflect.PointerTo(t).Implements(textType)
}

// single says that it is entered in one control.
func single(t reflect.Type) bool {
	t = plain(t)
	switch {
	case t == answerType || quantity(t):
		return true
	case t.Kind() == reflect.Slice:
		return single(t.Elem())
	}
	return t.Kind() != reflect.Struct && t.Kind() != reflect.Map
}

// kindOf is how the value of a key is entered. refers says that it names an entry of the book or has choices.
func kindOf(k bookfile.Key, refers bool) Kind {
	t := plain(k.Type)
	switch {
	case t == answerType:
		return Answer
	case t.Kind() == reflect.Slice && single(t.Elem()):
		return listKind(t.Elem(), refers)
	case t.Kind() == reflect.Slice || t.Kind() == reflect.Map:
		return Rows
	case refers || t == systemType:
		return One
	case t == clockType || t == momentType:
		return Clock
	case t == moneyType || t == wageType || t == tariffType:
		return Money
	case quantity(t):
		return Quantity
	case t.Kind() == reflect.Struct:
		return Group
	case t.Kind() == reflect.Bool:
		return YesNo
	case t.Kind() == reflect.Int || t.Kind() == reflect.Float64:
		return Number
	case foodKeys[k.Name]:
		return Food
	case dayKeys[k.Name] || strings.Contains(k.Desc, fromDayDesc):
		return Day
	case longKeys[k.Name]:
		return Long
	}
	return Text
}

func listKind(t reflect.Type, refers bool) Kind {
	switch {
	case refers:
		return Many
	case t.Kind() == reflect.String && t != reflect.TypeFor[string]():
		return Words
	}
	return Lines
}
