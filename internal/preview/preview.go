// Package preview makes small pictures of large ones, for pages that show many: as JPEG, turned as the camera was held. What was kept stays as it
// came; this is only what is shown first.
package preview

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	_ "image/png" // a kind of picture that is read

	"golang.org/x/image/draw"
	_ "golang.org/x/image/webp" // another
)

// mostPixels of a picture that is read: a few bytes can say that they are a picture of gigabytes.
const mostPixels = 64_000_000

// quality of the JPEG.
const quality = 80

// Error says why there is no small picture: it may be shown as it is.
type Error struct{ Problem string }

func (e *Error) Error() string { return "preview: " + e.Problem }

// Small is the picture with no side longer than so many pixels, never larger than it is, on white where it lets through. Errors are *Error.
func Small(data []byte, side int) ([]byte, error) {
	c, _, err := image.DecodeConfig(bytes.NewReader(data))
	switch {
	case err != nil:
		return nil, &Error{err.Error()}
	case c.Width < 1 || c.Height < 1 || c.Width > mostPixels/c.Height:
		return nil, &Error{fmt.Sprintf("it has %d by %d pixels", c.Width, c.Height)}
	case side < 1:
		return nil, &Error{fmt.Sprintf("a side of %d pixels is none", side)}
	}
	whole, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, &Error{err.Error()}
	}
	small := scaled(whole, side)
	var out bytes.Buffer
	if err := jpeg.Encode(&out, turned(small, orientation(data)), &jpeg.Options{Quality: quality}); err != nil {
		return nil, &Error{err.Error()}
	}
	return out.Bytes(), nil
}

// scaled is the picture with its longer side as long as that, or shorter.
func scaled(whole image.Image, side int) *image.RGBA {
	b := whole.Bounds()
	w, h := b.Dx(), b.Dy()
	if longer := max(w, h); longer > side {
		w, h = max(1, w*side/longer), max(1, h*side/longer)
	}
	small := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(small, small.Bounds(), image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.ApproxBiLinear.Scale(small, small.Bounds(), whole, b, draw.Over, nil)
	return small
}

// turned is the picture as it is to be seen: 1 as it is, 3 upside down, 6 and 8 by a quarter, the others mirrored (Exif 2.3, tag 0x0112).
func turned(p *image.RGBA, orientation int) image.Image {
	if orientation < 2 || orientation > 8 {
		return p
	}
	w, h := p.Bounds().Dx(), p.Bounds().Dy()
	wide, tall := w, h
	if orientation >= 5 {
		wide, tall = h, w
	}
	out := image.NewRGBA(image.Rect(0, 0, wide, tall))
	for y := range h {
		for x := range w {
			to := image.Pt(x, y)
			switch orientation {
			case 2:
				to = image.Pt(w-1-x, y)
			case 3:
				to = image.Pt(w-1-x, h-1-y)
			case 4:
				to = image.Pt(x, h-1-y)
			case 5:
				to = image.Pt(y, x)
			case 6:
				to = image.Pt(h-1-y, x)
			case 7:
				to = image.Pt(h-1-y, w-1-x)
			case 8:
				to = image.Pt(y, w-1-x)
			}
			out.SetRGBA(to.X, to.Y, p.RGBAAt(x, y))
		}
	}
	return out
}
