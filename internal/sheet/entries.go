package sheet

import (
	"cmp"
	"fmt"
	"strings"

	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// EntryText is what an entry says, in a few words on one line.
func EntryText(b record.Body, units unit.System) string {
	m := func(x unit.Mass) string { return x.Show(units) }
	lot := func(verb string, id record.Lot, n record.Numbers, mass unit.Mass, more ...string) string {
		return words(append([]string{verb, amount(n, mass, units), "of " + string(id)}, more...)...)
	}
	switch b := b.(type) {
	case record.Received:
		return words("received", m(b.Mass), b.Ingredient, "from "+b.Supplier, "as "+string(b.Lot), at(b.Place))
	case record.Used:
		return lot("used", b.Lot, b.Numbers, b.Mass, "for "+b.Dish)
	case record.Made:
		return words("made", m(b.Mass), b.Output, "as "+string(b.Lot), at(b.Place))
	case record.Packed:
		return words("packed", times(b.Numbers.Count(), "pack"), b.Pack, "as "+string(b.Lot), at(b.Place))
	case record.Moved:
		return lot("moved", b.Lot, b.Numbers, b.Mass, "to "+string(b.To))
	case record.Counted:
		if b.Nothing {
			return words("counted nothing of", string(b.Lot), at(b.Place))
		}
		return lot("counted", b.Lot, b.Numbers, b.Mass, at(b.Place))
	case record.WrittenOff:
		return lot("wrote off", b.Lot, b.Numbers, b.Mass) + ": " + b.Why
	case record.TrialLaid, record.TrialMade, record.TrialOpened, record.TrialScored, record.TrialClosed, record.Pictured:
		return trialEntryText(b)
	case record.SetAside:
		return words("kept for tasting", some(b.Lot, b.Numbers), "to be opened on", days(b.Open))
	case record.Tasted:
		return words("opened and tasted", some(b.Lot, b.Numbers)) + ": " + string(b.Verdict)
	case record.Labelled:
		text := words("printed", times(b.Count, "label"), b.Pack, "of lot "+string(b.Lot))
		if b.Reprint {
			text += " again: " + string(b.Why)
		}
		return text
	case record.Held:
		return words("held", some(b.Lot, b.Numbers)) + ": " + b.Why
	case record.Released:
		return words("decided to", string(b.Disposition), some(b.Lot, b.Numbers)) + ": " + b.Why
	case record.Opened:
		return words("opened the run", b.Run)
	case record.Closed:
		return words("closed the run", b.Run)
	case record.Started:
		return words("started", b.Task)
	case record.Finished:
		return words("finished", b.Task)
	case record.Skipped:
		return words("skipped", b.Task) + ": " + b.Why
	case record.Weighed:
		return words("weighed", m(b.Net), b.Output)
	case record.Measured:
		return words("measured", b.Temp.Show(units), cmp.Or(b.Task, b.Output, b.Dish), at(cmp.Or(b.Place, record.Place(b.Point))))
	case record.Watched:
		return words("put the probe", b.Probe, "into", cmp.Or(b.Task, b.Output, string(b.Lot), string(b.Place)), at(record.Place(b.Point)))
	case record.Calibrated:
		return calibrated(b, units)
	case record.Acted:
		return acted(b, units)
	case record.Customer:
		return words("customer", b.Name)
	case record.Ordered:
		return words("order", b.Order, "for "+b.Customer, "due "+string(b.Due))
	case record.Cancelled:
		return words("cancelled", b.Order) + ": " + b.Why
	case record.Picked:
		return lot("picked", b.Lot, b.Numbers, 0, "for "+b.Order)
	case record.HandedOver:
		return lot("handed over", b.Lot, b.Numbers, 0, "to "+b.Customer)
	case record.Routed:
		return words("set the order of the deliveries of", string(b.Day))
	case record.Returned:
		return lot("returned", b.Lot, b.Numbers, 0, "by "+b.Customer) + ": " + b.Why
	case record.Invoiced:
		return words("invoice", b.Invoice, "to "+b.Customer, "of "+b.Total.String())
	case record.Credited:
		return words("credit", b.Credit, "on "+b.Invoice, "of "+b.Total.String())
	case record.Paid:
		return words("paid", b.Amount.String(), "for "+b.Invoice)
	case record.Voided:
		return "took back an entry: " + b.Why
	case record.Drilled:
		if b.Ended == 0 {
			return words("began a recall of", b.Asked)
		}
		return words("ended the recall of", b.Asked) + fmt.Sprintf(": %d of %d packs found", b.Found, b.Packs)
	case record.Noted:
		return words("noted", b.About) + ": " + strings.ReplaceAll(string(b.Text), "\n", " ")
	case record.HazardPlan:
		return words("a version of the hazard plan of", b.Pack)
	case record.PlanReviewed:
		return words("hazard plan of", b.Pack, string(b.Outcome), "by "+b.Reviewer)
	case record.Signed:
		return words("signed", b.About, "as "+string(b.As))
	case record.Logged:
		return words("took in", times(b.Readings, "reading"), "from the file "+b.File)
	case record.Booked:
		return words("changed the book's file", b.Path)
	default:
		return string(b.Kind())
	}
}

// deeds are what was done, in words.
var deeds = map[record.Deed]string{record.Stirred: "stirred", record.Shallower: "put into shallower vessels", record.MoreIce: "gave more ice to", record.Reheated: "heated again", record.Relocated: "moved",
	record.Discarded: "threw away", record.OtherDeed: "did something about"}

// acted is what was done about something that was not as it must be.
func acted(b record.Acted, units unit.System) string {
	temp := ""
	if b.Temp != nil {
		temp = "at " + b.Temp.Show(units)
		if b.Did == record.Reheated {
			temp = "to " + b.Temp.Show(units)
		}
	}
	says := words(cmp.Or(deeds[b.Did], string(b.Did)), cmp.Or(b.Task, string(b.Lot), string(b.Place)), temp)
	if b.Text != "" {
		says += ": " + strings.ReplaceAll(string(b.Text), "\n", " ")
	}
	return says
}

// amount is packs by count and numbers, or mass.
func amount(n record.Numbers, mass unit.Mass, units unit.System) string {
	if n.Empty() {
		return mass.Show(units)
	}
	return fmt.Sprintf("%s (no. %s)", times(n.Count(), "pack"), n)
}

func some(lot record.Lot, n record.Numbers) string {
	if n.Empty() {
		return "all of " + string(lot)
	}
	return fmt.Sprintf("no. %s of %s", n, lot)
}

func days(all []record.Day) string {
	var texts []string
	for _, d := range all {
		texts = append(texts, string(d))
	}
	return strings.Join(texts, ", ")
}

func times(n int64, of string) string {
	if n == 1 {
		return "1 " + of
	}
	return fmt.Sprintf("%d %ss", n, of)
}

func at(p record.Place) string {
	if p == "" {
		return ""
	}
	return "at " + string(p)
}

// words leaves out what is empty.
func words(all ...string) string {
	var some []string
	for _, w := range all {
		if w != "" {
			some = append(some, w)
		}
	}
	return strings.Join(some, " ")
}
