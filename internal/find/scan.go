package find

import (
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/barcode"
)

// Scan is what a bar code says a pack is.
type Scan struct {
	Lot    string `json:"lot,omitempty"`
	Serial string `json:"serial,omitempty"` // the number of the pack in its lot; "" when the code does not say
	GTIN   string `json:"gtin,omitempty"`   // of 14 digits; "" when the code does not say
}

// Code is the lot, or the pack of it, as it stands on a bag.
func (s Scan) Code() string {
	if s.Lot == "" || s.Serial == "" {
		return s.Lot
	}
	return s.Lot + "#" + s.Serial
}

// Scanned reads what a scanner sent for a symbol by the open standards: an element string, the same with brackets as it is read under the bars, or
// a link. False is anything else. A string without the scanner's sign for its symbol counts only if it begins with the number of an item, whose
// check digit nobody types by chance.
func Scanned(text string) (Scan, bool) {
	text = strings.TrimSpace(text)
	var all barcode.Elements
	var err error
	switch {
	case strings.HasPrefix(text, "("):
		all, err = bracketed(text)
	case strings.HasPrefix(text, "https://"), strings.HasPrefix(text, "http://"):
		all, err = linked(text)
	case strings.HasPrefix(text, "]"), strings.HasPrefix(text, "01"), strings.HasPrefix(text, string(barcode.Separator)):
		all, err = barcode.Scanned(text)
	}
	var s Scan
	for _, e := range all {
		switch e.AI {
		case "01", "02":
			s.GTIN = e.Value
		case "10":
			s.Lot = e.Value
		case "21":
			s.Serial = e.Value
		}
	}
	return s, err == nil && (s.Lot != "" || s.GTIN != "")
}

// bracketed reads elements as they stand under the bars: (01)09501101530003(10)P-1201-3. A bracket in a value begins no element unless an
// identifier that is known stands in it.
func bracketed(text string) (barcode.Elements, error) {
	var all barcode.Elements
	for part := range strings.SplitSeq(text, "(") {
		ai, value, closed := strings.Cut(part, ")")
		_, err := barcode.Find(ai)
		switch {
		case closed && err == nil:
			all = append(all, barcode.Element{AI: ai, Value: value})
		case len(all) > 0:
			all[len(all)-1].Value += "(" + part
		}
	}
	return all, all.Check()
}

// linked reads the path of a link: .../01/09501101530003/10/P-1201-3/21/17, whatever stands before it and whatever its query says.
func linked(text string) (barcode.Elements, error) {
	u, err := url.Parse(text)
	if err != nil {
		return nil, err
	}
	parts := strings.Split(strings.Trim(u.EscapedPath(), "/"), "/")
	from := slices.Index(parts, "01")
	if from < 0 {
		return nil, nil
	}
	var all barcode.Elements
	for pair := range slices.Chunk(parts[from:], 2) {
		if len(pair) < 2 {
			break
		}
		value, err := url.PathUnescape(pair[1])
		if err != nil {
			return nil, err
		}
		all = append(all, barcode.Element{AI: pair[0], Value: value})
	}
	return all, all.Check()
}
