package statement

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/unit"
)

// naan is the flatbread of the soup with the shares of its parts.
func naan() []Line {
	lines := soup()
	parts := lines[3].Sub
	parts[0].Share, parts[1].Share, parts[2].Share = 60*unit.PerCent, 38*unit.PerCent, 2*unit.PerCent
	return lines
}

// 21 CFR 101.4(b)(2)(ii): the name of the compound ingredient is left out, and its parts stand in the list by their shares. Worked by hand: 900 g of
// flatbread are 540 g of flour, 342 g of yogurt and 18 g of salt, which with 80 g makes 98 g of salt.
func TestSpreadOut(t *testing.T) {
	s, err := WriteAs(naan(), Style{Spread: true})
	if err != nil {
		t.Fatal(err)
	}
	if want := "Ingredients: water, red lentils, cream, enriched flour (wheat flour, niacin), yogurt, salt, sodium citrate (emulsifier)."; s.Ingredients != want {
		t.Errorf("got  %s\nwant %s", s.Ingredients, want)
	}
	if want := "Contains: Milk, Wheat."; s.Contains != want {
		t.Errorf("got %q, want %q", s.Contains, want)
	}
	salt := slices.IndexFunc(s.Items, func(x Item) bool { return x.Name == "salt" })
	if s.Items[salt].Mass != 98*unit.Gram || len(s.Nested) > 0 {
		t.Errorf("salt weighs %v and %v stay together, want 98 g and none", s.Items[salt].Mass, s.Nested)
	}
	if s, _ := WriteAs(soup(), Style{Spread: true}); !slices.Equal(s.Nested, []string{"flatbread"}) || !strings.Contains(s.Ingredients, "flatbread (enriched flour") {
		t.Errorf("without shares: %s, together stay %v", s.Ingredients, s.Nested)
	}
}

// 21 CFR 101.4(a)(2): what is no more than 2 % may stand at the end, behind "Contains 2 % or less of". Worked by hand: 12.725 kg were put in, of
// which 254.5 g are 2 % and 63.6 g are 0.5 %; of the 4 kg that are left, 80 g are 2 % and so are still in it, 45 g too.
func TestAtTheEnd(t *testing.T) {
	for _, c := range []struct {
		name  string
		style Style
		end   string
	}{
		{"2 % of what was put in", Style{Last: 2 * unit.PerCent}, "cream. Contains 2 % or less of: salt, sodium citrate (emulsifier)."},
		{"one alone keeps its place", Style{Last: unit.PerCent / 2}, "cream, salt, sodium citrate (emulsifier)."},
		{"2 % of what is left", Style{Last: 2 * unit.PerCent, Whole: 4 * unit.Kilogram}, "Contains 2 % or less of: salt, sodium citrate (emulsifier)."},
		{"a gram less is left", Style{Last: 2 * unit.PerCent, Whole: 3999 * unit.Gram}, "cream, salt, sodium citrate (emulsifier)."},
	} {
		s, err := WriteAs(soup(), c.style)
		if err != nil || !strings.HasSuffix(s.Ingredients, c.end) {
			t.Errorf("%s: %s (%v), want it to end in %q", c.name, s.Ingredients, err, c.end)
		}
	}
	if _, err := WriteAs(soup(), Style{Last: 5 * unit.PerCent}); err == nil {
		t.Error("5 % is no threshold that the rule knows")
	} else if _, is := errors.AsType[*LineError](err); !is {
		t.Errorf("the error is %T", err)
	}
}

// Regulation (EU) 1169/2011, annex VII, part C (from memory): an additive is named by its category, then by its name or number.
func TestFunctionFirst(t *testing.T) {
	s, err := WriteAs(soup(), Style{FunctionFirst: true})
	if err != nil || !strings.HasSuffix(s.Ingredients, "emulsifier: sodium citrate.") {
		t.Errorf("%s (%v)", s.Ingredients, err)
	}
}

// Whatever the style, nothing is lost and nothing changes what allergens are found, and the order is by weight.
func TestStylesKeepMassAndAllergens(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines := naan()
		for i := range lines {
			lines[i].Mass = unit.Mass(rapid.Int64Range(1, int64(5*unit.Kilogram)).Draw(t, "mass"))
		}
		style := Style{Spread: rapid.Bool().Draw(t, "spread"), Last: rapid.SampledFrom(lasts).Draw(t, "last"), FunctionFirst: rapid.Bool().Draw(t, "function")}
		plain, err := Write(lines)
		styled, err2 := WriteAs(lines, style)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		in, out := unit.Mass(0), unit.Mass(0)
		for _, l := range lines {
			in += l.Mass
		}
		for i, item := range styled.Items {
			out += item.Mass
			if i > 0 && item.Mass > styled.Items[i-1].Mass {
				t.Fatalf("%s stands behind less of it", item.Name)
			}
		}
		if in != out || plain.Contains != styled.Contains {
			t.Fatalf("%v went in and %v is declared; %q and %q", in, out, plain.Contains, styled.Contains)
		}
	})
}
