package web

import (
	"net/http"
	"strconv"
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/plan"
)

// pictures are the addresses of a run's drawings. They come by themselves, so that the page does not wait for them.
type pictures struct {
	path string // of the run
	rest string // the query, with its ?
}

// pictureView is one drawing on a page.
type pictureView struct {
	Src   string
	Night string // the same on a dark ground
	Alt   string
}

func (p pictures) at(kind string, of ...int) pictureView {
	address := p.path + "/" + kind
	for _, n := range of {
		address += "/" + strconv.Itoa(n)
	}
	return pictureView{Src: address + ".svg" + p.rest, Night: address + ".dark.svg" + p.rest}
}

func (p pictures) cooling(thing, way int) pictureView {
	return p.at("cooling", thing, way).saying("Curve of the cooling")
}
func (p pictures) freezing(pack int) pictureView {
	return p.at("freezing", pack).saying("Curve of the freezing")
}
func (p pictures) heating(pack int) pictureView {
	return p.at("heating", pack).saying("Curve of the heating")
}

func (v pictureView) saying(alt string) pictureView {
	v.Alt = alt + "; the table beside it has the times"
	return v
}

// numbers reads what stands in a path, such as 0/3.svg or, on a dark ground, 0/3.dark.svg; nil when it is not so many numbers.
func numbers(path string, count int) (of []int, dark bool) {
	text, isSVG := strings.CutSuffix(path, ".svg")
	text, dark = strings.CutSuffix(text, ".dark")
	parts := strings.Split(text, "/")
	if !isSVG || len(parts) != count {
		return nil, dark
	}
	var list []int
	for _, p := range parts {
		n, err := strconv.Atoi(p)
		if err != nil || n < 0 {
			return nil, dark
		}
		list = append(list, n)
	}
	return list, dark
}

// forecast answers with a drawing of a run: what makes it from the plan and the numbers in the address, nothing when there is none.
func (s *server) forecast(count int, picture func(plan.Plan, []int, reader) (draw.Picture, bool)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		p, a, ok := s.planFor(w, r)
		if !ok {
			return
		}
		of, dark := numbers(r.PathValue("of"), count)
		if of != nil {
			if drawn, found := picture(p, of, readerOf(a.book.Kitchen, r.URL.Query())); found {
				writeSVG(w, drawn, dark)
				return
			}
		}
		missing(w, a.book, "The run has no such drawing.")
	}
}

func coolingPicture(p plan.Plan, of []int, r reader) (draw.Picture, bool) {
	if of[0] >= len(p.Chill) || of[1] >= len(p.Chill[of[0]].Options) {
		return draw.Picture{}, false
	}
	return draw.Cooling(p.Chill[of[0]], of[1], nil, r.units), true
}

func freezingPicture(p plan.Plan, of []int, r reader) (draw.Picture, bool) {
	if of[0] >= len(p.Freeze.Packs) {
		return draw.Picture{}, false
	}
	return draw.Freezing(p.Freeze.Packs[of[0]], r.units), true
}

func heatingPicture(p plan.Plan, of []int, r reader) (draw.Picture, bool) {
	if of[0] >= len(p.Cards) {
		return draw.Picture{}, false
	}
	return draw.Heating(p.Cards[of[0]], r.units), true
}

// writeSVG answers with a drawing, on a light or a dark ground.
func writeSVG(w http.ResponseWriter, p draw.Picture, dark bool) {
	w.Header().Set("Content-Type", "image/svg+xml")
	w.Header().Set("Cache-Control", "no-store")
	if dark {
		w.Write(draw.NightSVG(p))
		return
	}
	w.Write(draw.SVG(p))
}
