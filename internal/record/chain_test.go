package record

import (
	"crypto/sha256"
	"encoding/json"
	"errors"
	"iter"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The published examples of FIPS 180-4 (NIST, "Examples with Intermediate Values", SHA-256; the million letters are of FIPS 180-2 appendix B.3).
func TestHashIsTheStandards(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"},
		{"abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},
		{"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"},
		{strings.Repeat("a", 1_000_000), "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"},
	} {
		if got := Hash(sha256.Sum256([]byte(c.text))).String(); got != c.want {
			t.Errorf("%.20q: %s, want %s", c.text, got, c.want)
		}
	}
}

func weighing() Entry {
	return Entry{
		ID: ID{0: 0x01, 15: 0xff}, Kind: "weighed", Happened: 1_764_072_000_000, Entered: 1_764_072_000_250,
		Who: "Zoë", Device: "tablet 2", Site: "kitchen", Body: json.RawMessage(`{"net":"12.5"}`),
	}
}

// The text is put together by hand from the package comment; its SHA-256 is that of sha256sum (GNU coreutils 9) and of hashlib (Python 3).
func TestCanonicalText(t *testing.T) {
	first, err := Seal(Head{}, weighing())
	if err != nil {
		t.Fatal(err)
	}
	want := "19:kettlefrost entry 1,1:1,32:010000000000000000000000000000ff,7:weighed,13:1764072000000,13:1764072000250," +
		"4:Zoë,8:tablet 2,7:kitchen,0:,14:{\"net\":\"12.5\"},64:0000000000000000000000000000000000000000000000000000000000000000,"
	if got := string(first.AppendCanonical(nil)); got != want {
		t.Errorf("canonical text\n%s\nwant\n%s", got, want)
	}
	if got, want := first.Hash.String(), "a5a737d3ee5bc8c2017440ef8cfee167ad8cdc000c6897359ae690b2755943f3"; got != want {
		t.Errorf("hash %s, want %s", got, want)
	}

	e := weighing()
	e.ID, e.Corrects, e.Site = ID{15: 2}, e.ID, ""
	second, err := Seal(first.Head(), e)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := second.Hash.String(), "584098d55204b3b968887d28976cff5e1929dc5627a17417f293bea90df30300"; got != want {
		t.Errorf("hash of the second %s, want %s", got, want)
	}
}

// sealed is a chain of n entries.
func sealed(t testing.TB, n int) []Entry {
	t.Helper()
	var chain []Entry
	var head Head
	for i := range n {
		e := weighing()
		e.ID[7], e.ID[6] = byte(i), byte(i>>8)
		e.Happened += Instant(i)
		if i%3 == 2 {
			e.Corrects = chain[i-1].ID
		}
		e, err := Seal(head, e)
		if err != nil {
			t.Fatal(err)
		}
		chain, head = append(chain, e), e.Head()
	}
	return chain
}

func each(entries []Entry) iter.Seq2[Entry, error] {
	return func(yield func(Entry, error) bool) {
		for _, e := range entries {
			if !yield(e, nil) {
				return
			}
		}
	}
}

func TestVerifyGoodChains(t *testing.T) {
	for _, n := range []int{0, 1, 2, 40} {
		chain := sealed(t, n)
		head, err := Verify(Head{}, each(chain))
		if err != nil || head.Seq != uint64(n) {
			t.Errorf("%d entries: head %v, %v", n, head, err)
		}
		if n > 2 {
			if head, err := Verify(chain[1].Head(), each(chain[2:])); err != nil || head != chain[n-1].Head() {
				t.Errorf("from the second on: %v, %v", head, err)
			}
		}
	}
}

func TestVerifyPassesOnTheErrorOfTheStore(t *testing.T) {
	broken := errors.New("disk")
	_, err := Verify(Head{}, func(yield func(Entry, error) bool) { yield(Entry{}, broken) })
	if !errors.Is(err, broken) {
		t.Error(err)
	}
}

// spoil changes one byte of one field; every field has a turn.
var spoil = map[string]func(e *Entry, at int, by byte){
	"seq":      func(e *Entry, at int, by byte) { e.Seq ^= uint64(by) << (8 * (at % 8)) },
	"id":       func(e *Entry, at int, by byte) { e.ID[at%16] ^= by },
	"kind":     func(e *Entry, at int, by byte) { e.Kind = Kind(flip(string(e.Kind), at, by)) },
	"happened": func(e *Entry, at int, by byte) { e.Happened ^= Instant(by) << (8 * (at % 8)) },
	"entered":  func(e *Entry, at int, by byte) { e.Entered ^= Instant(by) << (8 * (at % 8)) },
	"who":      func(e *Entry, at int, by byte) { e.Who = flip(e.Who, at, by) },
	"device":   func(e *Entry, at int, by byte) { e.Device = flip(e.Device, at, by) },
	"site":     func(e *Entry, at int, by byte) { e.Site = flip(e.Site, at, by) },
	"corrects": func(e *Entry, at int, by byte) { e.Corrects[at%16] ^= by },
	"body":     func(e *Entry, at int, by byte) { e.Body = json.RawMessage(flip(string(e.Body), at, by)) },
	"prev":     func(e *Entry, at int, by byte) { e.Prev[at%32] ^= by },
	"hash":     func(e *Entry, at int, by byte) { e.Hash[at%32] ^= by },
}

func flip(s string, at int, by byte) string {
	b := []byte(s)
	b[at%len(b)] ^= by
	return string(b)
}

func TestAnyChangedByteIsFound(t *testing.T) {
	chain := sealed(t, 12)
	fields := slices.Sorted(func(yield func(string) bool) {
		for f := range spoil {
			if !yield(f) {
				return
			}
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		bad := slices.Clone(chain)
		i := rapid.IntRange(0, len(bad)-1).Draw(t, "entry")
		field := rapid.SampledFrom(fields).Draw(t, "field")
		spoil[field](&bad[i], rapid.IntRange(0, 63).Draw(t, "byte"), rapid.ByteRange(1, 255).Draw(t, "change"))
		head, err := Verify(Head{}, each(bad))
		wantFlaw(t, err, Altered, i+1)
		if head.Seq != uint64(i) {
			t.Fatalf("head %d, want %d", head.Seq, i)
		}
	})
}

type fataler interface {
	Helper()
	Fatalf(string, ...any)
}

func wantFlaw(t fataler, err error, flaw Flaw, place int) {
	t.Helper()
	var bad *ChainError
	if !errors.As(err, &bad) {
		t.Fatalf("error %v, want %v of entry %d", err, flaw, place)
	}
	if bad.Flaw != flaw || bad.Place != uint64(place) || bad.Fix == "" {
		t.Fatalf("%v, want %v of entry %d", bad, flaw, place)
	}
}

func TestMovedEntriesAreFound(t *testing.T) {
	chain := sealed(t, 12)
	rapid.Check(t, func(t *rapid.T) {
		i := rapid.IntRange(0, len(chain)-2).Draw(t, "first")
		j := rapid.IntRange(i+1, len(chain)-1).Draw(t, "second")

		removed := slices.Delete(slices.Clone(chain), i, i+1)
		_, err := Verify(Head{}, each(removed))
		wantFlaw(t, err, Gap, i+1)

		swapped := slices.Clone(chain)
		swapped[i], swapped[j] = swapped[j], swapped[i]
		_, err = Verify(Head{}, each(swapped))
		wantFlaw(t, err, Gap, i+1)

		repeated := slices.Insert(slices.Clone(chain), j, chain[i])
		_, err = Verify(Head{}, each(repeated))
		wantFlaw(t, err, Backward, j+1)
	})
}

// Somebody puts an entry in and seals it: it fits, and the one behind it does not. Somebody seals everything behind it too: only a head
// that was kept elsewhere shows it.
func TestSealedAgain(t *testing.T) {
	chain := sealed(t, 6)
	forged := weighing()
	forged.ID[3] = 9
	forged, err := Seal(chain[2].Head(), forged)
	if err != nil {
		t.Fatal(err)
	}
	replaced := slices.Clone(chain)
	replaced[3] = forged
	_, err = Verify(Head{}, each(replaced))
	wantFlaw(t, err, Unlinked, 5)

	inserted := slices.Insert(slices.Clone(chain), 3, forged)
	_, err = Verify(Head{}, each(inserted))
	wantFlaw(t, err, Backward, 5)

	for i := 4; i < len(replaced); i++ {
		if replaced[i], err = Seal(replaced[i-1].Head(), replaced[i]); err != nil {
			t.Fatal(err)
		}
	}
	head, err := Verify(Head{}, each(replaced))
	if err != nil || head == chain[5].Head() {
		t.Errorf("head %v, %v: a chain sealed again verifies, with another head", head, err)
	}
	head, err = Verify(Head{}, each(chain[:4]))
	if err != nil || head == chain[5].Head() {
		t.Errorf("head %v, %v: a chain cut short verifies, with another head", head, err)
	}
}

func TestMalformedEntriesAreFound(t *testing.T) {
	chain := sealed(t, 3)
	bad := chain[1]
	bad.Body = json.RawMessage(`{ "net":"12.5"}`)
	bad.Hash = sha256.Sum256(bad.AppendCanonical(nil))
	_, err := Verify(Head{}, each([]Entry{chain[0], bad, chain[2]}))
	wantFlaw(t, err, Malformed, 2)
	var field *FieldError
	if !errors.As(err, &field) || field.Path != "body" {
		t.Error(err)
	}
}

func BenchmarkVerify(b *testing.B) {
	chain := sealed(b, 1000)
	var text []byte
	for _, e := range chain {
		text = e.AppendCanonical(text)
	}
	b.Run("entries", func(b *testing.B) {
		b.SetBytes(int64(len(text)))
		for b.Loop() {
			if _, err := Verify(Head{}, each(chain)); err != nil {
				b.Fatal(err)
			}
		}
		b.ReportMetric(float64(len(chain)*b.N)/b.Elapsed().Seconds(), "entries/s")
	})
	b.Run("raw-sha256", func(b *testing.B) { // the same bytes, in pieces of the same length
		b.SetBytes(int64(len(text)))
		piece := len(text) / len(chain)
		for b.Loop() {
			for p := range slices.Chunk(text, piece) {
				sha256.Sum256(p)
			}
		}
	})
}
