package cli

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
)

// ordersCommand is everything about orders.
type ordersCommand struct {
	List  listOrdersCommand `cmd:"" default:"withargs" help:"The orders that are open, what each gets, and what is short: as text or JSON."`
	Enter enterOrderCommand `cmd:"" help:"Enter an order, or change one."`
	Pick  pickOrdersCommand `cmd:"" help:"What is to be fetched for the orders of a day, freezer by freezer."`
	Slip  slipCommand       `cmd:"" help:"The packing slip of an order."`
}

// deskFlags are what every command about orders asks for.
type deskFlags struct {
	bookFlag
	Today record.Day `placeholder:"DAY" help:"The day that counts as today, such as 2026-12-04; today when left out."`
}

// desk opens book and records.
func (f deskFlags) desk(s *surroundings, show func(app.Desk, kitchen.Book) error) error {
	h, err := f.openKept(s)
	if err != nil {
		return err
	}
	book, _ := h.read()
	return h.records.Desk(s.ctx, f.today(s), func(d app.Desk) error { return show(d, book) })
}

func (f deskFlags) today(s *surroundings) record.Day {
	if f.Today != "" {
		return f.Today
	}
	return app.Today(s.now())
}

// names are the packs of a book as sold, by their ids.
func names(book kitchen.Book) map[string]string {
	all := map[string]string{}
	for id, p := range book.Packs {
		all[string(id)] = p.Name
	}
	return all
}

// listOrdersCommand lists what is open.
type listOrdersCommand struct {
	deskFlags
	Days int  `default:"28" help:"How many days ahead standing orders are looked at (${default})."`
	JSON bool `help:"As JSON (kettlefrost.orders/1)."`
}

func (c listOrdersCommand) Run(s *surroundings) error {
	return c.desk(s, func(d app.Desk, book kitchen.Book) error {
		a, err := d.Allot(orders.Plus(d.Today, c.Days))
		if err != nil {
			return err
		}
		if c.JSON {
			return s.showJSON(d.Sheet(a))
		}
		return s.show(sheet.OrdersText(d.State, a, d.Found, names(book)))
	})
}

// enterOrderCommand takes an order in.
type enterOrderCommand struct {
	deskFlags
	From     string     `arg:"" optional:"" help:"The order as JSON; - reads standard input. The flags say the same."`
	Customer string     `placeholder:"ID" help:"Who orders, by the customer's id."`
	Pack     []packFlag `placeholder:"PACK=COUNT" help:"What is ordered: --pack leek-soup=12, once for each kind. A price of each may stand behind it: leek-soup=12@6.50."`
	Due      record.Day `placeholder:"DAY" help:"For which day, such as 2026-12-04."`
	Collect  bool       `help:"It is collected; delivered when left out."`
	Every    int64      `placeholder:"WEEKS" help:"A standing order: again after so many weeks."`
	Until    record.Day `placeholder:"DAY" help:"The last day of a standing order."`
	Whole    bool       `help:"All of it or nothing."`
	Note     string     `help:"Anything worth knowing."`
	Number   string     `placeholder:"NUMBER" help:"The number of the order; the next that is free when left out."`
	Changes  string     `placeholder:"NUMBER" help:"The order that this takes the place of; one delivery of a standing order is O-7/2026-12-04."`
	Sure     bool       `help:"Do not ask about what is unusual."`
	Who      string     `required:"" help:"Who says so."`
	ID       record.ID  `placeholder:"ID" help:"The id of the entry, so that what is sent twice is taken in once; drawn when left out."`
}

// Help is the longer help of the command.
func (enterOrderCommand) Help() string {
	return `An order in flags, or the same as JSON:

    kettlefrost orders enter --customer cafe --pack leek-soup=12 --pack dal=4 --due 2026-12-04 --who Ada
    kettlefrost orders enter '{"customer":"cafe","lines":[{"pack":"leek-soup","count":12}],"due":"2026-12-04"}' --who Ada
    kettlefrost orders enter --customer cafe --pack dal=10 --due 2026-12-04 --every 2 --until 2027-03-26 --who Ada
    kettlefrost orders enter --changes O-7/2026-12-18 --customer cafe --pack dal=4 --due 2026-12-17 --who Ada

To cancel one, or to leave out one delivery of a standing order:

    kettlefrost record enter cancelled '{"order":"O-7/2026-12-18","why":"closed that week"}' --who Ada`
}

func (c enterOrderCommand) Run(s *surroundings) error {
	d, err := c.draft(s)
	if err != nil {
		return err
	}
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	book, err := h.sound(s)
	if err != nil {
		return err
	}
	at := s.now()
	if c.Today != "" {
		at, err = time.ParseInLocation(time.DateOnly, string(c.Today), at.Location())
		if err != nil {
			return failure{badUsage, "--today " + string(c.Today), "is no date", "write it as in 2026-12-04"}
		}
	}
	number, against, err := h.records.Order(s.ctx, app.Said{ID: c.ID, Who: c.Who, Device: "command line", At: at}, d, app.PacksOf(book), c.Sure)
	switch {
	case err != nil:
		return failure{code: failed, what: err.Error()}
	case len(against) > 0:
		return refused(against)
	}
	return s.show("order " + number + "\n")
}

