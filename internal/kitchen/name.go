package kitchen

import (
	"slices"
	"strconv"
	"strings"
)

// IsID says whether s can be an ID: lower-case letters, digits and single hyphens, beginning and ending with a letter or digit.
func IsID(s string) bool {
	if s == "" || s[0] == '-' || s[len(s)-1] == '-' || strings.Contains(s, "--") {
		return false
	}
	for _, r := range s {
		if r != '-' && (r < 'a' || r > 'z') && (r < '0' || r > '9') {
			return false
		}
	}
	return true
}

// PathTo adds a key to a path in the book, as in dishes.dal. A key that would be mistaken for more than one step of the path is
// put in brackets and quotes, as in runs["no. 3"].
func PathTo(parent, key string) string {
	switch {
	case key == "" || strings.ContainsAny(key, `.[]"`):
		return parent + "[" + strconv.Quote(key) + "]"
	case parent == "":
		return key
	default:
		return parent + "." + key
	}
}

// PathAt adds the place in a list to a path, counting from 0, as in dishes.dal.steps[2].
func PathAt(parent string, i int) string { return parent + "[" + strconv.Itoa(i) + "]" }

// Nearest is the candidate that a mistyped word most likely meant: the one with the fewest letters added, left out, changed or
// swapped with their neighbour. It is "" when none is near enough, which is a third of the word's letters, and at least one.
func Nearest(word string, candidates []string) string {
	word = strings.ToLower(strings.TrimSpace(word))
	best, least := "", max(1, len([]rune(word))/3)+1
	for _, c := range slices.Sorted(slices.Values(candidates)) {
		if c == "" {
			continue
		}
		if d := editDistance(word, strings.ToLower(c), least); d < least {
			best, least = c, d
		}
	}
	return best
}

// editDistance counts the letters to add, leave out, change or swap with a neighbour to come from a to b. It gives up with enough
// when their lengths alone differ by that much.
func editDistance(a, b string, enough int) int {
	s, t := []rune(a), []rune(b)
	if diff := len(s) - len(t); diff >= enough || -diff >= enough {
		return enough
	}
	before, last, row := make([]int, len(t)+1), make([]int, len(t)+1), make([]int, len(t)+1)
	for j := range last {
		last[j] = j
	}
	for i := range s {
		row[0] = i + 1
		for j := range t {
			change := 1
			if s[i] == t[j] {
				change = 0
			}
			row[j+1] = min(last[j+1]+1, row[j]+1, last[j]+change)
			if i > 0 && j > 0 && s[i] == t[j-1] && s[i-1] == t[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(t)]
}
