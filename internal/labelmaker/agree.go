package labelmaker

import (
	"fmt"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/barcode"
	"kettlefrost/internal/finding"
)

// CodeDisagree is a label whose codes say another thing than its words, or than each other.
const CodeDisagree = "label-codes-disagree"

// Identifiers whose values are compared.
const (
	gtinAI = "01"
	lotAI  = "10"
)

// disagree compares what scanners read with what people read: the lot in each code with the printed one, the number of the item in one code with that
// in the other.
func disagree(c Content) finding.List {
	var all finding.List
	bars, square := scanned(c.Bars), linked(c.Square)
	for _, code := range []struct {
		name string
		says map[string]string
	}{{"bar code", bars}, {"QR code", square}} {
		lot := code.says[lotAI]
		if words := strings.Fields(c.Lot.Is); lot == "" || len(words) == 0 || slices.Contains(words, lot) {
			continue
		}
		all = append(all, finding.Finding{Code: CodeDisagree, Severity: finding.Stop, Where: "label, " + code.name, Message: fmt.Sprintf("the %s says lot %q, the words beside it %q", code.name, lot, c.Lot.Is),
			Fix: "make both from the same lot"})
	}
	if a, b := bars[gtinAI], square[gtinAI]; a != "" && b != "" && a != b {
		all = append(all, finding.Finding{Code: CodeDisagree, Severity: finding.Stop, Where: "label, QR code", Message: fmt.Sprintf("the bar code is of item %s, the QR code of %s", a, b), Fix: "make both from the same number"})
	}
	return all
}

// scanned is what a linear symbol says, by identifier; nothing for one without.
func scanned(s *barcode.Symbol) map[string]string {
	says := map[string]string{}
	if s == nil {
		return says
	}
	switch s.Symbology {
	case barcode.EAN13, barcode.EAN8:
		if g, err := barcode.ParseGTIN(s.Data); err == nil {
			says[gtinAI] = string(g)
		}
	case barcode.GS1128:
		all, err := barcode.Scanned(s.Data)
		if err != nil {
			return says
		}
		for _, e := range all {
			says[e.AI] = e.Value
		}
	}
	return says
}

// linked is what the path of a Digital Link says, by identifier; nothing for any other link or text.
func linked(s *barcode.Symbol) map[string]string {
	says := map[string]string{}
	if s == nil {
		return says
	}
	u, err := url.Parse(s.Data)
	if err != nil {
		return says
	}
	parts := strings.Split(u.EscapedPath(), "/")
	from := slices.Index(parts, gtinAI)
	if from < 0 {
		return says
	}
	for i := from; i+1 < len(parts); i += 2 {
		if value, err := url.PathUnescape(parts[i+1]); err == nil {
			says[parts[i]] = value
		}
	}
	return says
}
