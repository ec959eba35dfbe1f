package app

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/spelling"
)

// Person is the name of somebody who works in a book's kitchen, from that name in any case or the key of the book. An unknown one is an
// error that says who there is.
func Person(book kitchen.Book, text string) (string, error) {
	var known []string
	for _, id := range slices.Sorted(maps.Keys(book.People)) {
		name := book.People[id].Name
		if text == string(id) || strings.EqualFold(text, name) {
			return name, nil
		}
		known = append(known, name)
	}
	if near := spelling.Nearest(text, known); near != "" {
		return "", fmt.Errorf("nobody here is called %q; did you mean %s?", text, near)
	}
	if known == nil {
		return "", fmt.Errorf("nobody here is called %q; the book has no people", text)
	}
	return "", fmt.Errorf("nobody here is called %q; the book has %s", text, strings.Join(known, ", "))
}
