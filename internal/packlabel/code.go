package packlabel

import (
	"net/url"
	"strings"

	"kettlefrost/internal/barcode"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/language"
)

// symbols puts the bar code and the QR code of the kitchen's choice on the label.
func (m *maker) symbols(in language.Speaker, c *labelmaker.Content) {
	labels := m.Book.Kitchen.Labels
	switch labels.Barcode {
	case kitchen.BarsNone:
	case kitchen.BarsGS1:
		if all, there := m.elements(); there {
			c.Bars = m.symbol(barcode.EncodeGS1(all))
		} else {
			m.wrong(m.path("gtin"), "a GS1-128 bar code needs a trade item number", "write gtin, or choose barcode: code-128")
		}
	default:
		if m.Lot.Code != "" {
			c.Bars = m.symbol(barcode.EncodeCode128(m.Lot.Code))
		}
	}
	switch labels.QR {
	case kitchen.QRLink:
		if link, ok := m.link(); ok {
			c.Square, c.SquareSays = m.symbol(barcode.EncodeQR(link, barcode.Medium)), in.Say("Scan for more about this pack")
		}
	case kitchen.QRData:
		data := m.Lot.Code
		if all, there := m.elements(); there {
			data = all.Readable()
		}
		if data != "" {
			c.Square = m.symbol(barcode.EncodeQR(data, barcode.Medium))
		}
	}
}

// elements are what the GS1 symbols say: number, best before and lot; false without a number.
func (m *maker) elements() (barcode.Elements, bool) {
	number, err := barcode.ParseGTIN(m.pack.GTIN)
	if err != nil {
		return nil, false
	}
	all := barcode.Elements{{AI: "01", Value: string(number)}}
	if day := strings.ReplaceAll(m.bestBefore(), "-", ""); len(day) == 8 {
		all = append(all, barcode.Element{AI: "15", Value: day[2:]})
	}
	if m.Lot.Code != "" {
		all = append(all, barcode.Element{AI: "10", Value: m.Lot.Code})
	}
	return all.Ordered(), true
}

// link is where whoever scans the pack is led: a Digital Link with a number, else the pack and the lot behind the kitchen's address.
func (m *maker) link() (string, bool) {
	base := m.Book.Kitchen.Labels.Link
	if base == "" {
		m.wrong("kitchen.labels.link", "the QR code has no address to lead to", "write link, or choose qr: data or none")
		return "", false
	}
	if all, there := m.elements(); there {
		link, err := all.Link(base)
		if err != nil {
			m.wrong("kitchen.labels.link", err.Error(), "correct the address")
			return "", false
		}
		return link, true
	}
	link := strings.TrimSuffix(base, "/") + "/" + url.PathEscape(string(m.Pack))
	if m.Lot.Code != "" {
		link += "?lot=" + url.QueryEscape(m.Lot.Code)
	}
	return link, true
}

// symbol is a symbol that could be made; what could not is told and left out.
func (m *maker) symbol(s barcode.Symbol, err error) *barcode.Symbol {
	if err != nil {
		m.wrong("", err.Error(), "correct it, or print the label without this code")
		return nil
	}
	return &s
}

func (m *maker) wrong(path, message, fix string) {
	m.ask(finding.Finding{Code: CodeBars, Severity: finding.Caution, Where: "codes on the label", Path: path, Message: message, Fix: fix})
}
