package fill

import (
	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

// smallProblem draws problems small enough to try every plan, with many ties: coarse masses, few values, alike packs, minima
// that can't always be made, packs of no or negative value, and pieces.
func smallProblem(t *rapid.T) Problem {
	outputs := rapid.IntRange(1, 3).Draw(t, "outputs")
	grain := rapid.SampledFrom([]unit.Mass{unit.Gram, 100 * unit.Gram, unit.Ounce, 7}).Draw(t, "grain")
	p := Problem{PieceMass: make([]unit.Mass, outputs)}
	for j := range outputs {
		p.Stock = append(p.Stock, grain*unit.Mass(rapid.IntRange(0, 90).Draw(t, "stock"))+unit.Mass(rapid.IntRange(0, 1).Draw(t, "crumb")))
		if rapid.IntRange(0, 3).Draw(t, "counted") == 0 {
			p.PieceMass[j] = grain * 3
		}
	}
	for i := range rapid.IntRange(0, 4).Draw(t, "packs") {
		k := Pack{Value: int64(rapid.IntRange(-1, 4).Draw(t, "value")), Max: rapid.IntRange(-1, 6).Draw(t, "max")}
		k.Min = rapid.IntRange(0, 2).Draw(t, "min")
		if k.Max >= 0 {
			k.Min = min(k.Min, k.Max)
		}
		for j := range outputs {
			amount := rapid.IntRange(0, 6).Draw(t, "amount")
			switch {
			case amount == 0 && (j < outputs-1 || len(k.Needs) > 0):
			case p.PieceMass[j] > 0:
				k.Needs = append(k.Needs, Need{Output: j, Pieces: amount/2 + 1})
			default:
				k.Needs = append(k.Needs, Need{Output: j, Mass: grain * unit.Mass(amount+4)})
			}
		}
		if i > 0 && rapid.IntRange(0, 3).Draw(t, "alike") == 0 {
			k.Needs, k.Value = p.Packs[i-1].Needs, p.Packs[i-1].Value
		}
		p.Packs = append(p.Packs, k)
	}
	return p
}

// trading draws orders, minimum stock, supplies that packs share, goals in any order, and minima that may be softened.
func trading(t *rapid.T, p Problem) Problem {
	for range rapid.IntRange(0, 3).Draw(t, "supplies") {
		p.Supplies = append(p.Supplies, Supply{Have: rapid.IntRange(0, 8).Draw(t, "have")})
	}
	for i := range p.Packs {
		k := &p.Packs[i]
		for j := range p.Supplies {
			if n := rapid.IntRange(-1, 2).Draw(t, "takes"); n > 0 {
				k.Uses = append(k.Uses, Use{j, n})
			}
		}
		if rapid.Bool().Draw(t, "wanted") {
			k.Ordered, k.Penalty = rapid.IntRange(0, 4).Draw(t, "ordered"), int64(rapid.IntRange(0, 3).Draw(t, "penalty"))
			k.Keep = rapid.IntRange(0, 3).Draw(t, "keep")
		}
	}
	p.Soften = rapid.Bool().Draw(t, "soften")
	if rapid.Bool().Draw(t, "own goals") {
		all := rapid.Permutation([]Rule{ByOrders, ByKeep, ByValue, ByLeft}).Draw(t, "goals")
		p.Goals = all[:rapid.IntRange(1, 4).Draw(t, "how many goals")]
	}
	return p
}
