package plan_test

import (
	"strings"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// coldKitchen is the soup kitchen with pans, a slow pot, ways in stages and paddles beside its ice bath.
func coldKitchen(t *testing.T) kitchen.Book {
	book := soupKitchen(t)
	temp := func(s string) *unit.Temp { v := quantity(t, unit.ParseTemp, s); return &v }
	length := func(s string) unit.Length { return quantity(t, unit.ParseLength, s) }
	bath := book.Chilling["bath"]
	bath.Count, bath.Tend = 4, 25*unit.PerCent
	book.Chilling["bath"] = bath
	book.Chilling["pans"] = kitchen.Chilling{Name: "pans", Method: kitchen.ShallowPans, In: "walk-in-fan", Count: 40, Length: length("50 cm"), Width: length("30 cm"), Depth: length("3 cm")}
	book.Chilling["deep"] = kitchen.Chilling{Name: "deep pans", Method: kitchen.ShallowPans, In: "still-air", Count: 40, Length: length("50 cm"), Width: length("30 cm"), Depth: length("10 cm")}
	book.Chilling["left"] = kitchen.Chilling{Name: "pot left alone", Method: kitchen.PotInAir, In: "still-air", Count: 4, Vessel: "pot"}
	book.Chilling["two"] = kitchen.Chilling{Name: "bath, then pans", Method: kitchen.InStages, First: "bath", Until: temp("70 °F"), Then: "pans"}
	book.Chilling["stick"] = kitchen.Chilling{Name: "paddles", Method: kitchen.StirredBath, In: "still-air", Count: 4, Vessel: "pot",
		Paddle: &kitchen.Paddle{Count: 30, Water: 3600 * unit.Gram, Length: length("45 cm"), Diameter: length("12 cm"), Start: *temp("-18 °C")}}
	return book
}

func option(t *testing.T, c plan.Chill, id string) plan.ChillOption {
	t.Helper()
	for _, o := range c.Options {
		if o.ID == id {
			return o
		}
	}
	t.Fatalf("there is no way %q among %d", id, len(c.Options))
	return plan.ChillOption{}
}

// By hand: a load is 13 kg of soup (40 packs in two pots) from 95 °C, about 4.0 kJ/kg·K. In an ice bath of 0 °C at 300 W/m²K and 0.2 m² of
// base with 0.12 m² of wet side, Newton's law takes 13 · 4000/(300 · 0.32) · ln(57.2/21.1) = 540 s = 9 min from 135 to 70 °F, and
// ln(57.2/5) · 542 s = 22 min to 41 °F.
func TestIceBathByHand(t *testing.T) {
	c := makePlan(t, coldKitchen(t), soups(40)).Chill[0]
	bath := option(t, c, "bath")
	near(t, "135 to 70 °F, min", bath.To70.S()/60, 9, 1.2)
	near(t, "135 to 41 °F, min", bath.To41.S()/60, 22, 2.5)
	if !(*bath.Fast41 < *bath.To41 && *bath.To41 < *bath.Slow41) {
		t.Errorf("the band %s to %s is not around %s", *bath.Fast41, *bath.Slow41, *bath.To41)
	}
	// Its heat is 13 · 4000 · (95 - 5) = 4.7 MJ a load, 14 kg of ice at 334 kJ/kg, two loads 28 kg; water of the bath and the room come on top.
	if kg := bath.Ice.Kg(); kg < 26 || kg > 40 {
		t.Errorf("%.1f kg of ice, want 28 kg and some for the bath's own water", kg)
	}
}

// Conduction: a 40 gal pot left alone takes days and 10 cm in still air most of one; 3 cm by a fan is in time (published studies of chili in
// pans and pots agree: Olds and Sneed 2005, abstract).
func TestWaysAreComparedAndTheLeastWorkChosen(t *testing.T) {
	c := makePlan(t, coldKitchen(t), soups(40)).Chill[0]
	for id, want := range map[string]plan.ChillVerdict{"bath": plan.ChillRoomy, "pans": plan.ChillRoomy, "two": plan.ChillRoomy, "deep": plan.ChillSlow, "left": plan.ChillSlow} {
		if got := option(t, c, id).Verdict; got != want {
			t.Errorf("%s: %s, want %s", id, got, want)
		}
	}
	chosen := c.Options[c.Chosen]
	for _, o := range c.Options {
		if o.Verdict == plan.ChillRoomy && o.HandsOn < chosen.HandsOn {
			t.Errorf("%s takes %s of hands and is not chosen; %s takes %s", o.Name, o.HandsOn, chosen.Name, chosen.HandsOn)
		}
	}
	if deep := option(t, c, "deep"); len(deep.Fits) == 0 || !strings.Contains(deep.Fits[0], "fill the pans") {
		t.Errorf("what would make 10 cm deep pans fit: %v", deep.Fits)
	}
}

// A way in stages is its first way down to 70 °F, then the second; the timetable has a task of each with its own place.
func TestStages(t *testing.T) {
	book := coldKitchen(t)
	for _, id := range []kitchen.ChillingID{"pans", "deep", "left", "stick"} {
		if id != "pans" {
			delete(book.Chilling, id)
		}
	}
	bath := book.Chilling["bath"]
	bath.Tend, bath.Set = unit.Whole, 20*unit.Minute // so that the stages are less work than the bath alone
	book.Chilling["bath"] = bath
	pans := book.Chilling["pans"]
	pans.Depth = quantity(t, unit.ParseLength, "4 cm") // alone it is tight
	book.Chilling["pans"] = pans
	p := makePlan(t, book, soups(40))
	two := option(t, p.Chill[0], "two")
	if len(two.Stages) != 2 || two.Stages[0].End > unit.TempF(70)+unit.TempC(0.1)-unit.TempC(0) || two.Stages[1].End > unit.TempF(41) {
		t.Fatalf("stages: %+v", two.Stages)
	}
	alone := option(t, p.Chill[0], "bath")
	if d := two.To70.S() - alone.To70.S(); d < -61 || d > 61 {
		t.Errorf("to 70 °F %s in stages, %s in the bath alone", *two.To70, *alone.To70)
	}
	if *two.To41 <= *alone.To41 {
		t.Errorf("pans after the bath (%s) are not slower than the bath alone (%s)", *two.To41, *alone.To41)
	}
	if id := p.Chill[0].Options[p.Chill[0].Chosen].ID; id != "two" {
		t.Fatalf("%s is chosen", id)
	}
	inBath, inPans := map[int]plan.Task{}, map[int]plan.Task{}
	for _, task := range p.Timetable.Tasks {
		switch on := strings.Join(task.On, ", "); {
		case task.Kind != plan.Cool:
		case strings.Contains(on, "ice bath"):
			inBath[task.Load] = task
		case strings.Contains(on, "pans"):
			inPans[task.Load] = task
		}
	}
	if len(inBath) != 2 || len(inPans) != 2 {
		t.Fatalf("%d loads in the bath, %d in pans, want 2 and 2", len(inBath), len(inPans))
	}
	for load, bath := range inBath {
		if gap := inPans[load].Start - bath.End; gap < 0 || gap > 10 {
			t.Errorf("load %d goes into pans %d min after the bath", load, gap)
		}
	}
}

// 3.6 kg of ice at -18 °C takes up 1.65 MJ down to 70 °F (derived in the reference on heat); a pot of 13 kg gives off 13 · 4.0 · 74 = 3.8 MJ
// from 95 °C. So two or three paddles bring one pot there, and thirty are more than two pots need.
func TestPaddles(t *testing.T) {
	c := makePlan(t, coldKitchen(t), soups(40)).Chill[0]
	stick := option(t, c, "stick")
	if stick.To70 == nil || stick.Verdict == plan.ChillNever || stick.Verdict == plan.ChillUnknown {
		t.Fatalf("paddles: %s, %s", stick.Verdict, stick.Why)
	}
	book := coldKitchen(t)
	few := book.Chilling["stick"]
	few.Paddle = &kitchen.Paddle{Count: 1, Water: few.Paddle.Water, Length: few.Paddle.Length, Diameter: few.Paddle.Diameter, Start: few.Paddle.Start}
	book.Chilling["stick"] = few
	if one := option(t, makePlan(t, book, soups(40)).Chill[0], "stick"); one.Verdict.InTime() {
		t.Errorf("one paddle for two pots: %s", one.Verdict)
	}
}

// By hand: 26 kg of soup have 20 kg of tap water in them. Of a load of 13 kg, half of its 10 kg may be ice: 5 kg of ice at 0 °C take up
// 5 · (334 + 4.19 · T) kJ; with 52 kJ/K in the load the mixture ends at about (52 · 95 - 5 · 334 - 5 · 4.19 · 95)/52 = 25 °C.
func TestIceInPlaceOfWater(t *testing.T) {
	book := coldKitchen(t)
	soup := book.Dishes["soup"]
	soup.HoldBack = 50 * unit.PerCent
	book.Dishes["soup"] = soup
	iced := option(t, makePlan(t, book, soups(40)).Chill[0], "ice+bath")
	if len(iced.Stages) != 2 {
		t.Fatalf("stages: %+v", iced.Stages)
	}
	near(t, "after the ice, °C", iced.Stages[0].End.C(), 25, 3)
	if text := strings.Join(iced.Notes, "; "); !strings.Contains(text, "cook it without") || !strings.Contains(text, "ice is food") {
		t.Errorf("notes: %s", text)
	}
}

// Ice for two loads is more than 5 kg.
func TestIceRunsShort(t *testing.T) {
	book := soupKitchen(t)
	book.Kitchen.Ice = 5 * unit.Kilogram
	p := makePlan(t, book, soups(40))
	f := has(p.Findings, plan.CodeChillNoRoom)
	if f == nil || f.Severity != finding.Stop || !strings.Contains(f.Message, "ice") {
		t.Errorf("findings: %v", p.Findings)
	}
}

// Pieces lie in pans; nothing stirs them.
func TestPiecesGoIntoPans(t *testing.T) {
	book := coldKitchen(t)
	soup := book.Dishes["soup"]
	soup.Steps[0].Gives[0].Piece = 50 * unit.Gram
	book.Dishes["soup"] = soup
	pack := book.Packs["soup-650"]
	pack.Fill = []kitchen.Fill{{Of: "soup", Pieces: 13}}
	book.Packs["soup-650"] = pack
	for _, o := range makePlan(t, book, soups(40)).Chill[0].Options {
		if o.ID != "pans" && o.ID != "deep" {
			t.Errorf("pieces are offered %s", o.Name)
		}
	}
}
