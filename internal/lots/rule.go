package lots

import (
	"cmp"
	"slices"
	"strings"

	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// RuleSource is where the elements of the tables are listed. It is a reading, and nothing that binds.
const RuleSource = "21 CFR 1 subpart S (Food Traceability Rule): receiving 1.1345(a), shipping 1.1340; transformation 1.1350 from memory"

// RuleTable is the records of one critical tracking event, with the elements that the rule lists. It covers all food, listed or not: which
// foods are listed, and whether the business is exempt (1.1305), is for the business and its authority to say.
type RuleTable struct {
	Event string    `json:"event"` // receiving, transformation or shipping
	Head  []Element `json:"elements"`
	Rows  []RuleRow `json:"rows"` // the earliest first
}

// Element is a key data element of an event.
type Element struct {
	Key  string `json:"key"`
	Name string `json:"name"`
}

// RuleRow is one event; a transformation has a row for each lot that was used.
type RuleRow struct {
	Entry   string            `json:"entry"` // its ID
	At      record.Instant    `json:"at_ms"`
	Values  map[string]string `json:"values"`  // by the key of the element
	Missing []string          `json:"missing"` // the keys of the elements that nobody wrote down, or of which only part is known
}

// House is what the tables say of us, and how a time is written as a day here.
type House struct {
	Name    string
	Address string // on one line; "" when nobody wrote it down, and then our location is missing
	Date    func(record.Instant) string
}

func (h House) at() place { return place{h.Name, h.Address} }

// place is somebody and where; a name alone is no location.
type place struct{ name, address string }

func (p place) text() string { return join(p.name, p.address) }

// The elements of each event. No entry has a field for where a supplier's lot code comes from, so that it is missing in every row of goods.
var (
	receivingElements = []Element{{"lot_code", "traceability lot code"}, {"quantity", "quantity and unit"}, {"product", "product description"}, {"from", "location of the previous source"},
		{"at", "location where it was received"}, {"date", "date received"}, {"code_source", "lot code source, or a reference to it"}, {"document", "reference document, type and number"}}
	transformationElements = []Element{{"used_lot_code", "lot code used"}, {"used_product", "product used"}, {"used_quantity", "quantity used and unit"}, {"lot_code", "new traceability lot code"},
		{"at", "location where it was made"}, {"date", "date completed"}, {"product", "product description"}, {"quantity", "quantity and unit made"}, {"document", "reference document, type and number"}}
	shippingElements = []Element{{"lot_code", "traceability lot code"}, {"quantity", "quantity and unit"}, {"product", "product description"}, {"to", "location of the next recipient"},
		{"at", "location it was shipped from"}, {"date", "date shipped"}, {"code_source", "lot code source, or a reference to it"}, {"document", "reference document, type and number"}}
)

// Rule is the three tables about some lots and everything that contains any of them or went into them; about all lots if none is named.
// Errors are *UnknownError and *trace.InputError.
func (s *State) Rule(ids []record.Lot, h House) ([]RuleTable, error) {
	about, err := s.around(ids)
	if err != nil {
		return nil, err
	}
	received, made, shipped := RuleTable{Event: "receiving", Head: receivingElements}, RuleTable{Event: "transformation", Head: transformationElements}, RuleTable{Event: "shipping", Head: shippingElements}
	for _, l := range about {
		for _, e := range l.Events {
			switch b := e.Body.(type) {
			case record.Received:
				received.add(e.Entry, e.At, receivingRow(b, h, e.At), map[string]place{"from": {b.Supplier, ""}, "at": h.at()})
			case record.HandedOver:
				c := s.Customer(b.Customer)
				shipped.add(e.Entry, e.At, s.shippingRow(l, b, h, e.At), map[string]place{"to": {c.Name, tell(cmp.Or(b.Address, c.Address), record.Customer{})}, "at": h.at()})
			}
		}
		if l.Sort == Batch || l.Sort == Packs {
			for _, row := range s.transformationRows(l, h) {
				made.add(l.Entry, l.Born, row, map[string]place{"at": h.at()})
			}
		}
	}
	tables := []RuleTable{received, made, shipped}
	for _, t := range tables {
		slices.SortStableFunc(t.Rows, func(a, b RuleRow) int { return cmp.Compare(a.At, b.At) })
	}
	return tables, nil
}

// around is the lots that some went into or came of, themselves included, but for pots.
func (s *State) around(ids []record.Lot) ([]*Lot, error) {
	var all []*Lot
	for l := range s.All() {
		if len(ids) == 0 && l.Sort != Pot {
			all = append(all, l)
		}
	}
	back, err := s.Backward(ids...)
	if err != nil {
		return nil, err
	}
	forward, err := s.Forward(ids...)
	for _, x := range append(back, forward...) {
		if x.Sort != Pot && !slices.Contains(all, x.Lot) {
			all = append(all, x.Lot)
		}
	}
	return all, err
}

func (t *RuleTable) add(entry record.ID, at record.Instant, values map[string]string, places map[string]place) {
	row := RuleRow{Entry: entry.String(), At: at, Values: values, Missing: []string{}}
	for key, p := range places {
		values[key] = p.text()
	}
	for _, x := range t.Head {
		if p, isPlace := places[x.Key]; values[x.Key] == "" || isPlace && p.address == "" {
			row.Missing = append(row.Missing, x.Key)
		}
	}
	t.Rows = append(t.Rows, row)
}

func receivingRow(b record.Received, h House, at record.Instant) map[string]string {
	return map[string]string{"lot_code": b.SupplierLot, "quantity": quantity(b.Mass), "product": join(b.Ingredient, b.Pack), "date": h.Date(at), "document": document("invoice", b.Invoice)}
}

func (s *State) shippingRow(l *Lot, b record.HandedOver, h House, at record.Instant) map[string]string {
	v := map[string]string{"lot_code": string(l.ID), "quantity": quantity(s.MassOf(l, b.Numbers)), "product": l.What, "date": h.Date(at), "document": document("order", b.Order)}
	if l.Sort == Packs { // the code is our own
		v["code_source"] = h.at().text()
	}
	return v
}

// transformationRows are those of a lot that was made: one for each lot that went into it, or into the pot that it came of.
func (s *State) transformationRows(l *Lot, h House) []map[string]string {
	var rows []map[string]string
	made := func() map[string]string {
		return map[string]string{"lot_code": string(l.ID), "date": h.Date(l.Born), "product": l.What, "quantity": quantity(l.Came), "document": document("run", l.Run)}
	}
	for _, f := range s.inputs(l) {
		used, v := s.lots[f.From], made()
		v["used_lot_code"], v["used_product"], v["used_quantity"] = cmp.Or(used.SupplierLot, string(used.ID)), used.What, quantity(f.Mass)
		rows = append(rows, v)
	}
	if rows == nil {
		rows = append(rows, made())
	}
	return rows
}

// inputs is what went into a lot, one step back, and in place of a pot what was used for it.
func (s *State) inputs(l *Lot) []Flow {
	var flows []Flow
	for _, i := range s.graph.Inputs(l.node) {
		f := s.graph.Flow(i)
		from := s.byNode[f.From]
		if from.Sort == Pot {
			flows = append(flows, s.inputs(from)...)
			continue
		}
		flows = append(flows, Flow{From: from.ID, To: l.ID, Mass: f.Mass})
	}
	return flows
}

func quantity(m unit.Mass) string {
	if m == 0 {
		return ""
	}
	return m.Show(unit.Metric)
}

func document(kind, number string) string {
	if number == "" {
		return ""
	}
	return kind + " " + number
}

func join(words ...string) string {
	return strings.Join(slices.DeleteFunc(words, func(w string) bool { return w == "" }), ", ")
}
