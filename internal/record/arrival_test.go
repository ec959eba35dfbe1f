package record

import (
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Devices that were away send what they have when they are back. In whatever order the devices come, the same entries hold in the same
// order, so long as what is said about one thing arrives in the order in which it was said.
func TestArrivalDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var threads [][]Entry // each about one thing that happened
		id := byte(0)
		for thing := range rapid.IntRange(1, 6).Draw(rt, "things") {
			id++
			thread := []Entry{said(t, uint64(id), Instant(thing), fmt.Sprint("as told ", thing), 0)}
			for range rapid.IntRange(0, 4).Draw(rt, "later") {
				id++
				about := rapid.SampledFrom(thread).Draw(rt, "about").ID[0]
				text := ""
				if rapid.Bool().Draw(rt, "put right") {
					text = fmt.Sprint("put right ", id)
				}
				thread = append(thread, said(t, uint64(id), 1000, text, about))
			}
			threads = append(threads, thread)
		}
		first, second := arrived(rt, t, threads), arrived(rt, t, threads)
		if first != second {
			rt.Fatalf("%q holds, and in another order of arrival %q", first, second)
		}
	})
}

// arrived is what holds, and what was refused, after the threads have come in, their entries mixed at random.
func arrived(rt *rapid.T, t *testing.T, threads [][]Entry) string {
	waiting := slices.Clone(threads)
	var s Standing
	var refused []string
	for seq := uint64(1); len(waiting) > 0; seq++ {
		i := rapid.IntRange(0, len(waiting)-1).Draw(rt, "device")
		e := waiting[i][0]
		e.Seq = seq
		if _, err := s.Add(e); err != nil {
			var wrong *CorrectionError
			if !errors.As(err, &wrong) {
				rt.Fatal(err)
			}
			refused = append(refused, fmt.Sprint(e.ID[0]))
		}
		if waiting[i] = waiting[i][1:]; len(waiting[i]) == 0 {
			waiting = slices.Delete(waiting, i, i+1)
		}
	}
	slices.Sort(refused)
	return told(t, &s) + "; refused " + strings.Join(refused, " ")
}

// Who folds as entries come, goes on where a change is at the end and reads all again where it is Past, has what holds at every moment.
func TestFoldingAsEntriesCome(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var s Standing
		var folded []string
		for seq := uint64(1); seq <= 15; seq++ {
			at := Instant(rapid.IntRange(0, 20).Draw(rt, "at"))
			text := rapid.SampledFrom([]string{"", "a", "b"}).Draw(rt, "text")
			corrects := byte(rapid.IntRange(0, int(seq)-1).Draw(rt, "corrects"))
			change, err := s.Add(said(t, seq, at, text, corrects))
			switch {
			case err != nil: // nothing has changed
			case change.Past:
				folded = folded[:0]
				for e := range s.All() {
					folded = append(folded, string(e.Body))
				}
			default:
				if change.Was != nil {
					if last := folded[len(folded)-1]; last != string(change.Was.Body) {
						rt.Fatalf("%s was the last, not %s", last, change.Was.Body)
					}
					folded = folded[:len(folded)-1]
				}
				if change.Is != nil {
					folded = append(folded, string(change.Is.Body))
				}
			}
			var all []string
			for e := range s.All() {
				all = append(all, string(e.Body))
			}
			if !slices.Equal(folded, all) {
				rt.Fatalf("folded %q, but %q holds", folded, all)
			}
		}
	})
}

// Entries in the order in which they happened, and the same with every tenth a day late and every twentieth corrected.
func BenchmarkStanding(b *testing.B) {
	const n = 10_000
	entries := map[string][]Entry{}
	for k := range uint64(n) {
		e := said(b, k+1, Instant(k)*60_000, "soup", 0)
		e.ID = numberedID(k)
		entries["in order"] = append(entries["in order"], e)
		if k%10 == 9 {
			e.Happened = max(earliest, e.Happened-86_400_000)
		}
		if k%20 == 19 {
			e.Corrects = numberedID(k - 5)
		}
		entries["late and corrected"] = append(entries["late and corrected"], e)
	}
	for name, all := range entries {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				var s Standing
				for _, e := range all {
					if _, err := s.Add(e); err != nil {
						b.Fatal(err)
					}
				}
			}
			b.ReportMetric(float64(n*b.N)/b.Elapsed().Seconds(), "entries/s")
		})
	}
}

// numberedID is a different ID for every number.
func numberedID(k uint64) ID {
	id := ID{0: 1}
	binary.BigEndian.PutUint64(id[8:], k)
	return id
}
