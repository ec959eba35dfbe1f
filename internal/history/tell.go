package history

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"math/rand/v2"
	"time"

	"kettlefrost/internal/record"
)

// maker is a kitchen on its way through the days. Its clock only goes forward, so that the order in which things are told is the order in
// which they happen.
type maker struct {
	History
	size   Size
	random *rand.Rand
	err    error // the first, of an entry that makes no sense

	day    int
	now    record.Instant
	away   [devices]record.Instant // until then a device is out of reach, and what it tells waits
	later  map[int][]func()        // what will be done on a day, last thing
	shelf  map[string][]*Bulk      // deliveries of an ingredient that are not used up, the oldest first
	rest   map[string]*Bulk        // what is left over of a dish's last batch
	turn   int                     // the next dish
	sold   int                     // lots before this one have no packs to sell
	guests []string                // customers
	regular,
	waitingOrders []order
	waiting                              map[int][]order // by the day when they are due
	orders, invoices, deliveries, places int
}

// device is what entries are written with.
type device int

const (
	tablet device = iota // in the kitchen
	store                // at the door and the shelves
	phone                // in the van
	office
	logger
	devices
)

var deviceNames = [devices]string{"kitchen-tablet", "store-tablet", "van-phone", "office-pc", "freezer-logger"}
var people = [devices][]string{{"nora", "sam", "ines"}, {"ines", "sam"}, {"ines"}, {"nora"}, {""}}

// firstDay is the Monday on which it all begins.
var firstDay = time.Date(2023, time.November, 20, 0, 0, 0, 0, time.UTC)

const (
	second record.Instant = 1000
	minute                = 60 * second
	hour                  = 60 * minute
	aDay                  = 24 * hour
)

func date(day int) record.Day {
	return record.Day(firstDay.AddDate(0, 0, day).Format(time.DateOnly))
}

// at waits until a time of the day, if it is not later already.
func (m *maker) at(h, min int) {
	midnight := record.Instant(firstDay.UnixMilli()) + record.Instant(m.day)*aDay
	m.now = max(m.now, midnight+record.Instant(h)*hour+record.Instant(min)*minute)
}

// one says yes one time in n.
func (m *maker) one(n int) bool { return m.random.IntN(n) == 0 }

// draw is an ID.
func (m *maker) draw() record.ID {
	var id record.ID
	binary.BigEndian.PutUint64(id[:], m.random.Uint64())
	binary.BigEndian.PutUint64(id[8:], m.random.Uint64())
	return id
}

// put writes an entry of what happens now, to arrive when the device is in reach, but not before some other time.
func (m *maker) put(by device, b record.Body, corrects record.ID, notBefore record.Instant) record.Entry {
	m.now += second * record.Instant(2+m.random.IntN(20))
	who := people[by][m.random.IntN(len(people[by]))]
	e, err := record.Say(m.draw(), m.now, who, deviceNames[by], b)
	if err != nil && m.err == nil {
		m.err = fmt.Errorf("history: day %d: %s: %w", m.day, b.Kind(), err)
	}
	e.Corrects = corrects
	e.Entered = max(m.now+record.Instant(200+m.random.IntN(2500)), m.away[by], notBefore)
	if by == store && m.one(150) { // found on a slip of paper the next day
		e.Entered += 18 * hour
	}
	m.Entries = append(m.Entries, e)
	return e
}

// say tells what happens. One in sixty is told wrongly, or twice, and put right some time later.
func (m *maker) say(by device, b record.Body) {
	if wrong := m.slip(b); wrong != nil && m.one(60) {
		m.mend(by, b, wrong)
		return
	}
	m.put(by, b, record.ID{}, 0)
}

// mend tells something wrongly, and then makes it right in one of the ways in which people do.
func (m *maker) mend(by device, right, wrong record.Body) {
	soon := func(e record.Entry) record.Instant {
		return e.Entered + minute + record.Instant(m.random.Int64N(int64(3*aDay)))
	}
	void := func(e record.Entry) { m.put(office, record.Voided{Why: "told wrongly"}, e.ID, soon(e)) }
	switch m.random.IntN(4) {
	case 0: // told twice; one is taken back
		m.put(by, right, record.ID{}, 0)
		void(m.put(by, right, record.ID{}, 0))
	case 1: // the correction is what is wrong, and is taken back
		e := m.put(by, right, record.ID{}, 0)
		void(m.put(office, wrong, e.ID, soon(e)))
	case 2: // corrected wrongly, and once more
		e := m.put(by, wrong, record.ID{}, 0)
		again := m.put(office, wrong, e.ID, soon(e))
		m.put(office, right, again.ID, soon(again))
	default:
		e := m.put(by, wrong, record.ID{}, 0)
		m.put(office, right, e.ID, soon(e))
	}
}

// slip is how something could be told wrongly; nil when it is always told as it is.
func (m *maker) slip(b record.Body) record.Body {
	switch b := b.(type) {
	case record.Received:
		b.Mass *= 10
		return b
	case record.Used:
		b.Mass += 5 * kg
		return b
	case record.Made:
		b.Mass += kg
		return b
	case record.Packed:
		b.Mass += b.Label / 2
		return b
	case record.Moved:
		b.To = "chest-9"
		return b
	case record.HandedOver:
		b.Customer = m.guests[m.random.IntN(len(m.guests))]
		return b
	case record.Counted:
		b.Place = "chest-9"
		return b
	case record.WrittenOff:
		b.Why = "lost"
		return b
	case record.Ordered:
		b.Lines = append([]record.OrderLine{}, b.Lines...)
		b.Lines[0].Count *= 10
		return b
	}
	return nil
}

func hashOf(s string) record.Hash { return sha256.Sum256([]byte(s)) }
