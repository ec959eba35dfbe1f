package people

import (
	"cmp"
	"slices"

	"kettlefrost/internal/record"
)

// Session is a device that somebody signed in on.
type Session struct {
	ID      string // known to owners; it opens nothing
	Device  string // its name, given at sign-in
	Opened  string // who signed it in with the password
	Began   record.Instant
	Seen    record.Instant // last used, to the minute
	Acting  string         // who acts now; "" for nobody
	By      How            // how they showed it
	Shown   record.Instant // and when
	Persons []string       // who signed in on it, in order
}

// Limits are how long a device stays signed in.
type Limits struct {
	Idle Millis // without being used
	Most Millis // at most, used or not
}

// UsualLimits: a tablet in a kitchen that is closed over a long weekend is still signed in. 30 days at most is what SP 800-63B of NIST has for
// its first level (4.1.3, from memory).
var UsualLimits = Limits{Idle: 4 * Day, Most: 30 * Day}

// Ends is when a session ends if it is not used again.
func (l Limits) Ends(s Session) record.Instant {
	return min(s.Seen+record.Instant(l.Idle), s.Began+record.Instant(l.Most))
}

// Over says whether a session has ended. One that began after now has: the clock is wrong, and nobody knows when it ends.
func (l Limits) Over(s Session, now record.Instant) bool {
	const slack = record.Instant(5 * Minute) // of clocks of several servers
	return now >= l.Ends(s) || now < s.Began-slack
}

// SeenEvery is how often it is written down that a session is used.
const SeenEvery = Minute

// SureFor is how long somebody who typed the password is taken for who they are when it is about people: a device may be left lying open.
const SureFor = 30 * Minute

// Actor is on whose behalf a session asks.
func (s Session) Actor(now record.Instant) Actor {
	sure := s.By == ByPassword && Millis(now-s.Shown) < SureFor
	return Actor{Person: s.Acting, By: s.By, Sure: sure, Device: s.Device, With: s.Persons}
}

// SortSessions puts those used last first.
func SortSessions(all []Session) {
	slices.SortFunc(all, func(a, b Session) int { return cmp.Or(cmp.Compare(b.Seen, a.Seen), cmp.Compare(a.ID, b.ID)) })
}
