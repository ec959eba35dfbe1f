package record

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
)

// Hash is a SHA-256 hash. As text it is 64 hexadecimal digits in lower case.
type Hash [sha256.Size]byte

// String is 64 hexadecimal digits.
func (h Hash) String() string { return hex.EncodeToString(h[:]) }

// MarshalText writes 64 hexadecimal digits.
func (h Hash) MarshalText() ([]byte, error) { return []byte(h.String()), nil }

// UnmarshalText reads 64 hexadecimal digits in lower case. Errors are *TextError.
func (h *Hash) UnmarshalText(text []byte) error { return readHex(h[:], text, "a hash") }

// ParseHash reads 64 hexadecimal digits in lower case. Errors are *TextError.
func ParseHash(text string) (Hash, error) {
	var h Hash
	err := h.UnmarshalText([]byte(text))
	return h, err
}

// ID names an entry. The device that makes the entry draws it at random, 128 bits, so that an entry which waited in a queue and is sent
// twice arrives once. As text it is 32 hexadecimal digits in lower case; the zero ID names nothing and is the empty text.
type ID [16]byte

// String is 32 hexadecimal digits, or nothing.
func (id ID) String() string {
	if id == (ID{}) {
		return ""
	}
	return hex.EncodeToString(id[:])
}

// MarshalText writes 32 hexadecimal digits, or nothing.
func (id ID) MarshalText() ([]byte, error) { return []byte(id.String()), nil }

// UnmarshalText reads 32 hexadecimal digits in lower case, not all zero, or nothing. Errors are *TextError.
func (id *ID) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*id = ID{}
		return nil
	}
	if err := readHex(id[:], text, "the id of an entry"); err != nil {
		return err
	}
	if *id == (ID{}) {
		return &TextError{Text: string(text), Want: "the id of an entry", Problem: "is all zeros; draw it at random"}
	}
	return nil
}

// ParseID reads 32 hexadecimal digits in lower case, not all zero, or nothing. Errors are *TextError.
func ParseID(text string) (ID, error) {
	var id ID
	err := id.UnmarshalText([]byte(text))
	return id, err
}

// readHex fills dst, and leaves it as it was when there is an error.
func readHex(dst, text []byte, want string) error {
	if len(text) != 2*len(dst) {
		return &TextError{Text: string(text), Want: want, Problem: fmt.Sprintf("has %d characters; write %d hexadecimal digits", len(text), 2*len(dst))}
	}
	for _, c := range text {
		if (c < '0' || c > '9') && (c < 'a' || c > 'f') {
			return &TextError{Text: string(text), Want: want, Problem: fmt.Sprintf("has the character %q; write hexadecimal digits in lower case", c)}
		}
	}
	_, err := hex.Decode(dst, text)
	return err
}

// TextError says why a text is not what is meant, and what to write.
type TextError struct {
	Text    string // as written
	Want    string // what is meant: "a hash"
	Problem string // to be read after the text, with what to do: "has 3 characters; write 64 hexadecimal digits"
}

func (e *TextError) Error() string {
	return fmt.Sprintf("record: %.80q as %s %s", e.Text, e.Want, e.Problem)
}
