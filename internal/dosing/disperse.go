package dosing

import (
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

// Way is how a powder is got into a liquid without lumps.
type Way string

// Ways.
const (
	DryBlend   Way = "dry-blend"   // mixed dry with ten times its weight of sugar, starch or salt
	OilSlurry  Way = "oil-slurry"  // stirred into ten times its weight of oil
	PreHydrate Way = "pre-hydrate" // blended into some of the recipe's liquid
	ColdSlurry Way = "cold-slurry" // starch, in twice its weight of the recipe's cold liquid
	Dissolve   Way = "dissolve"    // citrate, stirred into the warm liquid before the cheese
)

// Portion is some of an ingredient of the recipe.
type Portion struct {
	Name string
	Mass unit.Mass
}

// Pourable is a liquid of the recipe.
type Pourable struct {
	Portion
	Hot bool // too hot for a blender that is more than half full
}

// Jar is a blender's.
type Jar struct {
	Volume unit.Volume
	Fill   unit.Share // that is filled at most; 0: two thirds cold, half hot (common practice)
}

// Spread is what is to be got into a pot.
type Spread struct {
	Substance string
	Dose      unit.Mass
	Way       Way
	Liquids   []Pourable // of the recipe, the one to hold back first comes first
	Carrier   Portion    // of the recipe: what it is blended or slurried with, and how much of that there is
	Share     unit.Share // of the substance in a pre-hydrate; 0: 1 %
	Jar       Jar        // of a pre-hydrate
	SlowStir  bool       // nothing stirs hard: a dry blend then has to soak
}

// Load is one filling of the jar.
type Load struct{ Powder, Liquid unit.Mass }

// Dispersion is a way worked out. Nothing is added to the recipe: what is held back and what goes into the pot at once are all its liquid.
type Dispersion struct {
	Way      Way
	HeldBack []Portion // of the liquids, to take the powder
	AtOnce   []Portion // the rest of the liquids
	Carrier  Portion   // of the recipe's
	Mix      unit.Mass // the powder with what it is in
	Share    float64   // of the powder in it
	Loads    []Load    // of a jar
	Steps    []Step
	Found    finding.List
}

// How strong mixes are. Ten parts of a disperser or five at least: Handbook of Hydrocolloids, xanthan (read); the rest is common practice.
const (
	carrierParts, fewestParts = 10, 5
	slurryParts               = 2
	usualPreHydrate           = unit.PerCent
	strongestPreHydrate       = 3 * unit.PerCent / 2
	blendSource               = "10 parts of a disperser, 5 at least: Handbook of Hydrocolloids, xanthan chapter (read)"
	strongSource              = "1 % xanthan is already over 600 cP (21 CFR 172.695, read); 1-1.5 % as the limit without a strong mixer is common practice"
)

// Disperse works a way out. Errors: *InputError, where the recipe has not enough of what is needed.
func Disperse(s Spread) (Dispersion, error) {
	if err := s.check(); err != nil {
		return Dispersion{}, err
	}
	d := Dispersion{Way: s.Way, Mix: s.Dose}
	var err error
	switch s.Way {
	case DryBlend, OilSlurry:
		err = d.carry(s)
	case PreHydrate:
		err = d.hydrate(s)
	case ColdSlurry:
		err = d.hold(s, slurryParts*s.Dose)
	case Dissolve:
		err = d.hold(s, 0)
	default:
		err = &InputError{"the way", fmt.Sprintf("is %q", s.Way), "take dry-blend, oil-slurry, pre-hydrate, cold-slurry or dissolve"}
	}
	if err != nil {
		return Dispersion{}, err
	}
	d.Share = ratio(s.Dose, d.Mix)
	d.Steps = d.steps(s)
	return d, nil
}

// carry takes ten times the dose of what the recipe has of a disperser, or what there is of it down to five times.
func (d *Dispersion) carry(s Spread) error {
	need, least := min(carrierParts*s.Dose, s.Carrier.Mass), fewestParts*s.Dose
	if s.SlowStir {
		least = carrierParts * s.Dose
	}
	if s.Carrier.Mass < least {
		return &InputError{s.Carrier.Name, fmt.Sprintf("is %s in the recipe, and %s of %s need %s at least", Grams(s.Carrier.Mass), Grams(s.Dose), s.Substance, Grams(least)),
			"take another way, or add some and count it"}
	}
	d.Carrier = Portion{s.Carrier.Name, need}
	if need < carrierParts*s.Dose {
		d.Found = append(d.Found, finding.Finding{Code: "disperser-short", Severity: finding.Note, Where: s.Substance,
			Message: fmt.Sprintf("%s is %.1f times the powder, and 10 times is better", s.Carrier.Name, ratio(need, s.Dose)), Source: blendSource,
			Figures: []finding.Figure{plain("parts", ratio(need, s.Dose)), plain("better", carrierParts)}, Fix: "mix it longer, and sprinkle it slowly"})
	}
	if err := d.hold(s, 0); err != nil {
		return err
	}
	d.Mix += need
	return nil
}

// hydrate holds liquid back for a mix of the strength asked for, or as strong as the liquid makes it, and shares it out over the jar.
func (d *Dispersion) hydrate(s Spread) error {
	share := s.Share
	if share == 0 {
		share = usualPreHydrate
	}
	var have unit.Mass
	for _, l := range s.Liquids {
		have += l.Mass
	}
	need := unit.MassKg(s.Dose.Kg()/share.F()) - s.Dose
	if strongest := ratio(s.Dose, s.Dose+have); need > have && strongest > strongestPreHydrate.F() {
		return &InputError{"the recipe's liquid", fmt.Sprintf("is %s, which would make a mix of %.1f %%", have, 100*strongest), "blend it dry or in oil: " + strongSource}
	}
	if err := d.hold(s, min(need, have)); err != nil {
		return err
	}
	if made := ratio(s.Dose, d.Mix); made > strongestPreHydrate.F()+1e-9 {
		d.Found = append(d.Found, finding.Finding{Code: "pre-hydrate-strong", Severity: finding.Caution, Where: s.Substance,
			Message: fmt.Sprintf("%.1f %% is too thick for a weak mixer", 100*made), Figures: []finding.Figure{percent("share", made), percent("limit", strongestPreHydrate.F())},
			Source: strongSource, Fix: "hold more liquid back"})
	}
	return d.fillJars(s)
}

// hold takes some of the liquids, the first first, and leaves the rest for the pot.
func (d *Dispersion) hold(s Spread, need unit.Mass) error {
	d.Mix += need
	for _, l := range s.Liquids {
		take := min(need, l.Mass)
		need -= take
		if take > 0 {
			d.HeldBack = append(d.HeldBack, Portion{l.Name, take})
		}
		if l.Mass > take {
			d.AtOnce = append(d.AtOnce, Portion{l.Name, l.Mass - take})
		}
	}
	if need > 0 {
		return &InputError{"the recipe's liquid", fmt.Sprintf("is short by %s of what %s needs", Grams(need), s.Substance), "take another way, or a smaller batch of it"}
	}
	return nil
}

// manyLoads is when blending in a jar becomes a task of its own: judgement.
const manyLoads = 6

// fillJars shares the mix out evenly. A litre of it weighs a kilogram.
func (d *Dispersion) fillJars(s Spread) error {
	if s.Jar.Volume == 0 {
		d.Loads = []Load{{s.Dose, d.Mix - s.Dose}}
		return nil
	}
	holds := unit.MassKg(s.Jar.Volume.L() * d.fill(s).F())
	if holds <= 0 {
		return &InputError{"the jar", "holds nothing", "give its volume, and how full it may be"}
	}
	count := int64((d.Mix + holds - 1) / holds)
	if count > 1000 {
		return &InputError{"the jar", fmt.Sprintf("would be filled %d times", count), "take a larger one, or another way"}
	}
	even := make([]int64, count)
	for i := range even {
		even[i] = 1
	}
	powder, err1 := s.Dose.Split(even...)
	liquid, err2 := (d.Mix - s.Dose).Split(even...)
	if err1 != nil || err2 != nil {
		return &InputError{"the jar", fmt.Sprintf("is filled %d times", count), "take a larger one"}
	}
	for i := range powder {
		d.Loads = append(d.Loads, Load{powder[i], liquid[i]})
	}
	if count > manyLoads {
		d.Found = append(d.Found, finding.Finding{Code: "many-jars", Severity: finding.Note, Where: s.Substance,
			Message: fmt.Sprintf("%d jars are needed for %s", count, d.Mix), Figures: []finding.Figure{plain("jars", float64(count)), massFigure("a jar", holds)},
			Source: "judgement", Fix: "blend it in its own pot with a strong mixer, or take dry-blend or oil-slurry"})
	}
	return nil
}

// fill is how full the jar may be: half where anything held back is hot.
func (d *Dispersion) fill(s Spread) unit.Share {
	if s.Jar.Fill > 0 {
		return s.Jar.Fill
	}
	for _, l := range s.Liquids {
		for _, h := range d.HeldBack {
			if l.Hot && l.Name == h.Name {
				return unit.Whole / 2
			}
		}
	}
	return 2 * unit.Whole / 3
}

func (s Spread) check() error {
	if err := positive(s.Substance, s.Dose); err != nil {
		return err
	}
	for _, l := range s.Liquids {
		if err := positive(l.Name, l.Mass); err != nil {
			return err
		}
	}
	switch {
	case len(s.Liquids) == 0:
		return &InputError{"the recipe", "has no liquid", "give the liquids that the powder goes into"}
	case s.Carrier.Mass < 0:
		return &InputError{s.Carrier.Name, "weighs less than nothing", "give what the recipe has of it"}
	case s.Share < 0 || s.Share > 10*unit.PerCent:
		return &InputError{"the pre-hydrate", fmt.Sprintf("is %g %% strong", 100*s.Share.F()), "give up to 10 %, or 0 for 1 %"}
	case s.Jar.Volume < 0 || s.Jar.Fill < 0 || s.Jar.Fill > unit.Whole:
		return &InputError{"the jar", "has no such volume or filling", "give its volume, and a share of it up to 100 %"}
	}
	return nil
}
