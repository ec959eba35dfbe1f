package labelmaker

import (
	"testing"

	"kettlefrost/internal/draw"
)

// A text that reads from bottom to top is the one that reads from left to right, turned by a quarter: letter by letter, as pixels.
func TestTurnedTextIsTurned(t *testing.T) {
	at := func(p draw.Point, turned bool) draw.Picture {
		return draw.Picture{Width: 100, Height: 100, Draw: func(c draw.Canvas) {
			c.Text(p, "L-0917", draw.Type{Size: 20, Turned: turned, Tone: draw.Ink})
		}}
	}
	plain, err := Raster(at(draw.Point{X: 10, Y: 50}, false), 72)
	if err != nil {
		t.Fatal(err)
	}
	turned, err := Raster(at(draw.Point{X: 50, Y: 90}, true), 72)
	if err != nil {
		t.Fatal(err)
	}
	dark := 0
	for y := range 100 {
		for x := range 100 {
			was, is := int(plain.GrayAt(x, y).Y), int(turned.GrayAt(y, 99-x).Y)
			if was < 128 {
				dark++
			}
			if was-is > 8 || is-was > 8 { // of 255: edges are rounded the other way round
				t.Fatalf("at %d, %d it is %d, and turned %d", x, y, was, is)
			}
		}
	}
	if dark < 100 {
		t.Errorf("only %d pixels are dark", dark)
	}
}
