package sheet

import (
	"strings"
	"unicode"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// pageWidth is the most characters on a line: what still prints legibly across a letter or A4 page.
const pageWidth = 100

// writer builds the sheet line by line.
type writer struct {
	plan  plan.Plan
	units unit.System
	text  strings.Builder
	blank bool // an empty line is due before the next one
	fresh bool // nothing stands under the heading yet
}

// String is what has been written.
func (w *writer) String() string { return w.text.String() }

// gap puts one empty line before the next line, however often it is asked for, but none under a heading.
func (w *writer) gap() { w.blank = w.text.Len() > 0 && !w.fresh }

// line writes one line, wrapped if it has to be.
func (w *writer) line(text string) { w.hang(0, "", text) }

// raw writes a line that is already laid out.
func (w *writer) raw(text string) {
	if w.blank {
		w.text.WriteByte('\n')
		w.blank = false
	}
	w.text.WriteString(strings.TrimRight(text, " "))
	w.text.WriteByte('\n')
	w.fresh = false
}

// heading opens a section.
func (w *writer) heading(text, beside string) {
	w.fresh = false
	w.gap()
	title := strings.ToUpper(clean(text))
	if beside = clean(beside); beside != "" {
		title += "  " + beside
	}
	title = wrap(title, pageWidth)[0]
	w.raw(title)
	w.raw(strings.Repeat("=", pageWidth))
	w.fresh = true
}

// sub opens a part of a section.
func (w *writer) sub(text string) {
	w.gap()
	for _, l := range wrap(text, pageWidth) {
		w.raw(l)
	}
}

// para writes wrapped text at an indent, and nothing when it is empty.
func (w *writer) para(indent int, text string) { w.hang(indent, "", text) }

// longestLead is the widest lead that text hangs behind.
const longestLead = 40

// hang writes wrapped text behind a lead: the lead stands once, the lines after it are indented by its width, unless it is long.
// Empty text writes nothing.
func (w *writer) hang(indent int, lead, text string) {
	if clean(text) == "" {
		return
	}
	if columns(lead) > longestLead {
		lead, text = "", lead+text
	}
	pad := strings.Repeat(" ", indent)
	for i, l := range wrap(text, pageWidth-indent-columns(lead)) {
		if i == 1 {
			lead = strings.Repeat(" ", columns(lead))
		}
		w.raw(pad + lead + l)
	}
}

// clean is text on one line: runs of white space become one space, and what a terminal would obey instead of show is dropped.
func clean(text string) string {
	text = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && !unicode.IsSpace(r) || unicode.Is(unicode.Cf, r) {
			return -1
		}
		return r
	}, text)
	return strings.Join(strings.Fields(text), " ")
}

// columns is how many places text takes on a line: one each character; marks that combine with the one before take none.
func columns(text string) int {
	n := 0
	for _, r := range text {
		if !unicode.Is(unicode.Mn, r) {
			n++
		}
	}
	return n
}

// wrap breaks text into lines of at most most columns, between words where it can. There is always at least one line.
func wrap(text string, most int) []string {
	most = max(1, most)
	var lines []string
	line := ""
	for _, word := range strings.Fields(clean(text)) {
		for {
			joined := word
			if line != "" {
				joined = line + " " + word
			}
			if columns(joined) <= most {
				line = joined
				break
			}
			if line != "" {
				lines, line = append(lines, line), ""
				continue
			}
			head, rest := cut(word, most)
			lines, word = append(lines, head), rest
		}
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// cut splits a word after most columns.
func cut(word string, most int) (head, rest string) {
	n := 0
	for i, r := range word {
		if !unicode.Is(unicode.Mn, r) {
			n++
		}
		if n > most {
			return word[:i], word[i:]
		}
	}
	return word, ""
}

// pad fills text up to a width, on its left when right says that it stands to the right.
func pad(text string, width int, right bool) string {
	fill := strings.Repeat(" ", max(0, width-columns(text)))
	if right {
		return fill + text
	}
	return text + fill
}
