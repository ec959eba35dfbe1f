package homecard

import (
	"math"
	"slices"
	"testing"
)

func TestKettleTalk(t *testing.T) {
	for _, c := range []struct {
		text, want string
		left       []string
	}{
		{"Bring it to the boil in the tilting kettle.", "Bring it to the boil in the pot.", nil},
		{"Rondeau hot? Sear.", "Wide pan hot? Sear.", nil},
		{"Kettlefish stays.", "Kettlefish stays.", nil},
		{"Set them on sheet trays. Write it down. Cool in the walk-in.", "Set them on baking sheets. Cool in the refrigerator.", []string{"Write it down."}},
		{"165.5 °F in the middle! Stir each load well.", "165.5 °F in the middle!", []string{"Stir each load well."}},
		{"", "", nil},
		{"Tub to tubs, KETTLE.", "Bowl to bowls, Pot.", nil},
		{"Über den kettle", "Über den pot", nil},
	} {
		if got, left := atHome(c.text); got != c.want || !slices.Equal(left, c.left) {
			t.Errorf("%q is %q, left out %q", c.text, got, left)
		}
	}
}

func FuzzAtHome(f *testing.F) {
	for _, s := range []string{"kettle", "the kettle. Each load!", "ſheet tray", "a\xffkettle\xff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		says, _ := atHome(text)
		again, _ := atHome(says)
		if wordAt(says, "kettle", 0) >= 0 || again != says && len(says) > 0 && wordAt(again, "kettle", 0) >= 0 {
			t.Errorf("%q still says %q", text, says)
		}
	})
}

// A pot of the kit is as high as pots are: between a third of and once and a half its width; a pan is lower than half.
func TestKitIsTrueToShape(t *testing.T) {
	for _, tool := range Kit() {
		if tool.Source == "" {
			t.Errorf("%s has no source", tool.ID)
		}
		if tool.Across == 0 {
			continue
		}
		high := tool.Volume.L() / 1000 / circle(tool.Across) / tool.Across.M()
		if tool.Family == "pot" && (high < 0.33 || high > 1.5) || tool.Family == "pan" && (high < 0.1 || high >= 0.5) {
			t.Errorf("%s is %.2f as high as wide", tool.ID, high)
		}
	}
	if math.Abs(cubicFootL-0.3048*0.3048*0.3048*1000) > 1e-9 {
		t.Error("a cubic foot")
	}
}
