package web

import (
	"math"
	"net/url"
	"slices"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coolforecast"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

func (v *coolingPage) again(f coolingForms, a app.CoolAdvice, voice app.CoolVoice) {
	c := f.c
	allowed := slices.ContainsFunc(a.Allowed, func(x coolforecast.Allowed) bool { return x.Remedy == coolforecast.ReheatOnce })
	if !allowed {
		if why := refusedAgain(c); why != "" && c.Forecast.Outcome != coolforecast.Over && c.Forecast.Outcome != coolforecast.Meets {
			v.Refused = why
		}
		return
	}
	x := &coolingAgain{Temp: bothDegrees(coolforecast.ReheatC, f.rd), Form: f.again(), Source: a.Allowed[0].Source}
	if a.Again != nil {
		for _, m := range a.Again.To {
			if m.Usual.Reached && m.Low.Reached && m.TempC < coolforecast.ReheatC-1 {
				x.Says += degreesFigure(m.TempC, f.rd).First + " after " + spanWords(m.Usual.TimeS) + ", at worst " + spanWords(m.Low.TimeS) + "; "
			}
		}
		if x.Says != "" {
			x.Says = "Then by " + a.Again.Way + ", " + a.Again.Verdict.String() + ": " + x.Says[:len(x.Says)-2] + "."
		}
	}
	v.Again = x
}

func spanWords(s float64) string {
	return (unit.Span(math.Ceil(s/60)) * unit.Minute).String()
}

// refusedAgain says why a load may not be heated again; "" when it may.
func refusedAgain(c app.Cooling) string {
	if c.Reheats > 0 {
		return "It was heated again once already. A second time is not allowed: throw it away, and write that down."
	}
	if n := len(c.Forecast.Limits); n > 1 && c.Forecast.Limits[n-1].State == coolforecast.Late {
		return "It was not at its last limit in time. Heating it again does not make up for that."
	}
	return ""
}

// coolingTold is what was entered of a load: what was done and what was measured, the last first.
func coolingTold(p *app.Production, c app.Cooling, rd reader) []toldRow {
	var rows []toldRow
	for _, t := range slices.Backward(p.Run.All()) {
		task := ""
		switch b := t.Says.(type) {
		case record.Acted:
			task = b.Task
		case record.Measured:
			task = b.Task
		}
		if task == "" || task != c.Ref() && !stageOf(task, c.Ref()) {
			continue
		}
		row := toldRow{At: clockText(p.Clock, t.Happened), Who: t.Who, Says: coolingSays(t.Says, rd), Entry: t.ID.String(), Action: boardURL(p.Run.Name), Back: coolingURL(p.Run.Name, c.Ref())}
		if _, planned := itemOf(p, task); planned && t.Kind == (record.Measured{}).Kind() {
			row.Correct = taskURL(p.Run.Name, task) + "&" + url.Values{"correct": {row.Entry}}.Encode()
		}
		rows = append(rows, row)
	}
	return rows
}
