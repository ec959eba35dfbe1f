package plan_test

import (
	"math"
	"strings"
	"testing"

	"kettlefrost/internal/cooling"
	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// What is followed by itself comes to the same as what a plan compares, way by way.
func TestChillersAreTheWaysOfAPlan(t *testing.T) {
	book := coldKitchen(t)
	from := unit.TempF(190)
	compared, err := plan.CoolNow(book, table(t), "soup", "soup", 13*unit.Kilogram, from)
	if err != nil {
		t.Fatal(err)
	}
	food, ways, err := plan.Chillers(book, table(t), "soup", "soup", 13*unit.Kilogram, from)
	if err != nil {
		t.Fatal(err)
	}
	options := compared.Chill[0].Options
	for i, o := range options {
		got := cooling.Judge(food, []cooling.Plan{ways[i].Plan}, coolrule.FoodCodeCooked())[0]
		first, last := got.To[0].Usual, got.To[len(got.To)-1].Usual // 135 and 41 °F
		if ways[i].ID != o.ID || ways[i].Name != o.Name || len(ways[i].Stages) != len(o.Stages) || last.Reached && math.Abs(last.TimeS-first.TimeS-o.To41.S()) > 61 {
			t.Errorf("%s in %v: %s in %.0f s", o.ID, o.To41, ways[i].ID, last.TimeS-first.TimeS)
		}
	}
	var more []string
	for _, w := range ways[len(options):] {
		more = append(more, w.ID)
	}
	if got := strings.Join(more, " "); got != "deep/half left/stirred pans/half" {
		t.Errorf("where it stands: %s", got)
	}
}

// By the exact series a layer half as deep cools about two to four times as fast: twice where the air holds it up, four times where the food does.
func TestHalfAsDeepAndStirredAreQuicker(t *testing.T) {
	food, ways, err := plan.Chillers(coldKitchen(t), table(t), "soup", "soup", 13*unit.Kilogram, unit.TempF(190))
	if err != nil {
		t.Fatal(err)
	}
	took := map[string]float64{}
	for _, w := range ways {
		took[w.ID] = cooling.Judge(food, []cooling.Plan{w.Plan}, coolrule.FoodCodeCooked())[0].TimeS
	}
	if part := took["deep"] / took["deep/half"]; part < 2 || part > 4 {
		t.Errorf("half as deep is %.2f times as fast", part)
	}
	if took["left/stirred"] >= took["left"] {
		t.Errorf("stirred %.0f s, left alone %.0f s", took["left/stirred"], took["left"])
	}
}

// Pieces are not stirred.
func TestPiecesAreNotStirredWhereTheyStand(t *testing.T) {
	book := coldKitchen(t)
	soup := book.Dishes["soup"]
	soup.Steps[0].Gives[0].Piece = 50 * unit.Gram
	book.Dishes["soup"] = soup
	_, ways, err := plan.Chillers(book, table(t), "soup", "soup", 13*unit.Kilogram, unit.TempF(190))
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range ways {
		if w.Method != kitchen.ShallowPans {
			t.Errorf("pieces are offered %s", w.ID)
		}
	}
}
