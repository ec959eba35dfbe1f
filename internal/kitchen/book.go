// Package kitchen holds the nouns: what a kitchen knows before it cooks (the Book) and what it is asked to make (the Request).
// They are values as the cook wrote them, in the cook's amounts; nothing here computes a plan.
//
// The yaml tags are the keys of the book's text files, the desc tags the one-line help that editors show; package bookfile reads
// and writes them and publishes their schema. A field without omitempty must be given.
package kitchen

import "kettlefrost/internal/unit"

// IDs are the keys of the book's maps: short words in lower case with hyphens, as in "ale-sauce".
type (
	IngredientID  string
	EquipmentID   string
	ChillingID    string
	MediumID      string // of package medium: still-air, simmering-water
	FreezerID     string
	PersonID      string
	SupplierID    string
	DishID        string
	OutputID      string // of one dish
	PackID        string
	ThermometerID string // as records name the instrument or the probe
	BagID         string
)

// Book is all that a kitchen knows before cooking.
type Book struct {
	Kitchen      Kitchen                       `yaml:"kitchen" desc:"the kitchen itself"`
	People       map[PersonID]Person           `yaml:"people,omitempty" desc:"who works here, and when"`
	Suppliers    map[SupplierID]Supplier       `yaml:"suppliers,omitempty" desc:"who we buy from"`
	Ingredients  map[IngredientID]Ingredient   `yaml:"ingredients,omitempty" desc:"everything that goes into a dish"`
	Equipment    map[EquipmentID]Equipment     `yaml:"equipment,omitempty" desc:"pots, pans, kettles, blenders, burners, ovens, tables, sealers"`
	Chilling     map[ChillingID]Chilling       `yaml:"chilling,omitempty" desc:"ways to cool hot food"`
	Media        map[MediumID]Medium           `yaml:"media,omitempty" desc:"surface coefficients that this kitchen has measured, in place of published ranges"`
	Freezers     map[FreezerID]Freezer         `yaml:"freezers,omitempty" desc:"where packs freeze and are kept"`
	Places       map[PlaceID]Place             `yaml:"places,omitempty" desc:"where lots are kept: single freezers, the walk-in, the dry store, and the shelves and boxes in them"`
	Thermometers map[ThermometerID]Thermometer `yaml:"thermometers,omitempty" desc:"probes, loggers and thermometers: where they are and how far they may be wrong"`
	Safety       Safety                        `yaml:"safety,omitempty" desc:"by what rules of food safety lots are judged; left out, nothing is judged"`
	Bags         map[BagID]Bag                 `yaml:"bags,omitempty" desc:"bags that packs are filled into"`
	Dishes       map[DishID]Dish               `yaml:"dishes,omitempty" desc:"what is cooked, as a graph of steps"`
	Packs        map[PackID]Pack               `yaml:"packs,omitempty" desc:"what is sold"`
	Seller       Seller                        `yaml:"seller,omitempty" desc:"who writes the invoices, and on what terms"`
	TaxRates     map[TaxID]TaxRate             `yaml:"tax-rates,omitempty" desc:"taxes on what is sold, each with its source"`
	PriceLists   map[PriceListID]PriceList     `yaml:"price-lists,omitempty" desc:"what kinds of customers pay"`
	Runs         map[string]Request            `yaml:"runs,omitempty" desc:"runs worth keeping: what to make on a day"`
}

