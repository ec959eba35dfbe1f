package orders

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/record"
	"kettlefrost/internal/spelling"
)

// mostPacks is more packs of a kind than a small kitchen sells on one day.
const mostPacks = 100_000

// Check says everything that is wrong with a draft, beside those orders and the kinds of packs that are sold, on a day. None that is not an
// Ask may be entered.
func (s *State) Check(d Draft, packs []string, today record.Day) []Problem {
	c := checking{s: s, d: d, today: today}
	c.number()
	c.customer()
	c.lines(packs)
	c.when()
	c.same()
	return c.found
}

// Refused says whether any problem is more than a question.
func Refused(found []Problem) bool {
	return slices.ContainsFunc(found, func(p Problem) bool { return !p.Ask })
}

// checking is a draft that is being looked at.
type checking struct {
	s     *State
	d     Draft
	today record.Day
	found []Problem
}

func (c *checking) wrong(field, problem, fix string) {
	c.found = append(c.found, Problem{field, problem, fix, false})
}

func (c *checking) ask(field, problem, fix string) {
	c.found = append(c.found, Problem{field, problem, fix, true})
}

func (c *checking) number() {
	d, s := c.d, c.s
	switch {
	case d.Changes != "" && d.Order != "" && d.Order != d.Changes:
		c.wrong("order", "is "+d.Order+", and this changes "+d.Changes, "leave the number as it is")
	case d.Changes != "" && !s.known(d.Changes):
		c.wrong("changes", "is "+d.Changes+", which nobody ordered", "look for the order in the list")
	case d.Changes == "" && d.Order != "" && s.known(d.Order):
		c.wrong("order", "is "+d.Order+", which is an order of "+s.whose(d.Order)+" already", "leave the number out: the next that is free is taken")
	case strings.ContainsAny(d.Order, "/\\?#%") && d.Changes == "":
		c.wrong("order", "has a character that a number cannot have", "write letters, digits, - and .")
	case strings.Trim(d.Order, ".") == "" && d.Order != "":
		c.wrong("order", "is only dots", "write letters and digits")
	}
	if _, off := s.offOf(d.Changes); d.Changes != "" && off {
		c.wrong("changes", "is "+d.Changes+", which was cancelled", "take the cancelling back, or enter a new order")
	}
}

func (c *checking) customer() {
	if c.d.Customer == "" {
		c.wrong("customer", "is missing", "say who ordered")
		return
	}
	if c.s.Customer(c.d.Customer).Known {
		return
	}
	var names []string
	for _, k := range c.s.Customers() {
		names = append(names, k.Customer.Customer)
	}
	fix := "enter the customer first"
	if near := spelling.Nearest(c.d.Customer, names); near != "" {
		fix = "did you mean " + near + "? " + fix
	}
	c.wrong("customer", fmt.Sprintf("is %.40q, whom nobody has entered", c.d.Customer), fix)
}

func (c *checking) lines(packs []string) {
	if len(c.d.Lines) == 0 {
		c.wrong("lines", "are missing", "say what is ordered, at least one pack")
	}
	var seen []string
	for i, l := range c.d.Lines {
		field := "lines[" + strconv.Itoa(i) + "]."
		switch {
		case l.Pack == "":
			c.wrong(field+"pack", "is missing", "say what is ordered")
		case !slices.Contains(packs, l.Pack):
			fix := "write one of the book's packs"
			if near := spelling.Nearest(l.Pack, packs); near != "" {
				fix = "did you mean " + near + "?"
			}
			c.wrong(field+"pack", fmt.Sprintf("is %.40q, which is no pack of the book", l.Pack), fix)
		case slices.Contains(seen, l.Pack):
			c.ask(field+"pack", "is "+l.Pack+" a second time", "write it in one line, if its price is one")
		}
		seen = append(seen, l.Pack)
		switch {
		case l.Count <= 0:
			c.wrong(field+"count", fmt.Sprintf("is %d", l.Count), "write how many, from 1, or leave the line out")
		case l.Count > mostPacks:
			c.wrong(field+"count", fmt.Sprintf("is %d, more than %d", l.Count, mostPacks), "check the number, or write it as several orders")
		}
		if l.Each < 0 {
			c.wrong(field+"each", "is below zero", "write the price of one pack")
		}
	}
}

