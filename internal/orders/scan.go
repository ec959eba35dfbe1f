package orders

import (
	"strings"

	"kettlefrost/internal/record"
)

// Scan reads what a scanner or a person types for packs of a lot: the lot, then the numbers, with a space, #, : or / between them, and
// "no." before the numbers if it pleases; or the lot in the brackets of GS1, (10) for the lot and (21) for the number. Of a lot alone the
// numbers are empty. Lots may end in numbers themselves: is says what is one. It is false when no lot is there.
func Scan(text string, is func(record.Lot) bool) (record.Lot, record.Numbers, bool) {
	text = strings.TrimSpace(text)
	if rest, ok := strings.CutPrefix(text, "(10)"); ok {
		text = strings.Replace(rest, "(21)", "#", 1)
	}
	if is(record.Lot(text)) {
		return record.Lot(text), record.Numbers{}, true
	}
	for at := len(text) - 1; at > 0; at-- {
		if !strings.ContainsRune(" #:/", rune(text[at])) {
			continue
		}
		lot := record.Lot(strings.TrimRight(text[:at], " #:/"))
		if !is(lot) {
			continue
		}
		said := strings.TrimSpace(strings.TrimPrefix(strings.TrimLeft(text[at:], " #:/"), "no."))
		if n, err := record.ParseNumbers(said); err == nil && !n.Empty() {
			return lot, n, true
		}
	}
	return "", record.Numbers{}, false
}
