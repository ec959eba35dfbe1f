package tables

import "strings"

// triggers begin what a spreadsheet takes for a formula; the wide forms are what some keyboards write for them.
const triggers = "=+-@\t\r\n＝＋－＠"

// guard makes a text that no spreadsheet takes for a formula; see the package comment.
func guard(text string) string {
	if formulaAfter(strings.TrimLeft(text, "'")) {
		return "'" + text
	}
	return text
}

// unguard takes away what guard has put in front.
func unguard(text string) string {
	if strings.HasPrefix(text, "'") && formulaAfter(strings.TrimLeft(text, "'")) {
		return text[1:]
	}
	return text
}

func formulaAfter(text string) bool {
	for _, r := range text {
		return strings.ContainsRune(triggers, r)
	}
	return false
}
