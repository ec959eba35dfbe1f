package record

import (
	"cmp"
	"encoding/json"
	"fmt"
	"strconv"
	"unicode"
	"unicode/utf8"
)

// Instant is a time in milliseconds since 1970-01-01 00:00 UTC.
type Instant int64

// What a clock shows outside these is a clock that was never set.
const (
	earliest Instant = 946_684_800_000   // 2000-01-01 00:00 UTC
	latest   Instant = 7_258_118_400_000 // 2200-01-01 00:00 UTC
)

// Kind says what an entry is about: received, weighed, packed. Lower-case letters and hyphens.
type Kind string

// Entry is one thing that happened. It is never changed: an entry that was wrong is put right by a later one that names it in Corrects.
type Entry struct {
	Seq      uint64          `json:"seq"` // its place in the chain, from 1
	ID       ID              `json:"id"`
	Kind     Kind            `json:"kind"`
	Happened Instant         `json:"happened_ms"` // by the clock of who tells it: may be before or after Entered
	Entered  Instant         `json:"entered_ms"`  // when the store took it in, by the store's clock
	Who      string          `json:"who"`         // the person who stands for it
	Device   string          `json:"device"`      // what it was written with: a tablet, a logger
	Site     string          `json:"site"`
	Corrects ID              `json:"corrects"` // the entry that this one puts right; zero when none
	Body     json.RawMessage `json:"body"`     // canonical JSON of the kind's body
	Prev     Hash            `json:"prev"`     // the hash of the entry before it; zero in the first
	Hash     Hash            `json:"hash"`     // SHA-256 of the canonical text, see the package comment
}

// Limits on what one entry holds, in bytes.
const (
	maxWord = 200
	maxBody = 4 << 20
)

// Compare puts entries in the order in which they happened, and those of the same millisecond in the order of the chain. This is the order
// in which entries are folded.
func Compare(a, b Entry) int {
	return cmp.Or(cmp.Compare(a.Happened, b.Happened), cmp.Compare(a.Seq, b.Seq))
}

// Check says what of the entry itself makes no sense: everything but its seals (Seq, Prev, Hash) and the meaning of its body, which is
// only checked to be canonical JSON. The error is *FieldError.
func (e Entry) Check() error {
	switch {
	case e.ID == ID{}:
		return e.wrong("id", "is missing", "draw 128 bits at random")
	case !isKind(string(e.Kind)):
		return e.wrong("kind", fmt.Sprintf("is %.40q, which is no kind", e.Kind), "write lower-case letters and single hyphens")
	case e.Who == "" && e.Device == "":
		return e.wrong("who", "is empty, and so is device", "say who or what stands for the entry")
	case e.Kind == Voided{}.Kind() && e.Corrects == ID{}:
		return e.wrong("corrects", "is missing", "name the entry that is taken back")
	case e.Corrects == e.ID:
		return e.wrong("corrects", "is the entry itself", "name the earlier entry that was wrong")
	}
	for _, f := range [...]struct {
		name string
		at   Instant
	}{{"happened_ms", e.Happened}, {"entered_ms", e.Entered}} {
		if problem := badInstant(f.at); problem != "" {
			return e.wrong(f.name, problem, fixClock)
		}
	}
	for _, f := range [...]struct{ name, word string }{{"who", e.Who}, {"device", e.Device}, {"site", e.Site}} {
		if problem := badWord(f.word); problem != "" {
			return e.wrong(f.name, problem, "write a short name on one line")
		}
	}
	if err := checkCanonical(e.Body); err != nil {
		return e.wrong("body", err.Error(), "write the body with Encode")
	}
	return nil
}

func (e Entry) wrong(field, problem, fix string) *FieldError {
	return &FieldError{Kind: e.Kind, Path: field, Problem: problem, Fix: fix}
}

const fixClock = "set the clock of the device, and write milliseconds since 1970"

func badInstant(at Instant) string {
	if at < earliest || at >= latest {
		return fmt.Sprintf("is %d, which is before the year 2000 or after 2199", at)
	}
	return ""
}

func isKind(s string) bool {
	if s == "" || len(s) > 40 || s[0] == '-' || s[len(s)-1] == '-' {
		return false
	}
	for i := range len(s) {
		if c := s[i]; c == '-' && s[i-1] == '-' || c != '-' && (c < 'a' || c > 'z') {
			return false
		}
	}
	return true
}

// badWord is what is wrong with a name on one line; "" when nothing is.
func badWord(s string) string {
	if len(s) > maxWord {
		return fmt.Sprintf("has %d bytes, more than %d", len(s), maxWord)
	}
	if !utf8.ValidString(s) {
		return "is not UTF-8"
	}
	for _, r := range s {
		if unicode.IsControl(r) {
			return fmt.Sprintf("has the control character %U", r)
		}
	}
	return ""
}

// AppendCanonical appends the canonical text that is hashed: every field but Hash, as netstrings; see the package comment.
func (e Entry) AppendCanonical(dst []byte) []byte {
	var number [20]byte
	dst = appendNetstring(dst, "kettlefrost entry 1")
	dst = appendNetstring(dst, strconv.AppendUint(number[:0], e.Seq, 10))
	dst = appendNetstring(dst, e.ID.String())
	dst = appendNetstring(dst, e.Kind)
	dst = appendNetstring(dst, strconv.AppendInt(number[:0], int64(e.Happened), 10))
	dst = appendNetstring(dst, strconv.AppendInt(number[:0], int64(e.Entered), 10))
	dst = appendNetstring(dst, e.Who)
	dst = appendNetstring(dst, e.Device)
	dst = appendNetstring(dst, e.Site)
	dst = appendNetstring(dst, e.Corrects.String())
	dst = appendNetstring(dst, e.Body)
	return appendNetstring(dst, e.Prev.String())
}

func appendNetstring[T ~string | ~[]byte](dst []byte, s T) []byte {
	dst = strconv.AppendInt(dst, int64(len(s)), 10)
	dst = append(dst, ':')
	dst = append(dst, s...)
	return append(dst, ',')
}

// FieldError says what of an entry or a body makes no sense, where, and what to do.
type FieldError struct {
	Kind    Kind   // of the entry
	Path    string // in its JSON: "net_g", "lines[2].count"
	Problem string // to be read after the path: "is below zero"
	Fix     string
}

func (e *FieldError) Error() string {
	return fmt.Sprintf("record: %s: %s %s: %s", cmp.Or(e.Kind, "entry"), e.Path, e.Problem, e.Fix)
}
