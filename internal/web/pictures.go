package web

import (
	"net/http"
	"strconv"
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
)

// pictures are the addresses of a run's drawings. They come by themselves, so that the page does not wait for them.
type pictures struct {
	path string // of the run
	rest string // the query, with its ?
}

// pictureView is one drawing on a page: wide or narrow by the screen, so that its type stays as large, on a light or a dark ground.
type pictureView struct {
	Src, Narrow      string
	Night, NarrowDim string
	Inline           string // to be put into the page
	Alt              string
}

func (p pictures) at(kind string, of ...int) pictureView {
	address := p.path + "/" + kind
	for _, n := range of {
		address += "/" + strconv.Itoa(n)
	}
	in := func(look look) string { return address + look.suffix() + p.rest }
	return pictureView{Src: in(look{}), Narrow: in(look{narrow: true}), Night: in(look{dark: true}), NarrowDim: in(look{narrow: true, dark: true}), Inline: in(look{inline: true})}
}

func (p pictures) cooling(thing, way int) pictureView {
	return p.at("cooling", thing, way).saying("Curve of the cooling")
}
func (p pictures) freezing(pack int) pictureView {
	return p.at("freezing", pack).saying("Curve of the freezing")
}
func (p pictures) cabinet(freezer int) pictureView {
	return p.at("loading", freezer).saying("Curve of the freezer as it is loaded")
}
func (p pictures) heating(pack int) pictureView {
	return p.at("heating", pack).saying("Curve of the heating")
}

func (v pictureView) saying(alt string) pictureView {
	v.Alt = alt + "; the table beside it has the times"
	return v
}

// look is how a drawing is wanted. It stands in its address: 0/3.svg, 0/3.narrow.svg, 0/3.dark.svg, 0/3.narrow.dark.svg; 0/3.inline.svg is
// to be put into a page, whose style sheet then gives it its colours.
type look struct {
	narrow, dark, inline bool
	id                   string // keeps the ids of an inline drawing apart from others'
}

func (l look) suffix() string {
	text := ".svg"
	if l.inline {
		text = ".inline" + text
	}
	if l.dark {
		text = ".dark" + text
	}
	if l.narrow {
		text = ".narrow" + text
	}
	return text
}

// width is how wide a drawing is: that of a tablet's column or of a phone.
func (l look) width() float64 {
	if l.narrow {
		return 360
	}
	return 600
}

// numbers reads what stands in a path before and behind the first dot; nil when it is not so many numbers.
func numbers(path string, count int) (of []int, l look) {
	text, rest, _ := strings.Cut(path, ".")
	for _, l = range []look{{}, {narrow: true}, {dark: true}, {narrow: true, dark: true}, {inline: true}} {
		if l.suffix() == "."+rest {
			break
		}
	}
	l.id = "way-" + strings.ReplaceAll(text, "/", "-")
	parts := strings.Split(text, "/")
	if l.suffix() != "."+rest || len(parts) != count {
		return nil, l
	}
	for _, p := range parts {
		n, err := strconv.Atoi(p)
		if err != nil || n < 0 {
			return nil, l
		}
		of = append(of, n)
	}
	return of, l
}

// forecast answers with a drawing of a run: what makes it from the plan and the numbers in the address, nothing when there is none.
func (s *server) forecast(count int, curves func(plan.Plan, []int, reader) (draw.Curves, bool)) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		p, a, ok := s.planFor(w, r)
		if !ok {
			return
		}
		s.answerCurve(w, r, p, a.book, count, curves)
	}
}

// answerCurve answers with one of a plan's curves, as the address names it.
func (s *server) answerCurve(w http.ResponseWriter, r *http.Request, p plan.Plan, book kitchen.Book, count int, curves func(plan.Plan, []int, reader) (draw.Curves, bool)) {
	of, look := numbers(r.PathValue("of"), count)
	if of != nil {
		if chart, found := curves(p, of, readerOf(book.Kitchen, r)); found {
			chart.Width = look.width()
			writeSVG(w, chart.Picture(), look)
			return
		}
	}
	s.missing(w, r, book, "There is no such drawing.")
}

// showEquipment answers with a stretch of the day of the equipment.
func (s *server) showEquipment(w http.ResponseWriter, r *http.Request) {
	d, ok := s.dayFor(w, r)
	if !ok {
		return
	}
	of, look := numbers(r.PathValue("of"), 1)
	stretches := draw.Timeline(d.plan.Timetable, draw.NewCodes(d.plan.Dishes), draw.Equipment)
	if of == nil || of[0] >= len(stretches) {
		s.missing(w, r, d.book, "There is no such drawing.")
		return
	}
	writeSVG(w, stretches[of[0]], look)
}

func coolingPicture(p plan.Plan, of []int, r reader) (draw.Curves, bool) {
	if of[0] >= len(p.Chill) || of[1] >= len(p.Chill[of[0]].Options) {
		return draw.Curves{}, false
	}
	return draw.Cooling(p.Chill[of[0]], of[1], nil, r.units), true
}

func freezingPicture(p plan.Plan, of []int, r reader) (draw.Curves, bool) {
	if of[0] >= len(p.Freeze.Packs) {
		return draw.Curves{}, false
	}
	return draw.Freezing(p.Freeze.Packs[of[0]], r.units), true
}

func heatingPicture(p plan.Plan, of []int, r reader) (draw.Curves, bool) {
	if of[0] >= len(p.Cards) {
		return draw.Curves{}, false
	}
	return draw.Heating(p.Cards[of[0]], r.units), true
}

// writeSVG answers with a drawing.
func writeSVG(w http.ResponseWriter, p draw.Picture, l look) {
	w.Header().Set("Content-Type", "image/svg+xml")
	w.Header().Set("Cache-Control", "no-store")
	switch {
	case l.inline:
		w.Write(draw.InlineSVG(p, l.id))
	case l.dark:
		w.Write(draw.NightSVG(p))
	default:
		w.Write(draw.SVG(p))
	}
}
