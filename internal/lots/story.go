package lots

import (
	"cmp"
	"encoding/json"
	"slices"

	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// TraceSchema names the shape of a Story.
const TraceSchema = "kettlefrost.trace/1"

// Story is a lot from its beginning to now, as one value. Times are milliseconds since 1970 UTC.
type Story struct {
	Schema      string         `json:"schema"`
	Lot         record.Lot     `json:"lot"`
	Sort        Sort           `json:"sort"`
	What        string         `json:"what,omitempty"` // of the book: ingredient, output, pack or dish
	Dish        string         `json:"dish,omitempty"`
	Run         string         `json:"run,omitempty"`
	Supplier    string         `json:"supplier,omitempty"`
	SupplierLot string         `json:"supplier_lot,omitempty"`
	Born        record.Instant `json:"born_ms"`
	UseBy       record.Day     `json:"use_by,omitempty"`
	BestBefore  record.Day     `json:"best_before,omitempty"`
	Numbers     string         `json:"numbers,omitempty"` // of its packs
	OnHand      []Stay         `json:"on_hand,omitempty"`
	Holds       []HoldRow      `json:"holds,omitempty"` // that stand
	Balance     BalanceRow     `json:"balance"`
	Events      []EventRow     `json:"events"` // the earliest first
	Back        []ReportLot    `json:"back"`   // what went into it, the nearest first
	Forward     []ReportLot    `json:"forward"`
	Flows       []Flow         `json:"flows,omitempty"` // between all of those
}

// HoldRow is a hold that stands.
type HoldRow struct {
	Numbers string             `json:"numbers,omitempty"` // none: all of it
	Why     string             `json:"why"`
	Since   record.Instant     `json:"since_ms"`
	Who     string             `json:"who"`
	Decided record.Disposition `json:"decided,omitempty"`
	Points  []string           `json:"points,omitempty"` // the critical records that are not as they must be; none for a hold by hand
}

// BalanceRow is where a lot went: came = used + on hand + waste + dispatched + unaccounted.
type BalanceRow struct {
	Came             unit.Mass `json:"came_g"`
	Used             unit.Mass `json:"used_g"`
	OnHand           unit.Mass `json:"on_hand_g"`
	Waste            unit.Mass `json:"waste_g"`
	Dispatched       unit.Mass `json:"dispatched_g"`
	Unaccounted      unit.Mass `json:"unaccounted_g"` // of a pot: what boiled away or nobody wrote down; below 0: more was found than came
	UnaccountedShare float64   `json:"unaccounted_share"`
}

// EventRow is something that was told of a lot.
type EventRow struct {
	Entry  string          `json:"entry"` // its ID
	Seq    uint64          `json:"seq"`
	At     record.Instant  `json:"at_ms"`
	Who    string          `json:"who"`
	Device string          `json:"device,omitempty"`
	Kind   record.Kind     `json:"kind"`
	Body   json.RawMessage `json:"body"` // as in the entry
	Says   record.Body     `json:"-"`    // the same, to be put into words
}

// Story is all that is known of a lot, by its name or what a code means. Errors are as of ReadCode, and *trace.InputError.
func (s *State) Story(code string) (Story, error) {
	_, l, err := s.ReadCode(code)
	if err != nil {
		return Story{}, err
	}
	b, err := s.graph.Balance(s.holding(l))
	if err != nil {
		return Story{}, err
	}
	back, err := s.graph.Backward(l.node)
	if err != nil {
		return Story{}, err
	}
	forward, err := s.graph.Forward(l.node)
	if err != nil {
		return Story{}, err
	}
	y := Story{Schema: TraceSchema, Lot: l.ID, Sort: l.Sort, What: l.What, Dish: l.Dish, Run: l.Run, Supplier: l.Supplier, SupplierLot: l.SupplierLot, Born: l.Born,
		UseBy: l.UseBy, BestBefore: l.BestBefore, Numbers: l.Numbers.String(), OnHand: s.staysOf(l),
		Balance: BalanceRow{b.Came, b.Used, b.OnHand, b.Waste, b.Dispatched, b.Unaccounted, b.UnaccountedShare}, Events: []EventRow{},
		Back: others(s.reportLots(s.reached(back))), Forward: others(s.reportLots(s.reached(forward))), Flows: append(s.flows(back), s.flows(forward)...)}
	for _, h := range l.Holds {
		y.Holds = append(y.Holds, HoldRow{h.Numbers.String(), h.Why, h.Since, h.Who, h.Decided, h.Points})
	}
	for _, e := range l.Events {
		body, err := record.Encode(e.Body)
		if err != nil { // it was decoded
			return Story{}, err
		}
		y.Events = append(y.Events, EventRow{e.Entry.String(), e.Seq, e.At, e.Who, e.Device, e.Body.Kind(), body, e.Body})
	}
	slices.SortFunc(y.Flows, func(a, b Flow) int { return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.To, b.To)) })
	return y, nil
}

func others(lots []ReportLot) []ReportLot {
	return slices.DeleteFunc(lots, func(l ReportLot) bool { return l.Asked })
}
