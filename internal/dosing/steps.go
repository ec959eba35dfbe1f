package dosing

import "kettlefrost/internal/unit"

// Act is what is done in a step.
type Act string

// Acts.
const (
	HoldBack  Act = "hold-back"
	MixDry    Act = "mix-dry"
	StirInOil Act = "stir-into-oil"
	StartJar  Act = "start-blender"
	Sprinkle  Act = "sprinkle"
	Blend     Act = "blend"
	StirCold  Act = "stir-cold"
	StirIn    Act = "stir-in"
	Heat      Act = "heat"
	Boil      Act = "boil"
	Soak      Act = "soak"
	AddAfter  Act = "add-after" // what must not go in before
)

// Step is one thing to do, in order.
type Step struct {
	Act     Act
	What    string
	Mass    unit.Mass // of What; 0: all there is
	Into    string
	Times   int // as often; a jar is filled once for each load
	Seconds int // each time; 0: not said
	AtC     float64
	Note    string
	Source  string
}

const common = "common practice"

// steps is the order in which it is done.
func (d Dispersion) steps(s Spread) []Step {
	var all []Step
	for _, h := range d.HeldBack {
		all = append(all, Step{Act: HoldBack, What: h.Name, Mass: h.Mass, Times: 1, Note: "it is part of the recipe's liquid, not more", Source: common})
	}
	switch s.Way {
	case DryBlend:
		all = append(all,
			Step{Act: MixDry, What: s.Substance, Mass: s.Dose, Into: d.Carrier.Name, Times: 1, Seconds: 60, Source: blendSource},
			Step{Act: Sprinkle, What: "the dry mix", Mass: d.Mix, Into: "the pot", Times: 1, Seconds: 60, Note: "while it is stirred, not in one heap", Source: blendSource})
		if s.SlowStir {
			all = append(all, Step{Act: Soak, What: "the pot", Times: 1, Seconds: 2 * 3600, Note: "stir now and then", Source: "10 parts and about 2 h where it is stirred slowly (wiki page on xanthan, read)"})
		}
	case OilSlurry:
		all = append(all,
			Step{Act: StirInOil, What: s.Substance, Mass: s.Dose, Into: d.Carrier.Name, Times: 1, Seconds: 30, Source: blendSource},
			Step{Act: StirIn, What: "the slurry", Mass: d.Mix, Into: "the pot", Times: 1, Seconds: 60, Note: "at once: it settles; stir hard", Source: blendSource})
	case PreHydrate:
		all = append(all, d.jarSteps(s)...)
	case ColdSlurry:
		all = append(all,
			Step{Act: StirCold, What: s.Substance, Mass: s.Dose, Into: "the liquid held back, cold", Times: 1, Seconds: 30, Source: common},
			Step{Act: StirIn, What: "the slurry", Mass: d.Mix, Into: "the boiling pot", Times: 1, Note: "stir it up again first", Source: common},
			Step{Act: Boil, What: "the pot", Times: 1, Seconds: boilCornStarchS, AtC: 100, Note: "it has to reach a full boil", Source: "a full boil: web note, read; 2 min: common practice"})
	case Dissolve:
		all = append(all,
			Step{Act: StirIn, What: s.Substance, Mass: s.Dose, Into: "the warm liquid", Times: 1, Note: "until it is clear at the bottom", Source: common},
			Step{Act: AddAfter, What: "the cheese, grated", Into: "the hot liquid", Times: 1, Note: "a handful at a time, at a low heat", Source: common})
	}
	return append(all, after(s)...)
}

func (d Dispersion) jarSteps(s Spread) []Step {
	n, first := len(d.Loads), d.Loads[0] // the largest: shares differ by a nanogram at most
	return []Step{
		{Act: StartJar, What: "the liquid held back", Mass: first.Liquid, Into: "the blender", Times: n, Note: "running, with a hole in its middle", Source: common},
		{Act: Sprinkle, What: s.Substance, Mass: first.Powder, Into: "the running blender", Times: n, Seconds: 15, Source: common},
		{Act: Blend, What: "the mix", Times: n, Seconds: 60, Note: "lumps keep their inside dry: look for them, and blend again", Source: "hydration depends on dispersion: Handbook of Hydrocolloids, xanthan chapter (read); the seconds are common practice"},
		{Act: StirIn, What: "the mix", Mass: d.Mix, Into: "the pot", Times: 1, Seconds: 60, Source: common},
	}
}

// after is what a substance needs once it is in.
func after(s Spread) []Step {
	switch s.Substance {
	case LocustBean:
		return []Step{{Act: Heat, What: "the pot", Times: 1, AtC: 85, Note: "it takes up water from 75 to 85 °C and is at its thickest when it has been at 95 °C and has cooled", Source: "web page, read"}}
	case Xanthan:
		return []Step{{Act: AddAfter, What: "most of the salt", Into: "the pot", Times: 1, Note: "salt before it slows its taking up of water", Source: common}}
	}
	return nil
}
