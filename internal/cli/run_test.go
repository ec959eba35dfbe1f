package cli

import (
	"bytes"
	"context"
	"errors"
	"io"
	"strings"
	"testing"
	"testing/synctest"
	"time"
)

// brokenPipe is a standard output that cannot be written.
type brokenPipe struct{}

func (brokenPipe) Write([]byte) (int, error) { return 0, errors.New("broken pipe") }

func TestOutputThatFailsIsAFailure(t *testing.T) {
	var told bytes.Buffer
	for _, args := range [][]string{{"version"}, {"version", "--json"}, {"schema", "plan"}, {"foods", "onion"}, {"plan", "small-friday"}, {"check"}} {
		told.Reset()
		code := Run(t.Context(), args, func(string) string { return "" }, strings.NewReader(""), brokenPipe{}, &told)
		if code != failed || !strings.Contains(told.String(), "standard output cannot be written: broken pipe") {
			t.Errorf("%v: exit code %d, %q", args, code, told.String())
		}
	}
}

// Long work says so after a moment and then now and again, short work does not. The clock is the test's own.
func TestMeanwhile(t *testing.T) {
	for _, c := range []struct {
		takes time.Duration
		words int
	}{{0, 0}, {900 * time.Millisecond, 0}, {1500 * time.Millisecond, 1}, {5 * time.Second, 1}, {12 * time.Second, 3}} { // at 1, 6 and 11 s
		synctest.Test(t, func(t *testing.T) {
			var told bytes.Buffer
			(&surroundings{stderr: &told}).meanwhile("planning", func() { time.Sleep(c.takes) })
			if got := strings.Count(told.String(), "planning: "); got != c.words {
				t.Errorf("work of %s spoke %d times, want %d: %q", c.takes, got, c.words, told.String())
			}
		})
	}
}

// Who interrupts a plan gets it with the best timetable so far, whole.
func TestInterruptedPlan(t *testing.T) {
	ctx, interrupt := context.WithCancel(t.Context())
	interrupt()
	var shown, told bytes.Buffer
	code := Run(ctx, []string{"plan", "tuesday"}, func(string) string { return "" }, strings.NewReader(""), &shown, &told)
	if code != fine && code != stopped {
		t.Errorf("exit code %d, want %d or %d; it said:\n%s", code, fine, stopped, told.String())
	}
	for _, part := range []string{"\nDAY", "\nLABELS"} {
		if !strings.Contains(shown.String(), part) {
			t.Errorf("no %q on the sheet", part)
		}
	}
}

// A request that never ends is not read to its end.
func TestEndlessRequest(t *testing.T) {
	var told bytes.Buffer
	code := Run(t.Context(), []string{"plan", "--request", "-"}, func(string) string { return "" }, endless{}, io.Discard, &told)
	if code != mistakes || !strings.Contains(told.String(), "too large for a request") {
		t.Errorf("exit code %d, %q", code, told.String())
	}
}

type endless struct{}

func (endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = '#'
	}
	return len(p), nil
}
