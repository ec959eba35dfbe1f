package record

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"iter"
	"unicode/utf8"
)

// Head is the end of a chain: its last entry's place and hash. The zero Head is the end of an empty chain.
type Head struct {
	Seq  uint64 `json:"seq"`
	Hash Hash   `json:"hash"`
}

// Head is the end of the chain whose last entry is e.
func (e Entry) Head() Head { return Head{Seq: e.Seq, Hash: e.Hash} }

// Seal gives e its place behind prev: Seq, Prev and Hash. The error is *FieldError when the entry itself makes no sense (Entry.Check); the
// meaning of the body is not looked at, see Decode.
func Seal(prev Head, e Entry) (Entry, error) {
	if err := e.Check(); err != nil {
		return Entry{}, err
	}
	e.Seq, e.Prev = prev.Seq+1, prev.Hash
	e.Hash = sha256.Sum256(e.AppendCanonical(nil))
	return e, nil
}

// Flaw is how an entry of a chain is bad.
type Flaw int

const (
	Altered   Flaw = iota + 1 // its hash is not that of its text: a field, or the hash, was changed
	Gap                       // its number is higher than the next: entries before it are missing or stand elsewhere
	Backward                  // its number was there already: it is repeated, or stands elsewhere than it was sealed
	Unlinked                  // it does not hold the hash of the entry before it: one of the two is not what was sealed
	Malformed                 // it is as it was sealed, but should never have been: a field makes no sense, or the body is not canonical JSON
)

var flawNames = [...]string{Altered: "altered", Gap: "gap", Backward: "backward", Unlinked: "unlinked", Malformed: "malformed"}

// String is the flaw in a word.
func (f Flaw) String() string {
	if f < Altered || f > Malformed {
		return fmt.Sprintf("flaw(%d)", int(f))
	}
	return flawNames[f]
}

// ChainError names the first bad entry of a chain.
type ChainError struct {
	Flaw  Flaw
	Place uint64 // where it stands: the Seq that it should have
	Entry Entry  // as it stands there
	Want  string // what should be there
	Got   string
	Fix   string
	Err   error // of a malformed entry
}

func (e *ChainError) Error() string {
	return fmt.Sprintf("record: entry %d (%s): %s: want %s, have %s: %s", e.Place, e.Entry.ID, e.Flaw, e.Want, e.Got, e.Fix)
}

func (e *ChainError) Unwrap() error { return e.Err }

// Verifier checks a chain entry by entry. The zero Verifier stands at the beginning of one.
type Verifier struct {
	Head Head // the last good entry
	text []byte
}

// Next checks that e is whole and follows Head, and moves Head onto it. The error is *ChainError, and then Head stays.
func (v *Verifier) Next(e Entry) error {
	place := v.Head.Seq + 1
	bad := func(flaw Flaw, want, got, fix string, err error) error {
		return &ChainError{Flaw: flaw, Place: place, Entry: e, Want: want, Got: got, Fix: fix, Err: err}
	}
	v.text = e.AppendCanonical(v.text[:0])
	sum := Hash(sha256.Sum256(v.text))
	switch {
	case sum != e.Hash:
		return bad(Altered, "hash "+sum.String(), "hash "+e.Hash.String(), "take this entry, and all after it, from a copy that verifies", nil)
	case e.Seq > place:
		return bad(Gap, fmt.Sprintf("number %d", place), fmt.Sprintf("number %d", e.Seq), "bring the missing entries back from a copy, in their order", nil)
	case e.Seq < place:
		return bad(Backward, fmt.Sprintf("number %d", place), fmt.Sprintf("number %d", e.Seq), "put the entries in the order of their numbers, each once", nil)
	case e.Prev != v.Head.Hash:
		return bad(Unlinked, "prev "+v.Head.Hash.String(), "prev "+e.Prev.String(), "compare this entry and the one before it with a copy that verifies", nil)
	}
	if err := e.Check(); err != nil {
		return bad(Malformed, "an entry that makes sense", err.Error(), "add an entry that corrects it; it cannot be taken out of the chain", err)
	}
	v.Head = e.Head()
	return nil
}

// Verify checks that entries follow from and one another, each as it was sealed. It returns the head of what is good. The error is
// *ChainError and names the first bad entry, or is the first error of the sequence, as it came.
//
// Entries cut off the end leave a good chain: compare the head with one that was kept elsewhere.
func Verify(from Head, entries iter.Seq2[Entry, error]) (Head, error) {
	v := Verifier{Head: from}
	for e, err := range entries {
		if err == nil {
			err = v.Next(e)
		}
		if err != nil {
			return v.Head, err
		}
	}
	return v.Head, nil
}

// checkCanonical says what of a body is not canonical JSON: an object, in UTF-8, without white space, strings escaped as encoding/json does.
func checkCanonical(body []byte) error {
	switch {
	case len(body) > maxBody:
		return fmt.Errorf("has %d bytes, more than %d", len(body), maxBody)
	case len(body) == 0 || body[0] != '{':
		return errors.New("is no JSON object")
	case !utf8.Valid(body):
		return errors.New("is not UTF-8")
	}
	same, err := json.Marshal(json.RawMessage(body))
	if err != nil {
		return errors.New("is no JSON")
	}
	if !bytes.Equal(same, body) {
		return errors.New("has white space, or characters that should be escaped")
	}
	return nil
}
