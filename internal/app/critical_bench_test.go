package app

import (
	"io/fs"
	"testing"
	"testing/fstest"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/record"
)

// Three years of records, of which every run is judged and nothing was written down: the first look at the lots, and one after one more entry.
func BenchmarkYearsJudged(b *testing.B) {
	address := databases[0].address(b)
	keepYears(b, address)
	clear(tellings)
	follow := func(r *Records) *App {
		house, err := New(earlier{demo.Book()}, time.Now)
		if err != nil {
			b.Fatal(err)
		}
		house.Follow(r)
		return house
	}
	b.Run("first-look", func(b *testing.B) {
		for b.Loop() {
			r := openRecords(b, address, time.Now)
			follow(r)
			glance(b, r)
			b.StopTimer()
			r.Close()
			b.StartTimer()
		}
	})
	r := openRecords(b, address, time.Now)
	follow(r)
	glance(b, r)
	b.Run("after-an-entry-of-a-run", func(b *testing.B) {
		for b.Loop() {
			b.StopTimer()
			said := Said{Who: "ada", Device: "tablet", At: time.Now(), Body: record.Noted{Text: "a note"}}
			if _, err := r.Enter(b.Context(), said); err != nil {
				b.Fatal(err)
			}
			b.StartTimer()
			glance(b, r)
		}
	})
	b.Run("page", func(b *testing.B) {
		for b.Loop() {
			if _, err := r.Safety(b.Context()); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// earlier is the demo kitchen's book, by which lots of all days are judged.
type earlier struct{ fs.FS }

func (e earlier) Open(name string) (fs.File, error) {
	if name == "safety.yaml" {
		return fstest.MapFS{name: {Data: []byte("safety: {jurisdiction: US-VT}\n")}}.Open(name)
	}
	return e.FS.Open(name)
}
