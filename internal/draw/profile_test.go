package draw

import (
	"bytes"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/unit"
)

// slabInWind is the first term of the exact series for a plane wall of 50.8 mm with faces held at 0 °C, from 60 °C:
// (4/π)·exp(−π²/4·Fo)·sin(πx/L) from Fo 0.2 on (a textbook's form).
func slabInWind() Profile {
	line := func(name string, fo float64) ProfileLine {
		l := ProfileLine{Name: name}
		for n := 0; n <= 40; n++ {
			x := float64(n) / 40
			l.Places = append(l.Places, Place{x * 0.0508, 60 * 4 / math.Pi * math.Exp(-math.Pi*math.Pi/4*fo) * math.Sin(math.Pi*x)})
		}
		return l
	}
	freezing := -0.6
	return Profile{Title: "Through a slab", Desc: "A slab 2 in thick.", Units: unit.US, FreezingC: &freezing, LowFace: "tray", HighFace: "air",
		Lines: []ProfileLine{{"start", []Place{{0, 60}, {0.0508, 60}}}, line("15 min", 0.2), line("30 min", 0.4), line("1 h", 0.8)}}
}

func TestProfileGolden(t *testing.T) { golden(t, "testdata/profile.svg", SVG(slabInWind().Picture())) }

func TestProfileSaysWhatItShows(t *testing.T) {
	for units, want := range map[unit.System][]string{
		unit.US:     {"start", "15 min", "30 min", "1 h", "0 in", "1/2 in", "1 in", "1 1/2 in", "2 in", "tray", "air", "begins to freeze, 31 °F"},
		unit.Metric: {"start", "15 min", "30 min", "1 h", "0 mm", "20 mm", "40 mm", "tray", "air", "begins to freeze, −1 °C"},
	} {
		p := slabInWind()
		p.Units = units
		d := read(t, SVG(p.Picture()))
		for _, w := range want {
			if !contains(d.texts, w) {
				t.Errorf("%v: no %q among the texts %q", units, w, d.texts)
			}
		}
		if d.smallest < 16 {
			t.Errorf("type of %g, want 16 or more", d.smallest)
		}
	}
}

// Lines are told apart by strength, which follows time.
func TestLaterIsStronger(t *testing.T) {
	h := newProfileChart(slabInWind().cleaned())
	for i := 1; i < len(h.lines); i++ {
		if before, now := h.strength(i-1).Width, h.strength(i).Width; now < before+0.5 {
			t.Errorf("line %d is %g wide, the one before %g", i, now, before)
		}
	}
}

// Middle: 60·4/π·exp(−π²/4·0.4) = 28.47 °C = 83 °F; a quarter in from the face that times sin 45°: 20.13 °C = 68 °F. By hand.
func TestTableOfAProfile(t *testing.T) {
	table := slabInWind().Table()
	if want := []string{"depth", "start", "15 min", "30 min", "1 h"}; !slices.Equal(table.Head, want) {
		t.Errorf("head %q, want %q", table.Head, want)
	}
	got := map[string]string{}
	for _, row := range table.Rows {
		got[row[0]] = row[3]
	}
	for depth, want := range map[string]string{"0 in": "32 °F", "1/2 in": "68 °F", "1 in": "83 °F", "2 in": "32 °F"} {
		if got[depth] != want {
			t.Errorf("%s at %s, want %s", got[depth], depth, want)
		}
	}
}

func TestAnyProfile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.StringN(0, 40, -1)
		depth := rapid.OneOf(rapid.Float64Range(0, 0.2), anyNumber)
		p := Profile{Title: name.Draw(t, "title"), Units: rapid.SampledFrom([]unit.System{unit.US, unit.Metric}).Draw(t, "units"),
			LowFace: name.Draw(t, "low"), HighFace: name.Draw(t, "high"), Width: anyNumber.Draw(t, "width"), Height: anyNumber.Draw(t, "height")}
		if rapid.Bool().Draw(t, "freezes") {
			freezing := anyNumber.Draw(t, "freezing")
			p.FreezingC = &freezing
		}
		p.Lines = rapid.SliceOfN(rapid.Custom(func(t *rapid.T) ProfileLine {
			return ProfileLine{name.Draw(t, "name"), rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Place {
				return Place{depth.Draw(t, "depth"), anyNumber.Draw(t, "temp")}
			}), 0, 12).Draw(t, "places")}
		}), 0, 8).Draw(t, "lines")
		data := SVG(p.Picture())
		read(t, data)
		finite(t, data)
		inBox(t, p.Picture())
		if again := SVG(p.Picture()); !bytes.Equal(data, again) {
			t.Fatalf("two drawings of one profile differ")
		}
		for _, row := range p.Table().Rows {
			if len(row) != len(p.Table().Head) {
				t.Fatalf("a row of %d under a head of %d", len(row), len(p.Table().Head))
			}
		}
	})
}
