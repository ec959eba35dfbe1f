package people

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"strings"

	"kettlefrost/internal/record"
)

// Token is what a device shows to be known again: 256 random bits. Only its hash is kept, and a fast hash is enough, since nobody guesses
// 256 bits.
type Token [32]byte

var tokenText = base64.RawURLEncoding.Strict()

// Reveal is the token as it stands in a cookie. It is a secret.
func (t Token) Reveal() string { return tokenText.EncodeToString(t[:]) }

func (Token) String() string   { return dots }
func (Token) GoString() string { return dots }

// Hash is what is kept of a token.
func (t Token) Hash() string {
	sum := sha256.Sum256(t[:])
	return hex.EncodeToString(sum[:])
}

// ParseToken reads a token as Reveal writes it and in no other form.
func ParseToken(text string) (Token, bool) {
	var t Token
	if len(text) != tokenText.EncodedLen(len(t)) || strings.ContainsAny(text, "\r\n") {
		return t, false
	}
	b, err := tokenText.DecodeString(text)
	if err != nil || len(b) != len(t) {
		return t, false
	}
	return Token(b), true
}

// keyPrefix lets people, and programs that look for leaked keys, tell what it is.
const keyPrefix = "kettlefrost-key-"

// RevealKey is a token as the key of an instrument.
func RevealKey(t Token) string { return keyPrefix + t.Reveal() }

// ParseKey reads the key of an instrument, alone or as in an Authorization header: Bearer kettlefrost-key-….
func ParseKey(text string) (Token, bool) {
	text = strings.TrimSpace(text)
	if scheme, rest, ok := strings.Cut(text, " "); ok && strings.EqualFold(scheme, "bearer") {
		text = strings.TrimSpace(rest)
	}
	text, ok := strings.CutPrefix(text, keyPrefix)
	if !ok {
		return Token{}, false
	}
	return ParseToken(text)
}

// Key is the key of an instrument, as it is known: what it was made of is nowhere.
type Key struct {
	Name string // the device in its entries
	Made record.Instant
	Seen record.Instant // last used; 0 for never
	By   string         // who made it
}
