package heatcase

import "fmt"

// words are the question in one line.
func (q question) words() string {
	name := q.r.name
	if q.Name != "" {
		name = q.Name
	}
	return fmt.Sprintf("%s %s, %s, from %s to %s", q.Process, name, q.Shape.words(q), q.From.Show(q.Units), q.To.Show(q.Units))
}

// words are the shape with its sizes.
func (s Shape) words(q question) string {
	u := q.Units
	switch s.Kind {
	case Pan:
		return s.Thickness.Show(u) + " deep in a pan"
	case Bag:
		if s.Stack > 1 {
			return fmt.Sprintf("%d flat bags of %s on each other", s.Stack, s.Thickness.Show(u))
		}
		return "a flat bag of " + s.Thickness.Show(u)
	case Pot:
		stirred := "a pot left alone, "
		if q.Stir != Unstirred {
			stirred = "a stirred pot, "
		}
		return stirred + s.Diameter.Show(u) + " wide and filled " + s.Depth.Show(u) + " deep"
	case Brick:
		return fmt.Sprintf("a block of %s by %s by %s", s.Length.Show(u), s.Width.Show(u), s.Height.Show(u))
	}
	return "a layer of " + s.Thickness.Show(u)
}
