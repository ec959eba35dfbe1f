package draw

import "strings"

// textWidth is about how wide text is in a sans-serif face, on the wide side: the page decides the face. Widths in thousandths of
// the size are those of common faces (Helvetica's, from memory), by class of character.
func textWidth(text string, t Type) float64 {
	sum := 0.0
	for _, r := range text {
		switch {
		case strings.ContainsRune("iljt.,:;'|!()[]/ Ift·-", r):
			sum += 0.36
		case strings.ContainsRune("mwMW@%", r):
			sum += 0.92
		case r >= 'A' && r <= 'Z':
			sum += 0.72
		case r == '…' || r > 0x2E7F: // and wide scripts
			sum += 1.05
		default:
			sum += 0.58
		}
	}
	if t.Bold {
		sum *= 1.07
	}
	return sum * t.Size
}

// fit is text cut to a width, with an ellipsis when something is cut; "" when not even three characters would stay.
func fit(text string, width float64, t Type) string {
	if textWidth(text, t) <= width {
		return text
	}
	runes := []rune(text)
	for n := min(len(runes)-1, int(width/(0.36*t.Size))+1); n >= 3; n-- { // no character is narrower
		cut := strings.TrimRight(string(runes[:n]), " ,.:;") + "…"
		if textWidth(cut, t) <= width {
			return cut
		}
	}
	return ""
}
