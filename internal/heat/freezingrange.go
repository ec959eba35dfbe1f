package heat

// FreezingRange is a freezing point with its doubt, LowC <= UsualC <= HighC.
type FreezingRange struct{ LowC, UsualC, HighC float64 }

// The range in which soups start to freeze: derived in the reference of this project from recipes, not measured.
const (
	ColdestSoupFreezesC = -1.5
	WarmestSoupFreezesC = -0.6
)

// otherAsh stands for minerals that are not table salt: potassium chloride, with as many particles as salt.
var otherAsh = SoluteKind{0.07455, 1.85}

// FreezingRange is where the composition starts to freeze if these solutes are known to be dissolved. UsualC is FreezingPointC of what is
// named, and so is HighC, because whatever is not named (minerals, acids, sugars) can only lower it. LowC is the coldest soup, or where
// the food would start if all its ash that is not named as Salt were dissolved minerals and all its carbohydrate that is not named were
// sugar, if that is colder; never below -6 °C, where the law ends. With nothing named that dissolves, it is DefaultFreezingPointC in the
// range of soups: at -1.5 instead of -0.8 °C a food keeps nearly twice as much liquid water at every temperature below.
//
// For a food that is mostly lean meat it is too warm: those are printed with -1.7 to -2.2 °C, and no salt explains that.
// Errors: *RangeError as FreezingPointC.
func (c Composition) FreezingRange(solutes ...Solute) (FreezingRange, error) {
	if err := c.Check(); err != nil {
		return FreezingRange{}, err
	}
	usualC, err := FreezingPointC(c.Water, solutes...)
	if err != nil {
		return FreezingRange{}, err
	}
	if usualC > HighestFreezingPointC {
		return FreezingRange{ColdestSoupFreezesC, DefaultFreezingPointC, WarmestSoupFreezesC}, nil
	}
	ash, carb := c.Ash, c.Carb
	for _, s := range solutes {
		switch s.Kind {
		case Salt:
			ash -= s.Share
		case Glucose, Sucrose:
			carb -= s.Share
		}
	}
	all := append([]Solute{{otherAsh, max(0, ash)}, {Sucrose, max(0, carb)}}, solutes...)
	lowC, err := FreezingPointC(c.Water, all...)
	if err != nil {
		lowC = lowestIdealC
	}
	return FreezingRange{min(lowC, usualC, ColdestSoupFreezesC), usualC, usualC}, nil
}
