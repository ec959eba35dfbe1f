package trials

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/tastetrial"
)

// DesignOf is the trial as the engine lays it out.
func DesignOf(b record.TrialLaid) tastetrial.Design {
	d := tastetrial.Design{Variants: len(b.Variants), Tasters: len(b.Tasters), Packs: int(b.Packs), Seed: uint64(b.Seed)}
	for _, w := range b.Weeks {
		d.Weeks = append(d.Weeks, int(w))
	}
	return d
}

// Lay is the layout that follows from a trial: its codes and the orders of tasting. Errors are *tastetrial.InputError.
func Lay(b record.TrialLaid) (tastetrial.Layout, error) { return tastetrial.Lay(DesignOf(b)) }

func (t *Trial) lay() {
	var err error
	if t.Layout, err = Lay(t.Laid.Body); err != nil {
		t.Bad = err.Error()
		t.misfit(t.Laid.Entry, t.Laid.Seq, t.Laid.Body.Kind(), CodeCannotLay, "no layout follows from it: "+t.Bad, "lay out another trial")
	}
}

// VariantOf is the number of a variant by its name; -1 for none.
func (t Trial) VariantOf(name string) int {
	return slices.IndexFunc(t.Laid.Body.Variants, func(v record.Variant) bool { return v.Name == name })
}

// Base is the number of the variant that is as the book has it; -1 when none is said to be.
func (t Trial) Base() int {
	return slices.IndexFunc(t.Laid.Body.Variants, func(v record.Variant) bool { return v.Base })
}

// HasWeek says whether packs are opened in a week.
func (t Trial) HasWeek(w record.Week) bool { return slices.Contains(t.Laid.Body.Weeks, w) }

// CodeOf is the code of a variant in a week; "" for none.
func (t Trial) CodeOf(variant int, w record.Week) string {
	for _, s := range t.Layout.Servings {
		if s.Variant == variant && s.Week == int(w) {
			return strconv.Itoa(s.Code)
		}
	}
	return ""
}

// Served are the codes that a taster is given in a week, in their order.
func (t Trial) Served(taster int, w record.Week) []string {
	var codes []string
	for _, s := range t.Layout.Servings { // they are in the order of positions
		if s.Taster == taster && s.Week == int(w) {
			codes = append(codes, strconv.Itoa(s.Code))
		}
	}
	return codes
}

func (t *Trial) takeMade(all []Said[record.TrialMade]) {
	for _, x := range all {
		unknown := t.VariantOf(x.Body.Variant) < 0
		twice := slices.ContainsFunc(t.Made, func(o Said[record.TrialMade]) bool { return o.Body.Variant == x.Body.Variant })
		switch {
		case unknown:
			t.misfit(x.Entry, x.Seq, x.Body.Kind(), CodeUnknown, "the trial has no variant called "+x.Body.Variant, "correct the name of the variant")
		case twice:
			t.misfit(x.Entry, x.Seq, x.Body.Kind(), CodeTwice, "the batch of "+x.Body.Variant+" was entered before; that one counts", "take one of the two back")
		default:
			t.Made = append(t.Made, x)
		}
	}
}

func (t *Trial) takeOpened(all []Said[record.TrialOpened]) {
	for _, x := range all {
		b := x.Body
		twice := slices.ContainsFunc(t.Opened, func(o Said[record.TrialOpened]) bool {
			return o.Body.Variant == b.Variant && o.Body.Week == b.Week && o.Body.Number == b.Number
		})
		switch {
		case t.VariantOf(b.Variant) < 0:
			t.misfit(x.Entry, x.Seq, b.Kind(), CodeUnknown, "the trial has no variant called "+b.Variant, "correct the name of the variant")
		case !t.HasWeek(b.Week):
			t.misfit(x.Entry, x.Seq, b.Kind(), CodeUnknown, fmt.Sprintf("no pack is opened in week %d of the trial", b.Week), "correct the week")
		case twice:
			t.misfit(x.Entry, x.Seq, b.Kind(), CodeTwice, fmt.Sprintf("pack %d of %s in week %d was measured before; that counts", b.Number, b.Variant, b.Week), "correct the first, or take one of the two back")
		default:
			t.Opened = append(t.Opened, x)
		}
	}
}

