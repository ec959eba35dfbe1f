package help

import (
	"fmt"
	"regexp"
	"strings"
)

// keyShape is what a key and a slug look like, since they stand in addresses.
var keyShape = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

// line is one line of a text with what it belongs to: a field, or the head of an entry.
type line struct {
	at          int
	head        string // of an entry, behind ##
	place       string // behind #
	field, text string
}

// lines reads a text: "# Place", "## key", "field: text", and lines that begin with two blanks and go on with the one before. A line that
// begins with two slashes is a remark.
func lines(file, text string) ([]line, error) {
	var all []line
	for i, raw := range strings.Split(text, "\n") {
		raw = strings.TrimRight(raw, " \t\r")
		switch {
		case raw == "" || strings.HasPrefix(raw, "//"):
		case strings.HasPrefix(raw, "## "):
			all = append(all, line{at: i + 1, head: strings.TrimSpace(raw[3:])})
		case strings.HasPrefix(raw, "# "):
			all = append(all, line{at: i + 1, place: strings.TrimSpace(raw[2:])})
		case strings.HasPrefix(raw, "  ") && len(all) > 0 && all[len(all)-1].field != "":
			all[len(all)-1].text += " " + strings.TrimSpace(raw)
		default:
			field, text, ok := strings.Cut(raw, ": ")
			if !ok || !keyShape.MatchString(field) {
				return nil, fmt.Errorf("%s:%d: %q is neither a heading nor a field", file, i+1, raw)
			}
			all = append(all, line{at: i + 1, field: field, text: strings.TrimSpace(text)})
		}
	}
	return all, nil
}

func parseEntries(file, text string) ([]Entry, error) {
	all, err := lines(file, text)
	if err != nil {
		return nil, err
	}
	var entries []Entry
	place := ""
	for _, l := range all {
		switch {
		case l.place != "":
			place = l.place
		case l.head != "":
			if !keyShape.MatchString(l.head) || place == "" {
				return nil, fmt.Errorf("%s:%d: %q is no key, or stands in no place", file, l.at, l.head)
			}
			entries = append(entries, Entry{Key: l.head, Place: place})
		case len(entries) == 0:
			return nil, fmt.Errorf("%s:%d: a field before the first entry", file, l.at)
		default:
			if err := entries[len(entries)-1].take(l); err != nil {
				return nil, fmt.Errorf("%s:%d: %w", file, l.at, err)
			}
		}
	}
	for _, e := range entries {
		if err := e.whole(); err != nil {
			return nil, fmt.Errorf("%s: %s: %w", file, e.Key, err)
		}
	}
	return entries, nil
}

// take puts one field into an entry.
func (e *Entry) take(l line) error {
	once := map[string]*string{"title": &e.Title, "what": &e.What, "sure": &e.Sure, "no-formula": &e.NoFormula}[l.field]
	switch {
	case once != nil && *once != "":
		return fmt.Errorf("%s is there twice", l.field)
	case once != nil:
		*once = l.text
		return nil
	}
	switch l.field {
	case "how":
		e.How = append(e.How, l.text)
	case "source":
		e.Sources = append(e.Sources, l.text)
	case "care":
		e.Cares = append(e.Cares, l.text)
	case "let":
		letter := letterOf(l.text)
		if letter.Means == "" {
			return fmt.Errorf("a letter is written as \"m = mass of a pack, g\"")
		}
		e.Letters = append(e.Letters, letter)
	case "needs":
		e.Needs = append(e.Needs, linkOf(l.text))
	case "page":
		e.Pages = append(e.Pages, linkOf(l.text))
	case "more":
		e.More = append(e.More, list(l.text)...)
	default:
		return fmt.Errorf("there is no field %q", l.field)
	}
	return nil
}

// whole says what an entry lacks.
func (e *Entry) whole() error {
	switch {
	case e.Title == "" || e.What == "" || e.Sure == "":
		return fmt.Errorf("an entry has a title, what it is, and how sure it is")
	case (len(e.How) == 0) == (e.NoFormula == ""):
		return fmt.Errorf("an entry has a formula, or says why it has none")
	case len(e.Sources) == 0:
		return fmt.Errorf("an entry has a source, or says what it rests on")
	}
	return nil
}

// linkOf reads "what it says | /address". Without an address it is text.
func linkOf(text string) Link {
	says, at, _ := strings.Cut(text, " | ")
	return Link{strings.TrimSpace(says), strings.TrimSpace(at)}
}

// letterOf reads a letter and what it means; what has no = means nothing.
func letterOf(text string) Letter {
	sign, means, _ := strings.Cut(text, " = ")
	return Letter{strings.TrimSpace(sign), strings.TrimSpace(means)}
}

// list reads words that commas part.
func list(text string) []string {
	var all []string
	for x := range strings.SplitSeq(text, ",") {
		if x = strings.TrimSpace(x); x != "" {
			all = append(all, x)
		}
	}
	return all
}

func parseTerms(file, text string) ([]Term, error) {
	all, err := lines(file, text)
	if err != nil {
		return nil, err
	}
	var terms []Term
	for _, l := range all {
		if l.head != "" {
			terms = append(terms, Term{Name: l.head, Slug: Slug(l.head)})
			continue
		}
		if len(terms) == 0 {
			return nil, fmt.Errorf("%s:%d: this belongs to no term", file, l.at)
		}
		t := &terms[len(terms)-1]
		switch l.field {
		case "means":
			t.Means = l.text
		case "also":
			t.Also = list(l.text)
		case "more":
			t.More = list(l.text)
		default:
			return nil, fmt.Errorf("%s:%d: a term has no field %q", file, l.at, l.field)
		}
	}
	for _, t := range terms {
		if !keyShape.MatchString(t.Slug) || t.Means == "" {
			return nil, fmt.Errorf("%s: %q says nothing, or its name cannot stand in an address", file, t.Name)
		}
	}
	return terms, nil
}

// Slug is a name as it stands in an address: small letters and figures, anything else a dash.
func Slug(name string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return (r < 'a' || r > 'z') && (r < '0' || r > '9') }), "-")
}
