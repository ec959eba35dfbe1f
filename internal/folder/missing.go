package folder

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/critical"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// The codes of what is missing. They are stable, for programs.
const (
	NothingJudged  = "nothing-judged" // the kitchen has not said whose rules it holds
	RunNotJudged   = "run-not-judged" // it was before the day from which lots are judged, or cannot be worked out
	RecordFailed   = "record-failed"
	RecordMissing  = "record-missing"
	RecordUnclear  = "record-incomplete"
	LotHeld        = "lot-held"
	LotUnknown     = "lot-unknown" // nobody said where it came from
	SupplierLot    = "no-supplier-lot"
	NothingIn      = "nothing-in"        // nobody said what went into it
	NoPlan         = "no-plan"           // no hazard plan was there when the lot was packed
	PlanNotTaken   = "plan-not-accepted" // by a qualified person
	PlanUnreadable = "plan-unreadable"
	RuleLaxer      = "rule-laxer"       // than published
	RuleMemory     = "rule-from-memory" // so that it stops nothing
	NotChecked     = "thermometer-not-checked"
	PlaceUnwatched = "place-unwatched"
	PlaceUnread    = "place-unread"
	PlaceWarm      = "place-too-warm" // and nobody said what was done
	DoesNotFit     = "does-not-fit"   // entries about the lots
)

// missing is everything that is not there, or not as it must be.
func (m Material) missing(c *Contents) []Missing {
	all := slices.Clone(m.NotJudged)
	add := func(code string, grave bool, where, says, fix string) {
		all = append(all, Missing{Code: code, Grave: grave, Where: where, Says: says, Fix: fix})
	}
	if m.Kitchen.Jurisdiction == "" {
		add(NothingJudged, true, "the kitchen", "Nobody has said whose rules it holds: nothing in this folder was judged.", "write safety: jurisdiction: into the book")
	}
	for _, r := range c.Records {
		if r.Outcome != critical.Pass {
			add(codeOf[r.Outcome], r.grave(), cmp.Or(r.Title, r.Point)+" ("+r.Point+")", r.told(), r.Fix)
		}
	}
	m.missingOfLots(c, add)
	m.missingOfPlans(c, add)
	m.missingOfCold(c, add)
	for _, f := range m.Fits {
		if f.Severity >= finding.Caution {
			add(DoesNotFit, false, f.Where, f.Message, f.Fix)
		}
	}
	slices.SortStableFunc(all, func(a, b Missing) int {
		return cmp.Or(compareTrue(a.Grave, b.Grave), cmp.Compare(rank(a.Code), rank(b.Code)), strings.Compare(a.Where, b.Where))
	})
	return together(all)
}

// ranks are the codes in the order in which they stand.
var ranks = []string{NothingJudged, RecordFailed, RecordMissing, RecordUnclear, LotHeld, RunNotJudged, NoPlan, PlanNotTaken, PlanUnreadable, PlaceWarm, PlaceUnread, PlaceUnwatched, NotChecked,
	LotUnknown, NothingIn, SupplierLot, RuleLaxer, RuleMemory, DoesNotFit}

func rank(code string) int { return slices.Index(ranks, code) }

func compareTrue(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}

var codeOf = map[critical.Outcome]string{critical.Fail: RecordFailed, critical.Missing: RecordMissing, critical.Incomplete: RecordUnclear}

// grave says whether nobody has decided on a record that holds lots and does not pass.
func (r Record) grave() bool { return r.Troubles() && len(r.Decided) == 0 }

// told is how a record stands, with what was decided on it.
func (r Record) told() string {
	says := sentence(r.Says)
	for _, d := range r.Decided {
		says += fmt.Sprintf(" %s decided for %s: %s (%s).", d.Who, d.Lot, d.Did, d.Why)
	}
	if !r.Gates {
		says += " No lot is held for it."
	}
	return says
}

func sentence(s string) string {
	if s == "" || strings.HasSuffix(s, ".") {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:] + "."
}

type adding func(code string, grave bool, where, says, fix string)