// Kitchen is what holds for the whole house.
type Kitchen struct {
	Name           string       `yaml:"name" desc:"as it stands on labels and prints"`
	Place          string       `yaml:"place,omitempty" desc:"town and state, for labels"`
	Note           string       `yaml:"note,omitempty" desc:"anything a reader of the book should know"`
	Units          unit.System  `yaml:"units,omitempty" desc:"metric or us: how figures are shown first"`
	Currency       string       `yaml:"currency,omitempty" desc:"the sign put before money, such as $"`
	Air            *unit.Temp   `yaml:"air,omitempty" desc:"temperature of the kitchen's air; 21 °C when left out"`
	Altitude       unit.Length  `yaml:"altitude,omitempty" desc:"of the customers' kitchens over the sea, at most: water simmers colder up there"`
	Ice            unit.Mass    `yaml:"ice,omitempty" desc:"ice to be had on a production day; left out, as much as is wanted"`
	Energy         Energy       `yaml:"energy,omitempty" desc:"what gas and electricity cost"`
	Spreads        Spreads      `yaml:"spreads,omitempty" desc:"how far things turn out otherwise than planned, as one standard deviation"`
	Overhead       Overhead     `yaml:"overhead,omitempty" desc:"what else each pack must carry: rent, insurance, the van; on one base"`
	Cleaning       unit.Money   `yaml:"cleaning,omitempty" desc:"materials of one washing between dishes"`
	JointCost      JointCost    `yaml:"joint-cost,omitempty" desc:"how packs of one dish share what was spent before filling: mass or sales-value (what they sell for, less what is spent on each alone); mass when left out" enum:"mass,sales-value"`
	FoodTarget     unit.Share   `yaml:"food-target,omitempty" desc:"share of a price that the food should be at most; 30 % when left out"`
	MarginTarget   unit.Share   `yaml:"margin-target,omitempty" desc:"share of a price that should be left over the full cost"`
	PricesEnd      []unit.Money `yaml:"prices-end,omitempty" desc:"how prices end, such as $0.49 and $0.95; at five cents when left out"`
	NetContents    NetContents  `yaml:"net-contents,omitempty" desc:"by what rules packs are held to the weight on their label"`
	FineScale      Scale        `yaml:"fine-scale,omitempty" desc:"the scale that salts, gums and the like are weighed on"`
	Days           int          `yaml:"days-a-week,omitempty" desc:"days of a week on which people work; 5 when left out"`
	FixedCosts     unit.Money   `yaml:"fixed-costs,omitempty" desc:"what a week costs when nothing is cooked, for the break-even"`
	Labels         Labels       `yaml:"labels,omitempty" desc:"what labels are made by and printed on"`
	VacuumApproval string       `yaml:"vacuum-approval,omitempty" desc:"reference of the authority's approval for vacuum packing, if there is one"`
}

// Energy is what a kilowatt-hour or a therm costs; left out is not known.
type Energy struct {
	Gas         unit.Tariff `yaml:"gas,omitempty" desc:"such as $1.40/therm"`
	Electricity unit.Tariff `yaml:"electricity,omitempty" desc:"such as $0.18/kWh"`
}

// Spreads are standard deviations, as shares of what was planned. What is left out counts as common practice has it.
type Spreads struct {
	Yields unit.Share `yaml:"yields,omitempty" desc:"of what comes out of a pot; 3 % when left out"`
	Times  unit.Share `yaml:"times,omitempty" desc:"of hands-on time; 10 % when left out"`
	Prices unit.Share `yaml:"prices,omitempty" desc:"of what ingredients cost; 5 % when left out"`
}

// NetContents is by what rules packs are held to the weight on their label. What is left out counts as common practice has it.
type NetContents struct {
	Rules      NetRules   `yaml:"rules,omitempty" desc:"handbook-133 (NIST, as an inspector does), own-check (the same without the inspector's benefit of the doubt) or directive-76-211 (EEC); by the units when left out: own-check with pounds, else the directive" enum:"handbook-133,own-check,directive-76-211"`
	Confidence unit.Share `yaml:"confidence,omitempty" desc:"how sure a lot should be to pass; 95 % when left out"`
	Scale      unit.Mass  `yaml:"scale,omitempty" desc:"the step in which the scale at the filling table shows; 1 g when left out"`
	Scatter    unit.Share `yaml:"scatter,omitempty" desc:"of net weights, as a standard deviation and a share of the label, to fill by until packs were weighed; when left out, a pack that nobody has weighed is filled to its label"`
}

// JointCost is how packs of one dish share what was spent before filling.
type JointCost string

const (
	ByMass       JointCost = "mass"
	BySalesValue JointCost = "sales-value"
)

// NetRules is a set of rules for net contents.
type NetRules string

const (
	Handbook133    NetRules = "handbook-133"
	OwnCheck       NetRules = "own-check"
	Directive76211 NetRules = "directive-76-211"
)

// Overhead is spread over the packs on one base, which is said.
type Overhead struct {
	PerHour unit.Money `yaml:"per-hour,omitempty" desc:"for each hour of hands on"`
	PerKg   unit.Money `yaml:"per-kg,omitempty" desc:"for each kilogram packed"`
	PerPack unit.Money `yaml:"per-pack,omitempty" desc:"for each pack"`
	OfPrime unit.Share `yaml:"of-prime,omitempty" desc:"share of the prime cost: ingredients and labour"`
}

