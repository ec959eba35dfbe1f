package board

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// The codes of what does not fit. They are stable, for programs.
const (
	CodeNotOpened      = "run-not-opened"
	CodeOpenedAgain    = "run-opened-again"
	CodeAfterClosing   = "entered-after-closing"
	CodeUnknownTask    = "task-not-in-plan"
	CodeFinishedTwice  = "finished-twice"
	CodeNotStarted     = "finished-not-started"
	CodeStartedTwice   = "started-twice"
	CodeStartedAgain   = "started-when-done"
	CodeClockBack      = "clock-went-back"
	CodeFuture         = "from-the-future"
	CodeTooEarly       = "before-what-it-needs"
	CodeSkippedDone    = "skipped-and-done"
	CodeImpossibleTemp = "temperature-impossible"
	CodeUnreadable     = "entry-unreadable"
)

const (
	// aheadMs is how far a clock may be ahead of the store's without a word.
	aheadMs = 2 * 60 * 1000
	// slackMs is by how much a task may begin before what it needs is over without a word: who finishes one and starts the next touches twice.
	slackMs = 60 * 1000
)

// Nothing in a kitchen is colder or hotter than this: liquid nitrogen is not used, and a deep fryer stays below 200 °C (common practice).
const (
	coldestC = -90
	hottestC = 300
)

// finder collects what does not fit.
type finder struct {
	run   *Run
	found finding.List
}

func (f *finder) at(t Told, code string, severity finding.Severity, message, fix string, figures ...finding.Figure) {
	f.found = append(f.found, finding.Finding{Code: code, Severity: severity, Where: fmt.Sprintf("run %s, entry %d (%s)", f.run.Name, t.Seq, t.Kind), Path: "entries." + t.ID.String(), Message: message, Fix: fix, Figures: figures})
}

// entries finds what is odd about an entry by itself.
func (f *finder) entries() {
	opened, _, isOpened := f.run.Opened()
	closed, isClosed := f.run.Closed()
	openings := 0
	for _, t := range f.run.told {
		if ahead := t.Happened - t.Entered; t.Entered > 0 && ahead > aheadMs {
			f.at(t, CodeFuture, finding.Caution, fmt.Sprintf("it is told to happen %s after it was entered", minutes(ahead)), "set the clock of "+device(t)+", and enter the right time",
				finding.Figure{Name: "ahead", Value: float64(ahead) / 60000, Unit: "min", Text: minutes(ahead)})
		}
		if isClosed && byTime(closed, t) < 0 {
			f.at(t, CodeAfterClosing, finding.Note, "the run had been closed", "open it again if it goes on")
		}
		switch b := t.Says.(type) {
		case record.Opened:
			if openings++; openings > 1 {
				f.at(t, CodeOpenedAgain, finding.Note, fmt.Sprintf("the run was opened before, and its plan is now that of %s", opened.Who), "take one of the two back if they are not the same production")
			}
		case record.Measured:
			if c := b.Temp.C(); c < coldestC || c > hottestC {
				f.at(t, CodeImpossibleTemp, finding.Caution, fmt.Sprintf("%s is no temperature of a kitchen", b.Temp), "measure again, and check the unit",
					finding.Figure{Name: "temperature", Value: c, Unit: "°C", Text: b.Temp.String()})
			}
		}
	}
	if !isOpened && len(f.run.told) > 0 {
		f.at(f.run.told[0], CodeNotOpened, finding.Caution, "nobody has opened the run", "open it, or correct the name of the run in the entry")
	}
}

// task finds what does not fit of one task.
func (f *finder) task(t *Task, inPlan bool) {
	if last, ok := t.Last(); ok && !inPlan {
		f.at(last, CodeUnknownTask, finding.Caution, "the plan has no task "+t.Key, "correct the name of the task")
	}
	for i, x := range t.starts {
		switch {
		case i > 0 && x.Who != t.starts[0].Who:
			f.at(x, CodeStartedTwice, finding.Note, fmt.Sprintf("%s had started %s before", t.starts[0].Who, t.Key), "take this back if it is not both of you")
		case i > 0:
			f.at(x, CodeStartedTwice, finding.Note, t.Key+" had been started before", "take one of the two back")
		}
		if t.Is == Done && x.Happened > t.Ended {
			f.at(x, CodeStartedAgain, finding.Caution, t.Key+" was done already", "take back that it was finished, if it goes on")
		}
	}
	f.ends(t)
	for _, x := range t.skips {
		if t.Is == Done {
			f.at(x, CodeSkippedDone, finding.Caution, fmt.Sprintf("%s was also finished, by %s", t.Key, t.EndedBy), "take one of the two back")
		}
	}
}

func (f *finder) ends(t *Task) {
	for i, x := range t.ends {
		switch {
		case i > 0 && x.Who != t.ends[0].Who:
			f.at(x, CodeFinishedTwice, finding.Caution, fmt.Sprintf("%s had finished %s before", t.ends[0].Who, t.Key), "was it another load? Otherwise take this back")
		case i > 0:
			f.at(x, CodeFinishedTwice, finding.Note, t.Key+" had been finished before", "take one of the two back")
		case len(t.starts) == 0:
			f.at(x, CodeNotStarted, finding.Note, "nobody said when "+t.Key+" began", "enter when it began, if anybody knows")
		}
		if back := t.Began - x.Happened; len(t.starts) > 0 && back > 0 {
			f.at(x, CodeClockBack, finding.Caution, fmt.Sprintf("%s is told to be finished %s before it began", t.Key, minutes(back)), "set the clock of "+device(x)+", and enter the right time",
				finding.Figure{Name: "before", Value: float64(back) / 60000, Unit: "min", Text: minutes(back)})
		}
	}
}

// early finds tasks that began, or were over, before what they need.
func (f *finder) early(tasks map[string]*Task, needs map[string][]plan.Need) {
	for _, key := range slices.Sorted(maps.Keys(tasks)) {
		t := tasks[key]
		if t.Is == ToDo || t.Is == Skipped || len(t.starts)+len(t.ends) == 0 {
			continue
		}
		var missed []string
		for _, n := range needs[key] {
			before := tasks[n.Task]
			at := t.Began
			if !n.Begin {
				at = t.Ended // when it needs it on the way, it cannot be over before
			}
			ready, there := readyAt(before, n.Over)
			if (n.Begin || t.Is == Done) && (!there || at+slackMs < ready) && !slices.Contains(missed, n.Task) {
				missed = append(missed, n.Task)
			}
		}
		if last := slices.Concat(t.starts, t.ends)[0]; len(missed) > 0 {
			f.at(last, CodeTooEarly, finding.Caution, fmt.Sprintf("%s was done before what it needs was ready: %s", key, strings.Join(missed, ", ")), "enter what was done and not told, or correct the time")
		}
	}
}

// readyAt is when what a task needs was there.
func readyAt(t *Task, over bool) (at record.Instant, there bool) {
	switch {
	case t == nil || t.Is == ToDo:
		return 0, false
	case t.Is == Skipped:
		return 0, true
	case !over:
		return t.Began, true
	case t.Is == Done:
		return t.Ended, true
	}
	return 0, false
}

func device(t Told) string {
	if t.Device == "" {
		return "the device"
	}
	return t.Device
}

func minutes(ms record.Instant) string {
	return (unit.Span(max(1, (ms+30_000)/60_000)) * unit.Minute).String()
}
