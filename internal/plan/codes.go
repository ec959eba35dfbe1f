package plan

// The codes of what a plan finds. They are stable, for programs.
const (
	CodeNoComposition   = "composition-missing"  // an ingredient with neither a food nor an analysis
	CodeNotPlanned      = "dish-not-planned"     // a dish cannot be computed
	CodeUnreachable     = "target-unreachable"   // no amount of cooking reaches the target
	CodeMixedTargets    = "target-mixed"         // a dish with targets of different kinds
	CodeMassOpen        = "mass-does-not-close"  // the computation lost or won mass
	CodeDriesOut        = "step-dries-out"       // more should be lost than there is
	CodeTooThin         = "make-up-negative"     // the dish is thinner than written without any make-up
	CodeInputShort      = "input-short"          // an earlier output falls short and nothing stands in
	CodeSurplus         = "surplus"              // an output that nothing takes
	CodeStandIn         = "stand-in"             // a by-product falls short
	CodeChillSlow       = "chill-too-slow"       // no way of chilling meets the limits
	CodeChillTight      = "chill-tight"          // it is met with little to spare
	CodeChillNoRoom     = "chill-no-room"        // not enough pots or pans to chill at once
	CodeChillUnknown    = "chill-unknown"        // no way of chilling in the book, or it cannot be computed
	CodeIceShort        = "ice-short"            // chilling takes more ice than there is
	CodeHeldHot         = "held-hot"             // hot food waits
	CodeHeldWarm        = "held-warm"            // food between 41 and 135 °F waits
	CodeHeatUp          = "heat-up-unknown"      // the time to heat cannot be computed
	CodeNeverHot        = "never-hot"            // the burner cannot bring it there
	CodeDayTooLong      = "day-too-long"         // work goes on after the last shift or the wanted finish
	CodeNoTimetable     = "no-timetable"         // the tasks clash, or none was found
	CodeAppointmentLate = "appointment-late"     // on a day under way somebody has to wait
	CodeLimitMissed     = "limit-missed"         // a greatest gap is over before what it limits has begun
	CodeInUse           = "broken-in-use"        // more is in use than is left of what failed
	CodeTubs            = "into-tubs"            // vessels are short: food waits in tubs
	CodeNobodyWashes    = "nobody-washes"        // no hands free for washing between dishes
	CodeNobody          = "nobody-works"         // no people in the book
	CodeFewerPacks      = "fewer-packs"          // the masses give fewer packs than asked for
	CodeOrderShort      = "order-short"          // fewer packs than customers have ordered
	CodeFreezerLow      = "freezer-low"          // fewer in the freezer than should always be there
	CodeNotWeighed      = "not-check-weighed"    // nobody knows how a pack's fillings scatter
	CodeSauceRatio      = "sauce-ratio"          // more or less sauce than a pack may have
	CodeLeftOut         = "left-out-of-week"     // a pack that a week's choice leaves out
	CodeNoWeek          = "no-week"              // no mix of a week can be chosen
	CodeNotCounted      = "not-counted"          // pieces of something whose pieces have no mass
	CodeWeightDoubted   = "weight-doubted"       // a weight so far off plan that it may be a slip
	CodeFreezerSlow     = "freezer-too-slow"     // more than the freezers take in a day
	CodeFreezerRule     = "freezer-rule"         // more than the household rule
	CodeFreezerFull     = "freezer-full"         // more than there is room for
	CodeFreezeUnknown   = "freeze-unknown"       // the freezing time cannot be computed
	CodeNoFreezer       = "no-freezer"           // no freezer in the book
	CodeBagTooSmall     = "bag-too-small"        // the filled bag would be thicker than it is wide
	CodeBagsShort       = "bags-short"           // fewer bags in stock than packs
	CodeOutOfDate       = "stock-out-of-date"    // stock that may no longer be used
	CodeCannotBuy       = "cannot-buy"           // no offer, or only stock may be used
	CodeTooLate         = "supplier-too-late"    // it cannot deliver by the day of the run
	CodeNotInTime       = "not-in-time"          // nobody can deliver an ingredient by the day of the run
	CodeUnderMinimum    = "order-under-minimum"  // a supplier takes no order so small
	CodeStockShort      = "stock-short"          // only stock may be used, and it is not enough
	CodePriceMissing    = "price-missing"        // a cost is a lower bound
	CodeJointByMass     = "joint-cost-by-mass"   // a dish whose packs cannot share its cost by what they sell for
	CodeSoldBelowCost   = "sold-below-cost"      // the price does not cover food, packaging and labour
	CodeCardUnknown     = "card-unknown"         // the heating time cannot be computed
	CodeBagNotForHeat   = "bag-not-for-heat"     // nobody has said that the bag may be heated in
	CodeNoMinutes       = "no-minutes"           // too thick to be heated well in its bag from frozen
	CodeNotMeasured     = "no-minutes-measured"  // trials that give no time
	CodeAllergens       = "allergens-undeclared" // a label is withheld
	CodeVacuum          = "vacuum-approval"      // cooked food under vacuum without an approval in the book
	CodeHotBlender      = "hot-blender"          // hot liquid in a blender
)

// limits are the findings that stop "as many as the kitchen's limits allow", with what they are called. Waiting food stops it only when
// it waits so long that it must not be used.
var limits = map[string]string{
	CodeChillSlow: "chilling in time", CodeChillNoRoom: "places to chill", CodeIceShort: "the ice of the day", CodeDayTooLong: "the length of the day", CodeNoTimetable: "the timetable",
	CodeFreezerSlow: "freezing capacity in a day", CodeFreezerFull: "room in the freezers", CodeStockShort: "ingredients in stock", CodeBagsShort: "bags in stock",
	CodeCannotBuy: "what can be bought", CodeNotInTime: "what can be had in time", CodeHeldHot: "the time that hot food may wait", CodeHeldWarm: "the time that warm food may wait", CodeNotPlanned: "what can be cooked", CodeUnreachable: "what can be cooked",
}
