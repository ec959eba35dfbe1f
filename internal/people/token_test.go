package people

import (
	"strings"
	"testing"
)

func TestTokens(t *testing.T) {
	token := Token{1, 2, 3}
	for i := range token {
		token[i] = byte(i * 7)
	}
	if back, ok := ParseToken(token.Reveal()); !ok || back != token {
		t.Errorf("%s came back as %s", token.Reveal(), back.Reveal())
	}
	if strings.Contains(token.Hash(), token.Reveal()) || len(token.Hash()) != 64 {
		t.Errorf("the hash is %s", token.Hash())
	}
	// SHA-256 of 32 zero bytes (known to many programs; from memory).
	if got := (Token{}).Hash(); got != "66687aadf862bd776c8fc18b8e9f8e20089714856ee233b3902a591d0d5f2925" {
		t.Errorf("the hash of zeros is %s", got)
	}
	key := RevealKey(token)
	for _, text := range []string{key, " " + key + " ", "Bearer " + key, "bearer  " + key} {
		if back, ok := ParseKey(text); !ok || back != token {
			t.Errorf("%q is no key", text)
		}
	}
	for _, text := range []string{"", token.Reveal(), "Bearer", "Bearer ", "Basic " + key, key + "A", strings.TrimSuffix(key, key[len(key)-1:]), "kettlefrost-key-"} {
		if _, ok := ParseKey(text); ok {
			t.Errorf("%q is taken for a key", text)
		}
	}
}

// A token is read in one form only, so that nobody has two texts for one session.
func FuzzParseToken(f *testing.F) {
	for _, seed := range []string{"", Token{}.Reveal(), Token{255}.Reveal(), strings.Repeat("A", 42) + "B", strings.Repeat("A", 42) + "=", strings.Repeat("\n", 43)} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		token, ok := ParseToken(text)
		if ok && token.Reveal() != text {
			t.Errorf("%q is read as %q", text, token.Reveal())
		}
		if _, key := ParseKey(text); key && !strings.Contains(text, keyPrefix) {
			t.Errorf("%q is taken for a key", text)
		}
	})
}
