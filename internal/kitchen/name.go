package kitchen

import (
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
