package record

import (
	"bytes"
	"errors"
	"reflect"
	"strings"
	"testing"

	"kettlefrost/internal/unit"
)

// numbers reads pack numbers.
func numbers(t testing.TB, text string) Numbers {
	t.Helper()
	n, err := ParseNumbers(text)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// examples is one body of every kind, with every field filled in that can be.
func examples(t testing.TB) []Body {
	cold, kg, usd := unit.TempC(3.5), unit.Kilogram, unit.MoneyUnit
	n := numbers(t, "1-40, 52")
	bound, nothing, separation := Decimal(15_000), Decimal(0), 3*unit.PerCent
	return []Body{
		Received{Lot: "R-1201-1", Ingredient: "carrot", Supplier: "farm", SupplierLot: "L 77/b", Invoice: "4711", Pack: "10 kg sack", Count: 2, Mass: 20 * kg, Paid: 22 * usd, UseBy: "2026-12-09", BestBefore: "2026-12-08",
			MadeOn: "2026-11-30", FrozenOn: "2026-11-30", Door: &cold, Place: "walk-in/left", Note: "two sacks,\none wet"},
		Used{Run: "tuesday", Dish: "soup", Step: "simmer", Lot: "R-1201-1", Mass: 4*kg + 1, Numbers: n},
		Made{Run: "tuesday", Dish: "soup", Output: "soup", Lot: "M-1", Mass: 13 * kg, From: []Part{{"R-1201-1", 4 * kg}}, UseBy: "2026-12-04", Place: "walk-in"},
		Packed{Run: "tuesday", Pack: "soup-650", Lot: "P-1", Numbers: n, Label: 650 * unit.Gram, Mass: 27 * kg, From: []Part{{"M-1", 27 * kg}}, BagLot: "B9", BestBefore: "2027-06-01", Place: "chest-1"},
		Moved{Lot: "P-1", Numbers: n, To: "chest-2/shelf 1"}, Counted{Lot: "P-1", Place: "chest-2", Nothing: true}, WrittenOff{Lot: "M-1", Mass: kg, Why: "burnt"},
		Held{Lot: "P-1", Numbers: n, Why: "cooled too slowly"}, Released{Lot: "P-1", Numbers: n, Disposition: Destroy, Why: "the inspector said so", Points: []string{"tuesday/soup/cool/2/cooling"}},
		Opened{Run: "tuesday-2026-12-01", Request: "tuesday", Day: "2026-12-01", Plan: Hash{1, 2}}, Closed{Run: "tuesday", Note: "went well"}, Started{Run: "tuesday", Task: "soup/simmer/1"},
		Finished{Run: "tuesday", Task: "soup/simmer/1"}, Skipped{Run: "tuesday", Task: "soup/blend/2", Why: "no need"}, Wasted{Run: "tuesday", Dish: "soup", Output: "soup", Mass: kg, Why: "burnt on"}, Weighed{Run: "tuesday", Dish: "soup", Output: "soup", Gross: 15 * kg, Tare: 2 * kg, Net: 13 * kg, Instrument: "floor scale"},
		Measured{Run: "tuesday", Dish: "soup", Output: "soup", Task: "soup/cool/2", Place: "range", Point: "middle of the pot", Temp: unit.TempC(0), Instrument: "probe 2"}, CheckWeighed{Run: "tuesday", Pack: "soup-650", Tares: []unit.Mass{11 * unit.Gram}, Gross: []unit.Mass{663 * unit.Gram, 664 * unit.Gram}},
		Changed{Run: "tuesday", Late: []LateTask{{"soup/simmer", 20, true}}, Gone: []GonePerson{{"ada", earliest, earliest + 1}}, Out: []Outage{{"burner", 1, earliest, earliest + 1}}},
		Customer{Customer: "cafe", Name: "Café Örtlich", Address: "1 Mill Lane\nTown", Phone: "555", Mail: "a@b.example", Prices: "trade", Note: "rings twice", LifeDays: 30, MostLots: 1},
		Ordered{Order: "O-1", Customer: "cafe", Lines: []OrderLine{{"soup-650", 12, 5 * usd}}, Due: "2026-12-05", Way: Deliver, Weeks: 2, Until: "2027-03-01", Note: "back door", Whole: true}, Cancelled{Order: "O-1", Why: "closed for the week"},
		Picked{Order: "O-1", Lot: "P-1", Numbers: n}, HandedOver{Order: "O-1", Customer: "cafe", Lot: "P-1", Numbers: n, Address: "the fair", TakenBy: "Jo"}, Routed{Day: "2026-12-05", Orders: []string{"O-2", "O-1"}}, Returned{Customer: "cafe", Lot: "P-1", Numbers: n, Why: "too many", Sound: true, Place: "chest-1"},
		Invoiced{Invoice: "2026-001", Order: "O-1", Customer: "cafe", Day: "2026-12-05", Due: "2026-12-19", Lines: []InvoiceLine{{Says: "12 × soup", Count: 12, Each: 5 * usd, Net: 60 * usd, Tax: "standard", Pack: "soup-lb", Order: "O-1", Day: "2026-12-04"}}, Taxes: []TaxLine{{"standard", 5 * unit.PerCent, 60 * usd, 3 * usd}}, Total: 63 * usd, To: "Café Joe\nMill Lane 3", From: "Kitchen", Note: "by transfer"},
		Credited{Credit: "C-1", Invoice: "2026-001", Day: "2026-12-06", Lines: []InvoiceLine{{Says: "2 × soup", Count: 2, Each: 5 * usd, Net: 10 * usd}}, Taxes: []TaxLine{{"standard", 5 * unit.PerCent, 10 * usd, 50 * unit.Cent}}, Total: 10*usd + 50*unit.Cent, Why: "thawed", Off: true},
		Paid{Invoice: "2026-001", Amount: -63 * usd, By: "bank"}, Voided{Why: "typed twice"}, Noted{About: "tuesday", Text: "salt \"less\" <next> time & no leeks"}, Booked{Path: "dishes/soup.yaml", Text: "name: soup\n"},
		Drilled{Lots: []Lot{"R-1201-1"}, Practice: true, Began: earliest, Ended: earliest + 9, Packs: 41, Found: 40, Share: 98 * unit.PerCent},
		Person{Person: "ada", Name: "Ada Ö.", Role: Packer, Since: "2026-12-01", Left: "2027-03-31"},
		Watched{Probe: "probe 2", Run: "tuesday", Dish: "soup", Output: "soup", Task: "soup/cool/2", Lot: "M-1", Place: "walk-in", Stage: StageCooling, Point: "middle of the deepest pan", From: earliest, Until: earliest + 9},
		Calibrated{Instrument: "probe 2", Method: IcePoint, Read: unit.TempC(1.2), True: unit.TempC(0), After: &cold, Kept: Adjusted, Note: "new battery"},
		Acted{Run: "tuesday", Task: "soup/cool/2", Lot: "M-1", Place: "walk-in", Code: "cooling-in-doubt", Did: Reheated, Temp: &cold, Text: "all of it"},
		HazardPlan{Pack: "soup-650", Basis: "3f", Text: "{}", Note: "first"},
		PlanReviewed{Pack: "soup-650", Plan: ID{1}, Reviewer: "Dr. Ö.", Qualified: "course of 2025", Outcome: SentBack, Authority: "VT-1", Why: "no limit\nfor the leeks"},
		Signed{About: "run tuesday", Hash: Hash{1}, As: AsVerifier, Text: "seen"},
		Logged{Batch: ID{2}, File: "night.csv", Hash: Hash{3}, Probes: []string{"chest", "walk-in"}, Readings: 2880, Flagged: 3},
		TrialLaid{Trial: "soup-gum", Dish: "soup", Pack: "soup-650", Asks: "does it weep less?", Variants: []Variant{{"as it is", "as in the book", true}, {"gum", "1 g of xanthan to the litre", false}},
			Figures: []Figured{{"drip", "g", LowIsBetter, 2500, &bound}}, Tasters: []string{"ada", "bo"}, Weeks: []Week{0, 4, 8}, Packs: 2, Seed: 7, Note: "small pot"},
		TrialMade{Trial: "soup-gum", Variant: "gum", Mass: 3 * kg, Packs: 6, Each: 450 * unit.Gram, Lot: "P-1", Place: "chest-1", Frozen: "2026-12-01", Note: "stirred by hand"},
		TrialOpened{Trial: "soup-gum", Variant: "gum", Week: 4, Number: 1, Whole: 450 * unit.Gram, Drip: &nothing, Separation: &separation, Note: "smooth"},
		TrialScored{Trial: "soup-gum", Week: 4, Taster: "ada", Code: "417", Scores: []Score{{"texture", 7500}}, Note: "a little thin"}, TrialClosed{Trial: "soup-gum", Adopted: "gum", Why: "less drip"},
		Pictured{About: "trial/soup-gum/gum/4", File: "img 1.jpg", Hash: Hash{4}, Type: JPEG, Bytes: 120_000, Caption: "after a night in the walk-in"},
		SetAside{Run: "tuesday", Pack: "soup-650", Lot: "P-1", Numbers: n, Open: []Day{"2027-01-01", "2027-03-01"}, Place: "chest-1", Why: "new gum"},
		Tasted{Lot: "P-1", Numbers: n, Pack: "soup-650", Whole: 650 * unit.Gram, Drip: &nothing, Separation: &separation, Scores: []Score{{"flavour", -500}}, Verdict: Fading, Note: "flat"},
		Learned{Figure: "soup/simmer/evaporation", Before: "6 kg/m2h", After: "6.4 kg/m2h", Runs: []string{"tuesday", "friday"}, Outcome: TakenOver, Text: "{}"}, LeftOut{Figure: "soup/simmer/evaporation", Run: "friday", Why: "the lid was on"},
		Labelled{Run: "tuesday", Pack: "soup-650", Lot: "P-1", Count: 3, Reprint: true, Why: "three were torn", Label: Hash{5}, In: "en-US", Stock: "roll-4x3"},
	}
}

// Every kind has an example, and what is written is read back the same, byte for byte.
func TestBodiesComeBackAsTheyWere(t *testing.T) {
	seen := map[Kind]bool{}
	for _, b := range examples(t) {
		seen[b.Kind()] = true
		text, err := Encode(b)
		if err != nil {
			t.Errorf("%s: %v", b.Kind(), err)
			continue
		}
		back, err := Decode(b.Kind(), text)
		if err != nil {
			t.Errorf("%s: %v\n%s", b.Kind(), err, text)
			continue
		}
		if !reflect.DeepEqual(b, back) {
			t.Errorf("%s: %+v came back as %+v", b.Kind(), b, back)
		}
		if again, err := Encode(back); err != nil || !bytes.Equal(text, again) {
			t.Errorf("%s: %s was written again as %s (%v)", b.Kind(), text, again, err)
		}
	}
	for _, k := range Kinds() {
		if !seen[k] {
			t.Errorf("no example of %s", k)
		}
	}
}

// The written form stays what it is: somebody keeps a chain of it.
func TestTheWrittenFormOfAReceipt(t *testing.T) {
	text, err := Encode(examples(t)[0])
	const want = `{"lot":"R-1201-1","ingredient":"carrot","supplier":"farm","supplier_lot":"L 77/b","invoice":"4711","pack":"10 kg sack","count":2,"mass_g":"20000","paid":"22.00","use_by":"2026-12-09",` +
		`"best_before":"2026-12-08","made_on":"2026-11-30","frozen_on":"2026-11-30","door_c":"3.5","place":"walk-in/left","note":"two sacks,\none wet"}`
	if err != nil || string(text) != want {
		t.Errorf("%s (%v)\nwant %s", text, err, want)
	}
}

// What a cook or a program gets wrong is named with its field and what to do.
func TestBodiesThatAreRefused(t *testing.T) {
	for _, c := range []struct {
		kind Kind
		body string
		at   string // path
		says string
	}{
		{"used", `{"run":"r","dish":"d","lot":"L","mass_g":"0"}`, "mass_g", "is zero"},
		{"used", `{"run":"r","dish":"d","lot":"L","mass_g":"-1"}`, "mass_g", "below zero"},
		{"used", `{"run":"r","dish":"d","lot":"L","mass_g":12}`, "mass_g", ""},
		{"used", `{"run":"r","dish":"d","lot":"L","mass_g":"12 lb"}`, "mass_g", "12 lb"},
		{"used", `{"run":"r","dish":"d","lot":"L","mass_g":""}`, "mass_g", ""},
		{"used", `{"run":"r","dish":"d","lot":"L","mass_g":"-"}`, "mass_g", ""},
		{"used", `{"run":"r","dish":"d","lot":"","mass_g":"1"}`, "lot", "is empty"},
		{"used", `{"run":"r","dish":"d","lot":"L"}`, "mass_g", "is missing"},
		{"used", `{"run":"r","run":"r","dish":"d","lot":"L","mass_g":"1"}`, "run", "twice"},
		{"used", `{"run":"r","dish":"d","lot":"L","mass_g":"1","colour":"red"}`, "colour", "no field"},
		{"used", `{"run":"r","dish":"d","lot":"L","mass_g":"1"} {}`, "", "followed by"},
		{"used", `{"run":"\ud800","dish":"d","lot":"L","mass_g":"1"}`, "run", "a character that is none"},
		{"used", `{"run":"\ufffd","dish":"d","lot":"L","mass_g":"1"}`, "run", "a character that is none"},
		{"used", `{"dish":"d","run":"r","lot":"L","mass_g":"1"}`, "body", "canonical form"},
		{"used", `{"run":"r","dish":"d","lot":"L","mass_g":"1.0"}`, "body", "canonical form"},
		{"used", ` {"run":"r","dish":"d","lot":"L","mass_g":"1"}`, "body", "canonical form"},
		{"picked", `{"order":"o","lot":"L","numbers":"40-1"}`, "numbers", ""},
		{"picked", `{"order":"o","lot":"L","numbers":""}`, "numbers", ""},
		{"moved", `{"lot":"L","to":"x"}`, "numbers", "is missing"},
		{"moved", `{"lot":"L","numbers":"1","mass_g":"1","to":"x"}`, "numbers", "does not go together"},
		{"measured", `{"place":"x","temp_c":"-300"}`, "temp_c", "absolute zero"},
		{"measured", `{"task":"soup/cool/2","temp_c":"3"}`, "run", "is missing"},
		{"measured", `{"temp_c":"3"}`, "place", "is missing"},
		{"measured", `{"place":"x","temp_c":"900"}`, "temp_c", "600"},
		{"weighed", `{"run":"r","dish":"d","output":"o","gross_g":"10","tare_g":"1","net_g":"8"}`, "net_g", "gross less tare"},
		{"packed", `{"run":"r","pack":"p","lot":"L","numbers":"1-10","label_g":"650","mass_g":"65000","from":[{"lot":"M","mass_g":"65000"}],"best_before":"2027-06-01"}`, "mass_g", "weigh again"},
		{"packed", `{"run":"r","pack":"p","lot":"L","numbers":"1-10","label_g":"650","mass_g":"6500","from":[],"best_before":"2027-06-01"}`, "from", "is empty"},
		{"packed", `{"run":"r","pack":"p","lot":"L","numbers":"1-10","label_g":"650","mass_g":"6500","from":[{"lot":"M","mass_g":"6500"}],"best_before":"2027-02-29"}`, "best_before", "no date"},
		{"packed", `{"run":"r","pack":"p","lot":"L","numbers":"1-10","label_g":"650","mass_g":"650","from":[{"lot":"M","mass_g":"650"}],"best_before":"2027-06-01"}`, "mass_g", "for 10 packs"},
		{"drilled", `{"lots":["L"],"began_ms":1764072000000,"ended_ms":1764072000001,"packs":4,"found":5}`, "found", "5 of 4"},
		{"drilled", `{"lots":["L"],"began_ms":1764072000001,"ended_ms":1764072000000}`, "ended_ms", "before it began"},
		{"watched", `{"probe":"p","stage":"cooling","from_ms":1764072000000}`, "task", "is missing"},
		{"watched", `{"probe":"p","task":"soup/cool/2","stage":"cooling","from_ms":1764072000000}`, "run", "is missing"},
		{"watched", `{"probe":"p","place":"x","stage":"airing","from_ms":1764072000000}`, "stage", "airing"},
		{"watched", `{"probe":"p","place":"x","stage":"holding","from_ms":1764072000001,"until_ms":1764072000000}`, "until_ms", "before it went in"},
		{"calibrated", `{"instrument":"t","method":"ice-point","read_c":"1","true_c":"0","kept":"adjusted"}`, "after_c", "is missing"},
		{"calibrated", `{"instrument":"t","method":"ice-point","read_c":"1","true_c":"0","after_c":"0","kept":"in-use"}`, "kept", "read again"},
		{"acted", `{"run":"r","task":"soup/cool/2","did":"reheated"}`, "temp_c", "is missing"},
		{"acted", `{"run":"r","task":"soup/cool/2","did":"other"}`, "text", "is missing"},
		{"acted", `{"did":"stirred"}`, "task", "is missing"},
		{"plan-reviewed", `{"pack":"p","plan":"","reviewer":"R","qualified":"q","outcome":"accepted"}`, "plan", ""},
		{"logged", `{"batch":"","file":"f","hash":"0100000000000000000000000000000000000000000000000000000000000000","probes":["p"],"readings":1}`, "batch", ""},
		{"drilled", `{"lots":["L"],"began_ms":0,"ended_ms":1764072000000}`, "began_ms", "before the year 2000"},
		{"drilled", `{"lots":["L",null],"began_ms":1764072000001,"ended_ms":1764072000002}`, "lots[1]", "is null"},
		{"ordered", `{"order":"o","customer":"c","lines":[{"pack":"p","count":1},{"pack":"p","count":0}],"due":"2026-12-05","way":"collect"}`, "lines[1].count", "is 0"},
		{"invoiced", `{"invoice":"1","customer":"c","day":"2026-12-05","due":"2026-12-19","lines":[{"says":"x","count":2,"each":"5.00","net":"5.00"}],"total":"5.00"}`, "lines[0].net", "for 2 at 5.00"},
		{"released", `{"lot":"L","disposition":"eat","why":"w"}`, "disposition", "eat"},
		{"invoiced", `{"invoice":"1","customer":"c","day":"2026-12-05","due":"2026-12-19","lines":[{"says":"x","count":1,"each":"5.00","net":"5.00"}],"total":"5.01"}`, "total", "lines and taxes"},
		{"dreamt", `{}`, "", "no kind"},
	} {
		_, err := Decode(c.kind, []byte(c.body))
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s %s: %v, want %q", c.kind, c.body, err, c.says)
			continue
		}
		var field *FieldError
		if c.at != "" && (!errors.As(err, &field) || field.Path != c.at || field.Fix == "") {
			t.Errorf("%s %s: %v is not about %s", c.kind, c.body, err, c.at)
		}
	}
}

