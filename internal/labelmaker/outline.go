package labelmaker

import (
	"sync"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// outline is the shape of a letter, in type sizes, y down from the base line.
type outline struct{ segments []segment }

// segment is a move, a line or a quadratic curve to the last of its points.
type segment struct {
	op sfnt.SegmentOp
	at [3][2]float64
}

// outlines by face and letter, filled as they are needed.
var outlines [2]sync.Map

func outlineOf(r rune, bold bool) outline {
	i := 0
	if bold {
		i = 1
	}
	if known, is := outlines[i].Load(r); is {
		return known.(outline)
	}
	o := faceOf(bold).outline(r)
	outlines[i].Store(r, o)
	return o
}

func (f *face) outline(r rune) outline {
	var buf sfnt.Buffer
	segments, err := f.font.LoadGlyph(&buf, f.glyph[r], fixed.I(unitsPerSize), nil)
	if err != nil {
		panic("labelmaker: " + err.Error()) // an embedded face
	}
	var o outline
	for _, s := range segments {
		one := segment{op: s.Op}
		for k, p := range s.Args {
			one.at[k] = [2]float64{float64(p.X) / 64 / unitsPerSize, float64(p.Y) / 64 / unitsPerSize}
		}
		o.segments = append(o.segments, one)
	}
	return o
}

// points is how many of a segment's points count.
func (s segment) points() int {
	switch s.op {
	case sfnt.SegmentOpQuadTo:
		return 2
	case sfnt.SegmentOpCubeTo:
		return 3
	}
	return 1
}