// refused is the error of an order that something speaks against, each on a line of its own.
func refused(against []orders.Problem) error {
	var lines []string
	for _, p := range against {
		lines = append(lines, p.Error())
	}
	fix := "kettlefrost orders enter --help shows how orders are written"
	if !orders.Refused(against) {
		fix = "say --sure when it is meant"
	}
	return failure{mistakes, "the order", "nothing was entered:\n" + strings.Join(lines, "\n"), fix}
}

// draft is what the flags or the JSON say.
func (c enterOrderCommand) draft(s *surroundings) (orders.Draft, error) {
	if c.From == "" {
		d := orders.Draft{Order: c.Number, Customer: c.Customer, Due: c.Due, Way: record.Deliver, Weeks: c.Every, Until: c.Until, Whole: c.Whole, Note: record.Text(c.Note), Changes: c.Changes}
		if c.Collect {
			d.Way = record.Collect
		}
		for _, p := range c.Pack {
			d.Lines = append(d.Lines, record.OrderLine(p))
		}
		return d, nil
	}
	text := []byte(c.From)
	if c.From == "-" {
		var err error
		if text, err = io.ReadAll(io.LimitReader(s.stdin, 1<<20)); err != nil {
			return orders.Draft{}, fmt.Errorf("standard input cannot be read: %w", err)
		}
	}
	dec := json.NewDecoder(bytes.NewReader(text))
	dec.DisallowUnknownFields()
	var d orders.Draft
	if err := dec.Decode(&d); err != nil {
		return d, failure{mistakes, "the order", "cannot be read as JSON: " + err.Error(), "kettlefrost orders enter --help shows how orders are written"}
	}
	return d, nil
}

// packFlag is leek-soup=12 or leek-soup=12@6.50.
type packFlag record.OrderLine

// UnmarshalText reads a line of an order.
func (p *packFlag) UnmarshalText(text []byte) error {
	pack, rest, ok := strings.Cut(string(text), "=")
	count, price, priced := strings.Cut(rest, "@")
	n, err := strconv.ParseInt(count, 10, 64)
	if !ok || err != nil {
		return errors.New("is not PACK=COUNT: write leek-soup=12")
	}
	p.Pack, p.Count = pack, n
	if priced {
		return p.Each.UnmarshalText([]byte(price))
	}
	return nil
}

// pickOrdersCommand is the list for the walk to the freezers.
type pickOrdersCommand struct {
	deskFlags
	Day   string `arg:"" help:"For which day, such as 2026-12-04, or today."`
	Order string `placeholder:"NUMBER" help:"Only this order, whenever it is due."`
	JSON  bool   `help:"As JSON (kettlefrost.pick-list/1)."`
}

func (c pickOrdersCommand) Run(s *surroundings) error {
	return c.desk(s, func(d app.Desk, book kitchen.Book) error {
		day := record.Day(c.Day)
		if c.Day == "today" {
			day = d.Today
		}
		if _, err := time.Parse(time.DateOnly, string(day)); err != nil {
			return failure{badUsage, c.Day, "is no date", "write it as in 2026-12-04, or today"}
		}
		a, err := d.Allot(max(day, orders.Plus(d.Today, app.Horizon)))
		if err != nil {
			return err
		}
		rows, title := a.PickList(day), "To be fetched for "+string(day)
		if c.Order != "" {
			rows, title = a.PickListOf(c.Order), "To be fetched for order "+c.Order
		}
		if c.JSON {
			return s.showJSON(app.PickSheet{Schema: app.PicksSchema, Day: day, Order: c.Order, Rows: append([]orders.Row{}, rows...)})
		}
		return s.show(sheet.PickText(d.State, rows, title, names(book)))
	})
}

// slipCommand is what lies in the box.
type slipCommand struct {
	deskFlags
	Number string `arg:"" help:"The number of the order; one delivery of a standing order is O-7/2026-12-04."`
	JSON   bool   `help:"The whole order as JSON (kettlefrost.order/1)."`
}

func (c slipCommand) Run(s *surroundings) error {
	return c.desk(s, func(d app.Desk, book kitchen.Book) error {
		o, ok := d.Order(c.Number, d.Today)
		if !ok {
			return failure{badUsage, "order " + c.Number, "there is none of that number", "kettlefrost orders lists those that are open"}
		}
		if c.JSON {
			return s.showJSON(app.OrderView{Schema: app.OrderSchema, Order: o})
		}
		return s.show(sheet.SlipText(o, d.Customer(o.Customer), names(book)))
	})
}
