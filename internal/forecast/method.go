package forecast

import (
	"fmt"
	"strings"
)

// Method is a way to forecast. A lower one is simpler.
type Method int

const (
	Naive         Method = iota + 1 // the last count
	Mean                            // the mean of all counts
	MovingAverage                   // the mean of the last few
	SeasonalNaive                   // the count a season ago
	Smoothing                       // simple exponential smoothing: the older, the less it counts (Brown)
	Croston                         // size of a sale over the periods between sales, both smoothed (Croston, 1972)
	SBA                             // Croston's, less a half of the smoothing factor (Syntetos and Boylan, 2005)
	Holt                            // smoothing with a trend (Holt, 1957)
)

var methodNames = [...]string{Naive: "last count", Mean: "mean of all", MovingAverage: "moving average", SeasonalNaive: "a season ago",
	Smoothing: "exponential smoothing", Croston: "Croston", SBA: "Croston, corrected", Holt: "smoothing with trend"}

// String is the method in a few words.
func (m Method) String() string {
	if m < Naive || m > Holt {
		return fmt.Sprintf("method(%d)", int(m))
	}
	return methodNames[m]
}

// Setting is what a method is set to; what it does not use is 0.
type Setting struct {
	Window int     // periods that are averaged
	Season int     // periods
	Alpha  float64 // how much the last count moves the level
	Beta   float64 // how much it moves the trend
}

// String is what is set.
func (s Setting) String() string {
	var parts []string
	if s.Window > 0 {
		parts = append(parts, fmt.Sprintf("of %d", s.Window))
	}
	if s.Season > 0 {
		parts = append(parts, fmt.Sprintf("season %d", s.Season))
	}
	if s.Alpha > 0 {
		parts = append(parts, fmt.Sprintf("alpha %.2f", s.Alpha))
	}
	if s.Beta > 0 {
		parts = append(parts, fmt.Sprintf("beta %.2f", s.Beta))
	}
	return strings.Join(parts, ", ")
}

// windows are the averages tried; a smoothing factor is tried in steps of a twentieth, that of a trend in tenths, that of what sells
// seldom up to a half, for its sales are few.
var windows = []int{2, 3, 4, 6, 8, 13, 26}

// model builds a method with all settings that are tried.
func (m Method) model(season int) *tuned {
	t := &tuned{}
	switch m {
	case Naive:
		t.add(Setting{}, &window{size: 1})
	case Mean:
		t.add(Setting{}, &window{})
	case MovingAverage:
		for _, w := range windows {
			t.add(Setting{Window: w}, &window{size: w})
		}
	case SeasonalNaive:
		t.add(Setting{Season: season}, &seasonal{size: season})
	case Smoothing:
		for i := 1; i <= 20; i++ {
			a := float64(i) / 20
			t.add(Setting{Alpha: a}, &smoothing{alpha: a})
		}
	case Croston, SBA:
		for i := 1; i <= 10; i++ {
			a := float64(i) / 20
			t.add(Setting{Alpha: a}, &croston{alpha: a, corrected: m == SBA})
		}
	case Holt:
		for i := range 100 {
			a, b := float64(i/10+1)/10, float64(i%10+1)/10
			t.add(Setting{Alpha: a, Beta: b}, &holt{alpha: a, beta: b})
		}
	}
	return t
}
