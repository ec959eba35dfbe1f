package app

import (
	"strings"

	"github.com/rogpeppe/go-internal/diff"
)

// DiffLine is one line of a comparison of two texts.
type DiffLine struct {
	Sign rune // '+' is only in the new one, '-' only in the old one, ' ' in both, '@' where lines that are the same are left out
	Text string
}

// Diff compares two texts line by line. It is nil when they are the same, byte for byte.
func Diff(old, new string) []DiffLine {
	var lines []DiffLine
	text := string(diff.Diff("old", []byte(old), "new", []byte(new)))
	_, text, _ = strings.Cut(text, "\n") // diff old new
	_, text, _ = strings.Cut(text, "\n") // --- old
	_, text, _ = strings.Cut(text, "\n") // +++ new
	for line := range strings.SplitSeq(strings.TrimSuffix(text, "\n"), "\n") {
		switch {
		case line == "":
		case line[0] == '\\': // no line break at the end
			lines = append(lines, DiffLine{'@', "no line break at the end"})
		default:
			lines = append(lines, DiffLine{rune(line[0]), line[1:]})
		}
	}
	for i, l := range lines {
		if lines[i].Text = strings.TrimSuffix(l.Text, "\r"); l.Sign == '-' || l.Sign == '+' {
			lines[i].Text = showEnd(l.Text)
		}
	}
	return lines
}

// showEnd makes what stands at the end of a line seen: lines that differ in it alone would look the same.
func showEnd(line string) string {
	trimmed := strings.TrimRight(line, " \t\r")
	return trimmed + strings.NewReplacer(" ", "·", "\t", "→", "\r", "␍").Replace(line[len(trimmed):])
}

// Counts are how many lines came and went.
func Counts(lines []DiffLine) (added, removed int) {
	for _, l := range lines {
		switch l.Sign {
		case '+':
			added++
		case '-':
			removed++
		}
	}
	return added, removed
}
