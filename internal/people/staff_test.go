package people

import (
	"slices"
	"testing"

	"kettlefrost/internal/record"

	"pgregory.net/rapid"
)

func entryOf(t testing.TB, n int, b record.Body) record.Entry {
	t.Helper()
	e, err := record.Say(record.ID{byte(n), 1}, noon+record.Instant(n), "ada", "tablet", b)
	if err != nil {
		t.Fatal(err)
	}
	e.Seq = uint64(n)
	return e
}

func TestStaffIsFolded(t *testing.T) {
	s, found := Of(slices.Values([]record.Entry{
		entryOf(t, 1, Person{Person: "ada", Name: "Ada", Role: record.Owner, Since: "2026-01-01"}),
		entryOf(t, 2, record.Noted{Text: "hello"}),
		entryOf(t, 3, Person{Person: "pat", Name: "Pat", Role: record.Packer, Since: "2026-02-01"}),
		entryOf(t, 4, Person{Person: "pat", Name: "Pat", Role: record.Cook, Since: "2026-02-01"}),
		entryOf(t, 5, Person{Person: "bo", Name: "Bo", Role: record.Owner, Since: "2026-02-01", Left: "2026-05-31"}),
		{Seq: 6, Kind: "person", Body: []byte(`{}`)},
	}))
	if len(found) != 1 || found[0].Where != "entry 6" {
		t.Errorf("found %v, want what is wrong with entry 6", found)
	}
	if p, ok := s.Person("pat"); !ok || p.Role != record.Cook {
		t.Errorf("Pat is %+v", p)
	}
	for day, want := range map[record.Day]int{"2026-05-31": 2, "2026-06-01": 1} {
		if got := s.Owners(day); got != want {
			t.Errorf("%d owners on %s, want %d", got, day, want)
		}
	}
	for text, want := range map[string]string{"ada": "ada", "ADA": "ada", " Pat ": "pat", "eve": "", "": ""} {
		if p, _ := s.Named(text); p.Person != want {
			t.Errorf("%q is %q, want %q", text, p.Person, want)
		}
	}
	var names []string
	for _, p := range s.All() {
		names = append(names, p.Person)
	}
	if !slices.Equal(names, []string{"ada", "pat", "bo"}) {
		t.Errorf("in the order %v", names)
	}
}

// Of two people of one name neither is meant by it.
func TestTwoOfOneName(t *testing.T) {
	s := &Staff{byID: map[string]Person{"sam": {Person: "sam", Name: "Sam Reed"}, "sam-reed-2": {Person: "sam-reed-2", Name: "Sam Reed"}}}
	if p, ok := s.Named("Sam Reed"); ok {
		t.Errorf("%+v is taken", p)
	}
}

func TestNewIDs(t *testing.T) {
	s := &Staff{byID: map[string]Person{"ada": {}, "ada-2": {}}}
	for name, want := range map[string]string{"Ada": "ada-3", "Jo  O'Neil": "jo-o-neil", "Łukasz": "ukasz", "李": "person", "--": "person"} {
		if got := s.NewID(name); got != want {
			t.Errorf("%q is %q, want %q", name, got, want)
		}
	}
	rapid.Check(t, func(rt *rapid.T) {
		if id := s.NewID(rapid.String().Draw(rt, "name")); !IsID(id) {
			rt.Fatalf("%q is no ID", id)
		}
	})
}