// farAhead is further than somebody orders; it is more likely a slip of the pen.
const farAhead = 400

func (c *checking) when() {
	d := c.d
	switch {
	case d.Due == "":
		c.wrong("due", "is missing", "say for which day")
		return
	case !isDay(string(d.Due)) || d.Due < "2000-01-01" || d.Due > farthest:
		c.wrong("due", fmt.Sprintf("is %.20q, which is no date", d.Due), "write it as in 2026-12-04")
		return
	case d.Due < c.today:
		c.ask("due", "is "+string(d.Due)+", which is past", "is that the day? Then it counts as due today")
	case Days(c.today, d.Due) > farAhead:
		c.ask("due", fmt.Sprintf("is %s, %d days from now", d.Due, Days(c.today, d.Due)), "is that the year?")
	}
	if d.Way != "" && d.Way != record.Collect && d.Way != record.Deliver {
		c.wrong("way", fmt.Sprintf("is %.20q", d.Way), "write collect or deliver")
	}
	if d.Way != record.Collect && c.s.Customer(d.Customer).Known && c.s.Customer(d.Customer).Address == "" {
		c.ask("way", "is to deliver, and nobody told the customer's address", "enter the address, or have it collected")
	}
	c.every()
}

// every checks what makes an order a standing one.
func (c *checking) every() {
	d := c.d
	switch {
	case d.Weeks < 0 || d.Weeks > mostWeeks:
		c.wrong("every_weeks", fmt.Sprintf("is %d", d.Weeks), "write after how many weeks it is due again, from 1, or leave it out")
	case d.Weeks == 0 && d.Until != "":
		c.wrong("every_weeks", "is missing", "write after how many weeks it is due again, or leave its last day out")
	case d.Weeks > 0 && deliveryOf(d.Changes) != "" && c.s.isStanding(deliveryOf(d.Changes)):
		c.wrong("every_weeks", "is for the standing order, and this is one delivery of it", fixOneDelivery)
	case c.s.told[d.Changes] != nil && c.s.isStanding(d.Changes) && d.Weeks > 0:
		c.terms()
	case c.s.told[d.Changes] != nil && c.s.isStanding(d.Changes) != (d.Weeks > 0):
		c.wrong("every_weeks", "cannot make a standing order of a single one, or the other way about", "cancel it, and enter a new order")
	}
	switch {
	case d.Until == "":
	case !isDay(string(d.Until)) || d.Until > farthest:
		c.wrong("until", fmt.Sprintf("is %.20q, which is no date", d.Until), "write it as in 2026-12-04")
	case d.Until < d.Due:
		c.wrong("until", "is "+string(d.Until)+", before it is due first", "write its last day, or leave it out")
	}
}

// same asks whether an order that is open already is meant once more.
func (c *checking) same() {
	if c.d.Changes != "" || c.d.Weeks > 0 {
		return
	}
	for _, o := range c.s.On(c.d.Due, c.today) {
		if o.Customer == c.d.Customer && o.Live() && c.d.Order != o.ID && sameLines(o.Lines, c.d.Lines) {
			c.ask("order", "says the same as "+o.ID+" of that day", "is it another one?")
			return
		}
	}
}

// terms asks about a change of a standing order that changes what is past, and refuses to give one to somebody else in the middle.
func (c *checking) terms() {
	last := c.s.told[c.d.Changes].last()
	_, corrects := c.s.Entry(c.d, c.today)
	switch {
	case corrects == record.ID{} && c.d.Customer != last.Customer:
		c.wrong("customer", "is not "+last.Customer+", whose standing order it is", "end that one, and enter a new one")
	case corrects != record.ID{} && last.Due < c.today:
		c.ask("due", "is "+string(c.d.Due)+": deliveries that are past change with it", "write the next day on which it is due, so that they stay as they were")
	}
}

func sameLines(a []Line, b []record.OrderLine) bool {
	packs := sums{}
	for _, l := range a {
		packs[l.Pack] += l.Count
	}
	for _, l := range b {
		packs[l.Pack] -= l.Count
	}
	for _, n := range packs {
		if n != 0 {
			return false
		}
	}
	return true
}
