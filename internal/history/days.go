package history

import (
	"fmt"

	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

const kg = unit.Kilogram

// opening is the first thing: who buys here.
func (m *maker) opening() {
	m.at(5, 0)
	for i := range 60 {
		id := fmt.Sprintf("customer-%02d", i)
		m.guests = append(m.guests, id)
		m.put(office, record.Customer{Customer: id, Name: fmt.Sprintf("Customer No. %d", i), Address: record.Text(fmt.Sprintf("%d Mill Lane\nHarrow Creek", i+1)), Phone: fmt.Sprintf("555-01%02d", i)}, record.ID{}, 0)
	}
	m.subscribe()
}

// live is one day. Weeks begin on Monday.
func (m *maker) live(day int) {
	m.day = day
	weekday := day % 7
	m.reach()
	m.at(5, 15)
	m.temperatures()
	if weekday == 0 {
		m.takeStock()
	}
	if weekday == 1 || weekday == 2 || weekday == 4 {
		m.at(5, 45)
		m.run()
	}
	if weekday != 6 {
		m.deliver()
		m.at(15, 0)
		m.takeOrders()
	}
	m.at(18, 0)
	m.mishaps()
	for _, do := range m.later[day] {
		do()
	}
	delete(m.later, day)
	m.at(21, 0)
	m.temperatures()
}

// reach decides which devices are out of reach today: the van's phone often is, the kitchen's tablet seldom.
func (m *maker) reach() {
	m.at(0, 0)
	m.away = [devices]record.Instant{}
	if !m.one(3) {
		m.away[phone] = m.now + 17*hour
	}
	if m.one(40) {
		m.away[tablet] = m.now + 12*hour
	}
}

// in does something on a later day, last thing.
func (m *maker) in(days int, do func()) { m.later[m.day+days] = append(m.later[m.day+days], do) }

func (m *maker) temperatures() {
	for _, f := range freezers {
		m.put(logger, record.Measured{Place: record.Place(f), Temp: unit.TempC(-18.5 + float64(m.random.IntN(30))/10 - 1.5), Instrument: "logger-" + f}, record.ID{}, 0)
	}
}
