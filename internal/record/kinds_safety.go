package record

import "kettlefrost/internal/unit"

// Watched is a probe in food, or in a place, for a time: what it read between the two belongs to them.
type Watched struct {
	Probe  string  `json:"probe"`
	Run    string  `json:"run,omitzero"`
	Dish   string  `json:"dish,omitzero"`
	Output string  `json:"output,omitzero"`
	Task   string  `json:"task,omitzero"` // as in Started
	Lot    Lot     `json:"lot,omitzero"`
	Place  Place   `json:"place,omitzero"`
	Stage  Stage   `json:"stage"`
	Point  string  `json:"point,omitzero"` // where in the food: the middle of the deepest pan
	From   Instant `json:"from_ms"`
	Until  Instant `json:"until_ms,omitzero"` // left out while it is still in
}

// Stage is what happens to food while its temperature is watched.
type Stage string

// Stages of food on its way.
const (
	StageCooking   Stage = "cooking"
	StageCooling   Stage = "cooling"
	StageReheating Stage = "reheating"
	StageHolding   Stage = "holding"
)

func (Stage) choices() []string {
	return []string{string(StageCooking), string(StageCooling), string(StageReheating), string(StageHolding)}
}

// Calibrated is a thermometer that was checked.
type Calibrated struct {
	Instrument string      `json:"instrument"`
	Method     CheckMethod `json:"method"`
	Read       unit.Temp   `json:"read_c"`
	True       unit.Temp   `json:"true_c"`
	After      *unit.Temp  `json:"after_c,omitzero"` // read again after it was adjusted
	Kept       CheckResult `json:"kept"`
	Note       Text        `json:"note,omitzero"`
}

// CheckMethod is how a thermometer was checked.
type CheckMethod string

// Ways to check a thermometer.
const (
	IcePoint         CheckMethod = "ice-point"
	BoilingPoint     CheckMethod = "boiling-point"
	AgainstReference CheckMethod = "against-reference"
)

func (CheckMethod) choices() []string {
	return []string{string(IcePoint), string(BoilingPoint), string(AgainstReference)}
}

// CheckResult is what became of a thermometer that was checked.
type CheckResult string

// What becomes of a thermometer.
const (
	InUse     CheckResult = "in-use"
	Adjusted  CheckResult = "adjusted"
	Withdrawn CheckResult = "withdrawn"
)

func (CheckResult) choices() []string {
	return []string{string(InUse), string(Adjusted), string(Withdrawn)}
}

// Acted is what was done because something was not, or would not be, as it must.
type Acted struct {
	Run   string     `json:"run,omitzero"`
	Task  string     `json:"task,omitzero"`
	Lot   Lot        `json:"lot,omitzero"`
	Place Place      `json:"place,omitzero"`
	Code  string     `json:"code,omitzero"` // of the finding that it answers
	Did   Deed       `json:"did"`
	Temp  *unit.Temp `json:"temp_c,omitzero"` // as it was done
	Text  Text       `json:"text,omitzero"`
}

// Deed is what was done.
type Deed string

// What can be done about food that does not cool, or is too warm.
const (
	Stirred   Deed = "stirred"
	Shallower Deed = "shallower"
	MoreIce   Deed = "more-ice"
	Reheated  Deed = "reheated" // to 165 °F, and cooled again from the beginning
	Relocated Deed = "moved"
	Discarded Deed = "discarded"
	OtherDeed Deed = "other" // the text says what
)

func (Deed) choices() []string {
	return []string{string(Stirred), string(Shallower), string(MoreIce), string(Reheated), string(Relocated), string(Discarded), string(OtherDeed)}
}

// HazardPlan is a version of the hazard plan of a pack.
type HazardPlan struct {
	Pack  string `json:"pack"`
	Basis string `json:"basis"` // of what its points rest on in the book
	Text  Text   `json:"text"`  // the plan, as JSON
	Note  Text   `json:"note,omitzero"`
}

