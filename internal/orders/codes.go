package orders

import (
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
)

// The codes of what does not fit. They are stable, for programs.
const (
	CodeUnreadable    = "entry-unreadable"    // a body that cannot be read
	CodeOrderTwice    = "order-twice"         // two orders have one number
	CodeOrderUnknown  = "order-unknown"       // nobody gave an order of that number
	CodeOrderOff      = "order-off"           // something was done for an order that is cancelled
	CodeDeliveryEvery = "delivery-every"      // one delivery of a standing order is told to stand itself
	CodeWhichDelivery = "which-delivery"      // something was done for a standing order, and not for one of its deliveries
	CodePickedAgain   = "picked-again"        // a pack is set aside for the same order twice
	CodePickedTwice   = "picked-twice"        // a pack is set aside for two orders
	CodePickedGone    = "picked-gone"         // a pack is set aside that left the house before
	CodeGoneTwice     = "handed-twice"        // a pack left the house twice
	CodeTakenFrom     = "handed-from-another" // packs that were set aside for one order went to another
	CodeWrongCustomer = "handed-wrong"        // packs of an order went to somebody else
	CodePickedHeld    = "picked-held"         // packs that are set aside are held
	CodePickedKept    = "picked-kept"         // packs that are set aside are kept to be tasted
	CodePickedMissing = "picked-missing"      // packs that are set aside are not on hand
	CodePickedOld     = "picked-too-old"      // packs that are set aside are not good for long enough
	CodePickedOver    = "picked-over"         // more packs are set aside than are wanted now
	fixWithNewEntry   = "check it, and correct the entry that is wrong"
	fixPickAgain      = "take them back to the stock, and pick the order again"
	fixNumberAnew     = "correct the entry with another number of the order"
	fixEnterOrder     = "enter the order, or correct the entry with the right number"
	fixLookAtPack     = "look at the pack, and correct the entry that is wrong"
	fixPutBack        = "put back what is too many"
	fixHoldDecide     = "leave them where they are until a named person has decided, and pick others"
	fixOthers         = "leave them in the box of packs to be tasted, and pick others"
	fixFindThem       = "look for them, and pick others for the order"
	fixFresher        = "put them back and pick fresher ones, or agree with the customer"
	fixTellWhoGot     = "correct the customer or the order of the entry"
	fixOneDelivery    = "leave the weeks out: the standing order has them"
	fixTakeBackCancel = "take the cancelling back, or correct the entry with the right number"
)

// report is a finding about an entry.
func report(e record.Entry, code string, severity finding.Severity, order, message, fix string, figures ...finding.Figure) finding.Finding {
	return finding.Finding{Code: code, Severity: severity, Where: fmt.Sprintf("order %s, entry %d (%s)", order, e.Seq, e.Kind), Path: "entries." + e.ID.String(), Message: message, Fix: fix, Figures: figures}
}

func count(name string, n int64) finding.Figure {
	return finding.Figure{Name: name, Value: float64(n), Unit: "packs", Text: fmt.Sprint(n)}
}
