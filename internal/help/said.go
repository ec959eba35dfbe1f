package help

import (
	"fmt"
	"io/fs"
	"strings"
)

// Said is what people read of the help in another language: each text in English to what is said for it. The folder of that language has the
// same lines as that in English; a text that lacks one is left in English. A language without a folder has none.
func Said(language string) (map[string]string, error) {
	said := map[string]string{}
	names, err := fs.Glob(data, "data/"+language+"/*.txt")
	if err != nil {
		return nil, err
	}
	for _, name := range names {
		file := name[strings.LastIndex(name, "/")+1:]
		english, err := linesOf("data/en/" + file)
		if err != nil {
			return nil, err
		}
		other, err := linesOf(name)
		if err != nil {
			return nil, err
		}
		if err := pair(said, name, english, other); err != nil {
			return nil, err
		}
	}
	return said, nil
}

func linesOf(name string) ([]line, error) {
	text, err := fs.ReadFile(data, name)
	if err != nil {
		return nil, err
	}
	return lines(name, string(text))
}

// kept are the fields that are for the program, or the same in every language.
var kept = map[string]bool{"more": true, "entry": true, "visit": true, "asks": true}

// pair puts what stands in the same line together. Keys, fields and addresses are the same, or it is another text.
func pair(said map[string]string, name string, english, other []line) error {
	other = named(said, other)
	if len(english) != len(other) {
		return fmt.Errorf("%s: %d fields and headings, in English there are %d", name, len(other), len(english))
	}
	for i, e := range english {
		o := other[i]
		if e.head != o.head || e.field != o.field || (e.place == "") != (o.place == "") || kept[e.field] && e.text != o.text {
			return fmt.Errorf("%s:%d: %s, in English it is %s", name, o.at, o.of(), e.of())
		}
		switch e.field {
		case "":
			put(said, e.place, o.place)
		case "needs", "page":
			a, b := linkOf(e.text), linkOf(o.text)
			if a.URL != b.URL {
				return fmt.Errorf("%s:%d: it leads to %q, in English to %q", name, o.at, b.URL, a.URL)
			}
			put(said, a.Text, b.Text)
		case "let":
			a, b := letterOf(e.text), letterOf(o.text)
			if a.Sign != b.Sign {
				return fmt.Errorf("%s:%d: a letter %q, in English %q", name, o.at, b.Sign, a.Sign)
			}
			put(said, a.Means, b.Means)
		case "also":
			put(said, strings.Join(list(e.text), ", "), strings.Join(list(o.text), ", "))
		default:
			if !kept[e.field] {
				put(said, e.text, o.text)
			}
		}
	}
	return nil
}

// named takes out of a text the names of terms, whose headings are their keys: a field "name" right behind one, which English does without.
func named(said map[string]string, all []line) []line {
	var rest []line
	for i, l := range all {
		if l.field == "name" && i > 0 && all[i-1].head != "" {
			put(said, all[i-1].head, l.text)
			continue
		}
		rest = append(rest, l)
	}
	return rest
}

func put(said map[string]string, english, other string) {
	if english != "" && other != "" && english != other {
		said[english] = other
	}
}

// of is what a line is of, for an error.
func (l line) of() string {
	switch {
	case l.head != "":
		return "## " + l.head
	case l.place != "":
		return "# " + l.place
	case kept[l.field]:
		return l.field + ": " + l.text
	}
	return "a field " + l.field
}
