package people

import (
	"encoding/base64"
	"encoding/hex"
	"strings"
	"testing"

	"golang.org/x/crypto/argon2"
)

// The vectors of RFC 9106, section 5, use a secret key and associated data, which the library does not take; so it is held to those
// of the reference implementation (src/test.c of phc-winner-argon2, from memory): Argon2id, version 19.
func TestArgon2OfTheReferenceImplementation(t *testing.T) {
	for _, x := range []struct {
		passes, memory uint32
		lanes          uint8
		password, salt string
		want           string
	}{
		{2, 1 << 16, 1, "password", "somesalt", "09316115d5cf24ed5a15a31a3ba326e5cf32edc24702987c02b6566f61913cf7"},
		{2, 1 << 8, 1, "password", "somesalt", "9dfeb910e80bad0311fee20f9c0e2b12c17987b4cac90c2ef54d5b3021c68bfe"},
		{2, 1 << 8, 2, "password", "somesalt", "6d093c501fd5999645e0ea3bf620d7b8be7fd2db59c20d9fff9539da2bf57037"},
		{1, 1 << 16, 1, "password", "somesalt", "f6a5adc1ba723dddef9b5ac1d464e180fcd9dffc9d1cbf76cca2fed795d9ca98"},
		{4, 1 << 16, 1, "password", "somesalt", "9025d48e68ef7395cca9079da4c4ec3affb3c8911fe4f86d1a2520856f63172c"},
		{2, 1 << 16, 1, "differentpassword", "somesalt", "0b84d652cf6b0c4beaef0dfe278ba6a80df6696281d7e0d2891b817d8c458fde"},
		{2, 1 << 16, 1, "password", "diffsalt", "bdf32b05ccc42eb15d58fd19b1f856b113da1e9a5874fdcc544308565aa8141c"},
	} {
		sum := argon2.IDKey([]byte(x.password), []byte(x.salt), x.passes, x.memory, x.lanes, 32)
		if got := hex.EncodeToString(sum); got != x.want {
			t.Errorf("t=%d m=%d p=%d %s %s: %s, want %s", x.passes, x.memory, x.lanes, x.password, x.salt, got, x.want)
		}
	}
}

// The first vector above in the form that the reference implementation writes.
func TestAHashOfAnotherProgramFits(t *testing.T) {
	const line = "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc"
	for secret, want := range map[Secret]bool{"password": true, "Password": false, "password ": false, "": false} {
		if fits, err := Fits(line, secret); fits != want || err != nil {
			t.Errorf("%q fits: %v (%v), want %v", string(secret), fits, err, want)
		}
	}
}

func TestHashes(t *testing.T) {
	a, b := HashPIN("4071", Salt{1}), HashPIN("4071", Salt{2})
	if a == b {
		t.Error("two people with the same PIN have the same hash")
	}
	if !strings.HasPrefix(a, "$argon2id$v=19$m=19456,t=2,p=1$") {
		t.Errorf("a PIN is kept as %s", a)
	}
	if p := HashPassword("plum shelf ninety tractor", Salt{3}); !strings.HasPrefix(p, "$argon2id$v=19$m=65536,t=3,p=4$") {
		t.Errorf("a password is kept as %s", p)
	} else if fits, err := Fits(p, "plum shelf ninety tractor"); !fits || err != nil {
		t.Errorf("it does not fit itself (%v)", err)
	}
	for _, kept := range []string{a, b} {
		if fits, err := Fits(kept, "4071"); !fits || err != nil {
			t.Errorf("%s does not fit (%v)", kept, err)
		}
		if fits, _ := Fits(kept, "4072"); fits {
			t.Errorf("%s fits another", kept)
		}
	}
	for _, password := range []bool{true, false} {
		if fits, err := Fits(Nobody(password), ""); fits || err != nil {
			t.Errorf("nobody's hash fits: %v (%v)", fits, err)
		}
	}
}

func TestBadHashesAreRefused(t *testing.T) {
	salt, sum := base64.RawStdEncoding.EncodeToString(make([]byte, 16)), base64.RawStdEncoding.EncodeToString(make([]byte, 32))
	for _, kept := range []string{
		"", "4071", "$argon2i$v=19$m=65536,t=2,p=1$" + salt + "$" + sum, "$argon2id$v=16$m=65536,t=2,p=1$" + salt + "$" + sum,
		"$argon2id$v=19$m=4294967295,t=2,p=1$" + salt + "$" + sum, "$argon2id$v=19$m=65536,t=0,p=1$" + salt + "$" + sum, "$argon2id$v=19$m=65536,t=2,p=0$" + salt + "$" + sum,
		"$argon2id$v=19$m=65536,t=2,p=1$$" + sum, "$argon2id$v=19$m=65536,t=2,p=1$" + salt + "$", "$argon2id$v=19$m=065536,t=2,p=1$" + salt + "$" + sum,
		"$argon2id$v=19$m=65536,t=2,p=1$" + salt + "$" + sum + "$x", "$argon2id$v=19$m=65536,t=2,p=1$" + salt + "=$" + sum,
	} {
		if fits, err := Fits(kept, "4071"); fits || err == nil {
			t.Errorf("%q is taken", kept)
		} else if kept != "" && strings.Contains(err.Error(), kept) {
			t.Errorf("the error tells what is kept: %v", err)
		}
	}
}

func FuzzParseHash(f *testing.F) {
	f.Add(Nobody(true))
	f.Add(HashPIN("4071", Salt{1}))
	f.Add("$argon2id$v=19$m=8,t=1,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAphX8CsXZvYZE/c")
	f.Fuzz(func(t *testing.T, kept string) {
		c, salt, sum, err := parseHash(kept)
		if err != nil {
			return
		}
		if c.memoryKiB > mostMemoryKiB || c.passes > mostPasses || len(salt) > 64 || len(sum) > 64 {
			t.Errorf("%q asks for more than there is", kept)
		}
	})
}
