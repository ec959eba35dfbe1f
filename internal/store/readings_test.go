package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
	"sync"
	"testing"
	"time"

	"kettlefrost/internal/record"
)

func batch(n int, readings ...Reading) Batch {
	b := Batch{Who: "Ada", Device: "logger", Readings: readings}
	binary.BigEndian.PutUint64(b.ID[:8], uint64(n)+1)
	return b
}

func reading(probe string, minute int, milliC int64) Reading {
	return Reading{Probe: probe, At: record.Instant(1_764_072_000_000 + 60_000*minute), MilliC: milliC, Valued: true, Raw: fmt.Sprint(milliC)}
}

// Readings come back as they came, in the order of their times: a time twice is two, text without a number is kept, and what is sent again is
// there once.
func TestReadingsAreKeptAsTheyCame(t *testing.T) {
	for _, db := range databases {
		t.Run(db.name, func(t *testing.T) {
			s := open(t, db.address(t))
			late, twice, text := reading("walk-in", 1, 4000), reading("walk-in", 3, 4200), reading("walk-in", 4, 0)
			twice.Line, text.Valued, text.Raw, text.Flags = 9, false, "ERR é", "no-number"
			for range 2 {
				for i, r := range [][]Reading{{reading("walk-in", 2, 4100), reading("walk-in", 3, 4150)}, {late, twice, text, reading("freezer", 1, -18_500)}} {
					if err := s.TakeReadings(t.Context(), batch(i, r...)); err != nil {
						t.Fatal(err)
					}
				}
			}
			got, err := s.Readings(t.Context(), "walk-in", 0, text.At+1)
			if err != nil {
				t.Fatal(err)
			}
			if want := []Reading{late, reading("walk-in", 2, 4100), reading("walk-in", 3, 4150), twice, text}; !slices.Equal(got, want) {
				t.Errorf("%v\nwant\n%v", got, want)
			}
			if got, err := s.Readings(t.Context(), "walk-in", late.At+1, twice.At); err != nil || len(got) != 1 {
				t.Errorf("%v (%v)", got, err)
			}
			probes, err := s.Probes(t.Context())
			if want := []ProbeSpan{{"freezer", late.At, late.At}, {"walk-in", late.At, text.At}}; err != nil || !slices.Equal(probes, want) {
				t.Errorf("%v (%v)", probes, err)
			}
			intact(t, s, 0)
		})
	}
}

// Of 40 probes that post at once each is answered, and nothing is lost; one that sends nonsense hears of it alone.
func TestManyProbesAtOnce(t *testing.T) {
	for _, db := range databases {
		t.Run(db.name, func(t *testing.T) {
			s := open(t, db.address(t))
			var all sync.WaitGroup
			for p := range 40 {
				all.Go(func() {
					for m := range 5 {
						if err := s.TakeReadings(t.Context(), batch(p*100+m, reading(fmt.Sprintf("probe %02d", p), m, int64(p)))); err != nil {
							t.Error(err)
						}
					}
				})
			}
			all.Go(func() {
				err := s.TakeReadings(t.Context(), batch(9999, Reading{At: 5}))
				if bad := (*record.FieldError)(nil); !errors.As(err, &bad) {
					t.Errorf("a reading of no probe: %v", err)
				}
			})
			all.Wait()
			probes, err := s.Probes(t.Context())
			if err != nil || len(probes) != 40 {
				t.Fatalf("%d probes (%v)", len(probes), err)
			}
			for _, p := range probes {
				if got, err := s.Readings(t.Context(), p.Name, 0, record.Instant(time.Now().UnixMilli())); err != nil || len(got) != 5 {
					t.Errorf("%s: %d readings (%v)", p.Name, len(got), err)
				}
			}
		})
	}
}

func TestReadingsOfAClosedStore(t *testing.T) {
	s := open(t, databases[0].address(t))
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if err := s.TakeReadings(t.Context(), batch(1, reading("a", 1, 1))); !errors.Is(err, &Error{Code: Closed}) {
		t.Errorf("%v", err)
	}
}

// A day of one probe out of a year of eight, a reading a minute.
func BenchmarkADayOfAYear(b *testing.B) {
	s := open(b, databases[0].address(b))
	const year = 365 * 24 * 60
	for p := range 8 {
		list := make([]Reading, 0, year)
		for m := range year {
			list = append(list, reading(fmt.Sprintf("probe %d", p), m, int64(-18_000+m%900)))
		}
		began := time.Now()
		if err := s.TakeReadings(b.Context(), batch(p, list...)); err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(year/time.Since(began).Seconds(), "readings/s")
	}
	from := record.Instant(1_764_072_000_000 + 200*24*3_600_000)
	for b.Loop() {
		got, err := s.Readings(b.Context(), "probe 3", from, from+24*3_600_000)
		if err != nil || len(got) != 24*60 {
			b.Fatal(len(got), err)
		}
	}
}
