package store

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"kettlefrost/internal/record"
)

// each runs a benchmark on both databases, and on SQLite with what synchronous=NORMAL would give up for.
func each(b *testing.B, run func(b *testing.B, s *Store)) {
	for _, database := range databases {
		b.Run(database.name, func(b *testing.B) { run(b, open(b, database.address(b))) })
	}
	b.Run("sqlite-normal", func(b *testing.B) {
		run(b, openWith(b, filepath.Join(b.TempDir(), "journal.db"), "synchronous(NORMAL)"))
	})
}

// Entries appended one by one, each waiting until the one before is acknowledged.
func BenchmarkAppendOneWriter(b *testing.B) {
	each(b, func(b *testing.B, s *Store) {
		n := 0
		for b.Loop() {
			mustAppend(b, s, weighing("ana", n))
			n++
		}
		b.ReportMetric(float64(n)/b.Elapsed().Seconds(), "entries/s")
	})
}

// The same from twenty writers at once.
func BenchmarkAppendTwentyWriters(b *testing.B) {
	each(b, func(b *testing.B, s *Store) {
		n := 0
		for b.Loop() {
			var group sync.WaitGroup
			for w := range 20 {
				group.Go(func() {
					for i := range 50 {
						if _, err := s.Append(b.Context(), weighings(fmt.Sprintf("w%d", w), n+i, 1)); err != nil {
							b.Error(err)
						}
					}
				})
			}
			group.Wait()
			n += 50
		}
		b.ReportMetric(float64(20*n)/b.Elapsed().Seconds(), "entries/s")
	})
}

// 100 entries in one call, as a logger or a queue that comes back online sends them.
func BenchmarkAppendHundredAtOnce(b *testing.B) {
	each(b, func(b *testing.B, s *Store) {
		n := 0
		for b.Loop() {
			mustAppend(b, s, weighings("ana", n, 100)...)
			n += 100
		}
		b.ReportMetric(float64(n)/b.Elapsed().Seconds(), "entries/s")
	})
}

func BenchmarkReadAndVerify(b *testing.B) {
	each(b, func(b *testing.B, s *Store) {
		const n = 10_000
		mustAppend(b, s, weighings("ana", 0, n)...)
		b.Run("read", func(b *testing.B) {
			for b.Loop() {
				for _, err := range s.Read(b.Context(), 1) {
					if err != nil {
						b.Fatal(err)
					}
				}
			}
			b.ReportMetric(float64(b.N*n)/b.Elapsed().Seconds(), "entries/s")
		})
		b.Run("verify", func(b *testing.B) {
			for b.Loop() {
				intact(b, s, n)
			}
			b.ReportMetric(float64(b.N*n)/b.Elapsed().Seconds(), "entries/s")
		})
	})
}

// BenchmarkGrowth is the size of the database for 1,000 entries of about 70 bytes of body.
func BenchmarkGrowth(b *testing.B) {
	each(b, func(b *testing.B, s *Store) {
		n := 0
		for b.Loop() {
			mustAppend(b, s, weighings("ana", n, 1000)...)
			n += 1000
		}
		var size int64
		if isPostgres(s.place) {
			if err := s.read.QueryRow(`select pg_total_relation_size('entry')`).Scan(&size); err != nil {
				b.Fatal(err)
			}
		} else {
			if _, err := s.write.Exec(`pragma wal_checkpoint(truncate)`); err != nil {
				b.Fatal(err)
			}
			info, err := os.Stat(s.path)
			if err != nil {
				b.Fatal(err)
			}
			size = info.Size()
		}
		b.ReportMetric(float64(size)/float64(n), "kB/1000-entries")
	})
}

// The first look at the book after a start folds every version that there ever was; the next only what is new.
func BenchmarkBookOfThousandVersions(b *testing.B) {
	each(b, func(b *testing.B, s *Store) {
		text := strings.Repeat("0123456789abcde\n", 640) // 10 kB
		for n := range 1000 {
			id := record.ID{0: 1, 1: byte(n >> 8), 2: byte(n)}
			base, _ := files(b, s).Version(fmt.Sprintf("dish%d.yaml", n%20))
			if _, err := s.Book(b.Context(), ana(record.Instant(n)), Change{ID: id, Path: fmt.Sprintf("dish%d.yaml", n%20), Text: fmt.Sprint(text, n), Base: base.Seq}); err != nil {
				b.Fatal(err)
			}
		}
		b.Run("first", func(b *testing.B) {
			for b.Loop() {
				s.book.files, s.book.upTo = nil, 0
				files(b, s)
			}
		})
		b.Run("next", func(b *testing.B) {
			for b.Loop() {
				files(b, s)
			}
		})
	})
}
