// Package people is who works here and what each may do: roles and the kinds of entries they may make, rules for passwords and PINs, how
// long one waits after wrong tries, how long a device stays signed in. Everything is worked out of values: the time, salts and tokens come
// in. Secrets are kept as slow salted hashes, and none of them is ever in an entry.
package people

import (
	"cmp"
	"fmt"
	"iter"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
)

// Person is somebody as known now.
type Person = record.Person

// Here says whether somebody still works here on a day. Somebody who left is gone from the day after the last.
func Here(p Person, day record.Day) bool { return p.Left == "" || day <= p.Left }

// Staff is everybody who ever worked here, folded from the entries. The zero Staff is nobody.
type Staff struct {
	byID map[string]Person
}

const (
	codeUnreadable = "person-unreadable"
	kindPerson     = record.Kind("person")
)

// Heeds says whether entries of a kind change who works here.
func Heeds(k record.Kind) bool { return k == kindPerson }

// Take folds in the next entry, in the order in which things happened.
func (s *Staff) Take(e record.Entry) finding.List {
	if e.Kind != kindPerson {
		return nil
	}
	body, err := record.Decode(e.Kind, e.Body)
	if err != nil {
		return finding.List{{Code: codeUnreadable, Severity: finding.Caution, Where: fmt.Sprintf("entry %d", e.Seq), Path: "entries." + e.ID.String(),
			Message: "who works here cannot be read: " + err.Error(), Fix: "enter the person again"}}
	}
	if s.byID == nil {
		s.byID = map[string]Person{}
	}
	p := body.(Person) // what a person's entry decodes to
	s.byID[p.Person] = p
	return nil
}

// Of folds entries, in the order in which things happened.
func Of(entries iter.Seq[record.Entry]) (*Staff, finding.List) {
	s := &Staff{}
	var found finding.List
	for e := range entries {
		found = append(found, s.Take(e)...)
	}
	return s, found
}

// Person is somebody by the ID.
func (s *Staff) Person(id string) (Person, bool) {
	p, ok := s.byID[id]
	return p, ok
}

// Named is somebody by the ID or the name in any case, if only one is meant.
func (s *Staff) Named(text string) (Person, bool) {
	text = strings.TrimSpace(text)
	if p, ok := s.byID[strings.ToLower(text)]; ok {
		return p, true
	}
	var found []Person
	for _, p := range s.byID {
		if strings.EqualFold(p.Name, text) {
			found = append(found, p)
		}
	}
	if len(found) != 1 {
		return Person{}, false
	}
	return found[0], true
}

// All are the people who ever worked here: those who are here first, then by name.
func (s *Staff) All() []Person {
	var all []Person
	for _, p := range s.byID {
		all = append(all, p)
	}
	slices.SortFunc(all, func(a, b Person) int {
		return cmp.Or(cmp.Compare(a.Left, b.Left), strings.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name)), strings.Compare(a.Person, b.Person))
	})
	return all
}

// Owners is how many owners are here on a day.
func (s *Staff) Owners(day record.Day) int {
	n := 0
	for _, p := range s.byID {
		if p.Role == record.Owner && Here(p, day) {
			n++
		}
	}
	return n
}

// longestID is more than anybody types.
const longestID = 40

// IsID says whether a text can be the ID of a person: lower-case letters, digits and single hyphens.
func IsID(text string) bool {
	if text == "" || len(text) > longestID || strings.Trim(text, "-") != text || strings.Contains(text, "--") {
		return false
	}
	return strings.Trim(text, "abcdefghijklmnopqrstuvwxyz0123456789-") == ""
}

// NewID is an ID for somebody of that name which nobody had before.
func (s *Staff) NewID(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	base := b.String()
	base = strings.Trim(base[:min(len(base), longestID-4)], "-")
	if base == "" {
		base = "person"
	}
	id := base
	for n := 2; ; n++ {
		if _, taken := s.byID[id]; !taken {
			return id
		}
		id = fmt.Sprintf("%s-%d", base, n)
	}
}
