package store

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"testing"

	"kettlefrost/internal/record"
)

func comesBack(t *testing.T, address string) {
	s := open(t, address)
	var want []record.Entry
	want = append(want, mustAppend(t, s, weighings("ana", 0, 100)...)...)
	correction := weighing("ana", 200)
	correction.Corrects = want[3].ID
	want = append(want, mustAppend(t, s, correction)...)
	var prev record.Head
	for i, e := range want {
		again, err := record.Seal(prev, e)
		if err != nil || !same(again, e) || e.Seq != uint64(i+1) || e.Entered < 1_764_072_000_000 {
			t.Fatalf("entry %d is %+v, sealed it is %+v (%v)", i+1, e, again, err)
		}
		prev = e.Head()
	}
	if got := all(t, s); !slices.EqualFunc(got, want, same) {
		t.Errorf("read %d entries that are not the %d that were answered", len(got), len(want))
	}
	if got, found, err := s.ByID(t.Context(), correction.ID); err != nil || !found || !same(got, want[100]) {
		t.Errorf("by its ID: %+v, %v, %v", got, found, err)
	}
	if _, found, err := s.ByID(t.Context(), record.ID{9}); err != nil || found {
		t.Errorf("by an ID that nobody has: %v, %v", found, err)
	}
	s.Close()
	if head := intact(t, open(t, address), 101); head != prev {
		t.Errorf("opened again the head is %v, want %v", head, prev)
	}
}

func same(a, b record.Entry) bool {
	return a.Hash == b.Hash && string(a.AppendCanonical(nil)) == string(b.AppendCanonical(nil))
}

func isEmpty(t *testing.T, address string) {
	s := open(t, address)
	intact(t, s, 0)
	if head, err := s.Head(t.Context()); err != nil || head != (record.Head{}) {
		t.Errorf("head %v, %v", head, err)
	}
	if got, err := s.Append(t.Context(), nil); err != nil || len(got) != 0 {
		t.Errorf("nothing appended gives %v, %v", got, err)
	}
}

func onceOnly(t *testing.T, address string) {
	s := open(t, address)
	first := mustAppend(t, s, weighings("ana", 0, 3)...)
	again := mustAppend(t, s, weighing("ana", 1), weighing("ana", 7), weighing("ana", 7), weighing("ana", 0))
	if !same(again[0], first[1]) || !same(again[3], first[0]) || !same(again[1], again[2]) || again[1].Seq != 4 {
		t.Errorf("again: %+v", again)
	}
	given := first[2]
	given.Entered, given.Seq, given.Prev, given.Hash = 5, 99, record.Hash{1}, record.Hash{2} // what the store gives is not looked at
	if got := mustAppend(t, s, given); !same(got[0], first[2]) {
		t.Errorf("with other seals: %+v", got)
	}
	intact(t, s, 4)
}

func conflicting(t *testing.T, address string) {
	s := open(t, address)
	mustAppend(t, s, weighing("ana", 0))
	for field, change := range map[string]func(*record.Entry){
		"kind":        func(e *record.Entry) { e.Kind = "packed" },
		"happened_ms": func(e *record.Entry) { e.Happened++ },
		"who":         func(e *record.Entry) { e.Who = "ben" },
		"device":      func(e *record.Entry) { e.Device = "" },
		"site":        func(e *record.Entry) { e.Site = "barn" },
		"corrects":    func(e *record.Entry) { e.Corrects = record.ID{4} },
		"body":        func(e *record.Entry) { e.Body = []byte(`{}`) },
	} {
		other := weighing("ana", 0)
		change(&other)
		_, err := s.Append(t.Context(), []record.Entry{weighing("ana", 1), other, weighing("ana", 2)})
		conflict, ok := errors.AsType[*ConflictError](err)
		if !ok || conflict.Field != field || conflict.Stored.Seq != 1 || conflict.Given.ID != other.ID {
			t.Errorf("another %s: %v", field, err)
		}
	}
	other := weighing("ana", 5)
	other.Site = "barn"
	if _, err := s.Append(t.Context(), []record.Entry{weighing("ana", 5), other}); err == nil {
		t.Error("two that differ in one call are both taken in")
	}
	intact(t, s, 1)
}

func senseless(t *testing.T, address string) {
	s := open(t, address)
	for name, change := range map[string]func(*record.Entry){
		"id":          func(e *record.Entry) { e.ID = record.ID{} },
		"kind":        func(e *record.Entry) { e.Kind = "Weighed!" },
		"happened_ms": func(e *record.Entry) { e.Happened = 0 },
		"body":        func(e *record.Entry) { e.Body = []byte(`{ "a": 1 }`) },
		"site":        func(e *record.Entry) { e.Site = "a\x00b" },
		"books":       func(e *record.Entry) { e.Kind, e.Body = "booked", []byte(`{"path":"a.yaml","books":""}`) },
	} {
		bad := weighing("ana", 1)
		change(&bad)
		_, err := s.Append(t.Context(), []record.Entry{weighing("ana", 0), bad})
		if field, ok := errors.AsType[*record.FieldError](err); !ok || field.Path != name {
			t.Errorf("a bad %s: %v", name, err)
		}
	}
	intact(t, s, 0)
}