func (m Material) missingOfLots(c *Contents, add adding) {
	into := map[record.Lot]bool{}
	for _, f := range c.Flows {
		into[f.To] = true
	}
	for _, l := range c.Lots {
		name := "lot " + string(l.Lot)
		switch {
		case l.Sort == string(lots.Unknown):
			add(LotUnknown, false, name, "Nobody said where it came from.", "enter that it was received, made or packed")
		case l.Sort == string(lots.Goods) && l.SupplierLot == "":
			add(SupplierLot, false, name, "The supplier's lot number was not written down.", "write it down at the door")
		case (l.Sort == string(lots.Packs) || l.Sort == string(lots.Batch)) && !into[l.Lot]:
			add(NothingIn, false, name, "Nobody said what went into it.", "enter what was used for it")
		}
	}
	for _, h := range c.Holds {
		if h.Standing && h.Decided == "" && len(h.Points) == 0 { // those of critical records stand with these
			add(LotHeld, true, "lot "+string(h.Lot), "It is on hold"+numbered(h.Numbers)+": "+h.Why, "a named person decides what becomes of it")
		}
	}
}

func numbered(numbers string) string {
	if numbers == "" {
		return ""
	}
	return " (no. " + numbers + ")"
}

func (m Material) missingOfPlans(c *Contents, add adding) {
	for _, x := range m.packed() {
		if !slices.ContainsFunc(c.Plans, func(p Plan) bool { return p.Pack == x.pack && p.At <= x.at }) {
			add(NoPlan, true, "lot "+string(x.lot), "No hazard plan for "+x.pack+" was in the records when it was packed.", "draft one, and have it reviewed")
		}
	}
	for _, p := range c.Plans {
		name := fmt.Sprintf("hazard plan for %s, version %d", p.Pack, p.Version)
		if !p.Accepted {
			add(PlanNotTaken, true, name, "No qualified person has accepted it: it is a draft.", "have it reviewed by a qualified person and by the authority")
		}
		if !p.Readable {
			add(PlanUnreadable, false, name, "Its points cannot be taken out of its text, which stands in contents.json as it was entered.", "")
		}
	}
	var memory []string
	for _, r := range c.Rules {
		if r.Laxer {
			add(RuleLaxer, false, "rule "+r.ID, "The kitchen holds it laxer than it was published: "+r.Limit+". "+r.Changed, "")
		}
		if r.Confirm != "" {
			memory = append(memory, r.ID)
		}
	}
	if len(memory) > 0 {
		add(RuleMemory, false, counted(len(memory), "rule"), "Something of "+strings.Join(memory, ", ")+" was not read in a published text: these stop nothing.", "have them confirmed by the authority")
	}
}

func (m Material) missingOfCold(c *Contents, add adding) {
	for _, t := range c.Thermometers {
		if !slices.ContainsFunc(t.Checks, func(x Check) bool { return x.At <= t.From }) {
			add(NotChecked, false, "thermometer "+t.ID, "No check from before it was used is in the records.", "check it, and enter what it read")
		}
	}
	for _, p := range m.unwatched() {
		add(PlaceUnwatched, false, string(p), "The lots lay there, and no thermometer of the book watches it: how cold it was is not known.", "name one after thermometers: in the book")
	}
	for _, x := range c.Cold {
		for _, e := range x.Excursions {
			span := m.Clock(e.From) + " to " + m.Clock(e.Until)
			switch {
			case !e.Asks:
			case e.PeakC == nil:
				add(PlaceUnread, !e.Answered, x.Name, "Nothing that can be used was read from "+span+": how cold it was is not known."+answered(e), "look at what lay there, and enter what was found")
			default:
				add(PlaceWarm, !e.Answered, x.Name, "It was too warm from "+span+", up to "+degrees(*e.PeakC, m.Kitchen.Units)+"."+answered(e), "look at what lay there, and enter what was found")
			}
		}
	}
}

func answered(e Excursion) string {
	if e.Answered {
		return " What was done stands under corrective actions."
	}
	return " Nobody has entered what was done."
}
