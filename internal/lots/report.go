package lots

import (
	"kettlefrost/internal/record"
	"kettlefrost/internal/trace"
	"kettlefrost/internal/unit"
)

// RecallSchema names the shape of a Report.
const RecallSchema = "kettlefrost.recall/1"

// Report is a recall as one value: what the pages, the command line, the paper and programs show. Times are milliseconds since 1970 UTC.
type Report struct {
	Schema  string         `json:"schema"`
	Asked   string         `json:"asked"`            // in words
	Of      []record.Lot   `json:"of"`               // the lots that are meant
	Unsure  []record.Lot   `json:"unsure,omitempty"` // lots that fit but for a supplier's lot number, which nobody wrote down: not in this recall
	Named   []Named        `json:"named,omitempty"`  // single packs that were asked for, where they are
	At      record.Instant `json:"at_ms"`            // when it was asked
	Account Account        `json:"account"`
	Calls   []Call         `json:"calls"`           // whom to tell: who got the first of it first
	OnHand  []Stay         `json:"on_hand"`         // what has to be held
	Gone    []Gone         `json:"gone,omitempty"`  // written off, opened again, or not found
	Bulk    []BulkRow      `json:"bulk,omitempty"`  // what is not in packs
	Pots    []BulkRow      `json:"pots,omitempty"`  // what was cooked of it, each pot with what boiled away or nobody wrote down
	Lots    []ReportLot    `json:"lots"`            // everything that contains any of it, the nearest first
	Flows   []Flow         `json:"flows,omitempty"` // what went from one of them into another
}

// Named is packs that were asked for by their numbers, and are in one place.
type Named struct {
	Lot     record.Lot     `json:"lot"`
	Numbers string         `json:"numbers"`
	State   string         `json:"state"`           // on hand, handed over, written off, reused, unknown
	Where   string         `json:"where,omitempty"` // the place, or the customer's name
	At      record.Instant `json:"at_ms,omitempty"` // when they were handed over
}

// Account is how much is accounted for.
type Account struct {
	Made          int64      `json:"made"`            // packs that contain any of it
	Found         int64      `json:"found"`           // of those: in a known place, each counted once
	Told          int64      `json:"told"`            // packs told to be in a known place: those told of twice count twice
	Share         float64    `json:"share"`           // found over made
	Ratio         float64    `json:"ratio"`           // told over made: above 1 is a failure too
	MadeMass      unit.Mass  `json:"made_g"`          // of the packs
	FoundMass     unit.Mass  `json:"found_g"`         // of the packs
	BulkMass      unit.Mass  `json:"bulk_g"`          // of the lots in bulk, what came
	BulkOpen      unit.Mass  `json:"bulk_open_g"`     // of that, what is unaccounted, without its sign
	PacksComplete bool       `json:"packs_complete"`  // every pack was made once and is in one known place
	Complete      bool       `json:"complete"`        // and nothing in bulk is unaccounted
	Packs         []PacksRow `json:"packs,omitempty"` // lot by lot
}

// PacksRow is where the packs of one lot are; the numbers as they stand on the bags.
type PacksRow struct {
	Lot     record.Lot `json:"lot"`
	What    string     `json:"what,omitempty"` // of the book: which pack
	Made    int64      `json:"made"`
	Found   int64      `json:"found"`
	Told    int64      `json:"told"`
	Missing string     `json:"missing,omitempty"` // made, and in no known place
	Twice   string     `json:"twice,omitempty"`   // in two known places at once
	Beyond  string     `json:"beyond,omitempty"`  // in a known place, and never made
}

// Call is somebody who got packs.
type Call struct {
	Customer string         `json:"customer"`
	Name     string         `json:"name"`
	Phone    string         `json:"phone,omitempty"`
	Mail     string         `json:"mail,omitempty"`
	Address  string         `json:"address,omitempty"`
	First    record.Instant `json:"first_ms"` // when the first of it left the house
	Packs    int64          `json:"packs"`
	Mass     unit.Mass      `json:"mass_g"`
	Items    []CallItem     `json:"items"` // the earliest first
}

// CallItem is packs of one lot that left the house together.
type CallItem struct {
	Lot        record.Lot     `json:"lot"`
	What       string         `json:"what,omitempty"`
	Numbers    string         `json:"numbers"`
	Packs      int64          `json:"packs"`
	Mass       unit.Mass      `json:"mass_g"`
	BestBefore record.Day     `json:"best_before,omitempty"`
	At         record.Instant `json:"at_ms"`
	Order      string         `json:"order,omitempty"`
	Address    string         `json:"address,omitempty"` // where it went, when that is not the customer's own address
	TakenBy    string         `json:"taken_by,omitempty"`
	Doubted    bool           `json:"doubted,omitempty"` // the records tell of these packs otherwise as well
}

// Stay is so much of a lot at one of our places.
type Stay struct {
	Lot     record.Lot   `json:"lot"`
	Sort    Sort         `json:"sort"`
	What    string       `json:"what,omitempty"`
	Place   record.Place `json:"place"`
	Numbers string       `json:"numbers,omitempty"`
	Packs   int64        `json:"packs,omitempty"`
	Mass    unit.Mass    `json:"mass_g"`
	Held    string       `json:"held,omitempty"` // the packs that are held, or "all"
	Why     string       `json:"why,omitempty"`  // they are held
	Free    bool         `json:"free,omitempty"` // some of it is not held
}

// Gone is packs that are not in the house and with nobody.
type Gone struct {
	Lot     record.Lot `json:"lot"`
	What    string     `json:"what,omitempty"`
	State   string     `json:"state"` // written off, reused, unknown
	Numbers string     `json:"numbers"`
	Packs   int64      `json:"packs"`
	Mass    unit.Mass  `json:"mass_g"`
}

// NotFound says that taking stock did not find the packs, and nobody said where they went.
func (g Gone) NotFound() bool { return g.State == trace.Unknown.String() }

// BulkRow is where a lot in bulk, or what was in a pot, went: came = used + on hand + waste + unaccounted.
type BulkRow struct {
	Lot         record.Lot `json:"lot"`
	What        string     `json:"what,omitempty"`
	Came        unit.Mass  `json:"came_g"`
	Used        unit.Mass  `json:"used_g"`
	OnHand      unit.Mass  `json:"on_hand_g"`
	Waste       unit.Mass  `json:"waste_g"`
	Unaccounted unit.Mass  `json:"unaccounted_g"`
}

// ReportLot is a lot that a trace leads to.
type ReportLot struct {
	Lot         record.Lot     `json:"lot"`
	Sort        Sort           `json:"sort"`
	What        string         `json:"what,omitempty"`
	Run         string         `json:"run,omitempty"`
	Supplier    string         `json:"supplier,omitempty"`
	SupplierLot string         `json:"supplier_lot,omitempty"`
	Born        record.Instant `json:"born_ms"`
	Came        unit.Mass      `json:"came_g"` // of a pot: what was used for it
	Steps       int            `json:"steps"`  // at most, from what was asked for
	Asked       bool           `json:"asked,omitempty"`
	Expected    unit.Mass      `json:"expected_g"` // forward: what was asked for in it; backward: it in what was asked for; if all was mixed evenly
	Least       unit.Mass      `json:"least_g"`    // however it was mixed
	Most        unit.Mass      `json:"most_g"`
}

// Flow is mass that went from one lot into another.
type Flow struct {
	From   record.Lot `json:"from"`
	To     record.Lot `json:"to"`
	Mass   unit.Mass  `json:"mass_g"`
	Rework bool       `json:"rework,omitempty"` // what had been made before was cooked again
}
