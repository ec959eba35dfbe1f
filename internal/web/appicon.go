package web

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"net/http"
	"sync"
)

// iconSizes are those that the sign is drawn in for devices, in pixels.
var iconSizes = []int{192, 512}

// What static/icon.svg draws, in its units of 32 to a side: a pot with a crystal of frost above it, on a ground with round corners.
const (
	iconSide   = 32.0
	iconCorner = 6.0
	iconStroke = 2.0
	potLeft    = 6.0
	potTop     = 15.0
	potRight   = 26.0
	potBottom  = 27.0
	potCorner  = 6.5
)

// strokes are those of the crystal and of the pot's handles, from and to; their ends are round.
var strokes = [][4]float64{{16, 3.5, 16, 12.5}, {12.1, 5.75, 19.9, 10.25}, {19.9, 5.75, 12.1, 10.25}, {3.5, 15.5, 6, 15.5}, {26, 15.5, 28.5, 15.5}}

// maskableScale is by how much the sign is made smaller where a device cuts its own shape out of it: all that matters must lie within a circle of
// two fifths of the side (Web Application Manifest, section 1.14.3 "maskable").
const maskableScale = 0.72

var (
	iconGround = color.NRGBA{0x0c, 0x4a, 0x52, 0xff}
	iconInk    = color.NRGBA{0xff, 0xff, 0xff, 0xff}
)

// onGround, onInk say whether a point of the sign lies on its ground and on what is drawn on it.
func onGround(x, y float64) bool {
	return inRounded(x, y, 0, 0, iconSide, iconSide, iconCorner, iconCorner)
}

func onInk(x, y float64) bool {
	const edge = iconStroke / 2 // the pot is drawn filled and with a stroke along its edge
	if inRounded(x, y, potLeft-edge, potTop-edge, potRight+edge, potBottom+edge, edge, potCorner+edge) {
		return true
	}
	for _, s := range strokes {
		dx, dy := s[2]-s[0], s[3]-s[1]
		along := min(max(((x-s[0])*dx+(y-s[1])*dy)/(dx*dx+dy*dy), 0), 1)
		if math.Hypot(x-s[0]-along*dx, y-s[1]-along*dy) <= edge {
			return true
		}
	}
	return false
}

// inRounded says whether a point lies in a rectangle whose upper and lower corners are rounded.
func inRounded(x, y, left, top, right, bottom, upper, lower float64) bool {
	if x < left || x > right || y < top || y > bottom {
		return false
	}
	corner, cy := lower, bottom-lower
	if y < top+upper {
		corner, cy = upper, top+upper
	} else if y <= cy {
		return true
	}
	cx := min(max(x, left+corner), right-corner)
	return math.Hypot(x-cx, y-cy) <= corner
}

// drawIcon draws the sign as a picture; maskable fills all of it with the ground and keeps what is drawn away from the edges.
func drawIcon(size int, maskable bool) image.Image {
	const fine = 4 // points to a pixel, each way
	img := image.NewNRGBA(image.Rect(0, 0, size, size))
	scale := 1.0
	if maskable {
		scale = maskableScale
	}
	for py := range size {
		for px := range size {
			ground, ink := 0, 0
			for i := range fine * fine {
				x := (float64(px) + (float64(i%fine)+0.5)/fine) / float64(size) * iconSide
				y := (float64(py) + (float64(i/fine)+0.5)/fine) / float64(size) * iconSide
				x, y = (x-iconSide/2)/scale+iconSide/2, (y-iconSide/2)/scale+iconSide/2
				switch {
				case onInk(x, y):
					ink++
				case maskable || onGround(x, y):
					ground++
				}
			}
			img.SetNRGBA(px, py, mixed(ground, ink, fine*fine))
		}
	}
	return img
}

// mixed is the colour of a pixel of which so many points are ground and ink.
func mixed(ground, ink, all int) color.NRGBA {
	seen := ground + ink
	if seen == 0 {
		return color.NRGBA{}
	}
	part := func(g, i uint8) uint8 { return uint8((int(g)*ground + int(i)*ink + seen/2) / seen) }
	return color.NRGBA{part(iconGround.R, iconInk.R), part(iconGround.G, iconInk.G), part(iconGround.B, iconInk.B), uint8((255*seen + all/2) / all)}
}

// icons are the pictures of the sign by their names.
var icons = sync.OnceValue(func() map[string][]byte {
	all := map[string][]byte{}
	for _, size := range iconSizes {
		for purpose, maskable := range map[string]bool{"any": false, "maskable": true} {
			var out bytes.Buffer
			if err := png.Encode(&out, drawIcon(size, maskable)); err != nil {
				panic(err) // a picture of a fixed size into memory
			}
			all[fmt.Sprintf("%s-%d.png", purpose, size)] = out.Bytes()
		}
	}
	return all
})

// showIcon serves the sign as a picture.
func showIcon(w http.ResponseWriter, r *http.Request) {
	data, ok := icons()[r.PathValue("file")]
	if !ok {
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Content-Type", "image/png")
	w.Header().Set("Cache-Control", "max-age=86400")
	w.Write(data)
}
