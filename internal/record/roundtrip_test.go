package record

import (
	"bytes"
	"math"
	"reflect"
	"testing"

	"kettlefrost/internal/unit"

	"pgregory.net/rapid"
)

// Whatever can be written is read back the same: every mass to the nanogram, every sum to the millionth, every temperature, every text.
func TestWhateverIsWrittenIsReadBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		word := rapid.StringOfN(rapid.RuneFrom([]rune("aé\"\\<&>/ \u2028\ufffd😀")), 1, 20, -1)
		long := rapid.StringOfN(rapid.RuneFrom([]rune("a\n\t\"<\u2029\ufffd\u00a0é")), 1, 40, -1)
		mass := unit.Mass(rapid.Int64Range(1, math.MaxInt64).Draw(rt, "mass"))
		money := unit.Money(rapid.Int64().Draw(rt, "money"))
		temp := unit.Temp(rapid.Int64Range(int64(absoluteZero), int64(hottest)).Draw(rt, "temp"))
		count := rapid.Int64Range(1, maxNumber).Draw(rt, "count")
		numbers, err := NumbersOf(Range{count, min(count+9, maxNumber)}, Range{1, min(count, 7)})
		if err != nil {
			rt.Fatal(err)
		}
		for _, b := range []Body{
			Used{Run: word.Draw(rt, "run"), Dish: "d", Lot: Lot(word.Draw(rt, "lot")), Mass: mass, Numbers: numbers},
			Measured{Place: "x", Temp: temp},
			Received{Lot: "L", Ingredient: "i", Supplier: "s", Count: count, Mass: mass, Paid: money, Door: &temp},
			Paid{Invoice: "1", Amount: money},
			Noted{Text: Text(long.Draw(rt, "text"))},
			Drilled{Lots: []Lot{"L"}, Began: earliest, Ended: latest - 1, Share: unit.Share(rapid.Int64Range(0, 1_000_000_000).Draw(rt, "share"))},
		} {
			text, err := Encode(b)
			if err != nil { // of the texts only: spaces at the ends, and nothing but spaces
				continue
			}
			back, err := Decode(b.Kind(), text)
			if err != nil || !reflect.DeepEqual(b, back) {
				rt.Fatalf("%+v was written %s and came back as %+v (%v)", b, text, back, err)
			}
			e, err := Say(ID{1}, earliest, "ada", "tablet", b)
			if err != nil {
				rt.Fatal(err)
			}
			e.Entered = earliest
			sealed, err := Seal(Head{}, e)
			if err != nil || !bytes.Equal(sealed.Body, text) {
				rt.Fatalf("%s cannot be sealed: %v", text, err)
			}
			line, err := sealed.Line()
			if err != nil {
				rt.Fatal(err)
			}
			if same, err := ParseLine(line); err != nil || !reflect.DeepEqual(same, sealed) {
				rt.Fatalf("%s came back as %+v (%v)", line, same, err)
			}
		}
	})
}
