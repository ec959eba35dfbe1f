package draw

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestTimeTicks(t *testing.T) {
	for _, test := range []struct {
		untilS float64
		want   []string
	}{
		{40, []string{"0", "10 s", "20 s", "30 s", "40 s"}},
		{23 * minuteS, []string{"0", "5 min", "10 min", "15 min", "20 min"}},
		{90 * minuteS, []string{"0", "15 min", "30 min", "45 min", "60 min", "75 min", "90 min"}},
		{2.6 * hourS, []string{"0", "½ h", "1 h", "1½ h", "2 h", "2½ h"}},
		{6 * hourS, []string{"0", "1 h", "2 h", "3 h", "4 h", "5 h", "6 h"}},
		{30 * hourS, []string{"0", "6 h", "12 h", "18 h", "24 h", "30 h"}},
		{3.5 * dayS, []string{"0", "12 h", "24 h", "36 h", "48 h", "60 h", "72 h", "84 h"}},
		{5 * dayS, []string{"0", "1 day", "2 days", "3 days", "4 days", "5 days"}},
	} {
		var got []string
		for _, k := range timeTicks(0, test.untilS, 7) {
			got = append(got, k.text)
		}
		if !slices.Equal(got, test.want) {
			t.Errorf("%g s: %q, want %q", test.untilS, got, test.want)
		}
	}
}

func TestInches(t *testing.T) {
	for inches, want := range map[float64]string{0: "0 in", 0.25: "1/4 in", 0.5: "1/2 in", 1: "1 in", 1.125: "1 1/8 in", 1.5625: "1 9/16 in", 12: "12 in", -0.5: "−1/2 in"} {
		if got := inchWord(inches); got != want {
			t.Errorf("%g: %q, want %q", inches, got, want)
		}
	}
}

// A thinned line is never farther from what was given than can be seen, keeps its ends, and keeps to the number of points it may have.
func TestThin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var points []Point
		x := 0.0
		for range rapid.IntRange(1, 300).Draw(t, "points") {
			x += rapid.Float64Range(0, 3).Draw(t, "step")
			points = append(points, Point{x, rapid.Float64Range(0, 300).Draw(t, "y")})
		}
		got := thin(points, len(points)+2)
		if got[0] != points[0] || got[len(got)-1] != points[len(points)-1] {
			t.Fatalf("ends %v and %v, want %v and %v", got[0], got[len(got)-1], points[0], points[len(points)-1])
		}
		for _, p := range points {
			near := math.Inf(1)
			for i := range got {
				near = min(near, distance(p, got[max(0, i-1)], got[i]))
			}
			if near > finest+1e-9 {
				t.Fatalf("%v is %g from the thinned line", p, near)
			}
		}
		most := rapid.IntRange(2, 40).Draw(t, "most")
		if few := thin(points, most); len(few) > most {
			t.Fatalf("%d points, %d wanted at most", len(few), most)
		}
	})
}

// A plateau keeps its two corners: they are what is to be read.
func TestThinKeepsAPlateau(t *testing.T) {
	var points []Point
	for x := 0.0; x <= 600; x++ {
		points = append(points, Point{x, 300 - 100*min(1, x/100) - 100*max(0, (x-400)/200)})
	}
	if got, want := thin(points, 50), []Point{{0, 300}, {100, 200}, {400, 200}, {600, 100}}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

// A column of a half unit keeps its first, lowest, highest and last point, in order.
func TestColumns(t *testing.T) {
	points := make([]Point, 4000)
	for i := range points {
		points[i] = Point{float64(i/2000) + 0.1, 50}
	}
	points[10].Y, points[700].Y, points[2500].Y = 0, 99, 1
	want := []Point{{0.1, 50}, {0.1, 0}, {0.1, 99}, {0.1, 50}, {1.1, 50}, {1.1, 1}, {1.1, 50}}
	if got := columns(points); !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}
