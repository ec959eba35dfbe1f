package barcode

import (
	"errors"
	"fmt"
	"image/color"
	"strings"
	"unicode/utf8"

	"github.com/boombuler/barcode"
	"github.com/boombuler/barcode/code128"
	"github.com/boombuler/barcode/ean"
	"github.com/boombuler/barcode/qr"
)

const (
	// quietLinear is the least quiet zone of Code 128 and GS1-128, left and right, in modules (GS1 General Specifications 5.4, read).
	quietLinear = 10
	// quietEAN is the left quiet zone of EAN-13, the largest of its kind, in modules; it is kept on both sides (GS1 General Specifications,
	// from memory).
	quietEAN = 11
	// quietQR is the least quiet zone of QR on every side, in modules (from memory: ISO/IEC 18004).
	quietQR = 4
	// MostGS1Characters is how much a GS1-128 symbol holds, identifiers and separators included (GS1 General Specifications 5.4, read).
	MostGS1Characters = 48
	// MostGS1Mm is how long a GS1-128 symbol may be, quiet zones included (GS1 General Specifications 5.4, read).
	MostGS1Mm = 165.10
	// TradeModuleMm is the least module of a GS1-128 symbol in general distribution (quoted from the GS1 General Specifications). Smaller ones are
	// read at a kitchen's own table all the same.
	TradeModuleMm = 0.495
	// LeastEANMm is the least module of EAN-13 at a shop's till (GS1 General Specifications, from memory).
	LeastEANMm = 0.264
	// SmallModuleMm is the least module of a linear symbol that is worth printing: two dots of a printer of 203 dots to the inch. Common practice.
	SmallModuleMm = 0.25
	// SmallSquareMm is the least module of a QR symbol that telephones read without trouble: three dots of the same printer. Common practice.
	SmallSquareMm = 0.375
	// mostCode128 is what the encoder takes.
	mostCode128 = 80
)

// EncodeCode128 writes printable ASCII as Code 128, the check symbol included. Errors are *InputError and name the character.
func EncodeCode128(text string) (Symbol, error) {
	for i, r := range text {
		if r < ' ' || r > '~' {
			return Symbol{}, &InputError{"bar code", text, fmt.Sprintf("character %d is %q, which Code 128 does not have", utf8.RuneCountInString(text[:i])+1, r), "write it with letters, digits and signs of an English keyboard, or use a QR code"}
		}
	}
	if text == "" || len(text) > mostCode128 {
		return Symbol{}, &InputError{"bar code", text, fmt.Sprintf("it has %d characters", len(text)), fmt.Sprintf("a bar code here holds 1 to %d; use a QR code for more", mostCode128)}
	}
	return linear(Code128, text, text, text)
}

// EncodeGS1 writes elements as GS1-128, in the order given: FNC1 first, and behind every element that needs a separator.
func EncodeGS1(all Elements) (Symbol, error) {
	data, err := all.Data()
	if err != nil {
		return Symbol{}, err
	}
	if len(data) > MostGS1Characters {
		return Symbol{}, &InputError{"GS1-128", all.Readable(), fmt.Sprintf("it has %d characters with its identifiers", len(data)), fmt.Sprintf("one symbol holds %d: leave an element out, or put some into a second symbol", MostGS1Characters)}
	}
	fnc1 := string(code128.FNC1)
	return linear(GS1128, fnc1+strings.ReplaceAll(data, string(Separator), fnc1), data, all.Readable())
}

// EncodeEAN writes the number of an item as tills of shops read it: EAN-13, which of a GTIN-12 is UPC-A, or EAN-8 of a GTIN-8. A GTIN of a case, with
// a digit other than 0 in front, has no such symbol.
func EncodeEAN(g GTIN) (Symbol, error) {
	digits := string(g)
	if _, err := ParseGTIN(digits); err != nil || len(digits) != 14 {
		return Symbol{}, &InputError{"EAN-13", digits, "it is no GTIN", "read it with ParseGTIN first"}
	}
	if digits[0] != '0' {
		return Symbol{}, &InputError{"EAN-13", digits, "its first digit says that it is a case or varies in weight", "use the number of the single item, or GS1-128"}
	}
	as, data := EAN13, digits[1:]
	if short, is := strings.CutPrefix(digits, "000000"); is {
		as, data = EAN8, short
	}
	code, err := ean.Encode(data)
	if err != nil {
		return Symbol{}, &InputError{"EAN-13", digits, err.Error(), "check the number"}
	}
	readable := data
	if as == EAN13 {
		readable = strings.TrimPrefix(data, "0") // the twelve digits of a GTIN-12
	}
	return symbolOf(as, code, data, readable, quietEAN), nil
}

func linear(as Symbology, encoded, data, readable string) (Symbol, error) {
	code, err := code128.Encode(encoded)
	if err != nil {
		return Symbol{}, &InputError{string(as), readable, err.Error(), "shorten it"}
	}
	return symbolOf(as, code, data, readable, quietLinear), nil
}

// Correction is how much of a QR symbol may be spoilt and it is still read.
type Correction int

// The levels: about 7, 15, 25 and 30 % of the symbol.
const (
	Low Correction = iota
	Medium
	Quarter
	High
)

// ErrCorrection says that there is no such level.
var ErrCorrection = errors.New("barcode: the correction of a QR code is Low, Medium, Quarter or High")

// EncodeQR writes any text, a link or plain data, as QR in the smallest size that holds it.
func EncodeQR(text string, level Correction) (Symbol, error) {
	if level < Low || level > High {
		return Symbol{}, ErrCorrection
	}
	if text == "" || !utf8.ValidString(text) {
		return Symbol{}, &InputError{"QR code", text, "it is empty or no text", "give a link or some words"}
	}
	code, err := qr.Encode(text, [...]qr.ErrorCorrectionLevel{qr.L, qr.M, qr.Q, qr.H}[level], qr.Auto)
	if err != nil {
		return Symbol{}, &InputError{"QR code", text, fmt.Sprintf("%d characters are more than it holds", utf8.RuneCountInString(text)), "shorten it, or lower the correction"}
	}
	return symbolOf(QR, code, text, "", quietQR), nil
}

func symbolOf(as Symbology, code barcode.Barcode, data, readable string, quiet int) Symbol {
	box := code.Bounds()
	s := Symbol{Symbology: as, Data: data, Readable: readable, Wide: box.Dx(), Rows: box.Dy(), Quiet: quiet, dark: make([]bool, box.Dx()*box.Dy())}
	for y := range s.Rows {
		for x := range s.Wide {
			s.dark[y*s.Wide+x] = isDark(code.At(box.Min.X+x, box.Min.Y+y))
		}
	}
	return s
}

func isDark(c color.Color) bool {
	grey, _, _, _ := c.RGBA()
	return grey < 0x8000
}
