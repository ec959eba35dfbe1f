package labelmaker

import (
	"fmt"

	"kettlefrost/internal/draw"
)

// Job is labels to be printed on one stock.
type Job struct {
	Title  string
	Labels []Label // in the order in which they are printed
	Stock  Stock
	Start  int   // on a sheet that was begun: the first place to print on, from 1, row by row; 0 is 1
	Skip   []int // places of the first sheet, from 1, that are used up or spoilt
	MadeMs int64 // when it was made, in milliseconds since 1970 UTC; the only time in the file
}

// JobError says what of a job cannot be printed.
type JobError struct{ Reason, Fix string }

func (e *JobError) Error() string { return fmt.Sprintf("labelmaker: %s; %s", e.Reason, e.Fix) }

// check says what cannot be printed. Every label must be one that was laid out for the stock.
func (j Job) check() error {
	if err := j.Stock.Check(); err != nil {
		return err
	}
	if len(j.Labels) == 0 {
		return &JobError{"there are no labels to print", "lay some out first"}
	}
	for i, l := range j.Labels {
		if l.Empty() {
			return &JobError{fmt.Sprintf("label %d was not laid out", i+1), "look at what stopped it"}
		}
		if l.WidePt != pt(j.Stock.WideMm) || l.HighPt != pt(j.Stock.HighMm) {
			return &JobError{fmt.Sprintf("label %d is of another size than the labels of %s", i+1, j.Stock.Name), "lay it out for this stock"}
		}
	}
	if places := j.Stock.Per(); j.Start < 0 || j.Start > places {
		return &JobError{fmt.Sprintf("there is no place %d on a page with %d", j.Start, places), fmt.Sprintf("give 1 to %d", places)}
	}
	for _, skip := range j.Skip {
		if places := j.Stock.Per(); skip < 1 || skip > places {
			return &JobError{fmt.Sprintf("there is no place %d on a page with %d", skip, places), fmt.Sprintf("give 1 to %d", places)}
		}
	}
	return nil
}

// spot is a label on a page with its upper left corner.
type spot struct {
	label int
	at    draw.Point
}

// pages are the labels on their places.
func (j Job) pages() [][]spot {
	taken := map[int]bool{}
	for place := 1; place < j.Start; place++ {
		taken[place] = true
	}
	for _, place := range j.Skip {
		taken[place] = true
	}
	var all [][]spot
	var page []spot
	place, places := 0, j.Stock.Per()
	for i := 0; i < len(j.Labels); {
		if place++; place > places {
			all, page, place, taken = append(all, page), nil, 1, nil
		}
		if taken[place] {
			continue
		}
		page = append(page, spot{i, j.Stock.corner(place)})
		i++
	}
	if len(all) > 0 && len(all[0]) == 0 { // every place of the first sheet was skipped
		all = all[1:]
	}
	return append(all, page)
}

// corner is the upper left one of a place, from 1, in points.
func (s Stock) corner(place int) draw.Point {
	if s.Sheet == nil {
		return draw.Point{}
	}
	column, row := (place-1)%s.Sheet.Columns, (place-1)/s.Sheet.Columns
	return draw.Point{X: pt(s.Sheet.LeftMm + float64(column)*(s.WideMm+s.Sheet.GapXMm)), Y: pt(s.Sheet.TopMm + float64(row)*(s.HighMm+s.Sheet.GapYMm))}
}

// page is the size of one, in points.
func (s Stock) page() (wide, high float64) {
	if s.Sheet == nil {
		return pt(s.WideMm), pt(s.HighMm)
	}
	return pt(s.Sheet.WideMm), pt(s.Sheet.HighMm)
}

// Pages are the pages of a job as pictures, in points. The error is a *JobError or a *StockError.
func Pages(j Job) ([]draw.Picture, error) {
	if err := j.check(); err != nil {
		return nil, err
	}
	wide, high := j.Stock.page()
	pages := j.pages()
	all := make([]draw.Picture, len(pages))
	for i, spots := range pages {
		all[i] = draw.Picture{Width: wide, Height: high, Title: j.Title, Desc: fmt.Sprintf("page %d of %d, %d labels", i+1, len(pages), len(spots)), Draw: func(c draw.Canvas) {
			for _, s := range spots {
				j.Labels[s.label].draw(moved{c, s.at})
			}
		}}
	}
	return all, nil
}

// moved is a canvas with its corner elsewhere.
type moved struct {
	on draw.Canvas
	by draw.Point
}

func (m moved) point(p draw.Point) draw.Point { return draw.Point{X: p.X + m.by.X, Y: p.Y + m.by.Y} }

func (m moved) Rect(b draw.Box, st draw.Style) {
	b.X, b.Y = b.X+m.by.X, b.Y+m.by.Y
	m.on.Rect(b, st)
}

func (m moved) Line(from, to draw.Point, st draw.Style) { m.on.Line(m.point(from), m.point(to), st) }

func (m moved) Polyline(points []draw.Point, st draw.Style) {
	all := make([]draw.Point, len(points))
	for i, p := range points {
		all[i] = m.point(p)
	}
	m.on.Polyline(all, st)
}

func (m moved) Text(p draw.Point, text string, t draw.Type) { m.on.Text(m.point(p), text, t) }

func (m moved) Group(title string, in func(draw.Canvas)) {
	m.on.Group(title, func(c draw.Canvas) { in(moved{c, m.by}) })
}
