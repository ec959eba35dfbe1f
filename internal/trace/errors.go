package trace

import (
	"fmt"
	"strconv"
	"strings"
)

// InputError says which lot or flow makes no sense, and what would do.
type InputError struct {
	Where  string // "lot 3", "flow from 3 to 5", "packs 4-9 of lot 3"
	Reason string
	Fix    string
}

// Error is one line.
func (e *InputError) Error() string { return "trace: " + e.Where + ": " + e.Reason + "; " + e.Fix }

func unknownLot(lot, lots int) *InputError {
	return &InputError{"lot " + strconv.Itoa(lot), fmt.Sprintf("there are %d lots, numbered from 0", lots), "add the lot before what goes into it or comes of it"}
}

// LoopError is a flow that would make a lot part of itself.
type LoopError struct {
	Flow Flow
	Lots []int // the loop: each goes into the next, and the last, by the flow that is refused, into the first
}

// Error names the loop.
func (e *LoopError) Error() string {
	var b strings.Builder
	for _, l := range e.Lots {
		fmt.Fprintf(&b, "%d, ", l)
	}
	return fmt.Sprintf("trace: lot %d goes into itself: %sand %d again; what is left over of a lot and used once more makes a new lot", e.Lots[0], b.String(), e.Lots[0])
}
