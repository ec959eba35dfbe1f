package draftdish

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Recipe is a home recipe as somebody pasted it.
type Recipe struct {
	Title       string
	Makes       string // as it says: "serves 6", "2 quarts"
	Ingredients string // one on a line
	Method      string
}

// Limits of what is read.
const (
	mostText  = 40_000 // bytes
	mostLines = 80
	mostSteps = 60
)

// RecipeError is a text of which nothing can be made.
type RecipeError struct{ Field, Problem, Fix string }

func (e *RecipeError) Error() string { return e.Field + ": " + e.Problem + "; " + e.Fix }

func (r Recipe) check() error {
	for _, f := range []struct{ name, text string }{{"the title", r.Title}, {"how much it makes", r.Makes}, {"the ingredients", r.Ingredients}, {"the method", r.Method}} {
		if len(f.text) > mostText {
			return &RecipeError{f.name, fmt.Sprintf("is %d bytes long", len(f.text)), fmt.Sprintf("a recipe has %d at most", mostText)}
		}
		if !utf8.ValidString(f.text) {
			return &RecipeError{f.name, "is not text", "paste it as UTF-8"}
		}
	}
	switch {
	case strings.TrimSpace(r.Ingredients) == "":
		return &RecipeError{"the ingredients", "are missing", "paste them one on a line"}
	case strings.TrimSpace(r.Method) == "":
		return &RecipeError{"the method", "is missing", "paste what is done, in sentences"}
	}
	return nil
}

// headings are the lines that part a pasted recipe.
var (
	ingredientHeads = []string{"ingredients", "you need", "you will need", "what you need"}
	methodHeads     = []string{"method", "directions", "instructions", "preparation", "steps", "how to make it", "procedure"}
	makesHeads      = []string{"serves", "makes", "yield", "yields", "servings", "for"}
)

// Split parts a whole recipe in one text: a title, how much it makes, ingredients and method under headings, or the ingredients first and then,
// after an empty line, sentences.
func Split(text string) Recipe {
	var r Recipe
	var ingredients, method, before []string
	into := &before
	for line := range strings.SplitSeq(strings.ReplaceAll(text, "\r\n", "\n"), "\n") {
		line = strings.TrimSpace(line)
		head := strings.ToLower(strings.Trim(line, " #*:-="))
		switch {
		case isOneOf(head, ingredientHeads):
			into = &ingredients
		case isOneOf(head, methodHeads):
			into = &method
		case r.Makes == "" && into != &method && makes(head):
			r.Makes = strings.Trim(line, "#* ")
		default:
			*into = append(*into, line)
		}
	}
	if len(ingredients) == 0 {
		ingredients = before
		before = nil
	}
	r.Title = firstLine(before)
	if r.Title == "" && len(ingredients) > 0 && firstLine(before) == "" {
		r.Title, ingredients = titleOf(ingredients)
	}
	if len(method) == 0 {
		ingredients, method = cutAtSentences(ingredients)
	}
	r.Ingredients, r.Method = strings.TrimSpace(strings.Join(ingredients, "\n")), strings.TrimSpace(strings.Join(method, "\n"))
	return r
}

func isOneOf(s string, all []string) bool {
	for _, x := range all {
		if s == x {
			return true
		}
	}
	return false
}

// makes says whether a line tells how much there will be: "serves 6", "makes 2 quarts".
func makes(head string) bool {
	first, rest, _ := strings.Cut(head, " ")
	return isOneOf(strings.Trim(first, ":"), makesHeads) && strings.ContainsAny(rest, "0123456789") && len(head) < 60
}

func firstLine(lines []string) string {
	for _, l := range lines {
		if l != "" {
			return strings.Trim(l, "#* ")
		}
	}
	return ""
}

// titleOf takes a title off the ingredients: a first line without an amount, before an empty line, a heading or a line that begins with one.
func titleOf(lines []string) (string, []string) {
	for i, l := range lines {
		if l == "" {
			continue
		}
		if i+3 >= len(lines) || strings.ContainsAny(l, "0123456789½¼¾⅓⅔") || strings.HasSuffix(l, ":") || strings.HasSuffix(l, "to taste") {
			break
		}
		if next := lines[i+1]; next == "" || strings.HasSuffix(next, ":") || strings.ContainsAny(next[:1], "0123456789") {
			return strings.Trim(l, "#* "), lines[i+1:]
		}
		break
	}
	return "", lines
}

// cutAtSentences parts lines at the first that reads like a sentence: it has a full stop at its end, and is long or begins with a verb.
func cutAtSentences(lines []string) (before, after []string) {
	for i, l := range lines {
		if !strings.HasSuffix(l, ".") {
			continue
		}
		words := wordsOf(numbering.ReplaceAllString(l, ""))
		if len(l) > 40 || len(words) > 0 && len(verbsIn(words[:1])) > 0 {
			return lines[:i], lines[i:]
		}
	}
	return lines, nil
}
