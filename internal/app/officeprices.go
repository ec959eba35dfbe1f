package app

import (
	"context"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/store"
	"kettlefrost/internal/tables"
	"kettlefrost/internal/unit"
)

// prices changes the prices where they stand in the files of the book, and nothing else of them: what a cook wrote around them stays.
func (in *importing) prices(ctx context.Context) error {
	now, err := in.r.BookFiles(ctx)
	if err != nil {
		return err
	}
	if len(now.Names()) == 0 {
		in.wrong(tables.Mistake{Problem: "the records hold no book, and prices are a part of it", Fix: "put the book into the records first: kettlefrost book import"})
		return nil
	}
	pricing := pricing{in: in, loaded: bookfile.Read(now), now: now, files: map[string]*patch{}, fresh: map[string][]string{}}
	for _, row := range in.rows {
		if pack, ok := meant(in, row, "pack", in.book.Packs, nameOfPack, aPack); ok {
			pricing.row(row, pack)
		}
	}
	in.p.edits = pricing.edits()
	return nil
}

// pricing is prices on their way into the files of a book.
type pricing struct {
	in     *importing
	loaded bookfile.Loaded
	now    *store.Book
	files  map[string]*patch
	fresh  map[string][]string // new lists, by their name: their prices as they are written
}

func (p *pricing) row(row tables.Row, pack kitchen.PackID) {
	each := row.Money("each")
	says := fmt.Sprintf("%s costs %s", pack, money(each))
	switch {
	case each <= 0:
		p.in.wrong(row.Wrong("each", "is no price", "write one above zero"))
	case !row.Has("list"):
		if row.Has("from") || row.Has("since") {
			p.in.wrong(row.Wrong("list", "is empty, and a pack's own price has neither a day nor a count", "name the price list, or leave from and since empty"))
			return
		}
		at, written := p.loaded.Positions["packs."+string(pack)+".price"]
		p.set(row, says, at, written, p.in.book.Packs[pack].Price, each, func() (finding.Position, string, bool) {
			at, ok := p.loaded.Positions["packs."+string(pack)+".bag"]
			return at, "price: " + money(each), ok
		})
	default:
		p.listed(row, pack, each, says)
	}
}

// listed is a price of a list.
func (p *pricing) listed(row tables.Row, pack kitchen.PackID, each unit.Money, says string) {
	id, there := p.list(row.Text("list"))
	says += " by " + row.Text("list")
	item := fmt.Sprintf("{pack: %s, each: %s", pack, money(each))
	if row.Has("from") {
		item += fmt.Sprintf(", from: %d", row.Whole("from"))
		says += fmt.Sprintf(" from %d on", row.Whole("from"))
	}
	if row.Has("since") {
		item += ", since: " + row.Text("since")
		says += " since " + row.Text("since")
	}
	item += "}"
	if !there {
		p.fresh[row.Text("list")] = append(p.fresh[row.Text("list")], item)
		p.in.line(ImportLine{Rows: []int{row.Number}, Says: says, New: true, Note: "a new price list"})
		return
	}
	path := "price-lists." + string(id) + ".prices"
	prices := p.in.book.PriceLists[id].Prices
	i := slices.IndexFunc(prices, func(x kitchen.ListPrice) bool {
		return x.Pack == pack && int64(x.From) == row.Whole("from") && x.Since == row.Text("since")
	})
	var was unit.Money
	if i >= 0 {
		was = prices[i].Each
	}
	at, written := p.loaded.Positions[kitchen.PathAt(path, i)+".each"]
	p.set(row, says, at, written && i >= 0, was, each, func() (finding.Position, string, bool) {
		at, ok := p.loaded.Positions[kitchen.PathAt(path, 0)]
		if !ok {
			return p.loaded.Positions["price-lists."+string(id)], "", false
		}
		return at, "- " + item, true
	})
}

// list is a price list by its id or name.
func (p *pricing) list(text string) (kitchen.PriceListID, bool) {
	for id, l := range p.in.book.PriceLists {
		if string(id) == text || strings.EqualFold(l.Name, text) {
			return id, true
		}
	}
	return "", false
}

