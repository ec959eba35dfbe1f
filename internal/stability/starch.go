package stability

// weeping is how readily a starch paste weeps after freezing, 0 to 1: ranks, not measurements. White sauces with corn and potato starch were
// hurt most, waxy corn and rice less (Sanz et al. 2009); slowly frozen corn paste goes spongy, wheat only slightly (Ferrero et al. 1993); waxy
// starch has almost no amylose to set (On Food and Cooking); tapioca lost over 10 % in three cycles (read; its place is judgement).
var weeping = map[StarchKind]float64{Corn: 0.9, PotatoStarch: 0.9, UnknownStarch: 0.9, Tapioca: 0.7, RiceStarch: 0.4}

const (
	weepFlour    = 0.6
	weepWaxy     = 0.15
	weepModified = 0.05 // the trade's choice for frozen sauces (trade magazines, read)
)

const (
	fastFront = 1.0 // mm/h: slower, corn paste goes spongy (Ferrero et al. 1993)
	// fastKeeps is what is left of a starch's weeping when it freezes fast: rice gel lost 18.02 % fast and 38.14 % slow (Charoenrein).
	fastKeeps = 18.02 / 38.14
	fullPaste = 0.04 // starch in the sauce from which it sets like the gels of the trials (4-10 %)
)

// Credits of gum, sugar: how much of the weeping is held back, 0 to 1. Ranks again: xanthan more than locust bean (Sanz); xanthan 0.3 % kept
// pastes smooth at any speed (Ferrero), 0.50 was better than 0.25 and locust bean 0.50 worse than 0.25 (Muadklay); guar made it worse, so it has
// no credit; more sucrose up to 20 %, less weeping (two abstracts).
const (
	xanthanFull, xanthanMost   = 0.003, 0.005
	xanthanCredit, xanthanLast = 0.7, 0.1
	locustBest, locustWorse    = 0.0025, 0.005
	locustCredit, locustLoses  = 0.3, 0.1
	sugarFull, sugarCredit     = 0.20, 0.3
)

// Paste is what decides how a sauce thickened with starch comes out of the freezer. Shares are of the sauce, without what is in pieces.
type Paste struct {
	Flour, Waxy, Modified float64 // starch from each
	Native                map[StarchKind]float64
	Xanthan, LocustBean   float64
	Guar                  float64 // no credit
	Sugars                float64
	FrontMMH              float64 // 0: not known, taken as slow
}

// Starch is all starch in the sauce.
func (p Paste) Starch() float64 {
	sum := p.Flour + p.Waxy + p.Modified
	for _, x := range p.Native {
		sum += x
	}
	return sum
}

// WeepScore is 0 to 1: whether a sauce weeps, goes spongy or looks curdled after thawing. It orders pots; it is no share of water.
func WeepScore(p Paste) float64 {
	weeps := weepFlour*p.Flour + weepWaxy*p.Waxy + weepModified*p.Modified
	for kind, share := range p.Native {
		weeps += weeping[kind] * share
	}
	score := weeps / max(fullPaste, p.Starch())
	if p.FrontMMH >= fastFront {
		score *= fastKeeps
	}
	return score * (1 - p.xanthan()) * (1 - p.locustBean()) * (1 - sugarCredit*min(1, p.Sugars/sugarFull))
}

func (p Paste) xanthan() float64 {
	last := min(max(0, p.Xanthan-xanthanFull), xanthanMost-xanthanFull) / (xanthanMost - xanthanFull)
	return xanthanCredit*min(1, p.Xanthan/xanthanFull) + xanthanLast*last
}

func (p Paste) locustBean() float64 {
	worse := min(max(0, p.LocustBean-locustBest), locustWorse-locustBest) / (locustWorse - locustBest)
	return locustCredit*min(1, p.LocustBean/locustBest) - locustLoses*worse
}

// Scores from which weeping is told, and how badly. A medium white sauce with flour (5.8 % of the milk) that freezes slowly is to be changed,
// as the published advice has it; quickly frozen it is a note (USDA Home and Garden Bulletin 40).
const weepChange, weepNote = 0.5, 0.2

func weepSeverity(score float64) Severity {
	switch {
	case score >= weepChange:
		return Change
	case score >= weepNote:
		return Note
	}
	return Good
}
