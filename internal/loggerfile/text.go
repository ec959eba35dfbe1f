package loggerfile

import (
	"bytes"
	"encoding/binary"
	"unicode/utf16"
	"unicode/utf8"
)

// text is a file as UTF-8: as it is, or from UTF-16, or else from the one-byte code of old Windows programs (ISO 8859-1 as far as a table of
// temperatures needs it: ° is 0xB0 in both). False for what is no text.
func text(data []byte) ([]byte, bool) {
	switch {
	case bytes.HasPrefix(data, []byte("\xff\xfe")):
		return wide(data[2:], binary.LittleEndian)
	case bytes.HasPrefix(data, []byte("\xfe\xff")):
		return wide(data[2:], binary.BigEndian)
	case zeros(data, 1):
		return wide(data, binary.LittleEndian)
	case zeros(data, 0):
		return wide(data, binary.BigEndian)
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if bytes.ContainsFunc(data[:min(len(data), 4096)], isControl) {
		return nil, false
	}
	if utf8.Valid(data) {
		return data, true
	}
	out := make([]byte, 0, len(data)+len(data)/8)
	for _, b := range data {
		out = utf8.AppendRune(out, rune(b))
	}
	return out, true
}

func isControl(r rune) bool { return r < ' ' && r != '\t' && r != '\n' && r != '\r' }

// zeros tells whether every other byte of the beginning, from the given one on, is zero, as in Latin text of two bytes a letter.
func zeros(data []byte, from int) bool {
	n, all := 0, 0
	for i := from; i < min(len(data), 200); i += 2 {
		all++
		if data[i] == 0 {
			n++
		}
	}
	return all > 4 && n*10 > all*8
}

// wide reads UTF-16.
func wide(data []byte, order binary.ByteOrder) ([]byte, bool) {
	units := make([]uint16, len(data)/2)
	for i := range units {
		units[i] = order.Uint16(data[2*i:])
	}
	out := []byte(string(utf16.Decode(units)))
	return bytes.TrimPrefix(out, []byte("\ufeff")), !bytes.ContainsFunc(out[:min(len(out), 4096)], isControl)
}
