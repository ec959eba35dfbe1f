package web

import (
	"net/http"
	"strconv"
	"strings"

	"kettlefrost/internal/foodtable"
)

// foodsPage is all that templates/foods.html may show.
type foodsPage struct {
	shell
	Query  string
	Asked  bool
	Foods  []foodRow
	Of     int // foods in the table
	Notice string
}

// foodRow is one food of the composition table.
type foodRow struct {
	NDB, Name, Description, Group                string
	Water, Protein, Fat, Carb, Ash, Kcal, Sodium string
	Near                                         bool
}

// mostFoods is how many foods one page shows.
const mostFoods = 30

// longestSearch is longer than any name in the table.
const longestSearch = 200

func (s *server) showFoods(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	foods := s.house.Foods()
	p := foodsPage{shell: s.inShell(r, book.Kitchen, "Foods", "foods"), Query: strings.TrimSpace(r.URL.Query().Get("q")), Of: len(foods.Foods())}
	if len(p.Query) > longestSearch {
		p.Notice = "That is longer than any name in the table; its beginning is searched for."
	}
	if p.Query != "" {
		p.Asked = true
		for _, m := range foods.Search(strings.ToValidUTF8(p.Query[:min(len(p.Query), longestSearch)], ""), mostFoods) {
			p.Foods = append(p.Foods, viewFood(m))
		}
	}
	foodsTemplate.show(w, http.StatusOK, p)
}

func viewFood(m foodtable.Match) foodRow {
	n := m.Food.Per100g
	return foodRow{NDB: m.Food.NDB, Name: m.Food.Name, Description: m.Food.Description, Group: m.Food.Group, Near: m.Near,
		Water: amount(n.WaterG, "g"), Protein: amount(n.ProteinG, "g"), Fat: amount(n.FatG, "g"), Carb: amount(n.CarbG, "g"), Ash: amount(n.AshG, "g"),
		Kcal: amount(n.EnergyKcal, "kcal"), Sodium: amount(n.SodiumMg, "mg")}
}

// amount is a figure of the table; one that the source does not give is said to be missing, never nought.
func amount(v foodtable.Value, unit string) string {
	x, given := v.Get()
	if !given {
		return "not given"
	}
	return strconv.FormatFloat(x, 'f', -1, 64) + " " + unit
}