// Person is somebody who works in the kitchen.
type Person struct {
	Name  string    `yaml:"name" desc:"as the others call them"`
	Shift Shift     `yaml:"shift" desc:"when they work on a production day"`
	Wage  unit.Wage `yaml:"wage,omitempty" desc:"pay per hour, such as $19.50/h"`
	Can   []Skill   `yaml:"can,omitempty" desc:"skills that steps and packs may ask for, in words of your own, such as kettle or sealing"`
}

// Skill is something that not everybody may do or can do.
type Skill string

// Shift is the working time of a day, the same on each day of a run. Times count from midnight.
type Shift struct {
	From   unit.Clock `yaml:"from" desc:"start, such as 06:30"`
	To     unit.Clock `yaml:"to" desc:"end, such as 15:00"`
	Breaks []Break    `yaml:"breaks,omitempty" desc:"when they are away"`
}

// Break is a pause within a shift.
type Break struct {
	From unit.Clock `yaml:"from" desc:"start"`
	To   unit.Clock `yaml:"to" desc:"end"`
}

// Supplier is somebody we buy from.
type Supplier struct {
	Name string `yaml:"name" desc:"as on the invoice"`
	Note string `yaml:"note,omitempty" desc:"order by when, how they deliver"`

	Minimum  unit.Money `yaml:"minimum,omitempty" desc:"least that an order may come to"`
	Delivery unit.Money `yaml:"delivery,omitempty" desc:"what bringing one order costs"`
	FreeFrom unit.Money `yaml:"free-from,omitempty" desc:"an order from this on is brought for nothing"`
	Lead     int        `yaml:"lead-days,omitempty" desc:"days from the order until it is there"`
}

// Ingredient is one thing that goes into a dish. Amounts in dishes are edible portion (EP) unless the step says otherwise; what is
// bought is as purchased (AP): EP divided by (1 - trim).
type Ingredient struct {
	Name      string                 `yaml:"name" desc:"what the kitchen calls it"`
	Food      string                 `yaml:"food,omitempty" desc:"number (NDB) of its row in the composition table"`
	Analysis  *Analysis              `yaml:"analysis,omitempty" desc:"own analysis per 100 g, instead of food"`
	Density   unit.Density           `yaml:"density,omitempty" desc:"mass by volume as measured out, such as 1.03 kg/L"`
	Measures  map[string]unit.Amount `yaml:"measures,omitempty" desc:"what a household measure of it weighs, such as each: 110 g or cup, shredded: 113 g"`
	Trim      unit.Share             `yaml:"trim,omitempty" desc:"share of what is bought that is thrown away before use"`
	Buy       []Offer                `yaml:"buy,omitempty" desc:"how it can be bought"`
	Free      bool                   `yaml:"free,omitempty" desc:"comes from the tap: not bought, costs nothing"`
	Stock     unit.Amount            `yaml:"stock,omitempty" desc:"on hand, as purchased"`
	Lots      []StockLot             `yaml:"lots,omitempty" desc:"on hand by lot and date, besides stock"`
	Keeps     unit.Share             `yaml:"keeps,omitempty" desc:"what is bought too much is still worth this share of its price, as it goes into a later run"`
	Class     IngredientClass        `yaml:"class,omitempty" desc:"what it is as far as hazards go; leaving it out means nobody has said" enum:"intact-meat,ground-meat,poultry,fish,eggs,cooked-meat,dairy,produce,beans,starch,dry,water"`
	Role      IngredientRole         `yaml:"role,omitempty" desc:"what it does in a pot that is frozen; guessed, and said to be, when left out" enum:"hard-cheese,soft-cheese,process-cheese,cream,cultured-cream,yogurt,milk,flour,native-starch,waxy-starch,modified-starch,potato,pasta,rice,pulses,watery-vegetable,vegetable,egg-white,egg,egg-in-shell,custard,mayonnaise,gelatin,gum,emulsifying-salt,herb-or-spice,meat,acid,topping,fat,liquid,other"`
	Source    string                 `yaml:"made-from,omitempty" desc:"which gum or starch it is: xanthan, guar, locust bean, corn, potato, rice, tapioca"`
	Storage   string                 `yaml:"storage,omitempty" desc:"where it is kept: dry, chilled or frozen" enum:"dry,chilled,frozen"`
	Aisle     string                 `yaml:"aisle,omitempty" desc:"where it stands in the shop, for the shopping list"`
	Label     string                 `yaml:"label,omitempty" desc:"its common or usual name on a label; the name when left out"`
	Function  string                 `yaml:"function,omitempty" desc:"what an additive does, such as emulsifier or thickener"`
	Figures   *Figures               `yaml:"figures,omitempty" desc:"single figures that the composition table does not give, from the supplier's sheet"`
	Retention string                 `yaml:"retention,omitempty" desc:"row of the retention table by which its vitamins and minerals count after cooking; all of them count when left out"`
	Contains  []SubIngredient        `yaml:"contains,omitempty" desc:"its own ingredients, in the order of its label"`
	Allergens Allergens              `yaml:"allergens,omitempty" desc:"major allergens in it, or none; leaving it out means nobody has checked"`
	Annex     Allergens              `yaml:"eu-allergens,omitempty" desc:"for labels of the European Union: of its list what is beyond the nine, such as celery, mustard, sulphites, or none; leaving it out means nobody has checked"`
}

