package kitchen

import (
	"strings"

	"kettlefrost/internal/barcode"
	"kettlefrost/internal/language"
)

// labels checks what labels are made by.
func (c *checker) labels(at spot, l Labels) {
	here := at.key("labels")
	for i, tag := range l.Languages {
		if _, err := language.Parse(tag); err != nil {
			c.stop(UnknownReference, spot{path: PathAt(here.key("languages").path, i), where: here.where}, err.Error(), "write one of them")
		}
	}
	c.within(here, "wide", l.Wide.M(), labelSide)
	c.within(here, "high", l.High.M(), labelSide)
	if (l.Wide == 0) != (l.High == 0) {
		c.stop(SizeMissing, here, "only one side of the label is given", "write wide: and high:")
	}
	c.within(here, "last", inPerCent(l.Last), twoPerCent)
	switch {
	case l.QR == QRLink && l.Link == "":
		c.text(here, "link", "")
	case l.Link != "" && !strings.HasPrefix(l.Link, "https://"):
		c.stop(OutOfRange, here.key("link"), "the link does not begin with https://", "write the address that customers are to see")
	}
}

// gtin checks a trade item number: its digits, and that the last of them fits the others.
func (c *checker) gtin(at spot, text string) {
	if text == "" {
		return
	}
	if _, err := barcode.ParseGTIN(text); err != nil {
		c.stop(OutOfRange, at.key("gtin"), err.Error(), "compare it with the number that was assigned, and write its digits without spaces")
	}
}
