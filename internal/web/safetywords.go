package web

import (
	"cmp"
	"fmt"
	"net/url"
	"strings"
	"unicode"
	"unicode/utf8"

	"kettlefrost/internal/app"
	"kettlefrost/internal/critical"
)

// signMark is a sign with its class, as everywhere: nothing is told by colour alone.
type signMark struct{ Sign, Class string }

// recordRow is one critical record in short.
type recordRow struct {
	signMark
	Title, Of   string
	Word        string // passed, failed, incomplete, missing, not yet
	Says, Fix   string
	Limit       string
	Source      string
	Memory      string // what of the limit is from memory
	URL, Button string
	Sign        *checkForm
	Mark        signMark
}

// nextOf is what to do next about a run: what is worst, and of what is alike the first that was due.
func nextOf(run app.SafetyRun, query url.Values) *safetyNext {
	var worst *critical.Verdict
	for i, v := range run.Verdicts {
		if v.Troubles() && (worst == nil || weight(v) > weight(*worst) || weight(v) == weight(*worst) && v.Due < worst.Due) {
			worst = &run.Verdicts[i]
		}
	}
	if worst == nil {
		return nil
	}
	n := &safetyNext{signMark: signForRecord(*worst), Says: titleOf(*worst) + " (" + run.Run + "): " + inSentence(worst.Says), Fix: inSentence(worst.Fix), Button: "Look at it", URL: stageURL(*worst, query)}
	if worst.Outcome == critical.Fail && run.Held() > 0 {
		n.Button, n.URL = "Decide", coldURL(safetyRunPath, query, "run", run.Run)+"#decide"
	}
	return n
}

// weight is how much a record needs somebody: what fails, then what is done and not written down, then what is still to come.
func weight(v critical.Verdict) int {
	switch {
	case v.Outcome == critical.Fail:
		return 3
	case v.Why == critical.WhyNotYet:
		return 0
	case v.Outcome == critical.Incomplete:
		return 1
	}
	return 2
}

func safetyRow(run app.SafetyRun, query url.Values) safetyRunRow {
	row := safetyRunRow{Name: run.Run, Day: string(run.Day), URL: coldURL(safetyRunPath, query, "run", run.Run), signMark: signMark{"●", "note"}}
	count := map[string]int{}
	for _, v := range run.Verdicts {
		if v.Gates || v.Outcome == critical.Pass {
			count[wordOf(v)]++
		}
	}
	var parts []string
	for _, word := range []string{"failed", "incomplete", "missing", "not yet", "passed"} {
		if n := count[word]; n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, word))
		}
	}
	row.Says = cmp.Or(strings.Join(parts, ", "), "no critical records")
	switch held := run.Held(); {
	case count["failed"] > 0 && held > 0:
		row.signMark = signMark{"■", "stop"}
	case count["failed"]+count["incomplete"]+count["missing"] > 0:
		row.signMark = signMark{"▲", "caution"}
	}
	if n := run.Held(); n > 0 {
		row.Held = times(n, "lot is held", "lots are held")
	}
	return row
}

// wordOf is an outcome in a word.
func wordOf(v critical.Verdict) string {
	switch {
	case v.Why == critical.WhyNotYet:
		return "not yet"
	case v.Outcome == critical.Pass:
		return "passed"
	case v.Outcome == critical.Fail:
		return "failed"
	}
	return string(v.Outcome)
}

// inSentence makes a sentence of what is told.
func inSentence(text string) string {
	if text == "" {
		return ""
	}
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + strings.TrimSuffix(text[size:], ".") + "."
}

func signForRecord(v critical.Verdict) signMark {
	switch {
	case v.Outcome == critical.Pass:
		return signMark{"●", "note"}
	case v.Outcome == critical.Fail && v.Gates:
		return signMark{"■", "stop"}
	case v.Why == critical.WhyNotYet:
		return signMark{"○", "note"}
	}
	return signMark{"▲", "caution"}
}

// titleOf is what a record is of, with its load.
func titleOf(v critical.Verdict) string {
	if v.Loads > 1 {
		return fmt.Sprintf("%s, load %d of %d", strings.TrimRight(v.Title, "."), v.Load, v.Loads)
	}
	return strings.TrimRight(v.Title, ".")
}

func stageURL(v critical.Verdict, query url.Values) string {
	return coldURL(safetyStagePath, query, "point", v.Point)
}

func (s *server) recordRow(v critical.Verdict, query url.Values) recordRow {
	row := recordRow{Mark: signForRecord(v), Title: titleOf(v), Word: wordOf(v), Says: inSentence(v.Says), Fix: inSentence(v.Fix), Limit: strings.TrimSuffix(inSentence(v.Limit), "."), Source: v.Source, URL: stageURL(v, query), Button: "Look"}
	if v.Outcome != critical.Pass && (v.What == critical.Cooling || v.What == critical.Cooking) {
		row.Button = "Enter readings"
	}
	if !v.Gates {
		row.Memory = cmp.Or(v.Confirm, "shown only")
	}
	if v.What == critical.Label || v.What == critical.Own {
		row.URL = ""
		if v.Outcome != critical.Pass {
			row.Sign = &checkForm{About: v.Point, Entry: newEntryID(), Back: coldURL(safetyRunPath, query, "run", v.Run)}
		}
	}
	return row
}
