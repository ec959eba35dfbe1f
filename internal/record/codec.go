package record

import (
	"encoding/json"
	"reflect"
	"strings"
	"unicode/utf8"

	"kettlefrost/internal/unit"
)

// codec writes, reads and checks values of one Go type. Bodies are taken apart into the codecs of their fields once, when the program starts.
//
// The written form is canonical: fields in the order of the struct, no white space, whole numbers in plain digits, masses, money, counts,
// shares and temperatures as decimals in quotation marks (no reader can take them for floats), optional fields left out when empty. It
// must stay what it is for as long as anybody keeps a chain, so it does not lean on how package unit writes for people.
type codec interface {
	write(dst []byte, v reflect.Value) []byte
	read(r *reader, v reflect.Value) error
	check(c *checker, v reflect.Value)
}

// ownCodecs are the types that are not written as what they are made of.
var ownCodecs = map[reflect.Type]codec{
	reflect.TypeFor[unit.Mass]():  decimalCodec{places: 9, rule: aboveZero},
	reflect.TypeFor[unit.Count](): decimalCodec{places: 6, rule: aboveZero},
	reflect.TypeFor[unit.Share](): decimalCodec{places: 9, rule: upToOne},
	reflect.TypeFor[unit.Money](): decimalCodec{places: 6, least: 2, rule: anything},
	reflect.TypeFor[unit.Temp]():  tempCodec{},
	reflect.TypeFor[Decimal]():    decimalCodec{places: 3, rule: anything},
	reflect.TypeFor[Week]():       weekCodec{},
	reflect.TypeFor[Instant]():    instantCodec{},
	reflect.TypeFor[Day]():        dayCodec{},
	reflect.TypeFor[Text]():       longCodec{},
	reflect.TypeFor[Numbers]():    textCodec[Numbers, *Numbers]{},
	reflect.TypeFor[Hash]():       textCodec[Hash, *Hash]{},
	reflect.TypeFor[ID]():         textCodec[ID, *ID]{},
}

// codecOf is the codec of a type. A body with a field of a type that is not known here is a mistake in the program.
func codecOf(t reflect.Type) codec {
	if c, ok := ownCodecs[t]; ok {
		return c
	}
	switch t.Kind() {
	case reflect.Struct:
		return structOf(t)
	case reflect.Slice:
		return listCodec{codecOf(t.Elem())}
	case reflect.Pointer:
		return pointerCodec{codecOf(t.Elem())}
	case reflect.String:
		return wordCodec{}
	case reflect.Int64:
		return integerCodec{}
	case reflect.Bool:
		return boolCodec{}
	}
	panic("record: no codec for " + t.String())
}

// appendText writes a JSON string, escaped as encoding/json does by default, so that a body comes through it byte for byte.
func appendText(dst []byte, s string) []byte {
	if isPlain(s) {
		dst = append(dst, '"')
		dst = append(dst, s...)
		return append(dst, '"')
	}
	quoted, err := json.Marshal(s)
	if err != nil { // encoding/json writes every string
		panic(err)
	}
	return append(dst, quoted...)
}

// isPlain says whether s is written as it is; that it sometimes says no of one that is, costs only time.
func isPlain(s string) bool {
	for i := range len(s) {
		if c := s[i]; c < ' ' || c >= utf8.RuneSelf || strings.IndexByte(`"\<>&`, c) >= 0 {
			return false
		}
	}
	return true
}