func anywhere(t *testing.T, address string) {
	s := open(t, address)
	mustAppend(t, s, weighings("ana", 0, 20)...)
	for from, want := range map[uint64]int{0: 20, 1: 20, 15: 6, 20: 1, 21: 0, 1 << 40: 0} {
		n := 0
		for e, err := range s.Read(t.Context(), from) {
			if err != nil || e.Seq != max(from, 1)+uint64(n) {
				t.Fatalf("from %d: entry %d, %v", from, e.Seq, err)
			}
			n++
		}
		if n != want {
			t.Errorf("from %d: %d entries, want %d", from, n, want)
		}
	}
	for e := range s.Read(t.Context(), 3) {
		if e.Seq == 5 {
			break
		}
	}
	if got, err := s.Since(t.Context(), 4, 3); err != nil || len(got) != 3 || got[0].Seq != 5 {
		t.Errorf("since 4: %v, %v", got, err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	for _, err := range s.Read(ctx, 1) {
		if !errors.Is(err, context.Canceled) {
			t.Errorf("a reader that was given up: %v", err)
		}
	}
}

func pages(t *testing.T, address string) {
	s := open(t, address)
	for _, n := range []int{pageSize - 1, 1, 1, pageSize, 2 * pageSize} {
		at, err := s.Head(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		mustAppend(t, s, weighings("ana", int(at.Seq), n)...)
		intact(t, s, int(at.Seq)+n)
	}
}

func tampered(t *testing.T, address string) {
	s := open(t, address)
	mustAppend(t, s, weighings("ana", 0, 30)...)
	s.Close()
	for _, c := range []struct {
		name, do, undo string
		place          uint64
		flaw           record.Flaw
	}{
		{"a weight is changed", `update entry set body = replace(body, '1010.5', '1011.5') where seq = 11`, `update entry set body = replace(body, '1011.5', '1010.5') where seq = 11`, 11, record.Altered},
		{"a name is changed", `update entry set who = 'ben' where seq = 1`, `update entry set who = 'ana' where seq = 1`, 1, record.Altered},
		{"one is moved to the end", `update entry set seq = 99 where seq = 7`, `update entry set seq = 7 where seq = 99`, 7, record.Gap},
	} {
		s := open(t, address)
		if _, err := s.write.ExecContext(t.Context(), c.do); err != nil {
			t.Fatal(err)
		}
		_, err := s.Verify(t.Context())
		bad, ok := errors.AsType[*record.ChainError](err)
		if !ok || bad.Place != c.place || bad.Flaw != c.flaw {
			t.Errorf("%s: %v", c.name, err)
		}
		if _, err := s.write.ExecContext(t.Context(), c.undo); err != nil {
			t.Fatal(err)
		}
		intact(t, s, 30)
		s.Close()
	}
	s = open(t, address)
	if _, err := s.write.ExecContext(t.Context(), `update entry set prev = 'none' where seq = 12`); err != nil {
		t.Fatal(err)
	}
	head, err := s.Verify(t.Context())
	if wantCode(t, err, Damaged); head.Seq != 11 {
		t.Errorf("good up to %d, want 11", head.Seq)
	}
}

func keeping(t *testing.T, address string) {
	s := open(t, address)
	at := mustAppend(t, s, weighings("ana", 0, 4)...)[2].Head()
	want := []byte{0, 1, 0xff, 'a'}
	for _, data := range [][]byte{[]byte("old"), nil, want} {
		if err := s.Keep(t.Context(), "lots/1", at, data); err != nil {
			t.Fatal(err)
		}
	}
	kept := func(name string) ([]byte, bool) {
		head, data, found, err := s.Kept(t.Context(), name)
		if err != nil || found && head != at {
			t.Fatalf("kept %s: %v, %v", name, head, err)
		}
		return data, found
	}
	if data, found := kept("lots/1"); !found || !slices.Equal(data, want) {
		t.Errorf("kept: %v, %v", data, found)
	}
	if _, found := kept("lots/2"); found {
		t.Error("a name that nobody kept is found")
	}
	other := at
	other.Hash[0]++
	for _, head := range []record.Head{other, {Seq: 77, Hash: at.Hash}} {
		if err := s.Keep(t.Context(), "orders/1", head, want); err != nil {
			t.Fatal(err)
		}
		if _, found := kept("orders/1"); found {
			t.Errorf("kept from entries that are not there (%v) is found", head)
		}
	}
	if err := s.Drop(t.Context(), "lots/1"); err != nil {
		t.Fatal(err)
	}
	if _, found := kept("lots/1"); found {
		t.Error("what was dropped is found")
	}
	if err := errors.Join(s.Keep(t.Context(), "a", at, want), s.Drop(t.Context(), "")); err != nil {
		t.Fatal(err)
	}
	if _, found := kept("a"); found {
		t.Error("dropping all leaves something")
	}
}

func closed(t *testing.T, address string) {
	s := open(t, address)
	mustAppend(t, s, weighing("ana", 0))
	for range 2 {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	}
	_, err := s.Append(t.Context(), weighings("ana", 1, 1))
	wantCode(t, err, Closed)
	_, err = s.Head(t.Context())
	wantCode(t, err, Closed)
}

// odd are texts that databases like to change.
func odd(t *testing.T, address string) {
	s := open(t, address)
	var want []record.Entry
	for i, word := range []string{"é", "e\u0301", "Ä", "ä", "ﬁ", "日本", "🍲", "a' or 1=1 --", `a\b`, "$1 ?", " a ", "a ", "%", "\u200f", "1e5", "007"} {
		e := weighing("odd", i)
		e.Who, e.Device, e.Site, e.Body = word, word, word, fmt.Appendf(nil, `{"w":%q,"n":1.0,"n2":1e400,"n":-0}`, "x")
		want = append(want, e)
	}
	got := mustAppend(t, s, want...)
	for i := range got {
		if difference(got[i], want[i]) != "" {
			t.Errorf("%q comes back as %q", want[i].Who, got[i].Who)
		}
	}
	if read := all(t, s); !slices.EqualFunc(read, got, same) {
		t.Error("read otherwise than answered")
	}
	intact(t, s, len(want))
}
