package app

import (
	"database/sql"
	"os"
	"runtime"
	"testing"
	"time"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/history"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// keepYears is a database with three years in it.
func keepYears(b *testing.B, address string) *history.History {
	b.Helper()
	h, lines := years(b, history.ThreeYears)
	r := openRecords(b, address, time.Now)
	if _, err := r.Import(b.Context(), lines); err != nil {
		b.Fatal(err)
	}
	if err := r.Close(); err != nil {
		b.Fatal(err)
	}
	return h
}

func glance(b *testing.B, r *Records) {
	b.Helper()
	if err := r.Lots(b.Context(), func(*lots.State, finding.List) error { return nil }); err != nil {
		b.Fatal(err)
	}
}

// A start with three years of records, up to the first page that shows lots; and what the program then holds in memory.
func BenchmarkStart(b *testing.B) {
	for _, database := range databases {
		b.Run(database.name, func(b *testing.B) {
			address := database.address(b)
			h := keepYears(b, address)
			clear(tellings) // so that they do not count
			var before, after runtime.MemStats
			runtime.GC()
			runtime.ReadMemStats(&before)
			for b.Loop() {
				r, err := OpenRecords(b.Context(), address, time.Now)
				if err != nil {
					b.Fatal(err)
				}
				glance(b, r)
				b.StopTimer()
				runtime.GC()
				runtime.ReadMemStats(&after)
				if err := r.Close(); err != nil {
					b.Fatal(err)
				}
				b.StartTimer()
			}
			b.ReportMetric(float64(b.N*len(h.Entries))/b.Elapsed().Seconds(), "entries/s")
			b.ReportMetric(float64(after.HeapAlloc)/1e6-float64(before.HeapAlloc)/1e6, "MB-held")
		})
	}
}

// Every entry of three years held against the chain.
func BenchmarkVerifyYears(b *testing.B) {
	for _, database := range databases {
		b.Run(database.name, func(b *testing.B) {
			address := database.address(b)
			h := keepYears(b, address)
			r := openRecords(b, address, time.Now)
			for b.Loop() {
				if _, err := r.Verify(b.Context()); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.N*len(h.Entries))/b.Elapsed().Seconds(), "entries/s")
		})
	}
}

// How much a database grows, by entry and by production.
func BenchmarkGrowthOfYears(b *testing.B) {
	for _, database := range databases {
		b.Run(database.name, func(b *testing.B) {
			var size int64
			var h *history.History
			for b.Loop() {
				address := database.address(b)
				h = keepYears(b, address)
				size = sizeOf(b, address)
			}
			b.ReportMetric(float64(size)/float64(len(h.Entries)), "bytes/entry")
			b.ReportMetric(float64(size)/1000/float64(len(h.Runs)), "kB/production")
			b.ReportMetric(float64(size)/1e6, "MB")
		})
	}
}

func sizeOf(b *testing.B, address string) (size int64) {
	b.Helper()
	if info, err := os.Stat(address); err == nil {
		return info.Size()
	}
	db, err := sql.Open("pgx", address)
	if err != nil {
		b.Fatal(err)
	}
	defer db.Close()
	if err := db.QueryRow(`select pg_total_relation_size('entry')`).Scan(&size); err != nil {
		b.Fatal(err)
	}
	return size
}

// The first look at the lots after one more entry: what came in order, and what is folded again because it happened before something that is
// there or is taken back, lately or two years ago.
func BenchmarkLookAfter(b *testing.B) {
	for _, database := range databases {
		b.Run(database.name, func(b *testing.B) {
			x := keepBusy(b, database.address(b))
			b.Run("one-entry", func(b *testing.B) {
				x.looksAfter(b, func() { x.post(b) })
			})
			for _, when := range []struct {
				name string
				of   []record.Entry
			}{{"correction-of-last-week", used(x.past[len(x.past)-1500:])}, {"correction-of-long-ago", used(x.past[len(x.past)/3:][:5000])}} {
				i := 0
				b.Run(when.name, func(b *testing.B) {
					x.looksAfter(b, func() {
						e := saidOf(b, when.of[i%len(when.of)])
						i++
						body := e.Body.(record.Used)
						body.Mass++
						x.enter(b, Said{Who: "ada", Device: "tablet", At: e.At, Corrects: e.ID, Body: body})
					})
				})
			}
		})
	}
}

// looksAfter measures looks alone.
func (x *busy) looksAfter(b *testing.B, happens func()) {
	for b.Loop() {
		b.StopTimer()
		happens()
		b.StartTimer()
		glance(b, x.r)
	}
}

// used is what was used and not corrected.
func used(entries []record.Entry) (of []record.Entry) {
	corrected := map[record.ID]bool{}
	for _, e := range entries {
		corrected[e.Corrects] = true
	}
	for _, e := range entries {
		if e.Kind == (record.Used{}).Kind() && e.Corrects == (record.ID{}) && !corrected[e.ID] {
			of = append(of, e)
		}
	}
	return of
}
