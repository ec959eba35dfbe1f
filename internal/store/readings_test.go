package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
	"sync"
	"testing"
	"time"

	"pgregory.net/rapid"

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
		for _, name := range []string{"", "night.csv"} {
			t.Run(db.name+" "+name, func(t *testing.T) {
				s := open(t, db.address(t))
				late, twice, text := reading("walk-in", 1, 4000), reading("walk-in", 3, 4200), reading("walk-in", 4, 0)
				twice.Line, text.Valued, text.Raw, text.Flags = 9, false, "ERR é", "no-number"
				for range 2 {
					for i, r := range [][]Reading{{reading("walk-in", 2, 4100), reading("walk-in", 3, 4150)}, {late, twice, text, reading("freezer", 1, -18_500)}} {
						b := batch(i, r...)
						b.Name = name
						if err := s.TakeReadings(t.Context(), b); err != nil {
							t.Fatal(err)
						}
					}
				}
				got, err := s.Readings(t.Context(), "walk-in", 0, text.At+1)
				if err != nil {
					t.Fatal(err)
				}
				for i := range got {
					if fromFile := got[i].File != (record.ID{}); fromFile != (name != "") {
						t.Errorf("%v: stood in a file: %v", got[i], fromFile)
					}
					got[i].File = record.ID{}
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

// Whatever is read comes back as it was, piece by piece, and no piece is as long as a day.
func TestPiecesComeBackAsTheyWere(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		one := rapid.Custom(func(rt *rapid.T) Reading {
			return Reading{Probe: "p", At: record.Instant(rapid.Int64Range(0, 1<<42).Draw(rt, "at")), MilliC: rapid.Int64().Draw(rt, "temp"), Valued: rapid.Bool().Draw(rt, "valued"),
				Raw: rapid.String().Draw(rt, "raw"), Flags: rapid.SampledFrom([]string{"", "twice", "jump,future"}).Draw(rt, "flags"), Line: rapid.IntRange(0, 1<<31).Draw(rt, "line")}
		})
		list := rapid.SliceOf(one).Draw(rt, "readings")
		near := rapid.Bool().Draw(rt, "near")
		for i := range list {
			if near {
				list[i].At = list[i].At%longestPiece + longestPiece
			}
		}
		var back []Reading
		for _, p := range pieces(list) {
			if p.to-p.from >= longestPiece || len(p.readings) > mostOfPiece {
				rt.Errorf("a piece from %d to %d with %d readings", p.from, p.to, len(p.readings))
			}
			data, err := p.packed()
			if err != nil {
				rt.Fatal(err)
			}
			some, err := unpacked("p", data)
			if err != nil {
				rt.Fatal(err)
			}
			back = append(back, some...)
		}
		if !slices.Equal(back, list) {
			rt.Errorf("%v came back as %v", list, back)
		}
	})
}

// FuzzPiece: bytes that are no piece are an error, never a crash or a reading made up beyond what they hold.
func FuzzPiece(f *testing.F) {
	for _, p := range pieces([]Reading{reading("p", 1, 4000), reading("p", 2, 4100)}) {
		data, err := p.packed()
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte{deflatedPiece, 1, 2, 3})
	f.Fuzz(func(t *testing.T, data []byte) {
		all, err := unpacked("p", data)
		if err == nil && len(data) > 0 && data[0] == plainPiece && 4*len(all) > len(data) {
			t.Errorf("%d readings in %d bytes", len(all), len(data))
		}
	})
}

const yearOfMinutes = 365 * 24 * 60

// yearOf is a reading a minute for a year, as a logger in °F wrote it.
func yearOf(probe string) []Reading {
	list := make([]Reading, 0, yearOfMinutes)
	for m := range yearOfMinutes {
		milliC := int64(-18_000 + m*7919%900)
		r := reading(probe, m, milliC)
		r.Raw, r.Line = fmt.Sprintf("%.1f", float64(milliC)*9/5000+32), m+2
		list = append(list, r)
	}
	return list
}

// A day of one probe out of a year of eight, a reading a minute: taken in, and read.
func BenchmarkADayOfAYear(b *testing.B) {
	s := open(b, databases[0].address(b))
	began := time.Now()
	for p := range 8 {
		file := batch(p, yearOf(fmt.Sprintf("probe %d", p))...)
		file.Name = "year.csv"
		if err := s.TakeReadings(b.Context(), file); err != nil {
			b.Fatal(err)
		}
	}
	taken := time.Since(began)
	from := record.Instant(1_764_072_000_000 + 200*24*3_600_000)
	for b.Loop() {
		got, err := s.Readings(b.Context(), "probe 3", from, from+24*3_600_000)
		if err != nil || len(got) != 24*60 {
			b.Fatal(len(got), err)
		}
	}
	b.ReportMetric(8*yearOfMinutes/taken.Seconds(), "readings/s")
}

// A day of one probe that posted every minute for a month beside others: each reading by itself.
func BenchmarkADayOfPosts(b *testing.B) {
	s := open(b, databases[0].address(b))
	const month = 30 * 24 * 60
	var all sync.WaitGroup
	began := time.Now()
	for p := range 20 {
		all.Go(func() {
			for m := range month / 20 {
				if err := s.TakeReadings(b.Context(), batch(p*month+m, reading("probe", 20*m+p, 4000))); err != nil {
					b.Error(err)
				}
			}
		})
	}
	all.Wait()
	taken := time.Since(began)
	from := record.Instant(1_764_072_000_000 + 10*24*3_600_000)
	for b.Loop() {
		got, err := s.Readings(b.Context(), "probe", from, from+24*3_600_000)
		if err != nil || len(got) != 24*60 {
			b.Fatal(len(got), err)
		}
	}
	b.ReportMetric(month/taken.Seconds(), "posts/s")
}
