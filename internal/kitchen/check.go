package kitchen

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/spelling"
)

// Check reports everything in a book that cannot be meant, cannot be planned with, or should be known before planning; known says
// whether the composition table has a row with a number (NDB). Findings carry the path of what they are about; Code has the table
// of what can be found. The same book gives the same findings in the same order: section by section, entries by name.
func Check(b Book, known func(ndb string) bool) finding.List {
	c := &checker{book: b, known: known}
	c.house()
	c.people()
	c.suppliers()
	c.ingredients()
	c.equipment()
	c.chilling()
	c.media()
	c.freezers()
	c.places()
	c.thermometers()
	c.safety()
	c.bags()
	for id, dish := range inOrder(b.Dishes) {
		c.dish(id, dish)
	}
	c.packs()
	c.trade()
	for name, request := range inOrder(b.Runs) {
		c.request(entrySpot("runs", name), request)
	}
	return c.found
}

// CheckRequest reports everything in a request that does not fit its book. Paths are those of the request's own file.
func CheckRequest(b Book, r Request) finding.List {
	c := &checker{book: b}
	c.request(spot{where: "the request"}, r)
	return c.found
}

type checker struct {
	book  Book
	known func(ndb string) bool
	found finding.List
}

// spot is a place in the book: the path for programs, the words for people.
type spot struct{ path, where string }

// entrySpot is the place of an entry of one of the book's sections.
func entrySpot(section, id string) spot {
	return spot{path: PathTo(section, id), where: Entry(section, id)}
}

// within is the place of an entry of a section of s.
func (s spot) within(section, id string) spot {
	return spot{path: PathTo(PathTo(s.path, section), id), where: Within(s.where, Entry(section, id))}
}

// key is the place of a key of s.
func (s spot) key(key string) spot { return spot{path: PathTo(s.path, key), where: s.where} }

// item is the place of an entry of a list of s, which is called by its name, or its number when it has none.
func (s spot) item(list string, i int, name string) spot {
	return spot{
		path:  PathAt(PathTo(s.path, list), i),
		where: Within(s.where, Entry(list, cmp.Or(name, strconv.Itoa(i+1)))),
	}
}

func (c *checker) report(severity finding.Severity, code Code, at spot, message, fix string, figures ...finding.Figure) {
	c.found = append(c.found, finding.Finding{
		Code: string(code), Severity: severity, Where: at.where, Path: at.path, Message: message, Fix: fix, Figures: figures,
	})
}

func (c *checker) stop(code Code, at spot, message, fix string) {
	c.report(finding.Stop, code, at, message, fix)
}

func (c *checker) caution(code Code, at spot, message, fix string) {
	c.report(finding.Caution, code, at, message, fix)
}

// text reports a text that must be there and is not.
func (c *checker) text(at spot, key, text string) {
	if strings.TrimSpace(text) == "" {
		c.stop(EmptyText, at.key(key), key+" is empty", "write something after "+key+":")
	}
}

// id reports an id that is not one.
func (c *checker) id(at spot, id string) {
	if !IsID(id) {
		c.stop(BadID, at, fmt.Sprintf("%q cannot be an id", id), "use lower-case letters a to z, digits and hyphens, as in ale-sauce; the name can be anything")
	}
}

// refers reports a name that stands for nothing. what is what it should be, known is what there is.
func (c *checker) refers(at spot, what, name string, known []string) {
	if !slices.Contains(known, name) {
		c.stop(UnknownReference, at, fmt.Sprintf("there is no %s %s", what, orNothing(name)), nearestOf(what, name, known))
	}
}

// orNothing is a name as a message shows it: there, and on its line.
func orNothing(name string) string {
	if name == "" {
		return `""`
	}
	return fmt.Sprintf("%.80s", name)
}

// nearestOf says what may have been meant.
func nearestOf(what, name string, known []string) string {
	if near := spelling.Nearest(name, known); near != "" {
		return fmt.Sprintf("did you mean %s?", near)
	}
	switch {
	case len(known) == 0:
		return "there is none yet: add it, or take the name out"
	case len(known) <= 12:
		return fmt.Sprintf("add it, or name one of these: %s", strings.Join(known, ", "))
	default:
		return fmt.Sprintf("add the %s, or name one that is there", what)
	}
}

// names lists the ids of a section, in order.
func names[K ~string, V any](m map[K]V) []string {
	list := make([]string, 0, len(m))
	for id := range m {
		list = append(list, string(id))
	}
	slices.Sort(list)
	return list
}

// inOrder goes through a section by the names of its entries.
func inOrder[K ~string, V any](m map[K]V) func(yield func(K, V) bool) {
	return func(yield func(K, V) bool) {
		for _, id := range slices.Sorted(maps.Keys(m)) {
			if !yield(id, m[id]) {
				return
			}
		}
	}
}

func (c *checker) note(code Code, at spot, message, fix string) {
	c.report(finding.Note, code, at, message, fix)
}