// What a person writes in another order and spelling is read as the same, and written in the one form.
func TestReadInAnyOrder(t *testing.T) {
	b, err := Read("used", []byte(" {\"mass_g\": \"4000.50\", \"lot\":\"L\",\n\"dish\":\"soup\", \"run\":\"tue\"} "))
	if want := (Used{Run: "tue", Dish: "soup", Lot: "L", Mass: 4000*unit.Gram + unit.Gram/2}); err != nil || !reflect.DeepEqual(b, want) {
		t.Errorf("%+v (%v), want %+v", b, err, want)
	}
	if text, err := Encode(b); err != nil || string(text) != `{"run":"tue","dish":"soup","lot":"L","mass_g":"4000.5"}` {
		t.Errorf("written %s (%v)", text, err)
	}
}

func FuzzDecode(f *testing.F) {
	for _, b := range examples(f) {
		text, err := Encode(b)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(b.Kind()), []byte(text))
	}
	f.Fuzz(func(t *testing.T, kind string, body []byte) {
		b, err := Decode(Kind(kind), body)
		if err != nil {
			var field *FieldError
			var unknown *KindError
			if !errors.As(err, &unknown) && (!errors.As(err, &field) || field.Path == "" || field.Problem == "" || field.Fix == "") {
				t.Errorf("%s: %v says not what to do", body, err)
			}
			return
		}
		if again, err := Encode(b); err != nil || !bytes.Equal(again, body) {
			t.Errorf("%s was read and is written %s (%v)", body, again, err)
		}
	})
}

func BenchmarkDecode(b *testing.B) {
	text, err := Encode(examples(b)[0])
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if _, err := Decode("received", text); err != nil {
			b.Fatal(err)
		}
	}
}