// StockLot is what is on hand of one lot.
type StockLot struct {
	Lot    string      `yaml:"lot,omitempty" desc:"the supplier's lot, as on the box"`
	Amount unit.Amount `yaml:"amount" desc:"as purchased"`
	Until  string      `yaml:"until,omitempty" desc:"the last day it may be used, such as 2026-12-05"`
}

// SubIngredient is an ingredient of an ingredient.
type SubIngredient struct {
	Name      string     `yaml:"name" desc:"as on the supplier's label"`
	Share     unit.Share `yaml:"share,omitempty" desc:"how much of the ingredient it is, when the supplier tells; lists that are spread out need it of every part"`
	Allergens Allergens  `yaml:"allergens,omitempty" desc:"major allergens in it, or none"`
}

// Allergens is the answer to "which allergens are in it?". Not answered is not the same as none.
type Allergens struct {
	Answered bool
	Names    []string // such as "milk", "wheat", "fish: trout"
}

// Offer is one way to buy an ingredient: whole packs at a price.
type Offer struct {
	Supplier SupplierID  `yaml:"supplier,omitempty" desc:"who sells it"`
	Pack     unit.Amount `yaml:"pack" desc:"what one pack holds, such as 5 lb or 1 gal"`
	Price    unit.Money  `yaml:"price" desc:"price of one pack"`
	Name     string      `yaml:"name,omitempty" desc:"what the supplier calls it"`

	AtLeast int          `yaml:"at-least,omitempty" desc:"fewest packs that are sold, if any"`
	AtMost  int          `yaml:"at-most,omitempty" desc:"most packs that can be had"`
	Breaks  []PriceBreak `yaml:"breaks,omitempty" desc:"the price of each pack when more are taken"`
}

// PriceBreak is the price of each pack when so many are taken.
type PriceBreak struct {
	From  int        `yaml:"from" desc:"from so many packs on"`
	Price unit.Money `yaml:"price" desc:"price of one pack"`
}

// Analysis is grams per 100 g of edible portion. Carbohydrate is total, by difference, with fibre in it.
type Analysis struct {
	Water   float64  `yaml:"water" desc:"g per 100 g"`
	Protein float64  `yaml:"protein" desc:"g per 100 g"`
	Fat     float64  `yaml:"fat" desc:"g per 100 g"`
	Carb    float64  `yaml:"carbohydrate" desc:"total, fibre included, g per 100 g"`
	Ash     float64  `yaml:"ash" desc:"g per 100 g"`
	Alcohol float64  `yaml:"alcohol,omitempty" desc:"g per 100 g"`
	Fibre   *float64 `yaml:"fibre,omitempty" desc:"g per 100 g"`
	Sugars  *float64 `yaml:"sugars,omitempty" desc:"g per 100 g"`
	SatFat  *float64 `yaml:"saturated-fat,omitempty" desc:"g per 100 g"`
	Sodium  *float64 `yaml:"sodium,omitempty" desc:"mg per 100 g"`

	TransFat    *float64 `yaml:"trans-fat,omitempty" desc:"g per 100 g"`
	AddedSugars *float64 `yaml:"added-sugars,omitempty" desc:"g per 100 g"`
	Cholesterol *float64 `yaml:"cholesterol,omitempty" desc:"mg per 100 g"`
	Calcium     *float64 `yaml:"calcium,omitempty" desc:"mg per 100 g"`
	Iron        *float64 `yaml:"iron,omitempty" desc:"mg per 100 g"`
	Potassium   *float64 `yaml:"potassium,omitempty" desc:"mg per 100 g"`
	VitaminD    *float64 `yaml:"vitamin-d,omitempty" desc:"micrograms per 100 g"`
	Source      string   `yaml:"source" desc:"who says so: supplier's sheet, laboratory, date"`
}
