package people

import "kettlefrost/internal/record"

// Millis is a length of time in milliseconds.
type Millis int64

const (
	Second Millis = 1000
	Minute        = 60 * Second
	Hour          = 60 * Minute
	Day           = 24 * Hour
)

// Tries are the wrong tries since the last right one.
type Tries struct {
	Count int
	Last  record.Instant
}

// Patience is how wrong tries are borne with: so many are free, then each one doubles the wait before the next.
type Patience struct {
	Free    int // wrong tries after which there is still no wait
	First   Millis
	Longest Millis
	Most    int    // wrong tries after which there is no more; 0 for no end
	Forget  Millis // after so long without a try they count no more; 0 for never
}

// Patiences. A PIN of four digits has 10,000 values, and people do not choose them evenly; 20 tries in all leave an attacker 1 in 500 if
// they did. After that the PIN is dead until the person signs in with the password or an owner sets a new one. Passwords are never dead:
// nobody may lock an owner out from outside. SP 800-63B of NIST allows no more than 100 wrong tries on end (5.2.2, from memory).
var (
	PINHere      = Patience{Free: 2, First: 10 * Second, Longest: 15 * Minute}              // of one person on one device
	PINAnywhere  = Patience{Free: 6, First: 10 * Second, Longest: 15 * Minute, Most: 20}    // of one person
	PasswordHere = Patience{Free: 2, First: 5 * Second, Longest: 15 * Minute, Forget: Day}  // of one name from one address
	PasswordOf   = Patience{Free: 10, First: 5 * Second, Longest: Minute, Forget: Day}      // of one name from anywhere: short, since strangers can cause it
	PasswordFrom = Patience{Free: 20, First: 5 * Second, Longest: 15 * Minute, Forget: Day} // of anybody from one address
)

// Forgotten is how old tries at passwords are when nothing counts them any more and they can be thrown away.
const Forgotten = 2 * Day

// Standing are the tries that still count.
func (p Patience) Standing(t Tries, now record.Instant) Tries {
	if p.Forget > 0 && Millis(now-t.Last) >= p.Forget {
		return Tries{}
	}
	return t
}

// Wait is how long after wrong tries the next one must wait, from now. dead says that there is no next one.
func (p Patience) Wait(t Tries, now record.Instant) (wait Millis, dead bool) {
	t = p.Standing(t, now)
	if p.Most > 0 && t.Count >= p.Most {
		return 0, true
	}
	if t.Count <= p.Free {
		return 0, false
	}
	pause := p.First
	for i := t.Count - p.Free; i > 1 && pause < p.Longest; i-- {
		pause *= 2
	}
	pause = min(pause, p.Longest)
	since := max(Millis(now-t.Last), 0) // a clock that was set back waits the whole pause again
	return max(pause-since, 0), false
}
