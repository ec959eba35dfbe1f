package kitchen

import "kettlefrost/internal/unit"

// Labels is what labels are made by and printed on.
type Labels struct {
	Regime    LabelRegime `yaml:"regime,omitempty" desc:"whose rules: us (21 CFR 101) or eu (Regulation 1169/2011); by the units when left out" enum:"us,eu"`
	Languages []string    `yaml:"languages,omitempty" desc:"in which labels are printed, such as en-US and es-US; English when left out"`
	Stock     string      `yaml:"stock,omitempty" desc:"which labels are in the printer, of the program's list; or give wide and high"`
	Wide      unit.Length `yaml:"wide,omitempty" desc:"of one label on a roll"`
	High      unit.Length `yaml:"high,omitempty" desc:"of one label on a roll"`
	Firm      string      `yaml:"firm,omitempty" desc:"who answers for the food, as it must stand on the label; the kitchen's name when left out"`
	Role      FirmRole    `yaml:"firm-is,omitempty" desc:"what the firm did: made-by, packed-for or distributed-by; made-by when left out" enum:"made-by,packed-for,distributed-by"`
	Address   string      `yaml:"address,omitempty" desc:"street, city, state and ZIP code; the street may be left out where it is in a directory"`
	Barcode   BarcodeKind `yaml:"barcode,omitempty" desc:"gs1-128 (needs a gtin at the pack), code-128 (the lot alone) or none; code-128 when left out" enum:"gs1-128,code-128,none"`
	QR        QRKind      `yaml:"qr,omitempty" desc:"link (to link, with the lot), data (the same as the barcode) or none; none when left out" enum:"link,data,none"`
	Link      string      `yaml:"link,omitempty" desc:"begins with https://; the pack's code is put behind it"`
	Inspected string      `yaml:"inspected,omitempty" desc:"how packs with meat or poultry are sold: federal, state, or exempt with its reference; asked when it is left out"`
}

// LabelRegime is whose rules a label follows.
type LabelRegime string

// Regimes of labels.
const (
	USLabels LabelRegime = "us"
	EULabels LabelRegime = "eu"
)

// FirmRole is what the firm on a label did.
type FirmRole string

// Roles of the firm on a label.
const (
	MadeBy        FirmRole = "made-by"
	PackedFor     FirmRole = "packed-for"
	DistributedBy FirmRole = "distributed-by"
)

// BarcodeKind is which bars stand on a label.
type BarcodeKind string

// Bars on a label.
const (
	BarsGS1  BarcodeKind = "gs1-128"
	BarsLot  BarcodeKind = "code-128"
	BarsNone BarcodeKind = "none"
)

// QRKind is what the square code on a label says.
type QRKind string

// Square codes on a label.
const (
	QRLink QRKind = "link"
	QRData QRKind = "data"
	QRNone QRKind = "none"
)
