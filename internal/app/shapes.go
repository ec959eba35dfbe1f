package app

import (
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
)

// Names of the shapes in which programs get what is here.
const (
	ImportSchema  = "kettlefrost.import/1"
	BookLogSchema = "kettlefrost.book-log/1"
	OrderSchema   = "kettlefrost.order/1"
	PicksSchema   = "kettlefrost.pick-list/1"
)

// ImportSheet is what an import would enter, or has entered.
type ImportSheet struct {
	Schema  string `json:"schema"`
	Entered bool   `json:"entered"` // else it was only looked at
	ImportPreview
}

// View is an import for programs.
func (p ImportPreview) View(entered bool) ImportSheet {
	p.Lines = append([]ImportLine{}, p.Lines...)
	return ImportSheet{ImportSchema, entered, p}
}

// BookLogSheet is the versions of a book's files.
type BookLogSheet struct {
	Schema   string          `json:"schema"`
	Versions []LoggedVersion `json:"versions"`
}

// LoggedVersion is a version of a file of the book.
type LoggedVersion struct {
	File    string         `json:"file"`
	Version int            `json:"version"`
	Entry   uint64         `json:"entry"` // of the records, by its number
	Who     string         `json:"who"`
	Device  string         `json:"device"`
	When    record.Instant `json:"when_ms"`
	Deleted bool           `json:"deleted,omitempty"`
	Bytes   int            `json:"bytes"`
}

// OrderView is one order.
type OrderView struct {
	Schema string `json:"schema"`
	orders.Order
}

// PickSheet is what is to be fetched from the freezers.
type PickSheet struct {
	Schema string       `json:"schema"`
	Day    record.Day   `json:"day"`             // for which it is asked
	Order  string       `json:"order,omitempty"` // only for this one, whenever it is due
	Rows   []orders.Row `json:"rows"`            // in the order of the walk
}
