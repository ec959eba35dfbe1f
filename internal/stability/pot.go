package stability

import "fmt"

// Role is what a component does in a pot.
type Role string

// Roles. A component that fits none is Other: nothing is then known of it.
const (
	HardCheese      Role = "hard cheese"
	SoftCheese      Role = "soft cheese" // cream cheese too
	ProcessCheese   Role = "process cheese"
	Cream           Role = "cream"
	CulturedCream   Role = "cultured cream"
	Yogurt          Role = "yogurt"
	Milk            Role = "milk"
	Flour           Role = "flour"
	NativeStarch    Role = "native starch"
	WaxyStarch      Role = "waxy starch"
	ModifiedStarch  Role = "modified starch" // made for freezing
	Potato          Role = "potato"
	Pasta           Role = "pasta"
	Rice            Role = "rice"
	Pulses          Role = "pulses"
	WateryVegetable Role = "watery vegetable" // lettuce and other leaves, cucumber, radish, cabbage, celery
	Vegetable       Role = "vegetable"
	EggWhite        Role = "egg white"
	Egg             Role = "egg" // yolk or whole, out of its shell
	EggInShell      Role = "egg in shell"
	Custard         Role = "custard"
	Mayonnaise      Role = "mayonnaise"
	Gelatin         Role = "gelatin"
	Gum             Role = "gum"
	EmulsifyingSalt Role = "emulsifying salt"
	Seasoning       Role = "herb or spice"
	Meat            Role = "meat"
	Acid            Role = "acid" // wine, tomato, lemon juice, vinegar
	Topping         Role = "topping"
	Fat             Role = "fat" // butter, oil
	Liquid          Role = "liquid"
	Other           Role = "other"
)

var roles = map[Role]bool{HardCheese: true, SoftCheese: true, ProcessCheese: true, Cream: true, CulturedCream: true, Yogurt: true, Milk: true, Flour: true, NativeStarch: true,
	WaxyStarch: true, ModifiedStarch: true, Potato: true, Pasta: true, Rice: true, Pulses: true, WateryVegetable: true, Vegetable: true, EggWhite: true, Egg: true,
	EggInShell: true, Custard: true, Mayonnaise: true, Gelatin: true, Gum: true, EmulsifyingSalt: true, Seasoning: true, Meat: true, Acid: true, Topping: true, Fat: true,
	Liquid: true, Other: true}

// StarchKind is where a native starch is from.
type StarchKind string

// Native starches.
const (
	Corn          StarchKind = "corn"
	PotatoStarch  StarchKind = "potato"
	RiceStarch    StarchKind = "rice"
	Tapioca       StarchKind = "tapioca"
	UnknownStarch StarchKind = "" // taken as corn, the worst
)

// GumKind is which gum.
type GumKind string

// Gums that something is known of.
const (
	Xanthan    GumKind = "xanthan"
	LocustBean GumKind = "locust bean"
	Guar       GumKind = "guar"
	OtherGum   GumKind = ""
)

// Cooked is how far a component is cooked before it is frozen.
type Cooked int

// Degrees of cooking. What is not said is taken as raw where raw is worse (eggs, watery vegetables), else as cooked through.
const (
	CookingNotSaid Cooked = iota
	Through
	Undercooked
	Raw
)

// Joins is how a component comes into the pot.
type Joins int

// Ways into the pot. What is not said is taken as stirred in cold.
const (
	JoiningNotSaid Joins = iota
	CookedIn             // hot, with the rest
	StirredCold          // into the pot when it is cold
	Apart                // frozen in a pack of its own
	AtReheating          // not frozen with it
)

// Facts are what a component is made of, as shares of its mass.
type Facts struct{ Water, Fat, Protein, Sugars, Starch float64 }

// Component is something in the pot.
type Component struct {
	Name   string
	MassKg float64
	Role   Role
	Facts  Facts
	Starch StarchKind // of NativeStarch
	Gum    GumKind    // of Gum
	Drift  Drift      // of Seasoning
	Cooked Cooked
	Joins  Joins
	Pureed bool // or melted and blended until smooth
	Waxy   bool // of Potato: a firm, waxy kind in large pieces
	Salted bool // of Egg: mixed with salt or sugar
	Soft   bool // of vegetables: simmered until soft, as it is meant to be
	Plant  bool // of milk and cream: of plants, such as coconut. It separates as cream does, but there is no casein in it to curdle
	Inside bool // set within pieces that are cooked firm, such as meatballs: no part of the sauce
}

