package app

import (
	"cmp"
	"context"
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/tables"
	"kettlefrost/internal/unit"
)

func (in *importing) goods(ctx context.Context) error {
	return look(ctx, in.r, in.r.lots, func(s *lots.State, _ finding.List) error {
		names := newLotNames(s, in.rows)
		for _, row := range in.rows {
			in.received(names, row)
		}
		return nil
	})
}

// lotNames are the names of lots that are taken.
type lotNames struct {
	state *lots.State
	rows  map[record.Lot]int // of the sheet, by what they name
}

func newLotNames(s *lots.State, rows []tables.Row) lotNames {
	n := lotNames{s, map[record.Lot]int{}}
	for _, row := range rows {
		if id := record.Lot(row.Text("lot")); id != "" && n.rows[id] == 0 {
			n.rows[id] = row.Number
		}
	}
	return n
}

// free names the next lot of a day.
func (n lotNames) free(day string, row int) record.Lot {
	for i := 1; ; i++ {
		id := record.Lot(fmt.Sprintf("R-%s%s%s-%d", day[2:4], day[5:7], day[8:10], i))
		if n.state.Lot(id) == nil && n.rows[id] == 0 {
			n.rows[id] = row
			return id
		}
	}
}

// taken says whether a row names a lot that is there already.
func (in *importing) taken(n lotNames, row tables.Row) bool {
	id := record.Lot(row.Text("lot"))
	if l := n.state.Lot(id); l != nil && l.Sort != lots.Unknown {
		in.wrong(row.Wrong("lot", fmt.Sprintf("is there already: %s of %s", l.Sort, l.What), "give the lot another name, or take the row out"))
		return true
	}
	if other := n.rows[id]; other != 0 && other != row.Number {
		in.wrong(row.Wrong("lot", fmt.Sprintf("is the lot of row %d too", other), "give each lot a name of its own"))
		return true
	}
	return false
}

func (in *importing) received(names lotNames, row tables.Row) {
	ingredient, ok := meant(in, row, "ingredient", in.book.Ingredients, nameOfIngredient, anIngredient)
	if !ok || row.Has("lot") && in.taken(names, row) {
		return
	}
	at := in.noonOf(row.Text("received"))
	if at.After(in.now) {
		in.wrong(row.Wrong("received", "is still to come", "write the day on which it came"))
		return
	}
	b := in.receivedBody(row)
	b.Ingredient = string(ingredient)
	if b.Lot == "" {
		b.Lot = names.free(row.Text("received"), row.Number)
	}
	note := in.supplied(row, &b)
	in.enter(row, at, fmt.Sprintf("received %s: lot %s, %s of %s from %s", row.Text("received"), b.Lot, b.Mass, b.Ingredient, b.Supplier), note, b)
}

func (in *importing) receivedBody(row tables.Row) record.Received {
	b := record.Received{Lot: record.Lot(row.Text("lot")), Supplier: row.Text("supplier"), SupplierLot: row.Text("supplier-lot"), Invoice: row.Text("invoice"), Pack: row.Text("pack"), Count: row.Whole("count"), Mass: row.Mass("mass"), Paid: row.Money("paid"),
		UseBy: record.Day(row.Text("use-by")), BestBefore: record.Day(row.Text("best-before")), MadeOn: record.Day(row.Text("made-on")), FrozenOn: record.Day(row.Text("frozen-on")), Place: record.Place(row.Text("place")), Note: record.Text(row.Text("note"))}
	if door, ok := row.Temp("door"); ok {
		b.Door = &door
	}
	return b
}

// supplied puts the supplier's id for its name, and says when the book does not know it.
func (in *importing) supplied(row tables.Row, b *record.Received) (note string) {
	for id, s := range in.book.Suppliers {
		if string(id) == b.Supplier || s.Name == b.Supplier {
			b.Supplier = string(id)
			return ""
		}
	}
	return "the book has no supplier " + b.Supplier
}

// openingRun is the name of the production that packs come from which were there before the records began.
const openingRun = "opening stock"

func (in *importing) stock(ctx context.Context) error {
	return look(ctx, in.r, in.r.lots, func(s *lots.State, _ finding.List) error {
		names := newLotNames(s, in.rows)
		for _, row := range in.rows {
			if !in.taken(names, row) {
				in.onHand(row)
			}
		}
		return nil
	})
}

