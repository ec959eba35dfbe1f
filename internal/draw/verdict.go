package draw

// Verdict says what became of a limit on a line of the kind Core, as drawn.
type Verdict struct {
	Limit, Line string  // names
	InTime      bool    // reached, and by the limit's time if it has one
	Words       string  // "reached at 1 h 12 min"
	TimeS       float64 // of the sign on the line: where it reaches the limit, else where it should have
	TempC       float64 // of the same

	brief string // "1 h 12 min"
}

// Verdicts holds each line of the kind Core to each limit, in their order. A limit counts as reached when the line is first at or
// beyond it; between two points the line is straight.
func (c Curves) Verdicts() []Verdict { return c.cleaned().verdicts() }

func (c Curves) verdicts() []Verdict {
	var all []Verdict
	for _, limit := range c.Limits {
		for _, line := range c.Lines {
			if line.Kind == Core {
				v := judge(line.Points, limit, c.Warming)
				v.Limit, v.Line = limit.Name, line.Name
				all = append(all, v)
			}
		}
	}
	return all
}

// judge holds a line of at least one point to a limit.
func judge(points []At, limit Limit, warming bool) Verdict {
	first, last := points[0], points[len(points)-1]
	at, reached := passes(points, limit.TempC, warming)
	due, shown := tempAt(points, limit.ByS) // where the line is when the limit's time is up
	shown = shown && limit.ByS > 0
	v := Verdict{InTime: reached && (limit.ByS == 0 || at <= limit.ByS), brief: lasting(at), Words: "reached at " + lasting(at), TimeS: at, TempC: limit.TempC}
	switch {
	case v.InTime && at == first.TimeS:
		v.Words, v.brief, v.TempC = "reached from the start", "from the start", first.TempC
	case v.InTime:
	case reached && shown:
		late := ", " + lasting(at-limit.ByS) + " late"
		v.Words, v.brief, v.TimeS, v.TempC = v.Words+late, v.brief+late, limit.ByS, due
	case reached: // the line begins after the limit's time
		v.Words, v.brief, v.TimeS, v.TempC = v.Words+", late", v.brief+", late", first.TimeS, first.TempC
	default:
		v.brief = "not in " + lasting(last.TimeS-first.TimeS)
		v.Words, v.TimeS, v.TempC = "not reached in the "+lasting(last.TimeS-first.TimeS)+" shown", last.TimeS, last.TempC
		if shown {
			v.TimeS, v.TempC = limit.ByS, due
		}
	}
	return v
}

// passes is when a line is first at or beyond a temperature.
func passes(points []At, tempC float64, warming bool) (timeS float64, ok bool) {
	for i, p := range points {
		if warming && p.TempC < tempC || !warming && p.TempC > tempC {
			continue
		}
		if i == 0 {
			return p.TimeS, true
		}
		a := points[i-1]
		return a.TimeS + (p.TimeS-a.TimeS)*(tempC-a.TempC)/(p.TempC-a.TempC), true
	}
	return 0, false
}