func (t *Trial) takeScored(all []Said[record.TrialScored]) {
	for _, x := range all {
		b := x.Body
		number, _ := strconv.Atoi(b.Code)
		week, variant, known := t.Layout.Of(number)
		taster := slices.Index(t.Laid.Body.Tasters, b.Taster)
		twice := slices.ContainsFunc(t.Scored, func(o Scored) bool { return o.Taster == taster && o.Body.Code == b.Code })
		switch {
		case !known || week != int(b.Week):
			t.misfit(x.Entry, x.Seq, b.Kind(), CodeUnknown, fmt.Sprintf("nothing in week %d has the code %s", b.Week, b.Code), "correct the code or the week")
		case taster < 0:
			t.misfit(x.Entry, x.Seq, b.Kind(), CodeUnknown, b.Taster+" is no taster of this trial", "correct who tasted")
		case twice:
			t.misfit(x.Entry, x.Seq, b.Kind(), CodeTwice, fmt.Sprintf("%s has said what they think of %s before; that counts", b.Taster, b.Code), "correct the first, or take one of the two back")
		default:
			t.Scored = append(t.Scored, Scored{x, variant, taster})
		}
	}
}

// together tells what makes variants hard to compare: batches that were not frozen on one day, and too few packs.
func (t *Trial) together() {
	where := "trial " + t.Name
	var first, last record.Day
	for _, m := range t.Made {
		if first == "" || m.Body.Frozen < first {
			first = m.Body.Frozen
		}
		last = max(last, m.Body.Frozen)
		if need := t.Laid.Body.Packs * int64(len(t.Laid.Body.Weeks)); m.Body.Packs < need {
			t.Found = append(t.Found, finding.Finding{Code: CodeFewPacks, Severity: finding.Caution, Where: where, Message: fmt.Sprintf("of %s %d packs were frozen, and %d are to be opened", m.Body.Variant, m.Body.Packs, need), Fix: "open fewer in each week, the same of every variant"})
		}
	}
	if first != last {
		t.Found = append(t.Found, finding.Finding{Code: CodeApart, Severity: finding.Caution, Where: where, Message: fmt.Sprintf("the variants were frozen on days from %s to %s: what they differ by may be those days", first, last), Fix: "freeze all variants of a trial together"})
	}
}

// offDays is how many days a pack may be opened before or after its week is over, and count as of that week, without a word.
const offDays = 3

// offDay tells of packs that were measured some days away from their week.
func (t *Trial) offDay() {
	frozen := t.Frozen()
	for _, o := range t.Opened {
		due, ok := midnight(after(frozen, o.Body.Week))
		if !ok {
			continue
		}
		off := (int64(o.At) - due) / (24 * 3_600_000)
		if off > offDays || off < -offDays {
			t.misfit(o.Entry, o.Seq, o.Body.Kind(), CodeOffDay, fmt.Sprintf("pack %d of %s of week %d was entered %+d days from its day; it counts as of week %d", o.Body.Number, o.Body.Variant, o.Body.Week, off, o.Body.Week), "open packs on their day, or say so beside the results")
		}
	}
}

// Pictures say what they are about in one text: the trial, and the variant and week where they show one.
const aboutTrial = "trial/"

// About is what a picture of a trial, or of a variant in a week, is about. A variant of "" is the trial as a whole.
func About(trial, variant string, week record.Week) string {
	if variant == "" {
		return aboutTrial + trial
	}
	return fmt.Sprintf("%s%s/%s/%d", aboutTrial, trial, variant, week)
}

// isAbout says whether a picture is about a trial.
func isAbout(about, trial string) bool {
	rest, ok := strings.CutPrefix(about, aboutTrial+trial)
	return ok && (rest == "" || rest[0] == '/')
}

func pictureOf(p Said[record.Pictured]) Picture {
	x := Picture{Said: p}
	_, rest, ok := strings.Cut(strings.TrimPrefix(p.Body.About, aboutTrial), "/")
	if !ok {
		return x
	}
	x.Variant = rest
	if i := strings.LastIndexByte(rest, '/'); i >= 0 {
		if n, err := strconv.Atoi(rest[i+1:]); err == nil {
			x.Variant, x.Week, x.HasWeek = rest[:i], record.Week(n), true
		}
	}
	return x
}
