package labelmaker

import (
	"fmt"
	"io"
	"slices"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"kettlefrost/internal/draw"
)

// family is the name of the embedded faces.
const family = "go"

// PDF writes a job as PDF in vectors, with the faces embedded: a page of the label's exact size for each label of a roll, or sheets. The same job
// gives the same bytes. The error is a *JobError, a *StockError or that of the writer.
func PDF(w io.Writer, j Job) error {
	pages, err := Pages(j)
	if err != nil {
		return err
	}
	wide, high := j.Stock.page()
	out := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "pt", Size: fpdf.SizeType{Wd: wide, Ht: high}})
	made := time.UnixMilli(j.MadeMs).UTC()
	out.SetCatalogSort(true)
	out.SetCreationDate(made)
	out.SetModificationDate(made)
	out.SetTitle(j.Title, true)
	out.SetCreator("kettlefrost", true)
	out.SetProducer("kettlefrost", true)
	out.SetAutoPageBreak(false, 0)
	out.SetMargins(0, 0, 0)
	out.AddUTF8FontFromBytes(family, "", slices.Clone(faceOf(false).ttf)) // cut to what is used
	out.AddUTF8FontFromBytes(family, "B", slices.Clone(faceOf(true).ttf))
	for _, p := range pages {
		out.AddPage()
		out.SetFillColor(0, 0, 0)
		out.SetTextColor(0, 0, 0)
		p.Draw(&paper{f: out})
	}
	if err := out.Output(w); err != nil {
		return fmt.Errorf("labelmaker: %q: %w", j.Title, err)
	}
	return nil
}

// paper draws on the page that is open, in black. A label has nothing but texts and filled boxes.
type paper struct {
	f    *fpdf.Fpdf
	bold bool
	size float64 // of the face that is set; 0 for none yet
}

func (p *paper) Rect(b draw.Box, st draw.Style) {
	if st.Fill == draw.Ink {
		p.f.Rect(b.X, b.Y, b.W, b.H, "F")
	}
}

func (p *paper) Text(at draw.Point, text string, t draw.Type) {
	if p.size != t.Size || p.bold != t.Bold {
		style := ""
		if t.Bold {
			style = "B"
		}
		p.f.SetFont(family, style, t.Size)
		p.size, p.bold = t.Size, t.Bold
	}
	if !t.Turned {
		p.f.Text(at.X, at.Y, text)
		return
	}
	p.f.TransformBegin()
	p.f.TransformRotate(90, at.X, at.Y)
	p.f.Text(at.X, at.Y, text)
	p.f.TransformEnd()
}

func (p *paper) Line(draw.Point, draw.Point, draw.Style) {}
func (p *paper) Polyline([]draw.Point, draw.Style)       {}
func (p *paper) Group(_ string, in func(draw.Canvas))    { in(p) }
