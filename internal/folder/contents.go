// Package folder is what an inspector is handed about some lots: where they came from and where they are, every critical record with what was read
// and how it was judged, what was done when something was not as it must be, and who stands for it. It is one value, worked out of the entries and
// of what other packages say of them, and is written as a PDF and as a bundle that can be read and verified without the program.
//
// What is missing stands first and is never left out. A folder judges nothing and says nothing beyond what the records say.
package folder

import (
	"encoding/json"

	"kettlefrost/internal/haccp"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Schema names the shape of Contents.
const Schema = "kettlefrost.folder/1"

// Contents is all of a folder but its seals: the same for the same records about these lots as of a time, whatever is entered later about others. Times are milliseconds
// since 1970 UTC.
type Contents struct {
	Schema       string         `json:"schema"`
	About        string         `json:"about"`    // what a signature is about: the same whenever the same is asked
	Asked        string         `json:"asked"`    // in words
	AsOf         record.Instant `json:"as_of_ms"` // what was entered and read until then
	Kitchen      Kitchen        `json:"kitchen"`
	Missing      []Missing      `json:"missing"` // the gravest first
	Lots         []LotRow       `json:"lots"`    // that were asked for, then what went into them
	Flows        []Flow         `json:"flows"`   // what went from one of them into another
	Rules        []Rule         `json:"rules"`   // that the kitchen holds
	Plans        []Plan         `json:"plans"`   // hazard plans in force when the lots were made
	Records      []Record       `json:"records"` // critical records
	Actions      []Action       `json:"actions"` // corrective actions
	Holds        []Hold         `json:"holds"`   // holds and what was decided on them
	Thermometers []Thermometer  `json:"thermometers"`
	Cold         []Cold         `json:"cold"`        // places that the lots lay in
	Corrections  []Correction   `json:"corrections"` // of entries that this folder rests on
	Signatures   []SignatureRow `json:"signatures"`  // on runs and lots
	Entries      []Entry        `json:"entries"`     // that it rests on, in the order of the chain, corrected or not
	Readings     Readings       `json:"readings"`

	csv []byte // readings.csv
}

// Kitchen is whose folder it is.
type Kitchen struct {
	Name         string      `json:"name"`
	Place        string      `json:"place,omitempty"`
	Jurisdiction string      `json:"jurisdiction,omitempty"` // whose rules it holds; none: nothing is judged
	JudgedFrom   string      `json:"judged_from,omitempty"`  // lots of runs from this day on are judged
	Approval     string      `json:"approval,omitempty"`     // of the authority, for vacuum packing
	Units        unit.System `json:"units"`                  // of the words in this folder
}

// Missing is something that is not there, or not as it must be.
type Missing struct {
	Code  string   `json:"code"`  // stable, for programs
	Grave bool     `json:"grave"` // a record that failed, is missing or incomplete, and about which nobody has decided
	Where string   `json:"where"`
	All   []string `json:"all,omitempty"` // each by its name, where it is the same for several
	Says  string   `json:"says"`
	Fix   string   `json:"fix,omitempty"`
}

// LotRow is one lot with where it is now.
type LotRow struct {
	Lot         record.Lot     `json:"lot"`
	Asked       bool           `json:"asked,omitempty"` // or it went into one that was
	Sort        string         `json:"sort"`            // goods, batch, packs, pot, unknown
	What        string         `json:"what,omitempty"`  // of the book: ingredient, output, pack
	Dish        string         `json:"dish,omitempty"`
	Run         string         `json:"run,omitempty"`
	Supplier    string         `json:"supplier,omitempty"`
	SupplierLot string         `json:"supplier_lot,omitempty"`
	Born        record.Instant `json:"born_ms"`
	Came        unit.Mass      `json:"came_g"`
	Numbers     string         `json:"numbers,omitempty"` // of its packs
	Label       unit.Mass      `json:"label_g,omitempty"` // net, of each pack
	UseBy       record.Day     `json:"use_by,omitempty"`
	BestBefore  record.Day     `json:"best_before,omitempty"`
	Here        []Stay         `json:"here,omitempty"`      // on hand
	Handed      []Handed       `json:"handed,omitempty"`    // to customers
	Off         string         `json:"off,omitempty"`       // written off: numbers of packs, or mass
	Reused      string         `json:"reused,omitempty"`    // packs that were opened and cooked again
	NotFound    string         `json:"not_found,omitempty"` // packs that taking stock did not find
}

// Stay is so much of a lot at a place.
type Stay struct {
	Place   record.Place `json:"place,omitempty"`
	Numbers string       `json:"numbers,omitempty"`
	Mass    unit.Mass    `json:"mass_g,omitempty"`
}

// Handed is packs that a customer got. Who it was stands in the records, and in a recall.
type Handed struct {
	Customer string         `json:"customer"` // the id
	Numbers  string         `json:"numbers"`
	At       record.Instant `json:"at_ms"`
}

// Flow is mass that went from one lot into another, or into the pot of a dish.
type Flow struct {
	From  record.Lot `json:"from"`
	To    record.Lot `json:"to"`
	Mass  unit.Mass  `json:"mass_g"`
	Entry record.ID  `json:"entry"`
}

// Rule is a rule that the kitchen holds.
type Rule struct {
	ID      string `json:"id"`
	Topic   string `json:"topic"`
	Food    string `json:"food,omitempty"`
	Limit   string `json:"limit"` // as it is held
	Source  string `json:"source"`
	Changed string `json:"changed,omitempty"` // how it differs from what was published, why, and who decided
	Laxer   bool   `json:"laxer,omitempty"`
	Confirm string `json:"confirm,omitempty"` // what of it is from memory; such a rule stops nothing
}

// Plan is a version of a hazard plan.
type Plan struct {
	Pack     string          `json:"pack"`
	Entry    record.ID       `json:"entry"` // of the version
	At       record.Instant  `json:"at_ms"`
	Who      string          `json:"who"`
	Version  int             `json:"version"` // from 1
	Basis    string          `json:"basis"`
	Note     string          `json:"note,omitempty"`
	Reviews  []Review        `json:"reviews,omitempty"`
	Accepted bool            `json:"accepted"` // by a qualified person, when the lots were packed
	Readable bool            `json:"readable"` // its points could be taken out of its text
	Text     json.RawMessage `json:"text"`     // all of it, as it was entered

	plan haccp.Plan
}

// Review is the word of a qualified person on a plan.
type Review struct {
	At        record.Instant `json:"at_ms"`
	Reviewer  string         `json:"reviewer"`
	Qualified string         `json:"qualified"`
	Outcome   string         `json:"outcome"`
	Authority string         `json:"authority,omitempty"`
	Why       string         `json:"why,omitempty"`
	Entered   string         `json:"entered_by"`
}

// Action is what was done about something.
type Action struct {
	Entry record.ID      `json:"entry"`
	At    record.Instant `json:"at_ms"`
	Who   string         `json:"who"`
	Where string         `json:"where"` // task, lot or place
	Code  string         `json:"code,omitempty"`
	Did   string         `json:"did"`
	TempC *float64       `json:"temp_c,omitempty"`
	Text  string         `json:"text,omitempty"`
}

// Hold is a hold, or a decision on one.
type Hold struct {
	Entry    record.ID      `json:"entry,omitzero"` // none: it follows from a critical record
	At       record.Instant `json:"at_ms,omitempty"`
	Who      string         `json:"who,omitempty"`
	Lot      record.Lot     `json:"lot"`
	Numbers  string         `json:"numbers,omitempty"` // none: all of it
	Decided  string         `json:"decided,omitempty"` // release, rework, destroy; none: it is the hold
	Points   []string       `json:"points,omitempty"`  // critical records that it is about
	Why      string         `json:"why"`
	Standing bool           `json:"standing,omitempty"` // it holds now
}

// SignatureRow is somebody who stands for something.
type SignatureRow struct {
	Entry record.ID      `json:"entry"`
	At    record.Instant `json:"at_ms"`
	Who   string         `json:"who"`
	As    string         `json:"as"`
	About string         `json:"about"`
	Hash  string         `json:"hash,omitempty"`
	Text  string         `json:"text,omitempty"`
}

// Correction is an entry that was put right, or taken back.
type Correction struct {
	Of      record.ID      `json:"of"` // the entry that was wrong
	OfSeq   uint64         `json:"of_seq"`
	Kind    record.Kind    `json:"kind"`
	By      record.ID      `json:"by"` // the entry that says so
	BySeq   uint64         `json:"by_seq"`
	Who     string         `json:"who"`
	Entered record.Instant `json:"entered_ms"`
	Was     string         `json:"was"`            // in words
	Back    bool           `json:"back,omitempty"` // it was taken back, or the correction of it was
	Why     string         `json:"why,omitempty"`
	Fields  []Field        `json:"fields,omitempty"` // that differ
}

// Field is one field of an entry before and after.
type Field struct {
	Path string `json:"path"`
	Was  string `json:"was"` // as JSON; "" when it was not there
	Is   string `json:"is"`
}

// Entry is one entry that the folder rests on. Its line stands in entries.jsonl.
type Entry struct {
	Seq      uint64         `json:"seq"`
	ID       record.ID      `json:"id"`
	Kind     record.Kind    `json:"kind"`
	Happened record.Instant `json:"happened_ms"`
	Entered  record.Instant `json:"entered_ms"`
	Who      string         `json:"who"`
	Device   string         `json:"device,omitempty"`
	Says     string         `json:"says"`
	Hash     record.Hash    `json:"hash"`
	Standing bool           `json:"standing"` // false: it was taken back, or another has taken its place
}

// Readings is the file of readings that goes with it.
type Readings struct {
	Rows   int    `json:"rows"`
	SHA256 string `json:"sha256"` // of readings.csv
}
