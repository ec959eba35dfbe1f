package web

import (
	"strings"

	"kettlefrost/internal/bookform"
)

// foodsOffered is how many foods are offered for a name that was typed where a number of the composition table belongs.
const foodsOffered = 5

// tellFoods says beside a number of the composition table what food it is, and for a name which numbers may be meant.
func (s *server) tellFoods(form *bookform.Form) {
	form.Each(func(f *bookform.Field) {
		typed := tidy(f.Typed)
		if f.Kind != bookform.Food || typed == "" {
			return
		}
		if food, known := s.house.Foods().Lookup(typed); known {
			f.Read = food.Name
			return
		}
		var near []string
		for _, m := range s.house.Foods().Search(typed, foodsOffered) {
			near = append(near, m.Food.NDB+" "+m.Food.Name)
		}
		f.Problem = "The composition table has no such number"
		if len(near) > 0 {
			f.Problem += ": write one of these, " + strings.Join(near, "; ")
		}
		f.Problem += "."
	})
}
