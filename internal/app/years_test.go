package app

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/history"
	"kettlefrost/internal/history/historytest"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store/pgserver"
)

// server is a PostgreSQL server for all tests of the package but those that stop it.
var server = sync.OnceValues(func() (*pgserver.Server, error) {
	s, err := pgserver.Start()
	if err == nil {
		servers = append(servers, s)
	}
	return s, err
})

var servers []*pgserver.Server // removed by TestMain

func TestMain(m *testing.M) {
	code := m.Run()
	for _, s := range servers {
		if err := s.Remove(); err != nil {
			fmt.Fprintln(os.Stderr, err)
			code = max(code, 1)
		}
	}
	os.Exit(code)
}

// databases are the two that records are kept in, by the address of a new, empty one.
var databases = []struct {
	name    string
	address func(testing.TB) string
}{
	{"sqlite", func(t testing.TB) string { return filepath.Join(t.TempDir(), "kitchen.records") }},
	{"postgres", func(t testing.TB) string {
		if testing.Short() {
			t.Skip("needs a PostgreSQL server, which -short does not start")
		}
		s, err := server()
		if err != nil {
			t.Fatal(err)
		}
		address, err := s.Database("")
		if err != nil {
			t.Fatal(err)
		}
		return address
	}},
}

func openRecords(t testing.TB, address string, now func() time.Time) *Records {
	t.Helper()
	r, err := OpenRecords(t.Context(), address, now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { r.Close() })
	return r
}

// years is a history and its export. Each size is made once.
func years(t testing.TB, size history.Size) (*history.History, io.Reader) {
	t.Helper()
	y, err := told(size)
	if err != nil {
		t.Fatal(err)
	}
	return y.h, bytes.NewReader(y.lines)
}

type telling struct {
	h     *history.History
	lines []byte
}

var tellings = map[history.Size]telling{}

func told(size history.Size) (telling, error) {
	if y, ok := tellings[size]; ok {
		return y, nil
	}
	h, err := history.Make(size, 1)
	if err != nil {
		return telling{}, err
	}
	lines, err := h.Lines()
	if err != nil {
		return telling{}, err
	}
	tellings[size] = telling{h, lines}
	return tellings[size], nil
}

// Less than three years, for -short and for what needs no more.
var (
	half    = history.Size{Runs: 78, Packs: 60}
	quarter = history.Size{Runs: 36, Packs: 40}
)

// Three years with a million packs, taken into either database and folded, are what the generator of the history says they are: where every pack
// is and who got it, which are held, the mass balance of every lot to the nanogram, what is in what. The traces of every eighth lot are held
// against it.
func TestYearsInBothDatabases(t *testing.T) {
	size, every := history.ThreeYears, 8
	if testing.Short() {
		size, every = half, 1
	}
	h, _ := years(t, size)
	for _, database := range databases {
		t.Run(database.name, func(t *testing.T) {
			_, lines := years(t, size)
			r := openRecords(t, database.address(t), time.Now)
			if _, err := r.Import(t.Context(), lines); err != nil {
				t.Fatal(err)
			}
			wantTruth(t, r, h, every)
			if head, err := r.Verify(t.Context()); err != nil || head.Seq != uint64(len(h.Entries)) {
				t.Errorf("the chain is good up to %d of %d: %v", head.Seq, len(h.Entries), err)
			}
		})
	}
}

// wantTruth holds the lots of records to a history.
func wantTruth(t testing.TB, r *Records, h *history.History, every int) {
	t.Helper()
	err := r.Lots(t.Context(), func(s *lots.State, found finding.List) error {
		differences := historytest.Differences(h, s, found, every)
		for _, d := range differences[:min(len(differences), 20)] {
			t.Error(d)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// A quarter that comes from five devices at once, each as far behind as it happens to be, and is looked at all the while, ends as the history
// does: whatever order it came in.
func TestYearsAsTheyCome(t *testing.T) {
	h, _ := years(t, quarter)
	byDevice := map[string][]record.Entry{}
	for _, e := range h.Entries {
		if e.Kind == (record.Invoiced{}).Kind() { // these are issued, not entered
			continue
		}
		device := e.Device
		if e.Corrects != (record.ID{}) {
			device = "corrections" // when everything that they correct is there
		}
		byDevice[device] = append(byDevice[device], e)
	}
	for _, database := range databases {
		t.Run(database.name, func(t *testing.T) {
			r := openRecords(t, database.address(t), time.Now)
			ctx, stop := context.WithCancel(t.Context())
			var looking sync.WaitGroup
			looking.Go(func() {
				for ctx.Err() == nil {
					if err := r.Lots(ctx, func(s *lots.State, _ finding.List) error { s.Stock(); return nil }); err != nil && ctx.Err() == nil {
						t.Error(err)
					}
					time.Sleep(20 * time.Millisecond)
				}
			})
			var devices sync.WaitGroup
			for device, entries := range byDevice {
				if device == "corrections" {
					continue
				}
				devices.Go(func() { enterAll(t, r, entries, 20) })
			}
			devices.Wait()
			stop()
			looking.Wait()
			enterAll(t, r, byDevice["corrections"], 1) // one may correct the one before it
			wantTruth(t, r, h, 1)
		})
	}
}

// enterAll enters what was told, some entries at a time as a device's queue does.
func enterAll(t testing.TB, r *Records, entries []record.Entry, atOnce int) {
	t.Helper()
	for some := range slices.Chunk(entries, atOnce) {
		var said []Said
		for _, e := range some {
			said = append(said, saidOf(t, e))
		}
		if _, err := r.Enter(t.Context(), said...); err != nil {
			t.Error(err)
			return
		}
	}
}

// saidOf is what somebody said to make an entry.
func saidOf(t testing.TB, e record.Entry) Said {
	t.Helper()
	b, err := record.Decode(e.Kind, e.Body)
	if err != nil {
		t.Fatal(err)
	}
	return Said{ID: e.ID, Who: e.Who, Device: e.Device, At: time.UnixMilli(int64(e.Happened)), Corrects: e.Corrects, Body: b}
}
