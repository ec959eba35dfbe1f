package lots

import (
	"fmt"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
)

// The codes of what does not fit. They are stable, for programs.
const (
	CodeLotTwice     = "lot-twice"         // a lot comes into being a second time
	CodeLotUnknown   = "lot-unknown"       // nothing before it says where the lot came from
	CodeLotEarly     = "lot-used-early"    // it was used before it came
	CodeMoreThan     = "more-than-there"   // more is taken than is on hand
	CodePackNowhere  = "pack-not-here"     // packs that are not on hand: scanned twice, or never made
	CodePackGone     = "pack-found-again"  // packs that were gone were found
	CodeHeldTaken    = "held-taken"        // something that is held was used or handed over
	CodeStockOff     = "stock-differs"     // taking stock found something else than the records say
	CodeLoop         = "lot-in-itself"     // a lot would be part of itself
	CodeNotHeld      = "not-held"          // a release of something that nobody holds
	CodeUnreadable   = "entry-unreadable"  // a body that cannot be read
	CodeWrongReturn  = "return-not-handed" // packs come back that this customer did not get
	CodeMixedAmount  = "packs-and-mass"    // packs are told by mass, or bulk by numbers
	CodeKeptTaken    = "kept-taken"        // packs that are kept to be tasted were used or handed over
	CodeTastedWhich  = "tasted-which"      // a pack was opened and tasted, and nobody said which
	fixWithNewEntry  = "check it, and correct the entry that is wrong"
	fixTellWhereFrom = "enter where the lot came from, with the time when it came"
)

// report is a finding about an entry.
func report(e record.Entry, code string, severity finding.Severity, lot record.Lot, message, fix string, figures ...finding.Figure) finding.Finding {
	return finding.Finding{Code: code, Severity: severity, Where: fmt.Sprintf("lot %s, entry %d (%s)", lot, e.Seq, e.Kind), Path: "entries." + e.ID.String(), Message: message, Fix: fix, Figures: figures}
}

func count(name string, n int64) finding.Figure {
	return finding.Figure{Name: name, Value: float64(n), Unit: "packs", Text: fmt.Sprint(n)}
}

// About is what was found about some lots.
func About(found finding.List, ids ...record.Lot) finding.List {
	mine := map[string]bool{}
	for _, id := range ids {
		mine["lot "+string(id)] = true
	}
	var about finding.List
	for _, f := range found {
		if at := strings.LastIndex(f.Where, ", entry "); at >= 0 && mine[f.Where[:at]] {
			about = append(about, f)
		}
	}
	return about
}
