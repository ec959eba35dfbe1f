package critical

import (
	"strings"

	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Outcome is how a critical record stands.
type Outcome string

const (
	Pass       Outcome = "pass"
	Missing    Outcome = "missing"    // there is none
	Incomplete Outcome = "incomplete" // what there is does not show it
	Fail       Outcome = "fail"
)

// rank is how bad an outcome is: what is missing or incomplete is alike, as nobody knows.
func (o Outcome) rank() int {
	switch o {
	case Pass:
		return 0
	case Fail:
		return 2
	}
	return 1
}

// Worse is the worse of two outcomes; of what is missing and what is incomplete, the latter: somebody has begun.
func Worse(a, b Outcome) Outcome {
	order := func(o Outcome) int {
		return map[Outcome]int{Pass: 0, Missing: 1, Incomplete: 2, Fail: 3}[o]
	}
	if order(b) > order(a) {
		return b
	}
	return a
}

// What is the sort of a critical record.
type What string

const (
	Cooking What = "cooking"
	Cooling What = "cooling"
	Label   What = "label"
	Door    What = "door"
	Frozen  What = "frozen" // told by package coldwatch: no verdict here is of this sort
)

// Why says what an outcome rests on, beside the codes of package coollog. The codes are stable, for programs.
const (
	WhyReached    = "reached"         // a reading at or over the limit, long enough
	WhyTooCold    = "too-cold"        // no reading at the limit
	WhyTooShort   = "too-short"       // at the limit, and nothing shows for how long
	WhyNotYet     = "not-yet"         // the work is not done
	WhyNothing    = "nothing-written" // it is done, and nothing was written down
	WhySkipped    = "skipped"         // somebody said that it was not done
	WhyByItsError = "within-accuracy" // it would pass but for the error of the thermometer
	WhyUnusable   = "unusable"        // only readings that count for nothing
	WhyOdd        = "doubtful"        // it passes only without the readings that are doubtful, or only with them
	WhyDisorder   = "unreadable"      // readings that cannot be judged
	WhyRewarmed   = "warmed-again"    // it was warm again, and nobody wrote down that it was reheated to 165 °F
	WhyReheated   = "reheated-twice"  // it may be reheated once
	WhyWhichLoad  = "which-load"      // what was written down does not say of which load
	WhySigned     = "signed"
	WhyUnsigned   = "unsigned"
	WhyTooWarm    = "too-warm"
	WhyColdEnough = "cold-enough"
	WhyNoLoads    = "no-plan" // what is made cannot be worked out
)

// Verdict is one critical record as it stands.
type Verdict struct {
	Point   string     `json:"point"`
	What    What       `json:"what"`
	Run     string     `json:"run,omitempty"`
	Dish    string     `json:"dish,omitempty"`
	Step    string     `json:"step,omitempty"`
	Output  string     `json:"output,omitempty"`
	Task    string     `json:"task,omitempty"` // of the timetable, without the stages of a cooling
	Load    int        `json:"load,omitempty"` // from 1
	Loads   int        `json:"loads,omitempty"`
	Lot     record.Lot `json:"lot,omitempty"`
	Packs   []string   `json:"packs,omitempty"` // in whose plans the control point is
	Title   string     `json:"title"`
	Limit   string     `json:"limit"`
	Source  string     `json:"source,omitempty"`
	Confirm string     `json:"confirm,omitempty"` // what of the limit is from memory: then it holds nothing
	Reason  string     `json:"reason,omitempty"`  // why the kitchen's limit differs from what is published
	Laxer   bool       `json:"laxer,omitempty"`
	Gates   bool       `json:"gates"` // lots are held while it is not passed
	LimitC  *float64   `json:"limit_c,omitempty"`
	HoldS   float64    `json:"hold_s,omitempty"` // for so long at or over it

	Outcome  Outcome        `json:"outcome"`
	Why      string         `json:"why"`
	Says     string         `json:"says"`
	Fix      string         `json:"fix,omitempty"`
	Where    string         `json:"where,omitempty"` // the worst point in the food
	At       record.Instant `json:"at_ms,omitempty"` // of the reading that decides
	TempC    *float64       `json:"temp_c,omitempty"`
	MarginS  *float64       `json:"margin_s,omitempty"` // to the deadline, below 0 when late
	MarginC  *float64       `json:"margin_c,omitempty"` // to the limit, below 0 on the wrong side
	Accuracy *Accuracy      `json:"accuracy,omitempty"`
	Doubtful int            `json:"doubtful,omitempty"` // readings on which the verdict may not turn
	Due      record.Instant `json:"due_ms,omitempty"`   // when the work was done that it is about

	Rules     []RuleVerdict `json:"rules,omitempty"` // each rule for itself, the kitchen's first: it decides
	Lethality *Lethality    `json:"lethality,omitempty"`
	Growth    *Growth       `json:"growth,omitempty"`
	Logs      []Log         `json:"logs,omitempty"`
	Acted     []Act         `json:"acted,omitempty"`
	Signed    []Signature   `json:"signed,omitempty"`
}

// Troubles says whether lots must be held for it.
func (v Verdict) Troubles() bool { return v.Gates && v.Outcome != Pass }

// Stands is the point with how it stands, as a decision names it.
func (v Verdict) Stands() string { return v.Point + "=" + string(v.Outcome) }

// Accuracy is how far wrong the thermometers may have read, and why.
type Accuracy struct {
	C    float64 `json:"c"`
	Says string  `json:"says"`
}

// Log is what was read at one point of the food.
type Log struct {
	Where    string    `json:"where,omitempty"`
	Readings []Reading `json:"readings"`
}

// Reading is one temperature.
type Reading struct {
	At         record.Instant `json:"at_ms"`
	TempC      float64        `json:"temp_c"`
	Instrument string         `json:"instrument,omitempty"`
	Entry      string         `json:"entry,omitempty"` // it was typed
	Who        string         `json:"who,omitempty"`
	Flags      string         `json:"flags,omitempty"`    // what is odd about it, as it came
	Doubtful   bool           `json:"doubtful,omitempty"` // the verdict may not turn on it: it is judged with it and without it, and the worse counts
	Unusable   bool           `json:"unusable,omitempty"` // it proves nothing: the thermometer was withdrawn, or it is no temperature of food
}

// Act is something that was done about it.
type Act struct {
	At   record.Instant `json:"at_ms"`
	Who  string         `json:"who"`
	Did  record.Deed    `json:"did"`
	Temp *unit.Temp     `json:"temp_c,omitempty"`
	Text record.Text    `json:"text,omitempty"`
}

// Signature is who stands for a check.
type Signature struct {
	At   record.Instant  `json:"at_ms"`
	Who  string          `json:"who"`
	As   record.SignedAs `json:"as"`
	Text record.Text     `json:"text,omitempty"`
}

// PointOf is the point that a decision names, and how it stood; "" when it does not say.
func PointOf(named string) (point string, stood Outcome) {
	if i := strings.LastIndexByte(named, '='); i >= 0 {
		switch o := Outcome(named[i+1:]); o {
		case Missing, Incomplete, Fail:
			return named[:i], o
		}
	}
	return named, ""
}

// covers says whether a decision that names a point with how it stood is about it as it stands now.
func covers(stood, now Outcome) bool {
	if stood == "" {
		return now.rank() <= Incomplete.rank()
	}
	return now.rank() <= stood.rank()
}