// PlanReviewed is the word of a qualified person on a version of a hazard plan.
type PlanReviewed struct {
	Pack      string     `json:"pack"`
	Plan      ID         `json:"plan"` // the entry of that version
	Reviewer  string     `json:"reviewer"`
	Qualified string     `json:"qualified"` // why this person is: training, licence
	Outcome   ReviewWord `json:"outcome"`
	Authority string     `json:"authority,omitzero"` // reference of its approval, when there is one
	Why       Text       `json:"why,omitzero"`
}

// ReviewWord is how a review ended.
type ReviewWord string

// How a review ends.
const (
	Accepted ReviewWord = "accepted"
	SentBack ReviewWord = "returned"
)

func (ReviewWord) choices() []string { return []string{string(Accepted), string(SentBack)} }

// Signed is a signature: who made the entry stands for what it is about, as it was then.
type Signed struct {
	About string   `json:"about"`         // a run, a lot, a folder
	Hash  Hash     `json:"hash,omitzero"` // SHA-256 of what was signed
	As    SignedAs `json:"as"`
	Text  Text     `json:"text,omitzero"`
}

// SignedAs is in what part somebody signs.
type SignedAs string

// Parts in which people sign.
const (
	AsMaker    SignedAs = "maker"
	AsVerifier SignedAs = "verifier"
	AsReviewer SignedAs = "reviewer"
)

func (SignedAs) choices() []string {
	return []string{string(AsMaker), string(AsVerifier), string(AsReviewer)}
}

// Logged is readings that were taken in from a file: its hash ties them to the chain.
type Logged struct {
	Batch    ID       `json:"batch"`
	File     string   `json:"file"`
	Hash     Hash     `json:"hash"` // SHA-256 of the file as it came
	Probes   []string `json:"probes"`
	Readings int64    `json:"readings"`
	Flagged  int64    `json:"flagged,omitzero"`
}

func (Watched) Kind() Kind      { return "watched" }
func (Calibrated) Kind() Kind   { return "calibrated" }
func (Acted) Kind() Kind        { return "acted" }
func (HazardPlan) Kind() Kind   { return "hazard-plan" }
func (PlanReviewed) Kind() Kind { return "plan-reviewed" }
func (Signed) Kind() Kind       { return "signed" }
func (Logged) Kind() Kind       { return "logged" }

func (w Watched) agree(c *checker) {
	c.atLeastOne(given{"task", w.Task != ""}, given{"output", w.Output != ""}, given{"lot", w.Lot != ""}, given{"place", w.Place != ""})
	c.needs(given{"task", w.Task != ""}, given{"run", w.Run != ""})
	c.needs(given{"output", w.Output != ""}, given{"dish", w.Dish != ""})
	if w.Until != 0 && w.Until < w.From {
		c.at("until_ms", "is before it went in", "write when it came out")
	}
}

func (x Calibrated) agree(c *checker) {
	if x.Kept == Adjusted && x.After == nil {
		c.at("after_c", "is missing", "check it again after adjusting, and write what it read")
	}
	if x.Kept != Adjusted && x.After != nil {
		c.at("kept", "is "+string(x.Kept)+", but it was read again after adjusting", "write adjusted, or leave after_c out")
	}
}

func (a Acted) agree(c *checker) {
	c.atLeastOne(given{"task", a.Task != ""}, given{"lot", a.Lot != ""}, given{"place", a.Place != ""})
	c.needs(given{"task", a.Task != ""}, given{"run", a.Run != ""})
	if a.Did == OtherDeed && a.Text == "" {
		c.at("text", "is missing", "say what was done")
	}
	if a.Did == Reheated && a.Temp == nil {
		c.at("temp_c", "is missing", "measure the coldest spot, and write it")
	}
}

func (x PlanReviewed) agree(c *checker) {
	if x.Plan == (ID{}) {
		c.at("plan", "is empty", "name the entry of the version that was reviewed")
	}
}

func (x Logged) agree(c *checker) {
	if x.Batch == (ID{}) {
		c.at("batch", "is empty", "name the batch of the readings")
	}
}