// Pot is a whole dish as it goes into the freezer.
type Pot struct {
	Components []Component
	PH         float64 // 0: not known
	FrontMMH   float64 // how fast it freezes inwards (FrontMMH), mm/h; 0: not known, taken as slow
	Weeks      float64 // that it is to be kept; 0: not known
	EatenCold  bool    // not heated again
	AirInPack  bool
}

// InputError says which figure makes no sense, and what would do.
type InputError struct{ What, Reason, Fix string }

// Error is one line.
func (e *InputError) Error() string {
	return fmt.Sprintf("stability: %s %s; %s", e.What, e.Reason, e.Fix)
}

// FrontMMH is how fast a flat pack freezes inwards, mm/h: half its thickness in the time until its middle is frozen where both sides are
// cold, all of it where one is. Errors: *InputError.
func FrontMMH(thickMM, hours float64, bothSides bool) (float64, error) {
	if !(thickMM > 0 && thickMM < 1000) || !(hours > 0 && hours < 10_000) {
		return 0, &InputError{"the pack", fmt.Sprintf("is %g mm thick and freezes in %g h", thickMM, hours), "give both, above 0"}
	}
	if bothSides {
		thickMM /= 2
	}
	return thickMM / hours, nil
}

func (p Pot) check() error {
	if len(p.Components) == 0 {
		return &InputError{"the pot", "is empty", "give its components"}
	}
	for _, c := range p.Components {
		f := c.Facts
		switch {
		case !(c.MassKg > 0 && c.MassKg < 1e6):
			return &InputError{c.Name, fmt.Sprintf("weighs %g kg", c.MassKg), "give its mass, above 0"}
		case !roles[c.Role]:
			return &InputError{c.Name, fmt.Sprintf("is %q", c.Role), "take one of the roles, or other"}
		case !(f.Water >= 0 && f.Fat >= 0 && f.Protein >= 0 && f.Sugars >= 0 && f.Starch >= 0 && f.Water+f.Fat+f.Protein+f.Sugars+f.Starch <= 1.03):
			return &InputError{c.Name, fmt.Sprintf("is made of %+v", f), "give shares of its mass, 0 to 1 together"}
		}
	}
	switch {
	case p.PH != 0 && !(p.PH >= 1 && p.PH <= 12):
		return &InputError{"the pH", fmt.Sprintf("is %g", p.PH), "give 1 to 12, or 0 if it is not known"}
	case !(p.FrontMMH >= 0 && p.FrontMMH < 10_000):
		return &InputError{"the freezing front", fmt.Sprintf("moves %g mm/h", p.FrontMMH), "give 0 if it is not known"}
	case !(p.Weeks >= 0 && p.Weeks < 1000):
		return &InputError{"the storage", fmt.Sprintf("lasts %g weeks", p.Weeks), "give 0 if it is not known"}
	}
	return nil
}

// frozen are the components that freeze together.
func (p Pot) frozen() []Component {
	var all []Component
	for _, c := range p.Components {
		if c.Joins != AtReheating && c.Joins != Apart {
			all = append(all, c)
		}
	}
	return all
}

// raw says whether a component is raw, or may be and would be worse for it.
func (c Component) raw() bool {
	return c.Cooked == Raw || c.Cooked == CookingNotSaid && c.rawMatters()
}

// spared is why a rule says nothing of a component after all; empty where it does.
func (c Component) spared(r rule) string {
	switch {
	case c.Inside && r.spread == dispersed && !c.raw():
		return "it is set within cooked pieces and cannot separate"
	case c.Soft && r.code == "vegetables-soft":
		return "it is simmered until soft anyway"
	}
	return ""
}

func (c Component) rawMatters() bool { return c.Role == Egg || c.Role == WateryVegetable }

// joiningMatters says whether the tables tell cooked in from stirred in cold.
func (c Component) joiningMatters() bool { return c.Role == Cream || c.Role == HardCheese }

// InPieces says whether a component is no part of the sauce.
func (c Component) InPieces() bool {
	if c.Inside {
		return true
	}
	switch c.Role {
	case Potato, Pasta, Rice, Pulses, Vegetable, WateryVegetable, Meat, EggWhite, EggInShell, Topping:
		return !c.Pureed
	}
	return false
}
