package web

import (
	"cmp"
	"fmt"
	"html/template"
	"strings"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

func (x recallShower) links(ids []record.Lot) []lotLink {
	var all []lotLink
	for _, id := range ids {
		all = append(all, lotLink{URL: lotURL(lotPath, id, x.query), Lot: string(id)})
	}
	return all
}

func (x recallShower) call(c lots.Call) callView {
	v := callView{Name: c.Name, Phone: c.Phone, Dial: dial(c.Phone), Mail: c.Mail, Address: oneLine(c.Address), First: x.clock(c.First), Packs: times(int(c.Packs), "pack", "packs"), Mass: x.rd.fig(c.Mass)}
	for _, i := range c.Items {
		v.Items = append(v.Items, callRow{lotURL(lotPath, i.Lot, x.query), string(i.Lot), i.What, i.Numbers, fmt.Sprint(i.Packs), x.rd.fig(i.Mass), string(i.BestBefore), x.clock(i.At), i.Order, oneLine(i.Address), i.TakenBy, i.Doubted})
	}
	return v
}

// dial is a telephone number as an address; nothing of what cannot be dialled.
func dial(phone string) template.URL {
	digits := strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' || r == '+' {
			return r
		}
		return -1
	}, phone)
	if len(digits) < 3 {
		return ""
	}
	return template.URL("tel:" + digits)
}

func oneLine(text string) string { return strings.Join(strings.FieldsFunc(text, isBreak), ", ") }

func isBreak(r rune) bool { return r == '\n' || r == '\r' }

func (x recallShower) stays(stays []lots.Stay) []stayRow {
	var rows []stayRow
	for _, y := range stays {
		row := stayRow{URL: lotURL(lotPath, y.Lot, x.query), Lot: string(y.Lot), What: y.What, Place: cmp.Or(string(y.Place), "nobody said where"), Numbers: y.Numbers, Mass: x.rd.fig(y.Mass), Free: y.Free}
		if y.Packs > 0 {
			row.Count = times(int(y.Packs), "pack", "packs")
		}
		switch y.Held {
		case "":
		case "all":
			row.Held = "held: " + y.Why
		default:
			row.Held = "only no. " + y.Held + " held: " + y.Why
		}
		rows = append(rows, row)
	}
	return rows
}

func (x recallShower) bulk(list []lots.BulkRow) []bulkRow {
	var rows []bulkRow
	for _, b := range list {
		rows = append(rows, bulkRow{lotURL(lotPath, b.Lot, x.query), string(b.Lot), b.What, x.rd.fig(b.Came), x.rd.fig(b.OnHand), x.rd.fig(b.Used), x.rd.fig(b.Waste), x.rd.fig(b.Unaccounted)})
	}
	return rows
}

func (x recallShower) reached(list []lots.ReportLot) []reachedRow {
	var rows []reachedRow
	for _, l := range list {
		if !l.Asked {
			rows = append(rows, reachedRow{lotURL(lotPath, l.Lot, x.query), string(l.Lot), strings.TrimSpace(l.What + " " + l.Run), fmt.Sprint(l.Steps), x.rd.fig(l.Expected), x.rd.fig(l.Least), x.rd.fig(l.Most)})
		}
	}
	return rows
}
