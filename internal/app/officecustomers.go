package app

import (
	"context"
	"fmt"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
	"kettlefrost/internal/tables"
)

func (in *importing) customers(ctx context.Context) error {
	return look(ctx, in.r, in.r.orders, func(s *orders.State, _ finding.List) error {
		seen := map[string]int{}
		for _, row := range in.rows {
			c, ok := in.customer(row)
			if !ok {
				continue
			}
			if before := seen[c.Customer]; before > 0 {
				in.wrong(row.Wrong("name", fmt.Sprintf("has the id %s, as row %d has", c.Customer, before), "give both an id of their own, or take one row out"))
				continue
			}
			seen[c.Customer] = row.Number
			known := s.Customer(c.Customer)
			switch {
			case known.Known && known.Customer == c:
				in.line(ImportLine{Rows: []int{row.Number}, Says: customerSays(c)})
			case known.Known:
				in.enter(row, in.now, customerSays(c), "takes the place of "+customerSays(known.Customer), c)
			default:
				in.enter(row, in.now, customerSays(c), "", c)
			}
		}
		return nil
	})
}

// customerSays is a customer on one line.
func customerSays(c record.Customer) string {
	text := "customer " + c.Customer + ": " + c.Name
	for _, x := range []struct{ lead, is string }{{"", strings.ReplaceAll(string(c.Address), "\n", ", ")}, {"", c.Phone}, {"", c.Mail}, {"prices ", c.Prices}, {"note: ", string(c.Note)}} {
		if x.is != "" {
			text += "; " + x.lead + x.is
		}
	}
	return text
}

// customer is a row as a body.
func (in *importing) customer(row tables.Row) (record.Customer, bool) {
	c := record.Customer{Customer: row.Text("id"), Name: row.Text("name"), Phone: row.Text("phone"), Mail: row.Text("mail"), Prices: row.Text("prices"), Note: record.Text(row.Text("note")), LifeDays: row.Whole("life-days"), MostLots: row.Whole("most-lots")}
	if c.Customer == "" {
		if c.Customer = slug(c.Name); c.Customer == "" {
			in.wrong(row.Wrong("name", "gives no short id of letters and digits", "write one into a column customer id"))
			return c, false
		}
	}
	if c.Mail != "" && !strings.Contains(c.Mail, "@") {
		in.wrong(row.Wrong("mail", "is no mail address", "write it as name@example.com, or leave it empty"))
		return c, false
	}
	if c.Prices != "" {
		id, ok := meant(in, row, "prices", in.book.PriceLists, func(l kitchen.PriceList) string { return l.Name }, aList)
		if !ok {
			return c, false
		}
		c.Prices = string(id)
	}
	address := row.Text("address")
	for _, part := range []string{row.Text("street"), row.Text("street2"), townOf(row), row.Text("country")} {
		if part != "" {
			address = strings.TrimPrefix(address+"\n"+part, "\n")
		}
	}
	c.Address = record.Text(address)
	return c, true
}

// townOf is the line of a letter with the town on it: Harrow Creek, VT 05000.
func townOf(row tables.Row) string {
	town, behind := row.Text("city"), strings.TrimSpace(row.Text("state")+" "+row.Text("zip"))
	if town == "" || behind == "" {
		return town + behind
	}
	return town + ", " + behind
}
