package unit

import "testing"

func TestParseAmount(t *testing.T) {
	for _, c := range []struct {
		text string
		want Amount
	}{
		{"5 lb", Amount{Kind: AmountMass, Mass: 5 * Pound}},
		{"12 lb 4 oz", Amount{Kind: AmountMass, Mass: 196 * Ounce}},
		{"2 1/2 cups", Amount{Kind: AmountVolume, Volume: 5 * Cup / 2}},
		{"1,250 ml", Amount{Kind: AmountVolume, Volume: 1250 * Millilitre}},
		{"2 cups, shredded", Amount{Kind: AmountVolume, Volume: 2 * Cup, Measure: "shredded"}},
		{"1,250 ml,  Cut in cubes", Amount{Kind: AmountVolume, Volume: 1250 * Millilitre, Measure: "cut in cubes"}},
		{"3 each", Amount{Kind: AmountCount, Count: 3 * One, Measure: "each"}},
		{"1/2 Bunch", Amount{Kind: AmountCount, Count: One / 2, Measure: "bunch"}},
		{"12 cloves", Amount{Kind: AmountCount, Count: 12 * One, Measure: "cloves"}},
		{"2½ half-moons", Amount{Kind: AmountCount, Count: 5 * One / 2, Measure: "half-moons"}},
	} {
		if got, err := ParseAmount(c.text); err != nil || got != c.want {
			t.Errorf("%q is %+v (%v), want %+v", c.text, got, err, c.want)
		}
	}
	for _, c := range [][2]string{
		{"", "is empty"},
		{"3", "is a bare number: 3 of what? Write 3 each or 3 lb"},
		{"each", "does not start with a number"},
		{"-3 each", "is below zero"},
		{"+3 each", "plus sign"},
		{"165 °F", "is a temperature"},
		{"45 min", "is a time span"},
		{"5 %", "is a share"},
		{"2 T", "which may be a tablespoon"},
		{"12 each 3 oz", `cannot be read from "3 oz" on`},
		{"3 each, large", `cannot be read from ", large" on`},
		{"2 lb leeks", `has the unit "lb" in its words`},
		{"5 lb, diced", `cannot be read from ", diced" on`},
		{"2 cups,", "has nothing behind the comma"},
		{"2 cups, 1 inch", `has "1" where only letters`},
		{"3 cans!", `has "!" where only letters`},
		{"3 -each", `has "-" where only letters`},
		{"1e3 each", "has a power of ten"},
		{"0.0000001 bunch", "is smaller than this program counts"},
		{"10000000000000 each", "is bigger than this program counts"},
	} {
		refuse(t, ParseAmount, c[0], c[1])
	}
}

func BenchmarkParse(b *testing.B) {
	for _, text := range []string{"450 g", "12 lb 4 oz", "2 lb 3 1/2 oz", "2 1/2 cups, shredded", "3 each"} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := ParseAmount(text); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkSpell(b *testing.B) {
	for _, v := range []interface{ String() string }{450 * Gram, 196 * Ounce, 5 * Cup / 2, Volume(1<<63 - 1), TempF(165)} {
		b.Run(v.String(), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_ = v.String()
			}
		})
	}
}
