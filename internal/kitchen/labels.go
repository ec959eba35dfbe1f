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
	Spread    bool        `yaml:"spread,omitempty" desc:"parts of bought mixtures stand among the ingredients, each by its share, and not in brackets"`
	Last      unit.Share  `yaml:"last,omitempty" desc:"ingredients of at most this share stand at the end, behind “Contains 2 % or less of”: 2 %, 1.5 %, 1 % or 0.5 %"`
	Business  Business    `yaml:"business,omitempty" desc:"how large the business is: exemptions from the nutrition panel go by it; left out, none is claimed"`
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

// Business is what exemptions from the nutrition panel go by. What is left out is not known and carries no exemption.
type Business struct {
	Sales     unit.Money `yaml:"sales,omitempty" desc:"of a year, all together"`
	FoodSales unit.Money `yaml:"food-sales,omitempty" desc:"of a year, of food to those who eat it"`
	Retail    bool       `yaml:"only-retail,omitempty" desc:"sells to those who eat it, from its own place, and to nobody else"`
	Staff     float64    `yaml:"staff,omitempty" desc:"as if all worked full time"`
	Units     int        `yaml:"units,omitempty" desc:"of a product, sold in the United States in a year: the largest"`
	Claims    bool       `yaml:"claims,omitempty" desc:"a label says something of nutrition: there is no exemption then"`
	Leaves    bool       `yaml:"without-panel,omitempty" desc:"leave the panel out where that may be"`
}

// Figures are single figures per 100 g, in place of what the composition table has or has not.
type Figures struct {
	SatFat      *float64 `yaml:"saturated-fat,omitempty" desc:"g per 100 g"`
	TransFat    *float64 `yaml:"trans-fat,omitempty" desc:"g per 100 g"`
	Cholesterol *float64 `yaml:"cholesterol,omitempty" desc:"mg per 100 g"`
	Sodium      *float64 `yaml:"sodium,omitempty" desc:"mg per 100 g"`
	Fibre       *float64 `yaml:"fibre,omitempty" desc:"g per 100 g"`
	Sugars      *float64 `yaml:"sugars,omitempty" desc:"g per 100 g"`
	AddedSugars *float64 `yaml:"added-sugars,omitempty" desc:"g per 100 g"`
	VitaminD    *float64 `yaml:"vitamin-d,omitempty" desc:"micrograms per 100 g"`
	Calcium     *float64 `yaml:"calcium,omitempty" desc:"mg per 100 g"`
	Iron        *float64 `yaml:"iron,omitempty" desc:"mg per 100 g"`
	Potassium   *float64 `yaml:"potassium,omitempty" desc:"mg per 100 g"`
	Source      string   `yaml:"source" desc:"who says so: supplier's sheet, laboratory, date"`
}
