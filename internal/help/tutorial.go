package help

import (
	"fmt"
	"io/fs"
	"net/url"
	"strings"
)

// Step is one task of the tutorial.
type Step struct {
	Key   string
	Title string
	Do    string // what to do
	Why   string
	Page  Link   // where
	Entry string // the kind of entry by which it is done; "" where it is about looking
	Visit string // the page by which it is done, its path or what it begins with before a *
	Asks  string // how a key of the address begins, where that page must be asked for something
	More  []string
}

// Tutorial is a way through a kitchen that is invented.
type Tutorial struct {
	Kitchen string // its name, by which it is known
	Steps   []Step
}

const tutorialFile = "tutorial.txt"

// OpenTutorial reads the tutorial that is built in.
func OpenTutorial() (Tutorial, error) {
	text, err := fs.ReadFile(data, "data/en/"+tutorialFile)
	if err != nil {
		return Tutorial{}, err
	}
	return parseTutorial(tutorialFile, string(text))
}

func parseTutorial(file, text string) (Tutorial, error) {
	var t Tutorial
	all, err := lines(file, text)
	if err != nil {
		return t, err
	}
	for _, l := range all {
		switch {
		case l.place != "":
			t.Kitchen = l.place
		case l.head != "":
			t.Steps = append(t.Steps, Step{Key: l.head})
		case len(t.Steps) == 0:
			return t, fmt.Errorf("%s:%d: a field before the first step", file, l.at)
		default:
			if err := t.Steps[len(t.Steps)-1].take(l); err != nil {
				return t, fmt.Errorf("%s:%d: %w", file, l.at, err)
			}
		}
	}
	for _, s := range t.Steps {
		if s.Title == "" || s.Do == "" || s.Why == "" || s.Page.URL == "" || (s.Entry == "") == (s.Visit == "") {
			return t, fmt.Errorf("%s: %s: a step has a title, what to do, why, where, and one way in which it is done", file, s.Key)
		}
	}
	return t, nil
}

func (s *Step) take(l line) error {
	switch l.field {
	case "title":
		s.Title = l.text
	case "do":
		s.Do = l.text
	case "why":
		s.Why = l.text
	case "page":
		s.Page = linkOf(l.text)
	case "entry":
		s.Entry = l.text
	case "visit":
		s.Visit = l.text
	case "asks":
		s.Asks = l.text
	case "more":
		s.More = list(l.text)
	default:
		return fmt.Errorf("a step has no field %q", l.field)
	}
	return nil
}

// DoneBy says whether looking at an address does the step.
func (s Step) DoneBy(path string, query url.Values) bool {
	if s.Visit == "" {
		return false
	}
	if begin, any := strings.CutSuffix(s.Visit, "*"); any {
		if !strings.HasPrefix(path, begin) {
			return false
		}
	} else if path != s.Visit {
		return false
	}
	if s.Asks == "" {
		return true
	}
	for key, values := range query {
		if strings.HasPrefix(key, s.Asks) && len(values) > 0 && values[0] != "" {
			return true
		}
	}
	return false
}
