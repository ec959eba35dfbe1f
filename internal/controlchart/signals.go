package controlchart

// Side is where a signal points to.
type Side int

const (
	Low    Side = -1 // below the centre, or falling
	Either Side = 0
	High   Side = 1 // above the centre, or rising
)

// String is "low", "high" or "either".
func (s Side) String() string {
	return map[Side]string{Low: "low", Either: "either", High: "high"}[s]
}

// Signal is one pattern found. A run that goes on is one signal, with all its points.
type Signal struct {
	Rule   Rule
	Side   Side
	Seen   int   // the point at which it was first complete
	Points []int // those that make it, counted from 0
}

// Signals looks for the rules in points whose centre and standard deviation are known, rule by rule in their order, and high before low.
// A pattern may be complete before its window is: two points beyond 2 s are two of three. Rules that are none find nothing.
func Signals(points []float64, centre, sd float64, rules []Rule) []Signal {
	off, mirrored := make([]float64, len(points)), make([]float64, len(points))
	for i, x := range points {
		off[i], mirrored[i] = x-centre, centre-x
	}
	var all []Signal
	for _, r := range rules {
		switch {
		case r < BeyondLimits || r > EightAwayFromAll:
		case patterns[r].sided:
			all = append(all, r.find(off, sd, High)...)
			all = append(all, r.find(mirrored, sd, Low)...)
		default:
			all = append(all, r.find(off, sd, Either)...)
		}
	}
	return all
}

// find goes through the points once. A window that shares a point with the last signal carries that on.
func (r Rule) find(off []float64, sd float64, side Side) []Signal {
	p := patterns[r]
	var found []Signal
	var recent []int // those of the last window points that belong
	for i := range off {
		for len(recent) > 0 && recent[0] <= i-p.window {
			recent = recent[1:]
		}
		if !p.belongs(off, i, sd) {
			continue
		}
		recent = append(recent, i)
		if len(recent) < p.need {
			continue
		}
		if len(found) == 0 || !found[len(found)-1].carryOn(recent) {
			found = append(found, r.begin(recent, side))
		}
	}
	return found
}

func (r Rule) begin(recent []int, side Side) Signal {
	s := Signal{Rule: r, Side: side, Seen: recent[len(recent)-1]}
	for i := recent[0] - r.reach(); i < recent[0]; i++ {
		s.Points = append(s.Points, i)
	}
	s.Points = append(s.Points, recent...)
	return s
}

// carryOn adds the newest point to a signal whose points the window shares, or that it follows at once (points outside the limits).
func (s *Signal) carryOn(recent []int) bool {
	last, newest := s.Points[len(s.Points)-1], recent[len(recent)-1]
	if recent[0] > last && newest != last+1 {
		return false
	}
	for _, i := range recent {
		if i > last {
			s.Points = append(s.Points, i)
		}
	}
	return true
}
