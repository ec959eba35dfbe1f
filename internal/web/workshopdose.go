package web

import (
	"fmt"
	"net/url"

	"kettlefrost/internal/app"
	"kettlefrost/internal/dosing"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/formula"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/unit"
)

// disperseURL leads to how the target is got into the dish as it is written.
func (a formulaAsked) disperseURL(l formula.LineShown) string {
	if l.Powder == "" || l.Target.Mass <= 0 {
		return ""
	}
	dose := unit.MassKg(l.Target.Mass.Kg() * a.report.Written.Kg() / a.report.Doses.Mass.Kg())
	return dispersePath + "?" + url.Values{dishKey: {string(a.report.Subject.Dish)}, ofKey: {string(l.Powder)}, app.DisperseDose: {dosing.Grams(dose)}}.Encode()
}

// grams is a dose as it is weighed, in one piece.
func grams(m unit.Mass) string { return together(dosing.Grams(m)) }

func perCent(share float64) string { return together(sheet.PerCent(share)) }

func viewLine(l formula.LineShown) formulaLine {
	v := formulaLine{Name: capital(l.Substance), Anchor: "dose-" + l.Key, Verdict: l.Verdict, Now: grams(l.Now.Mass), OwnSays: l.OwnSays, Class: "note", Sign: "●"}
	if l.In != l.Substance {
		v.In = l.In
	}
	if l.Now.Mass == 0 {
		v.Now = "none"
	}
	if l.Says != "" {
		v.Says = capital(l.Says) + "."
	}
	if !l.Good {
		v.Class, v.Sign = "caution", "▲"
	}
	if l.Verdict == string(formula.NoneIn) && l.Good {
		v.Sign = "○"
	}
	for i, d := range l.Doses {
		says := fmt.Sprintf("%s to %s: %s to %s %s", grams(d.LowG), grams(d.HighG), perCent(d.Low.F()), perCent(d.High.F()), d.Basis)
		if d.Low == d.High {
			says = fmt.Sprintf("%s: %s %s", grams(d.TargetG), perCent(d.Target.F()), d.Basis)
		}
		source := says + ". Source: " + d.Source
		if d.Confirm != "" {
			source += ". To be confirmed: " + d.Confirm
		}
		v.Sources = append(v.Sources, source+".")
		if i > 0 {
			v.More = append(v.More, says)
			continue
		}
		v.Range, v.Basis = fmt.Sprintf("%s to %s", grams(d.LowG), grams(d.HighG)), fmt.Sprintf("%s to %s %s", perCent(d.Low.F()), perCent(d.High.F()), d.Basis)
		if d.Low == d.High {
			v.Range, v.Basis = grams(d.TargetG), perCent(d.Target.F())+" "+d.Basis
		}
		if d.HighG == 0 {
			v.Range = "none to add"
		}
		v.Confirm = d.Confirm
		v.Target, v.Share = grams(l.Target.Mass), perCent(l.Target.Share)
		if d.MostIs != "" {
			v.Most, v.MostIs = "no number", d.MostIs
			if d.MostG > 0 {
				v.Most = grams(d.MostG)
			}
		}
		v.Gauge = gaugeOf(l, d)
	}
	if l.Now.Share > 0 {
		v.NowShare = perCent(l.Now.Share)
	}
	v.Weigh = weighings(l)
	for _, f := range l.Found {
		if f.Severity > finding.Note || f.Code != "scale-too-coarse" {
			v.Found = append(v.Found, remind(f))
		}
	}
	return v
}

// weighings are the amounts of a line on the kitchen's scale.
func weighings(l formula.LineShown) []formulaWeigh {
	var all []formulaWeigh
	for _, x := range []struct {
		what string
		a    *formula.AmountShown
	}{{"What is in it", &l.Now}, {"The target", &l.Target}, {"Your own", l.Own}} {
		if x.a == nil || x.a.Weighed == nil {
			continue
		}
		w := x.a.Weighed
		all = append(all, formulaWeigh{x.what, together(sheet.OnScale(w.Show, w.Step)), sheet.WeighSays(*w), !w.Within})
	}
	return all
}

// gaugeOf draws a range: to half more than the most that is to be seen of it.
func gaugeOf(l formula.LineShown, d formula.DoseShown) *gaugeView {
	end := max(d.HighG, l.Now.Mass)
	if d.MostG > 0 && d.MostG < 2*end {
		end = d.MostG
	}
	if end <= 0 {
		return nil
	}
	at := func(m unit.Mass) int { return int(float64(m) / (1.15 * float64(end)) * 1000) }
	g := &gaugeView{Low: at(d.LowG), Wide: max(6, at(d.HighG)-at(d.LowG)), Target: at(d.TargetG), Now: at(l.Now.Mass), Has: l.Now.Mass > 0, Most: at(d.MostG), Capped: d.MostG > 0 && d.MostG <= end}
	g.Alt = fmt.Sprintf("%s in it; the range goes from %s to %s", grams(l.Now.Mass), grams(d.LowG), grams(d.HighG))
	return g
}
