//go:build unix

package store

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"syscall"
	"testing"

	"kettlefrost/internal/store/pgserver"
)

// confined runs this test binary as another program that the system keeps within limits, and returns what it says.
func confined(t *testing.T, limit, path string) string {
	t.Helper()
	cmd := exec.Command(reachable(t))
	cmd.Env = append(os.Environ(), childVariable+"=confined:"+limit+" "+path)
	cmd.Stderr = os.Stderr
	if limit == "read-only" {
		// The folder must be open to it: a reader of a write-ahead log makes a file beside it.
		for name, mode := range map[string]os.FileMode{filepath.Dir(filepath.Dir(path)): 0o755, filepath.Dir(path): 0o777, path: 0o444} {
			if err := os.Chmod(name, mode); err != nil {
				t.Fatal(err)
			}
		}
		if err := pgserver.Confine(cmd); err != nil {
			t.Fatal(err)
		}
	}
	out, err := cmd.Output()
	if err != nil {
		t.Errorf("%v: %s", err, out)
	}
	return string(out)
}

// reachable is this test binary where another user can run it.
func reachable(t *testing.T) string {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	from, err := os.Open(self)
	if err != nil {
		t.Fatal(err)
	}
	defer from.Close()
	folder := t.TempDir()
	if err := os.Chmod(filepath.Dir(folder), 0o755); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(folder, "store.test")
	to, err := os.OpenFile(path, os.O_CREATE|os.O_WRONLY, 0o755)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := io.Copy(to, from); err != nil {
		t.Fatal(err)
	}
	if err := to.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

// runConfined appends until it cannot, and prints why and up to where the chain is good then.
func runConfined(limit, path string) {
	if limit == "small" {
		signal.Ignore(syscall.SIGXFSZ) // then a write that is too long is an error
		const most = 300 << 10
		if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: most, Max: most}); err != nil {
			fmt.Println("error", err)
			return
		}
	}
	s, err := Open(context.Background(), path, clock())
	if err != nil {
		fmt.Println("error", err)
		return
	}
	defer s.Close()
	for i := 0; err == nil && i < 100_000; i += 10 {
		_, err = s.Append(context.Background(), weighings("ben", i, 10))
	}
	trouble, ok := errors.AsType[*Error](err)
	head, broken := s.Verify(context.Background())
	if !ok || broken != nil {
		fmt.Println("error", err, broken)
		return
	}
	fmt.Println(trouble.Code, head.Seq)
}
