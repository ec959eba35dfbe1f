package record

import (
	"fmt"

	"kettlefrost/internal/unit"
)

// Voided takes back the entry that it corrects: it never happened. Voiding a correction takes back the correction.
type Voided struct {
	Why string `json:"why"`
}

// Noted is anything worth keeping.
type Noted struct {
	About string `json:"about,omitzero"` // a run, a lot, an order
	Text  Text   `json:"text"`
}

// Booked is a file of the book as it is from here on.
type Booked struct {
	Path    string `json:"path"`
	Text    Text   `json:"text,omitzero"`
	Removed bool   `json:"removed,omitzero"`
}

// Drilled is a recall, in earnest or to practise: when it began, and what it came to. It is entered when it begins, without an end; what it
// came to is a Drilled that corrects that entry, so that the chain keeps both times.
type Drilled struct {
	Lots     []Lot      `json:"lots"` // that were found for what was asked
	Practice bool       `json:"practice,omitzero"`
	Began    Instant    `json:"began_ms"`
	Ended    Instant    `json:"ended_ms,omitzero"`
	Packs    int64      `json:"packs,omitzero"`     // that hold any of the lots
	Found    int64      `json:"found,omitzero"`     // of those: where they are is known, each counted once
	Share    unit.Share `json:"accounted,omitzero"` // of the packs, by mass
	Asked    string     `json:"asked,omitzero"`     // in words: supplier farm, their lot 77
	Told     int64      `json:"told,omitzero"`      // packs told to be in a known place: those told of twice count twice
	Bulk     unit.Mass  `json:"bulk_g,omitzero"`    // of the lots in bulk, what came
	Open     unit.Mass  `json:"open_g,omitzero"`    // of that: unaccounted for, without its sign
	Calls    int64      `json:"calls,omitzero"`     // customers to be told
	Note     Text       `json:"note,omitzero"`      // what was learnt
}

func (Voided) Kind() Kind  { return "voided" }
func (Noted) Kind() Kind   { return "noted" }
func (Booked) Kind() Kind  { return "booked" }
func (Drilled) Kind() Kind { return "drilled" }

func (b Booked) agree(c *checker) {
	c.atMostOne(given{"text", b.Text != ""}, given{"removed", b.Removed})
}

func (d Drilled) agree(c *checker) {
	if d.Ended != 0 && d.Ended < d.Began {
		c.at("ended_ms", "is before it began", "write when it ended")
	}
	if d.Found > d.Packs {
		c.at("found", fmt.Sprintf("is %d of %d packs", d.Found, d.Packs), "count again")
	}
}
