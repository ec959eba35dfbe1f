package app_test

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/tables"
	"kettlefrost/internal/unit"
	"kettlefrost/internal/workbook"
)

// desk is a kitchen and somebody who enters sheets in it.
type desk struct {
	t *testing.T
	a *app.App
	r *app.Records
}

func newDesk(t *testing.T) desk {
	t.Helper()
	a, r := kitchenOf(t)
	a.Follow(r)
	return desk{t, a, r}
}

func (c desk) kind(key string) app.ImportKind {
	c.t.Helper()
	k, ok := app.ImportKindOf(key)
	if !ok {
		c.t.Fatalf("nothing is called %s", key)
	}
	return k
}

func sheetOf(csv string) app.ImportFile {
	return app.ImportFile{Name: "sheet.csv", Data: []byte(csv)}
}

func (c desk) preview(key string, f app.ImportFile) app.ImportPreview {
	c.t.Helper()
	book, _ := c.a.Book()
	p, err := c.r.PreviewImport(c.t.Context(), book, c.kind(key), f, noon())
	if err != nil {
		c.t.Fatal(err)
	}
	return p
}

func (c desk) enter(key string, f app.ImportFile) app.ImportPreview {
	c.t.Helper()
	book, _ := c.a.Book()
	p, err := c.r.EnterImport(c.t.Context(), book, c.kind(key), f, ada)
	if err != nil {
		c.t.Fatalf("%v: %v %v", err, p.Mistakes, p.Questions)
	}
	return p
}

// bodies are what the records hold besides the book.
func (c desk) bodies() []record.Body {
	c.t.Helper()
	var all []record.Body
	var lines bytes.Buffer
	if _, err := c.r.Export(c.t.Context(), &lines); err != nil {
		c.t.Fatal(err)
	}
	for line := range bytes.Lines(lines.Bytes()) {
		e, err := record.ParseLine(bytes.TrimSpace(line))
		if err != nil {
			c.t.Fatal(err)
		}
		if body, err := record.Decode(e.Kind, e.Body); err != nil {
			c.t.Fatal(err)
		} else if _, book := body.(record.Booked); !book {
			all = append(all, body)
		}
	}
	return all
}

const customers = "Name,Street,Town,State,Zip,Phone,E-mail\n" +
	"Joe's Café,1 Quay,Harrow Creek,VT,05000,+1 802 555 0100,joe@cafe.example\n" +
	"Long Table,,,,,,\n"

// A sheet of customers is entered in one go, with ids made of the names; the same file enters nothing twice, and rows that say what is known
// already are left out of another.
func TestCustomersFromASheet(t *testing.T) {
	c := newDesk(t)
	p := c.preview("customers", sheetOf(customers))
	if !p.Ready() || p.Entries != 2 || p.Lines[0].Says != "customer joes-cafe: Joe's Café; 1 Quay, Harrow Creek, VT 05000; +1 802 555 0100; joe@cafe.example" || !p.Lines[0].New || len(c.bodies()) != 0 {
		t.Fatalf("%+v", p)
	}
	c.enter("customers", sheetOf(customers))
	want := []record.Body{
		record.Customer{Customer: "joes-cafe", Name: "Joe's Café", Address: "1 Quay\nHarrow Creek, VT 05000", Phone: "+1 802 555 0100", Mail: "joe@cafe.example"},
		record.Customer{Customer: "long-table", Name: "Long Table"},
	}
	if got := c.bodies(); !slices.Equal(got, want) {
		t.Errorf("entered %+v", got)
	}
	p = c.preview("customers", sheetOf(customers))
	if p.Done == nil || p.Ready() || p.Done.Who != "Ada" || p.Done.Entries != 2 {
		t.Errorf("the same file: %+v", p)
	}
	book, _ := c.a.Book()
	if _, err := c.r.EnterImport(t.Context(), book, c.kind("customers"), sheetOf(customers), app.Author{Who: "Bo", Device: "x", At: noon().Add(1e9)}); err == nil || !strings.Contains(err.Error(), "entered before, by Ada") || len(c.bodies()) != 2 {
		t.Errorf("the same file entered again: %v", err)
	}
	more := customers + "New Place,,,,,,\n"
	p = c.preview("customers", sheetOf(more))
	if p.Entries != 1 || p.Lines[0].New || p.Lines[2].Says != "customer new-place: New Place" {
		t.Errorf("with a row more: %+v", p.Lines)
	}
	changed := strings.Replace(customers, "1 Quay", "2 Quay", 1)
	p = c.preview("customers", sheetOf(changed))
	if p.Entries != 1 || p.Lines[0].Note != "takes the place of customer joes-cafe: Joe's Café; 1 Quay, Harrow Creek, VT 05000; +1 802 555 0100; joe@cafe.example" {
		t.Errorf("with a change: %+v", p.Lines)
	}
}