// set changes a price where it is written, or writes it beside something else of the same thing.
func (p *pricing) set(row tables.Row, says string, at finding.Position, written bool, was, each unit.Money, beside func() (finding.Position, string, bool)) {
	line := ImportLine{Rows: []int{row.Number}, Says: says}
	byHand := func(at finding.Position) {
		p.in.wrong(row.Wrong("each", fmt.Sprintf("cannot be put into the book by itself (%s)", at), "write it there by hand"))
	}
	switch {
	case written && was == each:
		line.Says += ": as it is already"
	case written:
		if !p.patch(at.File).replace(at, was, each) {
			byHand(at)
			return
		}
		line.New, line.Note = true, "it was "+money(was)
	default:
		where, text, ok := beside()
		if !ok || !p.patch(where.File).insert(where, text) {
			byHand(where)
			return
		}
		line.New = true
	}
	p.in.line(line)
}

func (p *pricing) patch(file string) *patch {
	if p.files[file] == nil {
		v, _ := p.now.Version(file)
		p.files[file] = &patch{base: v.Seq, lines: strings.SplitAfter(v.Text, "\n"), before: map[int][]string{}}
	}
	return p.files[file]
}

// edits are the files that were changed, and a file for each new list.
func (p *pricing) edits() []Edit {
	var all []Edit
	for _, file := range slices.Sorted(maps.Keys(p.files)) {
		if x := p.files[file]; x.changed {
			all = append(all, Edit{Path: file, Text: x.text(), Base: x.base})
		}
	}
	for _, name := range slices.Sorted(maps.Keys(p.fresh)) {
		id := slug(name)
		var text strings.Builder
		fmt.Fprintf(&text, "price-lists:\n  %s:\n    name: %q\n    prices:\n", id, name)
		for _, item := range p.fresh[name] {
			fmt.Fprintf(&text, "      - %s\n", item)
		}
		file := "price-lists/" + id + ".yaml"
		if _, err := fs.Stat(p.now, file); err == nil || id == "" {
			p.in.wrong(tables.Mistake{Text: name, Problem: "cannot be the name of a new price list", Fix: "name it otherwise, in letters"})
			continue
		}
		all = append(all, Edit{Path: file, Text: text.String()})
	}
	return all
}

// patch is a text that is changed here and there.
type patch struct {
	base    uint64
	lines   []string         // with their ends
	before  map[int][]string // lines to put before a line, by its index
	changed bool
}

func (x *patch) text() string {
	var b strings.Builder
	for i, line := range x.lines {
		for _, more := range x.before[i] {
			b.WriteString(more)
		}
		b.WriteString(line)
	}
	return b.String()
}

// replace writes another price in the place of one. It is false when the old one is not what stands there.
func (x *patch) replace(at finding.Position, was, each unit.Money) bool {
	if at.Line < 1 || at.Line > len(x.lines) {
		return false
	}
	line := []rune(x.lines[at.Line-1])
	from := at.Column - 1
	if from < 0 || from >= len(line) {
		return false
	}
	ends := "\r\n"
	if strings.ContainsAny(string(line[:from]), "{[") {
		ends = ",}]\r\n"
	}
	to := from
	for to < len(line) && !strings.ContainsRune(ends, line[to]) && !(line[to] == '#' && line[to-1] == ' ') {
		to++
	}
	old := strings.TrimRight(string(line[from:to]), " \t")
	plain := strings.Trim(old, `"'`)
	if got, err := unit.ParseMoney(plain); err != nil || got != was {
		return false
	}
	first, last := strings.IndexAny(old, "0123456789"), strings.LastIndexAny(old, "0123456789")
	x.lines[at.Line-1] = string(line[:from]) + old[:first] + money(each) + old[last+1:] + string(line[from+len([]rune(old)):])
	x.changed = true
	return true
}

// insert writes a line before the one in which something of the same group or list stands, as far in as that. It is false when the group is
// written on one line.
func (x *patch) insert(at finding.Position, text string) bool {
	if at.Line < 1 || at.Line > len(x.lines) {
		return false
	}
	line := x.lines[at.Line-1]
	inner := strings.TrimLeft(line, " ")
	indent := line[:len(line)-len(inner)]
	if strings.HasPrefix(text, "- ") != strings.HasPrefix(inner, "- ") || strings.HasPrefix(inner, "{") || !strings.HasPrefix(text, "- ") && !strings.HasPrefix(inner, "bag:") {
		return false
	}
	end := "\n"
	if strings.HasSuffix(line, "\r\n") {
		end = "\r\n"
	}
	x.before[at.Line-1] = append(x.before[at.Line-1], indent+text+end)
	x.changed = true
	return true
}
