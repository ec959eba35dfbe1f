package people

import (
	"testing"

	"kettlefrost/internal/record"

	"pgregory.net/rapid"
)

const noon record.Instant = 1_764_072_000_000

// The waits by hand: 10 s after the third wrong PIN, then twice as long each time, up to a quarter of an hour.
func TestWaitsAfterWrongPINs(t *testing.T) {
	for count, want := range []Millis{0, 0, 0, 10 * Second, 20 * Second, 40 * Second, 80 * Second, 160 * Second, 320 * Second, 640 * Second, 900 * Second, 900 * Second} {
		if got, dead := PINHere.Wait(Tries{count, noon}, noon); got != want || dead {
			t.Errorf("after %d: %d ms (dead %v), want %d", count, got, dead, want)
		}
	}
	if got, _ := PINHere.Wait(Tries{4, noon}, noon+15_000); got != 5*Second {
		t.Errorf("15 s later there are %d ms left of 20 s", got)
	}
	if got, _ := PINHere.Wait(Tries{4, noon}, noon+20_000); got != 0 {
		t.Errorf("20 s later there are %d ms left", got)
	}
}

func TestAPINDiesAndAPasswordDoesNot(t *testing.T) {
	for count, want := range map[int]bool{19: false, 20: true, 21: true} {
		if _, dead := PINAnywhere.Wait(Tries{count, noon}, noon+record.Instant(400*Day)); dead != want {
			t.Errorf("after %d wrong PINs dead is %v", count, dead)
		}
	}
	for _, p := range []Patience{PasswordHere, PasswordOf, PasswordFrom} {
		if _, dead := p.Wait(Tries{1 << 40, noon}, noon); dead {
			t.Errorf("%+v dies", p)
		}
		if wait, _ := p.Wait(Tries{1 << 40, noon}, noon+record.Instant(Day)); wait != 0 {
			t.Errorf("%+v still waits %d ms a day later", p, wait)
		}
	}
}

// How many PINs of 10,000 somebody can try who never stops: before it dies, in how long.
func TestAnAttackerGetsTwentyTries(t *testing.T) {
	here, anywhere, now, n := Tries{}, Tries{}, noon, 0
	for ; n < 1000; n++ {
		a, _ := PINHere.Wait(here, now)
		b, dead := PINAnywhere.Wait(anywhere, now)
		if dead {
			break
		}
		now += record.Instant(max(a, b))
		here, anywhere = Tries{here.Count + 1, now}, Tries{anywhere.Count + 1, now}
	}
	if n != 20 {
		t.Errorf("%d tries, want 20", n)
	}
	if took := Millis(now - noon); took < Hour {
		t.Errorf("they took %d ms", took)
	}
}

// More wrong tries never wait less, no wait is longer than the longest, and waiting as long as was told is enough.
func TestWaitsGrow(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := rapid.SampledFrom([]Patience{PINHere, PINAnywhere, PasswordHere, PasswordOf, PasswordFrom}).Draw(rt, "patience")
		tries := Tries{rapid.IntRange(0, 1<<31).Draw(rt, "count"), noon}
		now := noon + record.Instant(rapid.Int64Range(-int64(Day), int64(3*Day)).Draw(rt, "later"))
		wait, dead := p.Wait(tries, now)
		more, moreDead := p.Wait(Tries{tries.Count + 1, tries.Last}, now)
		if wait < 0 || wait > p.Longest || !moreDead && more < wait || dead && !moreDead {
			rt.Fatalf("%d ms (dead %v), one more %d ms (dead %v)", wait, dead, more, moreDead)
		}
		if rest, _ := p.Wait(tries, max(now, noon)+record.Instant(wait)); rest != 0 {
			rt.Fatalf("after waiting %d ms there are %d ms more", wait, rest)
		}
	})
}

func TestSessionsEnd(t *testing.T) {
	hours := func(n int) record.Instant { return record.Instant(n) * record.Instant(Hour) }
	for _, x := range []struct {
		name             string
		began, seen, now record.Instant
		over             bool
	}{
		{"just begun", noon, noon, noon, false},
		{"over a long weekend", noon, noon, noon + hours(95), false},
		{"four days unused", noon, noon, noon + hours(96), true},
		{"used every day for a month", noon, noon + hours(30*24-1), noon + hours(30*24) - 1, false},
		{"30 days old, used just now", noon, noon + hours(30*24), noon + hours(30*24), true},
		{"a clock set back by a day", noon, noon, noon - hours(24), true},
		{"servers a minute apart", noon, noon, noon - record.Instant(Minute), false},
	} {
		if got := UsualLimits.Over(Session{Began: x.began, Seen: x.seen}, x.now); got != x.over {
			t.Errorf("%s: over is %v", x.name, got)
		}
	}
}

func TestWhoIsSureOfWhom(t *testing.T) {
	minutes := func(n int) record.Instant { return noon + record.Instant(n)*record.Instant(Minute) }
	for _, x := range []struct {
		by   How
		now  record.Instant
		sure bool
	}{{ByPassword, noon, true}, {ByPassword, minutes(29), true}, {ByPassword, minutes(30), false}, {ByPIN, noon, false}, {"", noon, false}} {
		if got := (Session{Acting: "ada", By: x.by, Shown: noon}).Actor(x.now); got.Sure != x.sure || got.Person != "ada" {
			t.Errorf("by %q at %d: %+v", x.by, x.now, got)
		}
	}
}
