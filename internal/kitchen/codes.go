package kitchen

// Code names one kind of finding of Check, for programs and for looking up. Codes do not change.
//
//	code                        severity  what it says
//	bad-id                      stop      an id that is not a short word in lower case with hyphens
//	duplicate-id                stop      two steps, or two outputs, of one dish with one id
//	empty-text                  stop      a name or a sentence that must be given is empty
//	unknown-reference           stop      something named that the book or the dish does not have
//	out-of-range                stop      a figure below or above what can be meant; the limit is said
//	size-missing                stop      a vessel, jar, pan, oven or bag without the sizes that the plan needs
//	count-too-small             stop      none of something that there should be at least one of
//	shift-backwards             stop      a shift, a break, an absence or an outage that ends before it begins
//	break-outside               stop      a break that is not within its shift
//	breaks-overlap              stop      two breaks at once
//	needs-itself                stop      equipment that stands on itself
//	vessel-is-none              stop      something that should be a vessel is not one
//	range-backwards             stop      a smallest, usual and largest figure that do not rise
//	freezer-overfull            caution   more frozen stock than there is room
//	freezer-twice               caution   more places that are a freezer than there are of it
//	freezer-not-frozen          stop      a place that is a freezer and is not frozen
//	rule-not-held               stop      a rule of food safety held in a way that it cannot be
//	parts-larger                caution   shelves or boxes that are larger together than what they are in
//	unknown-food                stop      a number that the composition table does not have
//	composition-missing         caution   an ingredient without food or analysis
//	composition-twice           caution   an ingredient with food and analysis
//	analysis-sum                stop      an analysis that does not add up to 100 g
//	analysis-part               stop      a part of an analysis larger than the whole it belongs to
//	price-missing               caution   an ingredient that is bought at no price
//	supplier-missing            caution   an offer that nobody makes
//	free-but-bought             caution   an ingredient that comes from the tap and is bought too
//	measure-not-mass            stop      a household measure that does not say what it weighs
//	amount-without-mass         stop      an amount that cannot be weighed out: no density, no matching measure
//	allergens-undeclared        caution   nobody has said which allergens are in it
//	unknown-allergen            stop      a word that is none of the major allergens
//	allergen-kind-missing       caution   fish, shellfish or tree nuts without their kind
//	allergens-contradict        stop      an ingredient said to be without an allergen that is in a part of it
//	no-steps                    stop      a dish without steps
//	uses-nothing                stop      a step that nothing goes into
//	use-of-or-from              stop      a line with both or neither of an ingredient and an output
//	use-amount-or-take          stop      a line with both or neither of an amount and a share
//	from-other-dish             stop      an output of another dish
//	stand-in-without-output     stop      a stand-in for an ingredient, which cannot fall short
//	step-cycle                  stop      steps that wait for each other
//	output-overdrawn            stop      more taken of an output than there is
//	step-overdrawn              stop      outputs and losses that leave nothing for the main product
//	no-main                     stop      a step without main product
//	two-mains                   stop      a step with more than one main product
//	by-product-without-takes    stop      a by-product that does not say how much of it there is
//	output-unused               stop      an output that no step and no pack uses
//	by-product-unused           note      the same of a by-product
//	dish-without-pack           caution   a dish that no pack is filled from
//	stays-without-vessel        stop      a step that goes on in the vessel of no earlier step
//	stays-elsewhere             stop      a step that goes on in a vessel that the earlier step is not in
//	make-up-not-used            stop      a make-up that does not go into its step
//	evaporation-twice           stop      evaporation given in more than one way
//	cold-boil                   stop      water boiled off far below boiling
//	no-heat                     caution   something to heat in equipment that nothing heats
//	hands-unclear               stop      hands that are said in two ways, or half
//	fills-nothing               stop      a pack with nothing in it
//	fill-mass-or-pieces         stop      a fill with both or neither of a mass and a number of pieces
//	piece-mass-missing          stop      pieces of something whose pieces have no mass
//	pack-of-by-product          note      a pack of by-products only: nothing is cooked for it
//	no-target                   stop      a request for nothing
//	target-of-what              stop      a target with both or neither of a pack and a dish
//	target-measure              stop      a target with no measure or more than one
//	target-not-in-dish          stop      a target's ingredient or pack that is not of its dish
//	bad-date                    stop      a day that is no date
//	nobody-can                  stop      a skill that nobody has
//	too-few-can                 stop      a skill that fewer people have than the work takes
//	skill-twice                 stop      a skill said twice of one person
//	wash-shorter                stop      a wash-down that is shorter than the usual wash
//	wash-means-nothing          caution   washing of something that no food goes into
//	within-and-at-once          stop      a step that must start at once and may wait
//	at-once-after-nothing       caution   a step that must start at once, with nothing to start after
//	too-few-people              stop      an appointment for more people than work then
//	pack-not-made               caution   an appointment that takes packs the run does not make
//	aim-twice                   stop      an aim named twice
//	aim-under-way               caution   an aim that counts only when a day under way is timed again
//	overhead-twice              stop      overhead on more than one base
//	break-dearer                caution   a price that rises when more is bought
//	instead-of-itself           stop      an ingredient that may take the place of itself, or of an output
//	instead-adds-allergen       caution   an ingredient that brings an allergen which the one it replaces has not
//	sauce-without-solids        stop      how much sauce goes with solids, in a pack of one thing
//	gross-is-tare               stop      a filled pack that weighs no more than an empty bag
//	weighed-twice               stop      one output weighed twice
//	weighed-of-which            stop      an output that several dishes of the run give
//	number-pattern              stop      a pattern of invoice numbers that cannot be counted on
//	tax-parts                   stop      parts of a tax that come to another rate
//	cent-parts                  stop      a price of parts of a cent
//	price-twice                 stop      a pack with two prices for the same day and number
//	tax-by-nobody               caution   a tax without the name of who says that it holds
type Code string

