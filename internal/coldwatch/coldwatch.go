// Package coldwatch looks at what probes read in freezers and walk-ins: when they were too warm and when nobody knows; what lay there then, by
// the records; what share of its life of good quality that took; and what published guidance says of it.
//
// Where nothing was read, nothing is known: silence is shown as that and never as cold. An air temperature is no proof of how warm food became,
// either way. So nothing here is good or bad by itself: packs are to be looked at, and a person decides.
package coldwatch

import (
	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/record"
	"kettlefrost/internal/storagelife"
	"kettlefrost/internal/thermometers"
)

// Reading is what a probe read at a time.
type Reading struct {
	At     record.Instant
	TempC  float64
	Valued bool // there is a temperature
	// Odd is something odd about it: it proves no cold, and what is warm in it counts.
	Odd   bool
	Flags string // what is odd, as whoever received it said
	// Hand is with what it was measured by hand, "?" where nobody said; "" is the probe. ErrorC is how far wrong that may read.
	Hand   string
	ErrorC float64
}

// Watch is a probe that watches a place.
type Watch struct {
	Probe, Name string
	Place       record.Place
	PlaceName   string
	Kind        coldstore.Kind
	LimitC      float64
	LimitSource string
	Logger      bool // it is read out as a file: that nothing has come yet is usual for days
	// Trust is what a reading of the probe is worth at a time.
	Trust func(record.Instant) thermometers.Trust
	// HandTrust is what a reading of another thermometer is worth, with which somebody measures there by hand.
	HandTrust func(instrument string, at record.Instant) thermometers.Trust
}

// Span is a time.
type Span struct{ From, Until record.Instant }

// Ms is how long it is, in milliseconds.
func (s Span) Ms() int64 { return int64(max(0, s.Until-s.From)) }

// clip is the part of it within another.
func (s Span) clip(to Span) Span {
	return Span{max(s.From, to.From), min(s.Until, to.Until)}
}

// within is how much of some times is in others that do not overlap, in milliseconds.
func within(some, others []Span) (ms int64) {
	for _, a := range some {
		for _, b := range others {
			ms += a.clip(b).Ms()
		}
	}
	return ms
}

// Kind says what a stretch is.
type Kind string

// Kinds of stretches.
const (
	TooWarm  Kind = "too-warm"
	NotKnown Kind = "not-known" // nothing was read, or nothing that can be relied on
)

// Warmth is a time at a temperature: between two readings, the warmer of the two.
type Warmth struct {
	Span
	TempC float64
}

// Stretch is a time during which a place was too warm, or nobody knows.
type Stretch struct {
	Span
	Kind      Kind
	Ended     bool
	PeakC     float64  // the warmest that was read; for NotKnown of no meaning
	MayC      float64  // the warmest that it may have been by the error of the probe
	Stays     []Warmth // what is known of it
	Silent    []Span   // what is not
	Odd       int      // readings with something odd about them
	Accuracy  thermometers.Trust
	LimitC    float64
	WarmMs    int64 // surely or by the probe's error above storagelife.WarmestC
	ThawedMs  int64 // or above 41 °F
	UnknownMs int64
	Awaited   bool // nothing is known yet, since the logger was not read out
}

// above says for how long it was warmer than a temperature, with the probe's error, as far as is known.
func (s Stretch) above(tempC float64) (ms int64) {
	for _, w := range s.Stays {
		if w.TempC+s.Accuracy.StatedC > tempC {
			ms += w.Ms()
		}
	}
	return ms
}

// ThawedC is 41 °F, the limit of cold holding (FDA Food Code 3-501.16).
const ThawedC = 5

// longMs is how long a place may be over its limit without going over -5 °C before somebody must say what was done: a freezer that thaws its
// own coils is warm for less (this program's choice).
const longMs = 4 * hourMs

// darkMs is how long nothing may be known before packs must be looked at: a half full freezer that is kept shut stays frozen for about so long
// (USDA and FDA, see Guidance).
const darkMs = 24 * hourMs

const (
	minuteMs = 60 * 1000
	hourMs   = 60 * minuteMs
)

// Asks says whether somebody must look at what lay there and say what was done.
func (s Stretch) Asks() bool {
	if s.Awaited {
		return false
	}
	if s.UnknownMs >= darkMs {
		return true
	}
	return s.Kind == TooWarm && (s.MayC > storagelife.WarmestC || s.Ms() >= longMs)
}
