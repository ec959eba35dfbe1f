//go:build unix

package app

import (
	"errors"
	"os/signal"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"kettlefrost/internal/store"
)

// No file may grow beyond so many bytes, as if the disk were full there: it is said so, nothing is half-written, what is there can be read, and with
// space again all of it goes on.
func TestDiskFull(t *testing.T) {
	r := openRecords(t, filepath.Join(t.TempDir(), "kitchen.records"), time.Now)
	enter(t, r, delivery("ada", 0))
	free := limitFiles(t, 256<<10)
	n := 1
	var err error
	for ; err == nil && n < 100_000; n += 10 {
		err = enterTen(t, r, n)
	}
	n -= 10
	if e, ok := errors.AsType[*store.Error](err); !ok || e.Code != store.Full && e.Code != store.Unreachable || e.Fix == "" {
		t.Fatalf("%v, want a full disk told", err)
	}
	wantWhole(t, r, n) // all or none of the ten
	if err := enterTen(t, r, n); err == nil {
		t.Fatal("the limit does not hold")
	}
	free()
	if err := enterTen(t, r, n); err != nil {
		t.Fatal(err)
	}
	wantWhole(t, r, n+10)
}

func enterTen(t *testing.T, r *Records, from int) error {
	var said []Said
	for n := range 10 {
		said = append(said, delivery("ada", from+n))
	}
	_, err := r.Enter(t.Context(), said...)
	return err
}

// limitFiles limits the files of this process until it is called off.
func limitFiles(t *testing.T, most uint64) (free func()) {
	t.Helper()
	signal.Ignore(syscall.SIGXFSZ) // then a write that is too long is an error
	var before syscall.Rlimit
	if err := syscall.Getrlimit(syscall.RLIMIT_FSIZE, &before); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: most, Max: before.Max}); err != nil {
		t.Fatal(err)
	}
	free = func() {
		if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &before); err != nil {
			t.Error(err)
		}
		signal.Reset(syscall.SIGXFSZ)
	}
	t.Cleanup(free)
	return free
}