// What was entered from a file and taken back can be entered again; nothing of it twice.
func TestAnImportTakenBack(t *testing.T) {
	c := newDesk(t)
	first := c.enter("customers", sheetOf(customers)).ID()
	void := func(n int) {
		t.Helper()
		if _, err := c.r.Enter(t.Context(), app.Said{Who: "Ada", Device: "x", At: noon(), Corrects: app.PartID(first, n), Body: record.Voided{Why: "wrong file"}}); err != nil {
			t.Fatal(err)
		}
	}
	void(0)
	if p := c.preview("customers", sheetOf(customers)); p.Done == nil {
		t.Error("half of it stands, and it could be entered again")
	}
	void(1)
	again := c.enter("customers", sheetOf(customers))
	if again.ID() == first || len(c.bodies()) != 6 {
		t.Errorf("%d entries", len(c.bodies()))
	}
	if p := c.preview("customers", sheetOf(customers)); p.Done == nil || p.Done.First != again.ID() {
		t.Errorf("after that: %+v", p.Done)
	}
}

// With one mistake nothing is entered; mended where it stands, everything is.
func TestAMistakeIsMended(t *testing.T) {
	c := newDesk(t)
	c.enter("customers", sheetOf(customers))
	orders := "customer,product,qty,due\nJoe's Café,\"Ale and cheddar sauce, 1 lb\",12,2026-12-02\nlong-table,ale-chedar-lb,6,2026-12-02\nlong-table,ale-cheddar-lb,0,2026-12-02\nNobody,ale-cheddar-lb,3,2026-11-02\n"
	p := c.preview("orders", sheetOf(orders))
	var got []string
	for _, m := range p.Mistakes {
		got = append(got, m.Error())
	}
	want := []string{
		`row 3, column B (product): "ale-chedar-lb" is no pack of the book: did you mean ale-cheddar-lb? write the id or the name of one, or put it into the book first`,
		`row 4, column C (qty): "0" is 0: write how many, from 1, or leave the line out`,
		`row 5, column A (customer): "Nobody" is no customer who is known: write the id or the name of one, or enter the customers first`,
	}
	if !slices.Equal(got, want) {
		t.Errorf("mistakes:\n%s", strings.Join(got, "\n"))
	}
	book, _ := c.a.Book()
	_, err := c.r.EnterImport(t.Context(), book, c.kind("orders"), sheetOf(orders), ada)
	if notReady, ok := errors.AsType[*app.NotReadyError](err); !ok || len(notReady.Preview.Mistakes) != 3 || len(c.bodies()) != 2 {
		t.Fatalf("with mistakes: %v", err)
	}
	f := sheetOf(orders)
	f.Mended = map[string]string{"B3": "ale-cheddar-lb", "C4": "4", "A5": "long-table", "D5": "2026-12-03", "B4": "bean-pot-2lb"}
	p = c.enter("orders", f)
	if len(p.Lines) != 3 || p.Lines[1].Says != "order O-2 for long-table, deliver on 2026-12-02: 6 × ale-cheddar-lb, 4 × bean-pot-2lb" || !slices.Equal(p.Lines[1].Rows, []int{3, 4}) {
		t.Errorf("%+v", p.Lines)
	}
	if p := c.preview("orders", sheetOf(orders)); p.Done == nil {
		t.Error("the file as it was before it was mended could be entered again")
	}
}

