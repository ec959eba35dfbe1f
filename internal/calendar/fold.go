package calendar

import (
	"bytes"
	"unicode/utf8"
)

// longestLine is the most octets of a line, without its end (RFC 5545, 3.1).
const longestLine = 75

// fold breaks the long lines of a calendar: what follows begins with a space. No character is torn apart.
func fold(text []byte) []byte {
	var out bytes.Buffer
	for line := range bytes.Lines(text) {
		line = bytes.TrimSuffix(line, []byte("\r\n"))
		for room := longestLine; len(line) > room; room = longestLine - 1 {
			cut := room
			for !utf8.RuneStart(line[cut]) {
				cut--
			}
			out.Write(line[:cut])
			out.WriteString("\r\n ")
			line = line[cut:]
		}
		out.Write(line)
		out.WriteString("\r\n")
	}
	return out.Bytes()
}
