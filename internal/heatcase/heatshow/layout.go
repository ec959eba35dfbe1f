package heatshow

import "strings"

// pageWidth is the most characters on a line.
const pageWidth = 100

func (w *writer) heading(text string) { w.text.WriteString("\n" + capital(text) + "\n") }

// hang writes text behind an indent, wrapped; lines after the first stand two further in. Runs of spaces are kept.
func (w *writer) hang(indent, text string) {
	line := indent
	empty := true
	for word := range strings.SplitSeq(text, " ") {
		if !empty && len([]rune(line))+1+len([]rune(word)) > pageWidth {
			w.text.WriteString(strings.TrimRight(line, " ") + "\n")
			line, empty = indent+"  ", true
		}
		if !empty {
			line += " "
		}
		line, empty = line+word, false
	}
	w.text.WriteString(strings.TrimRight(line, " ") + "\n")
}
