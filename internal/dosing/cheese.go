package dosing

import (
	"fmt"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

// Calcium says whether a cheese's casein is held together by calcium that an emulsifying salt has to bind.
type Calcium int

const (
	Bound Calcium = iota // rennet cheese: cheddar, gouda, parmesan
	Taken                // process cheese: it already contains emulsifying salts
	None                 // cream cheese and fresh acid curd: needs none (common practice)
)

// Makeup is what a part of a sauce is made of, as shares of its mass.
type Makeup struct {
	Water, Fat, Protein float64
	SodiumMgKg          float64
}

// Part is something in a cheese sauce.
type Part struct {
	Name string
	Mass unit.Mass
	Makeup
}

// Cheese is a cheese in a sauce.
type Cheese struct {
	Part
	Holds       Calcium
	CalciumMgKg float64 // of Bound cheese: 7100 in cheddar
}

// CheeseSauce is what is to become one smooth sauce.
type CheeseSauce struct {
	Cheeses []Cheese
	Liquids []Part    // what is added and runs: milk, water, stock, wine
	Others  []Part    // flour, butter, spices: they count in the whole alone
	Acid    unit.Mass // of all that: wine, tomato, lemon juice
	PH      float64   // of the sauce; 0: not known
	Model   CalciumModel
}

// CalciumModel scales a dose that is meant for cheddar: dose × (calcium of the cheeses / calcium of cheddar), held between two ends. It is our
// own and unproven: 3 g of the salt per 100 g of cheddar is 0.6 mol of citrate per mol of calcium, and the same is taken for other cheeses.
type CalciumModel struct{ CheddarMgKg, Least, Most float64 }

// DefaultCalcium is cheddar with 710 mg/100 g (USDA SR28, NDB 01009); the ends are judgement.
var DefaultCalcium = CalciumModel{CheddarMgKg: 7100, Least: 0.6, Most: 1.5}

// CitrateSodium is the sodium in trisodium citrate dihydrate by mass: 3 × 22.990 / 294.10.
const CitrateSodium = 3 * 22.990 / 294.10

// CitrateDoses is what is to be known of trisodium citrate dihydrate in a cheese sauce.
type CitrateDoses struct {
	Doses          []Dose  // of the cheese, of the added liquid, of both together: three customs, none of them proved better
	Factor         float64 // by the calcium of the cheeses that need the salt, held between the ends of the model
	FactorFree     float64 // the same, not held
	NeedsSalt      float64 // share of the cheese that needs it
	LiquidOfCheese float64
	Becomes        string // by liquid and cheese
	Found          finding.List
	sauce          CheeseSauce
}

// ceiling is used as a warning: a kitchen's sauce is none of the cheeses that the law standardizes.
const (
	ceiling   = 3 * unit.PerCent
	ceilingIs = "3 % of the whole: the law's limit for process cheese (3 CCR 425, read; 21 CFR 133.169 from memory), here a warning"
)

// Citrate is how much trisodium citrate dihydrate a cheese sauce takes, by each of the three customs. Process cheese and fresh curd take none.
// The dihydrate is counted as if it were all solids. Errors: *InputError.
func Citrate(s CheeseSauce) (CitrateDoses, error) {
	if s.Model == (CalciumModel{}) {
		s.Model = DefaultCalcium
	}
	if err := s.check(); err != nil {
		return CitrateDoses{}, err
	}
	cheese, liquid := s.cheese(), sum(s.Liquids)
	c := CitrateDoses{LiquidOfCheese: ratio(liquid, cheese), sauce: s}
	c.FactorFree, c.NeedsSalt = s.calcium()
	c.Factor = min(max(c.FactorFree, s.Model.Least), s.Model.Most)
	c.Becomes = becomes(c.LiquidOfCheese)
	if c.NeedsSalt > 0 {
		for basis, base := range map[Basis]unit.Mass{OfCheese: cheese, OfLiquid: liquid, OfBoth: cheese + liquid} {
			c.add(basis, base)
		}
		sortDoses(c.Doses)
	}
	c.Found = append(c.Found, c.findings()...)
	return c, nil
}

// add is the dose by one custom, for the part of the cheese that needs the salt.
func (c *CitrateDoses) add(basis Basis, base unit.Mass) {
	l, ok := levelFor("trisodium citrate", "cheese sauce", basis)
	if !ok || base == 0 {
		return
	}
	for _, x := range []*unit.Share{&l.Low, &l.Target, &l.High} {
		*x = unit.ShareOf(x.F() * c.Factor * c.NeedsSalt)
	}
	d := l.of(base)
	if c.Factor != 1 {
		d.Confirm = strings.TrimPrefix(d.Confirm+"; scaled by calcium: our own model, unproven", "; ")
	}
	d.cap(c.sauce.mostSalt(), ceilingIs)
	c.Doses = append(c.Doses, d)
}

// By is the dose by one custom.
func (c CitrateDoses) By(basis Basis) (Dose, bool) {
	for _, d := range c.Doses {
		if d.Basis == basis {
			return d, true
		}
	}
	return Dose{}, false
}

// mostSalt is the most that stays within the ceiling of the whole, the salt itself included.
func (s CheeseSauce) mostSalt() unit.Mass {
	rest := s.cheese() + sum(s.Liquids) + sum(s.Others)
	const ofRest = ceiling * unit.Whole / (unit.Whole - ceiling)
	return ofRest.Of(rest)
}

func (s CheeseSauce) cheese() unit.Mass {
	var m unit.Mass
	for _, c := range s.Cheeses {
		m += c.Mass
	}
	return m
}

func sum(parts []Part) unit.Mass {
	var m unit.Mass
	for _, p := range parts {
		m += p.Mass
	}
	return m
}

// calcium is the calcium of the cheeses that need the salt, by that of cheddar, and their share of all cheese.
func (s CheeseSauce) calcium() (factor, needs float64) {
	var needy unit.Mass
	var mg float64
	for _, c := range s.Cheeses {
		if c.Holds == Bound {
			needy += c.Mass
			mg += c.CalciumMgKg * c.Mass.Kg()
		}
	}
	if needy == 0 {
		return 0, 0
	}
	return mg / needy.Kg() / s.Model.CheddarMgKg, ratio(needy, s.cheese())
}

// becomes is the texture by liquid and cheese (secondary reports, read).
func becomes(liquidOfCheese float64) string {
	switch {
	case liquidOfCheese <= 0.35:
		return "sets to a firm slice"
	case liquidOfCheese <= 0.85:
		return "a thick dip"
	case liquidOfCheese <= mostLiquid:
		return "a pouring sauce"
	}
	return "thinner than the formulas that were read: thicken it another way"
}

func (s CheeseSauce) check() error {
	if len(s.Cheeses) == 0 {
		return &InputError{"the sauce", "has no cheese", "give at least one"}
	}
	for _, c := range s.Cheeses {
		if err := c.Part.check(); err != nil {
			return err
		}
		if c.Holds == Bound && !(c.CalciumMgKg > 0 && c.CalciumMgKg < 30_000) {
			return &InputError{c.Name, fmt.Sprintf("has %g mg of calcium in a kilogram", c.CalciumMgKg), "give the table's figure: cheddar has 7100"}
		}
	}
	for _, p := range append(append([]Part{}, s.Liquids...), s.Others...) {
		if err := p.check(); err != nil {
			return err
		}
	}
	m := s.Model
	switch {
	case s.Acid < 0 || s.Acid > sum(s.Liquids)+sum(s.Others):
		return &InputError{"the acid part", "is not within the liquids and the rest", "give the mass of wine, tomato and lemon that is among them"}
	case !(m.CheddarMgKg > 0 && m.Least > 0 && m.Least <= m.Most && m.Most < 10):
		return &InputError{"the calcium model", fmt.Sprintf("is %+v", m), "give the calcium of cheddar and two ends, the lower one first"}
	}
	return nil
}

func (p Part) check() error {
	if err := positive(p.Name, p.Mass); err != nil {
		return err
	}
	if !(p.Water >= 0 && p.Fat >= 0 && p.Protein >= 0 && p.Water+p.Fat+p.Protein <= 1.02 && p.SodiumMgKg >= 0) {
		return &InputError{p.Name, fmt.Sprintf("is %+v", p.Makeup), "give shares of its mass, 0 to 1"}
	}
	return nil
}
