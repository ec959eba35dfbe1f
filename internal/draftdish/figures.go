package draftdish

import (
	"fmt"
	"math"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// figures asks how long, how hot and in what, where a sentence does not say it.
func (d *drafter) figures() {
	for _, x := range d.steps {
		d.timeOf(x)
		d.heatOf(x)
		d.vesselOf(x)
		d.lidOf(x)
	}
}

func (d *drafter) timeOf(x *Step) {
	x.time = x.sentence.time
	v := x.sentence.verb
	assumed := unit.Span(v.minutes) * unit.Minute
	if v.paced > 0 && x.time == 0 {
		return // hands by mass
	}
	q := Ask{Key: fmt.Sprintf("time-%d", x.Number), About: clipped(x.Text), Kind: AskTime, Question: "How long does it take?", Assumed: assumed.Show(unit.US), Source: v.source}
	switch {
	case x.sentence.ranged:
		q.Question, q.Assumed, q.Source = "A range is given. How long does it take?", x.time.Show(unit.US)+", the middle", "common practice"
	case x.time > 0 && d.asks.given[q.Key] == "":
		return
	}
	if x.time == 0 {
		x.time = assumed
		x.Assumed = append(x.Assumed, "time")
		if v.does == mixes && d.asks.given[q.Key] == "" {
			return // a minute or two of stirring is not worth a question
		}
	}
	if at, answer := d.asks.put(q); answer != "" {
		span, err := kitchen.ParseDelay(answer)
		if err != nil || span <= 0 || span > 48*unit.Hour {
			d.asks.refuse(at, "that is no time of a step: write 20 min")
			return
		}
		x.time = span
	}
}

func (d *drafter) heatOf(x *Step) {
	v := x.sentence.verb
	if v.heatF == 0 || x.In == "oven" {
		return
	}
	t := unit.TempC(float64(v.heatF-32) * 5 / 9)
	said := x.sentence.temp
	if said != nil && said.C() <= 100 {
		x.heat = said
		return
	}
	x.heat = &t
	if key := fmt.Sprintf("heat-%d", x.Number); boilsDown(v.does) && d.asks.given[key] == "" {
		return // water boils and simmers where it does
	}
	q := Ask{Key: fmt.Sprintf("heat-%d", x.Number), About: clipped(x.Text), Kind: AskHeat, Question: "How hot does it get?", Assumed: t.Show(unit.US), Source: v.source}
	x.Assumed = append(x.Assumed, "temperature")
	if at, answer := d.asks.put(q); answer != "" {
		typed, err := unit.ParseTemp(answer)
		if err != nil || typed.C() < 0 || typed.C() > 130 {
			d.asks.refuse(at, "that is no temperature of food: write 205 °F")
			return
		}
		x.heat = &typed
	}
}

func (d *drafter) vesselOf(x *Step) {
	low := strings.ToLower(x.Text)
	switch {
	case x.In == "pot" && hasWords(low, "skillet", "frying pan", "sauté pan", "saute pan"):
		x.In = "pan"
	case x.In == "pan" && hasWords(low, "dutch oven", "large pot", "soup pot", "stockpot", "saucepan"):
		x.In = "pot"
	}
	if x.In == "" || len(d.vessels(x.In)) > 0 {
		return
	}
	x.Assumed = append(x.Assumed, "the book has no "+x.In+": it is done on no equipment")
	x.In = ""
}

func (d *drafter) lidOf(x *Step) {
	v := x.sentence.verb
	x.open = v.open && !x.sentence.covered || x.sentence.open
	if !v.open || x.sentence.covered || x.sentence.open || x.In != "pot" || x.time < 10*unit.Minute {
		return
	}
	q := Ask{Key: fmt.Sprintf("lid-%d", x.Number), About: clipped(x.Text), Kind: AskLid, Question: "Lid on or off? It decides how much water goes off.", Assumed: "off", Source: "common practice", Options: []Option{{"off", "off"}, {"on", "on"}}}
	if at, answer := d.asks.put(q); answer != "" {
		if answer != "on" && answer != "off" {
			d.asks.refuse(at, "on or off")
			return
		}
		x.open = answer == "off"
	}
}

// vessels are the pieces of the book's equipment that a family is.
func (d *drafter) vessels(family string) []kitchen.EquipmentID {
	var ids []kitchen.EquipmentID
	for _, id := range d.equipment {
		e := d.book.Equipment[id]
		is := map[string]bool{"pot": e.Kind == kitchen.Vessel && !lowAndWide(e), "pan": e.Kind == kitchen.Vessel && lowAndWide(e), "oven": e.Kind == kitchen.Oven, "blender": e.Kind == kitchen.Blender,
			"table": e.Kind == kitchen.Table && !strings.Contains(strings.ToLower(e.Name), "fill")}
		if is[family] {
			ids = append(ids, id)
		}
	}
	return ids
}

// lowAndWide says that a vessel is less than half as high as it is wide.
func lowAndWide(e kitchen.Equipment) bool {
	r := e.Diameter.M() / 2
	return r > 0 && e.Volume.L()/1000/(math.Pi*r*r) < r
}