// onHand is goods or packs that are there when the records begin.
func (in *importing) onHand(row tables.Row) {
	if in.isPack(row) {
		in.packsOnHand(row)
		return
	}
	ingredient, ok := meant(in, row, "what", in.book.Ingredients, nameOfIngredient, anOffer)
	switch {
	case !ok:
		return
	case !row.Has("mass"):
		in.wrong(row.Wrong("mass", "goods need a mass", "write it, with its unit"))
		return
	case row.Has("numbers"):
		in.wrong(row.Wrong("numbers", "are of packs, and this is goods", "leave it empty for goods"))
		return
	case row.Has("count"):
		in.wrong(row.Wrong("count", "is of packs, and this is goods", "leave it empty for goods"))
		return
	}
	b := in.receivedBody(row)
	b.Ingredient, b.Supplier = string(ingredient), cmp.Or(b.Supplier, openingRun)
	in.enter(row, in.now, fmt.Sprintf("on hand: lot %s, %s of %s", b.Lot, b.Mass, b.Ingredient), "", b)
}

func (in *importing) isPack(row tables.Row) bool {
	before := len(in.p.Mistakes)
	_, ok := meant(in, row, "what", in.book.Packs, nameOfPack, aPack)
	in.p.Mistakes = in.p.Mistakes[:before] // it may be an ingredient
	return ok
}

// packsOnHand makes a lot of packs, from a batch of the same name and mass that nobody knows more of.
func (in *importing) packsOnHand(row tables.Row) {
	id, _ := meant(in, row, "what", in.book.Packs, nameOfPack, aPack)
	numbers, ok := in.numbersOf(row)
	if !ok {
		return
	}
	if !row.Has("best-before") {
		in.wrong(row.Wrong("best-before", "packs need a best-before day", "write the one on the bag"))
		return
	}
	pack := in.book.Packs[id]
	label, output := in.labelled(pack)
	if label == 0 {
		in.wrong(row.Wrong("what", "has no mass in the book", "write into the book what is filled into it"))
		return
	}
	mass := row.Mass("mass")
	if mass == 0 {
		mass = label * unit.Mass(numbers.Count())
	}
	lot := record.Lot(row.Text("lot"))
	batch := "batch of " + lot
	made := record.Made{Run: openingRun, Dish: string(pack.Dish), Output: output, Lot: batch, Mass: mass}
	packed := record.Packed{Run: openingRun, Pack: string(id), Lot: lot, Numbers: numbers, Label: label, Mass: mass, From: []record.Part{{Lot: batch, Mass: mass}}, BestBefore: record.Day(row.Text("best-before")), Place: record.Place(row.Text("place"))}
	for _, b := range []record.Body{made, packed} {
		if _, err := record.Encode(b); err != nil {
			in.wrong(tables.Mistake{Row: row.Number, Problem: err.Error(), Fix: "mend the row"})
			return
		}
	}
	in.line(ImportLine{Rows: []int{row.Number}, Says: fmt.Sprintf("on hand: lot %s, %d × %s (no. %s), best before %s", lot, numbers.Count(), id, numbers, packed.BestBefore), New: true})
	in.p.said = append(in.p.said, Said{At: in.now, Body: made}, Said{At: in.now, Body: packed})
}

// numbersOf are the numbers of the packs of a row: as they are written, or from 1.
func (in *importing) numbersOf(row tables.Row) (record.Numbers, bool) {
	text := row.Text("numbers")
	if text == "" && row.Whole("count") > 0 {
		text = fmt.Sprintf("1-%d", row.Whole("count"))
	}
	numbers, err := record.ParseNumbers(text)
	switch {
	case text == "":
		in.wrong(row.Wrong("count", "packs need a count or their numbers", "write how many there are, or their numbers such as 1-40"))
	case err != nil:
		in.wrong(row.Wrong("numbers", "are no pack numbers", "write them as 1-40, 52"))
	case row.Has("count") && numbers.Count() != row.Whole("count"):
		in.wrong(row.Wrong("count", fmt.Sprintf("is not how many the pack numbers are: %d", numbers.Count()), "count again"))
	default:
		return numbers, true
	}
	return numbers, false
}

// labelled is the net mass of a pack by the book, and the output that most of it is.
func (in *importing) labelled(p kitchen.Pack) (mass unit.Mass, output string) {
	most := unit.Mass(0)
	for _, f := range p.Fill {
		m := f.Mass + unit.Mass(f.Pieces)*in.piece(p.Dish, f.Of)
		if mass += m; m > most {
			most, output = m, string(f.Of)
		}
	}
	return mass, output
}

// piece is the mass of one piece of an output of a dish.
func (in *importing) piece(dish kitchen.DishID, of kitchen.OutputID) unit.Mass {
	for _, step := range in.book.Dishes[dish].Steps {
		for _, o := range step.Outputs() {
			if o.ID == of {
				return o.Piece
			}
		}
	}
	return 0
}
