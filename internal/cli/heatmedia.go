package cli

import (
	"fmt"
	"strings"

	"kettlefrost/internal/medium"
	"kettlefrost/internal/unit"
)

// heatMediaCommand lists what food can stand in.
type heatMediaCommand struct {
	Units unit.System `default:"us" placeholder:"us|metric" help:"The units of the temperatures."`
	JSON  bool        `name:"json" help:"As JSON (kettlefrost.media/1)."`
}

// Media is the JSON of the list.
type Media struct {
	Schema string   `json:"schema"`
	Media  []Medium `json:"media"`
}

// Medium is what food can stand in, with the surface coefficients that are published for it.
type Medium struct {
	ID     string  `json:"id"`
	Name   string  `json:"name"`
	LowW   float64 `json:"low_film_w_m2_k"`
	UsualW float64 `json:"usual_film_w_m2_k"`
	HighW  float64 `json:"high_film_w_m2_k"`
	TempC  float64 `json:"usual_temp_c"`
	Note   string  `json:"note"`
	Source string  `json:"source"`
}

func (c heatMediaCommand) Run(s *surroundings) error {
	list := Media{Schema: mediaSchema}
	var b strings.Builder
	for _, m := range medium.All() {
		list.Media = append(list.Media, Medium{m.ID, m.Name, m.Film.LowWM2K, m.Film.UsualWM2K, m.Film.HighWM2K, m.TempC, m.Note, m.Source})
		fmt.Fprintf(&b, "%-16s  %s; usually %s, %g W/m²·K (%g to %g)\n%18s%s\n%18s[%s]\n", m.ID, m.Name, unit.TempC(m.TempC).Show(c.Units),
			m.Film.UsualWM2K, m.Film.LowWM2K, m.Film.HighWM2K, "", m.Note, "", m.Source)
	}
	if c.JSON {
		return s.showJSON(list)
	}
	return s.show(b.String())
}
