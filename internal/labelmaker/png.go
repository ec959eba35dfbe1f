package labelmaker

import (
	"fmt"
	"image"
	stddraw "image/draw"
	"image/png"
	"io"
	"math"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/vector"

	"kettlefrost/internal/draw"
)

// mostPixels is the largest picture that is made: a letter sheet at 600 dots to the inch.
const mostPixels = 40 << 20

// Raster draws a picture of labels, whose units are points, in greys: black on white, with so many dots to the inch. The error is a *JobError for a
// picture that would be too large.
func Raster(p draw.Picture, dpi int) (*image.Gray, error) {
	scale := float64(dpi) / 72
	w, h := math.Round(p.Width*scale), math.Round(p.Height*scale)
	if dpi < 20 || !(w >= 1 && h >= 1 && w*h <= mostPixels) {
		return nil, &JobError{fmt.Sprintf("a picture of %.0f by %.0f points with %d dots to the inch is too large or too small", p.Width, p.Height, dpi), "ask for 100 to 600 dots to the inch"}
	}
	ink := image.NewAlpha(image.Rect(0, 0, int(w), int(h)))
	p.Draw(&pixels{ink: ink, scale: scale})
	for i, a := range ink.Pix {
		ink.Pix[i] = 255 - a
	}
	return &image.Gray{Pix: ink.Pix, Stride: ink.Stride, Rect: ink.Rect}, nil
}

// PNG writes a picture of labels as Raster draws it.
func PNG(w io.Writer, p draw.Picture, dpi int) error {
	img, err := Raster(p, dpi)
	if err != nil {
		return err
	}
	encoder := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := encoder.Encode(w, img); err != nil {
		return fmt.Errorf("labelmaker: %w", err)
	}
	return nil
}

// pixels draws by how much of each pixel is covered with ink.
type pixels struct {
	ink   *image.Alpha
	scale float64
	pen   vector.Rasterizer
}

func (p *pixels) Rect(b draw.Box, st draw.Style) {
	if st.Fill != draw.Ink {
		return
	}
	left, top := b.X*p.scale, b.Y*p.scale
	right, low := left+b.W*p.scale, top+b.H*p.scale
	for y := max(0, int(top)); y < p.ink.Rect.Max.Y && float64(y) < low; y++ {
		down := min(low, float64(y+1)) - max(top, float64(y))
		for x := max(0, int(left)); x < p.ink.Rect.Max.X && float64(x) < right; x++ {
			across := min(right, float64(x+1)) - max(left, float64(x))
			at := y*p.ink.Stride + x
			p.ink.Pix[at] = uint8(min(255, float64(p.ink.Pix[at])+255*across*down+0.5))
		}
	}
}

func (p *pixels) Text(at draw.Point, text string, t draw.Type) {
	x, y, size := at.X*p.scale, at.Y*p.scale, t.Size*p.scale
	for _, r := range text {
		p.letter(outlineOf(r, t.Bold), x, y, size, t.Turned)
		if on := faceOf(t.Bold).wide[r] * size; t.Turned {
			y -= on
		} else {
			x += on
		}
	}
}

// letter fills an outline, in a raster no larger than it needs.
func (p *pixels) letter(o outline, x, y, size float64, turned bool) {
	if len(o.segments) == 0 {
		return
	}
	// No letter of the faces reaches further than this, whichever way it is turned; what would lie outside of the picture is left out.
	box := image.Rect(int(math.Floor(x-0.5*size)), int(math.Floor(y-1.2*size)), int(x+1.7*size)+2, int(y+0.5*size)+2)
	if turned {
		box = image.Rect(int(math.Floor(x-1.2*size)), int(math.Floor(y-1.7*size)), int(x+0.5*size)+2, int(y+0.5*size)+2)
	}
	box = box.Intersect(p.ink.Rect)
	if box.Empty() {
		return
	}
	left, top := float64(box.Min.X), float64(box.Min.Y)
	p.pen.Reset(box.Dx(), box.Dy())
	p.pen.DrawOp = stddraw.Over
	to := func(q [2]float64) (float32, float32) {
		if turned {
			q = [2]float64{q[1], -q[0]}
		}
		return float32(x + q[0]*size - left), float32(y + q[1]*size - top)
	}
	for _, g := range o.segments {
		ax, ay := to(g.at[0])
		switch g.op {
		case sfnt.SegmentOpMoveTo:
			p.pen.ClosePath()
			p.pen.MoveTo(ax, ay)
		case sfnt.SegmentOpLineTo:
			p.pen.LineTo(ax, ay)
		case sfnt.SegmentOpQuadTo:
			bx, by := to(g.at[1])
			p.pen.QuadTo(ax, ay, bx, by)
		default:
			bx, by := to(g.at[1])
			cx, cy := to(g.at[2])
			p.pen.CubeTo(ax, ay, bx, by, cx, cy)
		}
	}
	p.pen.ClosePath()
	p.pen.Draw(p.ink, box, image.Opaque, image.Point{})
}

func (p *pixels) Group(_ string, in func(draw.Canvas))    { in(p) }
func (p *pixels) Line(draw.Point, draw.Point, draw.Style) {}
func (p *pixels) Polyline([]draw.Point, draw.Style)       {}
