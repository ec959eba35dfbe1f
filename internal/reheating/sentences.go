package reheating

// The codes of all lines.
const (
	StepWater   Code = "water-simmers"
	StepUnder   Code = "bag-under-water"
	StepCrowd   Code = "do-not-crowd"
	StepApart   Code = "bags-apart"
	StepFrozen  Code = "minutes-from-frozen"
	StepThawed  Code = "minutes-from-thawed"
	StepThaw    Code = "thaw-first"
	StepTooLong Code = "frozen-takes-too-long"
	StepTurn    Code = "turn-once"
	StepCut     Code = "cut-away-from-face"
	StepFishPot Code = "fish-frozen-to-pot"
	StepPot     Code = "empty-into-pot"
	StepBoil    Code = "rolling-boil"
	StepMicro   Code = "microwave-measured"
	StepOven    Code = "oven-measured"

	CheckMiddle  Code = "check-middle"
	CheckDecides Code = "thermometer-decides"
	CheckWater   Code = "water-as-hot"

	KeepFrozen  Code = "keep-frozen"
	ThawCold    Code = "thaw-in-refrigerator"
	ThawUse     Code = "thawed-use-within"
	ThawUseNow  Code = "thawed-use-at-once"
	OpenFish    Code = "fish-open-before-thawing"
	NoHardBoil  Code = "do-not-boil-hard"
	OffBottom   Code = "off-the-bottom"
	Discard     Code = "discard-damaged"
	OnlyOnce    Code = "reheat-once"
	NotMeasured Code = "microwave-not-measured"

	SayWorst    Code = "worst-case"
	SayTooThick Code = "too-thick"
	SayUneven   Code = "too-uneven"
	SayDips     Code = "water-dips"
	SayNeverHot Code = "water-too-cold"
	SayFish     Code = "fish-not-in-bag-thawed"
	AskSupplier Code = "bag-suited"
	Measure     Code = "measure"

	ThawTakes   Code = "thawing-takes"
	ThawWater   Code = "thawing-in-running-water"
	ThawLonger  Code = "not-thawed"
	ThawSurface Code = "surface-warm"

	RuleLargest Code = "rule-largest-coldest"
	RuleRuns    Code = "rule-runs"
	RuleSpots   Code = "rule-spots"
	RuleStand   Code = "rule-stand"
	RuleAll     Code = "rule-every-spot"
	RuleLongest Code = "rule-longest"
)

// sentences are all lines in English; figures stand in braces.
var sentences = map[Code]string{
	StepWater:   "Bring water to a gentle simmer, about {tempC}, in a wide pot: {litresPerBag} for each bag.",
	StepUnder:   "Lay the bag flat in the water, all of it under, and put the lid on.",
	StepCrowd:   "Do not crowd the pot: {bags} at most at a time, with water on both sides.",
	StepApart:   "Do not crowd the pot: leave water on both sides of every bag.",
	StepFrozen:  "From frozen: {minutes}, counted from when the water simmers again.",
	StepThawed:  "Thawed in the refrigerator: {minutes}, counted from when the water simmers again.",
	StepThaw:    "Thaw the bag in the refrigerator first, at {tempC} or below.",
	StepTooLong: "From frozen it takes too long in the bag.",
	StepTurn:    "Turn the bag over once, halfway.",
	StepCut:     "Lift it out and cut it open away from your face: the steam burns.",
	StepFishPot: "Cut the bag open while it is still frozen: it holds fish.",
	StepPot:     "Do not heat it in the bag. Cut it open and empty it into a pot.",
	StepBoil:    "Heat it, stirring all the time, until its liquid is at a rolling boil.",
	StepMicro:   "Microwave of {powerW}: out of the bag, covered, {minutes}, stirred halfway; then let it stand, covered, {standMin}.",
	StepOven:    "Oven at {tempC}: out of the bag, covered, {minutes}; then let it stand {standMin}.",

	CheckMiddle:  "Check with a thermometer that the middle is {tempC}, and look in several places. If it is less anywhere, heat it on in a pot, stirring, and check again.",
	CheckDecides: "The minutes are a guide; your thermometer decides.",
	CheckWater:   "The minutes are for water of {tempC}. Higher up, water simmers colder and it takes longer.",

	KeepFrozen:  "Keep frozen until use.",
	ThawCold:    "Thaw only in the refrigerator, at {tempC} or below. Do not thaw on the counter.",
	ThawUse:     "Once thawed, use within {days}. Do not freeze again.",
	ThawUseNow:  "Once thawed, heat it at once. Do not freeze again.",
	OpenFish:    "Fish: open the bag before you thaw it.",
	NoHardBoil:  "Simmer, do not boil hard.",
	OffBottom:   "Keep the bag off the bottom of the pot: put a rack or a plate under it.",
	Discard:     "Throw the bag away if it is swollen, leaking or not sealed.",
	OnlyOnce:    "Reheat once only.",
	NotMeasured: "No microwave or oven time is given, because none was measured for this bag. Do not put the bag in either unless its maker allows it.",

	SayWorst:    "From {start}: the longest of the cases counted, {thicknessM} thick with the least heat from the water, takes {minutes}; {share} is put on top.",
	SayTooThick: "No minutes from {start}: at its thickest, {thicknessM}, it takes longer than {minutes}, which is our own limit.",
	SayUneven:   "No minutes from {start}: its thickest place takes {times} times as long as its thinnest. Freeze it flatter.",
	SayDips:     "No minutes from {start}: the bags cool the water to {tempC}. Take more water, fewer bags or a stronger burner.",
	SayNeverHot: "No minutes: water of {tempC} is not hot enough.",
	SayFish:     "No minutes from thawed: a vacuum pack with fish is opened before it thaws (FDA Food Code 3-501.13).",
	AskSupplier: "Have it in writing from the supplier that the bag is meant for food frozen and reheated in it (21 CFR 176.170(c), table 2: conditions of use G and H, and C if filled hot), and for fat or acid food if it is that.",
	Measure:     "Measure before you print it: {runs} at least, the largest bag from the coldest freezer, the coldest spot.",

	ThawTakes:   "In the refrigerator at {tempC} its thickest place needs up to {hours} to thaw.",
	ThawWater:   "Under running water of {tempC} its thickest place needs up to {minutes} to thaw.",
	ThawLonger:  "It does not thaw through at {tempC} within {days}.",
	ThawSurface: "The outside is above {tempC} after {minutes}, before the middle has thawed. FDA Food Code 3-501.13 does not allow that of ready-to-eat food: thaw it in the refrigerator.",

	RuleLargest: "Take the largest pack, {massKg} or more, at {tempC} or colder.",
	RuleRuns:    "Make {runs} at least, all in the same way.",
	RuleSpots:   "Measure all five spots before you stir: the middle, the thickest place, two opposite corners, the edge of a long side.",
	RuleStand:   "Cover it, turn or stir it, and let it stand covered {standMin} before you measure.",
	RuleAll:     "Every spot must be at {tempC} or more. A run with a colder spot does not count, and neither does one that is no longer.",
	RuleLongest: "The time to print is the longest of the runs that count, and {share} more, rounded up.",
}
