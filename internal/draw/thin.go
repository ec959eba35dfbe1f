package draw

import "math"

// finest is how far, in drawing units, a thinned line may lie from the line as given; less than half the thinnest stroke.
const finest = 0.3

// thin leaves out points of a line that is drawn from left to right, so that what is left lies within finest of what was given
// and has at most most points. If that many do not do, it is coarser, by doubling, until they do. The first and last points stay.
// The method is that of Douglas and Peucker (1973): a stretch is one straight piece if no point lies too far from it, else it is
// cut at the farthest point. So corners and the ends of a plateau stay where they are.
func thin(points []Point, most int) []Point {
	points = columns(points)
	most = max(2, most)
	for far := finest; ; far *= 2 {
		kept := within(points, far)
		if len(kept) <= most {
			return kept
		}
	}
}

// columns leaves of each half unit of width the first, the lowest, the highest and the last point, in their order: enough to draw
// it, and few enough that within takes no time, whatever is given.
func columns(points []Point) []Point {
	if len(points) < 2000 {
		return points
	}
	var kept []Point
	for from := 0; from < len(points); {
		to, low, high := from, from, from
		column := math.Floor(points[from].X * 2)
		for ; to < len(points) && math.Floor(points[to].X*2) == column; to++ {
			if points[to].Y < points[low].Y {
				low = to
			}
			if points[to].Y > points[high].Y {
				high = to
			}
		}
		last := -1
		for _, i := range [...]int{from, min(low, high), max(low, high), to - 1} {
			if i != last {
				kept = append(kept, points[i])
			}
			last = i
		}
		from = to
	}
	return kept
}

// within is the points needed to stay within far of all of them.
func within(points []Point, far float64) []Point {
	if len(points) < 3 {
		return points
	}
	keep := make([]bool, len(points))
	keep[0], keep[len(points)-1] = true, true
	open := [][2]int{{0, len(points) - 1}}
	for len(open) > 0 {
		from, to := open[len(open)-1][0], open[len(open)-1][1]
		open = open[:len(open)-1]
		worst, at := far, -1
		for i := from + 1; i < to; i++ {
			if d := distance(points[i], points[from], points[to]); d > worst {
				worst, at = d, i
			}
		}
		if at >= 0 {
			keep[at] = true
			open = append(open, [2]int{from, at}, [2]int{at, to})
		}
	}
	var kept []Point
	for i, yes := range keep {
		if yes {
			kept = append(kept, points[i])
		}
	}
	return kept
}

// distance is that of p from the straight piece between a and b.
func distance(p, a, b Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	along := 0.0
	if square := dx*dx + dy*dy; square > 0 {
		along = min(1, max(0, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/square))
	}
	return math.Hypot(p.X-a.X-along*dx, p.Y-a.Y-along*dy)
}
