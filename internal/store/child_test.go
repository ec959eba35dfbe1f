package store

import (
	"bufio"
	"context"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"os/exec"
	"slices"
	"strings"
	"sync"
	"testing"

	"kettlefrost/internal/record"
)

// The test binary starts itself once more as a program that appends, to be killed or to work beside others.
const childVariable = "KETTLEFROST_STORE_CHILD"

// runChild is the other program: it appends from four goroutines and prints the ID of each entry once it was acknowledged. It says whether
// this process is one.
func runChild() bool {
	job := os.Getenv(childVariable)
	if job == "" {
		return false
	}
	who, address, _ := strings.Cut(job, " ")
	if limit, ok := strings.CutPrefix(who, "confined:"); ok {
		runConfined(limit, address)
		return true
	}
	s, err := Open(context.Background(), address, clock())
	if err != nil {
		fmt.Println("error", err)
		os.Exit(1)
	}
	var out sync.Mutex
	var group sync.WaitGroup
	for w := range 4 {
		group.Go(func() {
			for i := range 250 {
				got, err := s.Append(context.Background(), []record.Entry{weighing(fmt.Sprintf("%s%d", who, w), i)})
				out.Lock()
				if err != nil {
					fmt.Println("error", err)
				} else {
					fmt.Println(got[0].ID)
				}
				out.Unlock()
			}
		})
	}
	group.Wait()
	if err := s.Close(); err != nil {
		fmt.Println("error", err)
	}
	return true
}

func child(t *testing.T, who, address string) (*exec.Cmd, io.Reader) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), childVariable+"="+who+" "+address)
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	return cmd, out
}

// acknowledged reads IDs; a line that was cut off by the kill does not count.
func acknowledged(t *testing.T, out io.Reader, enough int, then func()) []record.ID {
	t.Helper()
	var ids []record.ID
	for lines := bufio.NewReader(out); ; {
		line, err := lines.ReadString('\n')
		if err != nil {
			return ids
		}
		raw, err := hex.DecodeString(strings.TrimSpace(line))
		if err != nil || len(raw) != 16 {
			t.Errorf("the other program says %q", line)
			continue
		}
		if ids = append(ids, record.ID(raw)); len(ids) == enough {
			then()
		}
	}
}

// killed is what a kill -9 leaves, at several moments of writing 1,000 entries: every acknowledged entry, and a whole chain.
func killed(t *testing.T, address string) {
	var total []record.ID
	for round, enough := range []int{1, 37, 200, 450} {
		cmd, out := child(t, fmt.Sprintf("k%d-", round), address)
		ids := acknowledged(t, out, enough, func() {
			if err := cmd.Process.Kill(); err != nil {
				t.Error(err)
			}
		})
		if err := cmd.Wait(); err == nil {
			t.Fatalf("round %d: the program ended by itself, before it was killed", round)
		}
		if len(ids) < enough || len(ids) >= 1000 {
			t.Fatalf("round %d: %d entries were acknowledged, wanted from %d to 999", round, len(ids), enough)
		}
		total = append(total, ids...)
		s := open(t, address)
		for _, id := range total {
			if _, found, err := s.ByID(t.Context(), id); err != nil || !found {
				t.Fatalf("round %d: %s was acknowledged and is not there: %v", round, id, err)
			}
		}
		head, err := s.Verify(t.Context())
		if err != nil || head.Seq < uint64(len(total)) {
			t.Fatalf("round %d: the chain is good up to %d, acknowledged %d: %v", round, head.Seq, len(total), err)
		}
		mustAppend(t, s, weighing(fmt.Sprintf("after%d", round), 0)) // and it goes on
		intact(t, s, int(head.Seq)+1)
		s.Close()
	}
}

// severalProcesses work on one database.
func severalProcesses(t *testing.T, address string) {
	var group sync.WaitGroup
	answers := make([][]record.ID, 3)
	for i := range answers {
		cmd, out := child(t, fmt.Sprintf("p%d-", i), address)
		group.Go(func() {
			answers[i] = acknowledged(t, out, 0, nil)
			if err := cmd.Wait(); err != nil {
				t.Error(err)
			}
		})
	}
	group.Wait()
	s := open(t, address)
	intact(t, s, 3000)
	stored := map[record.ID]bool{}
	for _, e := range all(t, s) {
		stored[e.ID] = true
	}
	for _, id := range slices.Concat(answers...) {
		if !stored[id] {
			t.Errorf("%s was acknowledged and is not there", id)
		}
	}
}