// Orders by their numbers: rows of one number are one order and must agree, a number that is there is refused.
func TestOrdersByTheirNumbers(t *testing.T) {
	c := newDesk(t)
	c.enter("customers", sheetOf(customers))
	c.enter("orders", answered(sheetOf("po;customer;item;quantity;price each;date;how\nA-1;joes-cafe;ale-cheddar-lb;12;9,50;02.12.2026;pick up\nA-1;joes-cafe;bean-pot-2lb;2;;02.12.2026;pick up\n"), tables.AskDates, "dmy"))
	got := c.bodies()[2]
	want := record.Ordered{Order: "A-1", Customer: "joes-cafe", Due: "2026-12-02", Way: record.Collect, Lines: []record.OrderLine{{Pack: "ale-cheddar-lb", Count: 12, Each: 950 * unit.Cent}, {Pack: "bean-pot-2lb", Count: 2}}}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("%+v", got)
	}
	p := c.preview("orders", sheetOf("order,customer,pack,count,due\nA-1,joes-cafe,ale-cheddar-lb,1,2026-12-05\nA-2,joes-cafe,ale-cheddar-lb,1,2026-12-05\nA-2,joes-cafe,bean-pot-2lb,1,2026-12-06\n"))
	if len(p.Mistakes) != 2 || p.Mistakes[0].Where() != "row 2, column A (order)" || p.Mistakes[1].Where() != "row 4, column E (due)" {
		t.Errorf("%v", p.Mistakes)
	}
}

// Goods that came become lots with their days and masses; a lot that is there is refused, and one without a name gets one.
func TestGoodsFromASheet(t *testing.T) {
	c := newDesk(t)
	csv := "Date;Item;Vendor;Batch;Weight (lb);Total price;Expiry;Temp (°F);Location\n2026-11-30;leek;Hillside Produce Terminal (invented);X-9;20,5;31,50 €;2026-12-09;39;walk-in\n2026-11-30;leek;elsewhere;;2;;;;\n"
	p := c.enter("goods", sheetOf(csv))
	if p.Lines[1].Note != "the book has no supplier elsewhere" || p.Lines[0].Note != "" {
		t.Errorf("%+v", p.Lines)
	}
	door := unit.TempF(39)
	got := c.bodies()
	want := record.Received{Lot: "R-261130-1", Ingredient: "leek", Supplier: "hillside", SupplierLot: "X-9", Mass: 328 * unit.Ounce, Paid: 3150 * unit.Cent, UseBy: "2026-12-09", Door: &door, Place: "walk-in"}
	a, _ := record.Encode(got[0])
	b, _ := record.Encode(want)
	if len(got) != 2 || string(a) != string(b) {
		t.Errorf("%s\n%s", a, b)
	}
	p = c.preview("goods", sheetOf("received,lot,ingredient,supplier,mass\n2026-12-01,R-261130-1,leek,x,1 kg\n2026-12-02,L-1,leek,x,1 kg\n2026-12-01,L-2,leek,x,1 kg\n2026-12-01,L-2,leek,x,1 kg\n"))
	var says []string
	for _, m := range p.Mistakes {
		says = append(says, m.Where()+" "+m.Problem)
	}
	if want := []string{"row 2, column B (lot) is there already: goods of leek", "row 3, column A (received) is still to come", "row 5, column B (lot) is the lot of row 4 too"}; !slices.Equal(says, want) {
		t.Errorf("%q", says)
	}
}