// The codes, in the order of the table above.
const (
	BadID                 Code = "bad-id"
	DuplicateID           Code = "duplicate-id"
	EmptyText             Code = "empty-text"
	UnknownReference      Code = "unknown-reference"
	OutOfRange            Code = "out-of-range"
	SizeMissing           Code = "size-missing"
	CountTooSmall         Code = "count-too-small"
	ShiftBackwards        Code = "shift-backwards"
	BreakOutside          Code = "break-outside"
	BreaksOverlap         Code = "breaks-overlap"
	NeedsItself           Code = "needs-itself"
	VesselIsNone          Code = "vessel-is-none"
	RangeBackwards        Code = "range-backwards"
	FreezerOverfull       Code = "freezer-overfull"
	FreezerTwice          Code = "freezer-twice"
	FreezerNotFrozen      Code = "freezer-not-frozen"
	RuleNotHeld           Code = "rule-not-held"
	PartsLarger           Code = "parts-larger"
	UnknownFood           Code = "unknown-food"
	CompositionMissing    Code = "composition-missing"
	CompositionTwice      Code = "composition-twice"
	AnalysisSum           Code = "analysis-sum"
	AnalysisPart          Code = "analysis-part"
	PriceMissing          Code = "price-missing"
	SupplierMissing       Code = "supplier-missing"
	FreeButBought         Code = "free-but-bought"
	MeasureNotMass        Code = "measure-not-mass"
	AmountWithoutMass     Code = "amount-without-mass"
	AllergensUndeclared   Code = "allergens-undeclared"
	UnknownAllergen       Code = "unknown-allergen"
	AllergenKindMissing   Code = "allergen-kind-missing"
	AllergensContradict   Code = "allergens-contradict"
	NoSteps               Code = "no-steps"
	UsesNothing           Code = "uses-nothing"
	UseOfOrFrom           Code = "use-of-or-from"
	UseAmountOrTake       Code = "use-amount-or-take"
	FromOtherDish         Code = "from-other-dish"
	StandInWithoutOutput  Code = "stand-in-without-output"
	StepCycle             Code = "step-cycle"
	OutputOverdrawn       Code = "output-overdrawn"
	StepOverdrawn         Code = "step-overdrawn"
	NoMain                Code = "no-main"
	TwoMains              Code = "two-mains"
	ByProductWithoutTakes Code = "by-product-without-takes"
	OutputUnused          Code = "output-unused"
	ByProductUnused       Code = "by-product-unused"
	DishWithoutPack       Code = "dish-without-pack"
	StaysWithoutVessel    Code = "stays-without-vessel"
	StaysElsewhere        Code = "stays-elsewhere"
	MakeUpNotUsed         Code = "make-up-not-used"
	EvaporationTwice      Code = "evaporation-twice"
	ColdBoil              Code = "cold-boil"
	NoHeat                Code = "no-heat"
	HandsUnclear          Code = "hands-unclear"
	FillsNothing          Code = "fills-nothing"
	FillMassOrPieces      Code = "fill-mass-or-pieces"
	PieceMassMissing      Code = "piece-mass-missing"
	PackOfByProduct       Code = "pack-of-by-product"
	NoTarget              Code = "no-target"
	TargetOfWhat          Code = "target-of-what"
	TargetMeasure         Code = "target-measure"
	TargetNotInDish       Code = "target-not-in-dish"
	BadDate               Code = "bad-date"
	NobodyCan             Code = "nobody-can"
	TooFewCan             Code = "too-few-can"
	SkillTwice            Code = "skill-twice"
	WashShorter           Code = "wash-shorter"
	WashMeansNothing      Code = "wash-means-nothing"
	WithinAndAtOnce       Code = "within-and-at-once"
	AtOnceAfterNothing    Code = "at-once-after-nothing"
	TooFewPeople          Code = "too-few-people"
	PackNotMade           Code = "pack-not-made"
	AimTwice              Code = "aim-twice"
	AimUnderWay           Code = "aim-under-way"
	OverheadTwice         Code = "overhead-twice"
	BreakDearer           Code = "break-dearer"
	InsteadOfItself       Code = "instead-of-itself"
	InsteadAddsAllergen   Code = "instead-adds-allergen"
	SauceWithoutSolids    Code = "sauce-without-solids"
	GrossIsTare           Code = "gross-is-tare"
	WeighedTwice          Code = "weighed-twice"
	WeighedOfWhich        Code = "weighed-of-which"
	NumberPattern         Code = "number-pattern"
	TaxParts              Code = "tax-parts"
	CentParts             Code = "cent-parts"
	PriceTwice            Code = "price-twice"
	TaxByNobody           Code = "tax-by-nobody"
)