// What is on hand when the records begin: goods by mass, packs by count or numbers, and the plan reckons with both.
func TestOpeningStock(t *testing.T) {
	c := newDesk(t)
	c.enter("stock", sheetOf("lot,item,weight,count,numbers,best before,place\nR-1,leek,5 kg,,,2026-12-09,walk-in\nP-1,ale-cheddar-lb,,30,,2027-06-01,chest\nP-2,\"Ale and cheddar sauce, 1 lb\",,,\"101-110, 120\",2027-05-01,chest\nP-3,meatballs-six,,4,,2027-05-01,chest\n"))
	book, found := c.a.Book()
	if found.Worst() == finding.Stop || book.Packs["ale-cheddar-lb"].Frozen != 41 || book.Packs["meatballs-six"].Frozen != 4 || len(book.Ingredients["leek"].Lots) != 1 {
		t.Errorf("%d packs, %v, %v", book.Packs["ale-cheddar-lb"].Frozen, book.Ingredients["leek"].Lots, found)
	}
	err := c.r.Lots(t.Context(), func(s *lots.State, found finding.List) error {
		if len(found) > 0 {
			t.Errorf("it does not fit: %v", found)
		}
		if x := s.Lot("P-2"); x.Came != 11*unit.Pound || x.Numbers.String() != "101-110, 120" {
			t.Errorf("%+v", x)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	p := c.preview("stock", sheetOf("lot,what,mass,count,pack numbers,best before\nR-1,leek,1 kg,,,\nA,ale-cheddar-lb,,,,2027-01-01\nB,ale-cheddar-lb,,3,1-4,2027-01-01\nC,ale-cheddar-lb,,3,,\nD,leek,,,,\nE,leek,1 kg,2,,\nF,leak,1 kg,,,\n"))
	if len(p.Mistakes) != 7 || p.Ready() {
		t.Errorf("%d mistakes: %v", len(p.Mistakes), p.Mistakes)
	}
	for i, m := range p.Mistakes {
		if m.Row != i+2 || m.Fix == "" {
			t.Errorf("%v", m)
		}
	}
}

// A price list changes the prices where they stand in the book, leaves every other byte as it is, and is checked like any change.
func TestAPriceListChangesTheBook(t *testing.T) {
	c := newDesk(t)
	before, _ := textOf(t, c.r, ale)
	trade, _ := textOf(t, c.r, "trade.yaml")
	f := sheetOf("product,price,list,from,since\nale-cheddar-lb,9.95,,,\nbean-pot-2lb,$13.50,,,\nale-cheddar-lb,7.90,shops,24,\nmushroom-filling-2lb,10,shops,,\nale-cheddar-lb,8.00,Friends & family,,2027-01-01\n")
	p, err := c.a.EnterPrices(t.Context(), c.r, f, ada)
	if err != nil {
		t.Fatal(err, p.Mistakes)
	}
	if p.Lines[0].Note != "it was 9.75" || p.Lines[1].New || p.Lines[4].Note != "a new price list" {
		t.Errorf("%+v", p.Lines)
	}
	if got, _ := textOf(t, c.r, ale); got != replaced(t, before, "price: $9.75", "price: $9.95") {
		t.Errorf("more than the price was changed:\n%s", got)
	}
	want := replaced(t, replaced(t, trade, "each: $7.80, from: 24", "each: $7.90, from: 24"), "      - {pack: ale-cheddar-lb, each: $8.20}", "      - {pack: mushroom-filling-2lb, each: 10.00}\n      - {pack: ale-cheddar-lb, each: $8.20}")
	if got, _ := textOf(t, c.r, "trade.yaml"); got != want {
		t.Errorf("more than the price was changed:\n%s", got)
	}
	book, found := c.a.Book()
	if found.Worst() == finding.Stop || book.PriceLists["friends-family"].Prices[0].Each != 8*unit.MoneyUnit || book.Packs["ale-cheddar-lb"].Price != 995*unit.Cent {
		t.Errorf("%v", found)
	}
	if p := c.preview("prices", f); p.Done == nil {
		t.Errorf("the same file again: %+v", p)
	}
	if p := c.preview("prices", sheetOf("pack,each,from\nale-cheddar-lb,0,\nale-cheddar-lb,3,5\n")); len(p.Mistakes) != 2 {
		t.Errorf("%v", p.Mistakes)
	}
}

// A workbook is entered as a CSV file is, from the sheet that is named when there are several.
func TestAWorkbookIsEntered(t *testing.T) {
	c := newDesk(t)
	var out bytes.Buffer
	sheet := tables.Table{Name: "goods", Columns: []tables.Column{{Name: "received", Kind: tables.Day}, {Name: "item"}, {Name: "vendor"}, {Name: "weight", Unit: "kg", Kind: tables.Decimal}}, Rows: [][]string{{"2026-11-30", "leek", "hillside", "12.345"}}}
	if err := workbook.Write(&out, []tables.Table{sheet, {Name: "other", Columns: sheet.Columns}}); err != nil {
		t.Fatal(err)
	}
	f := app.ImportFile{Name: "Goods.XLSX", Data: out.Bytes()}
	if p := c.preview("goods", f); len(p.Questions) != 1 || p.Questions[0].Key != workbook.AskSheet {
		t.Errorf("%+v", p.Questions)
	}
	f.Sheet = "goods"
	c.enter("goods", f)
	if got := c.bodies()[0].(record.Received); got.Mass != 12_345*unit.Gram || got.Lot != "R-261130-1" {
		t.Errorf("%+v", got)
	}
	if p := c.preview("goods", app.ImportFile{Name: "goods.pdf"}); len(p.Mistakes) != 1 || !strings.Contains(p.Mistakes[0].Fix, ".xlsx") {
		t.Errorf("%v", p.Mistakes)
	}
}

// answered is the file with an answer.
func answered(f app.ImportFile, key, value string) app.ImportFile {
	f.Settings = tables.Settings{key: value}
	return f
}
