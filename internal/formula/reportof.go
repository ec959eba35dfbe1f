package formula

import (
	"math"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/stability"
	"kettlefrost/internal/unit"
)

// ReportOf works all of it out. What cannot be is a problem in words and leaves the rest. Errors: a subject that is not there, a dish whose mass flow
// cannot be solved.
func ReportOf(book kitchen.Book, foods *foodtable.Table, a Asked) (Report, error) {
	p, err := PotOf(book, foods, a.Subject)
	if err != nil {
		return Report{}, err
	}
	r := Report{Schema: ReportSchema, Subject: p.Subject, Name: p.Name, Written: p.Mass, PH: p.PH, Front: showFront(p.Front), Asks: append([]Ask{}, p.Asks...), Parts: p.showParts(), Problems: []string{}}
	w := p.filledIn(a.Want)
	review, err := p.Review()
	r.problem(err)
	r.Review = p.showReview(review, w.Mass)
	doses, err := p.Doses(a.Want)
	r.problem(err)
	r.Doses = showDoses(doses, w)
	for i := range r.Doses.Lines {
		r.Doses.Lines[i].Powder = powderOf(book, foods, p, doses.Lines[i])
	}
	s := StoredIn(book)
	if a.Store != nil {
		s = Stored{TempC: *a.Store}
	}
	s.Excursion = a.Excursion
	y, err := p.Predict(s, book.Packs[p.Pack].BestBefore)
	if r.problem(err); err == nil {
		r.Predicted = showPrediction(y)
		r.Asks = append(r.Asks, y.Asks...)
	}
	return r, nil
}

func (r *Report) problem(err error) {
	if err != nil {
		r.Problems = append(r.Problems, err.Error())
	}
}

func showFront(f Front) FrontShown {
	return FrontShown{Known: f.UsualMMH > 0, Usual: f.UsualMMH, Slow: f.SlowMMH, Fast: f.FastMMH, Freezer: f.Freezer, Lies: f.Lies, Thickness: f.Thickness, Time: f.Time}
}

func (p Pot) showParts() []PartShown {
	all := []PartShown{}
	for _, x := range p.Parts {
		if x.Kg < traceKg {
			continue
		}
		share := func(kg float64) float64 { return max(0, kg/x.Kg) }
		all = append(all, PartShown{Ingredient: x.Ingredient, Name: x.Name, Steps: x.Steps, PutIn: unit.MassKg(x.PutInKg), Left: unit.MassKg(x.Kg), Share: x.Kg / p.Mass.Kg(),
			Role: string(x.Component.Role), Guessed: x.Guessed, Done: x.done(), Water: share(x.WaterKg), Fat: share(x.FatKg), Protein: share(x.ProteinKg), Sugars: share(x.SugarsKg),
			Starch: share(x.StarchKg), SodiumMg: x.SodiumMg})
	}
	return all
}

// done is what was done to a part, in words.
func (x Part) done() []string {
	words := []string{}
	c := x.Component
	if c.Joins == stability.StirredCold {
		words = append(words, "stirred in cold")
	}
	switch c.Cooked {
	case stability.Through:
		words = append(words, "cooked through")
	case stability.Undercooked:
		words = append(words, "undercooked")
	case stability.Raw:
		words = append(words, "raw")
	}
	for _, y := range []struct {
		is  bool
		say string
	}{{c.Soft, "soft"}, {c.Pureed, "made smooth"}, {c.Inside, "set within pieces"}, {c.Plant, "of plants"}, {x.Salt, "salt"}} {
		if y.is {
			words = append(words, y.say)
		}
	}
	return words
}

func (p Pot) showReview(r Review, mass unit.Mass) ReviewShown {
	out := ReviewShown{Worst: r.Worst().String(), Grade: int(r.Worst()), Slow: r.Slow.String(), Findings: []FindingShown{}, Passed: []PassedShown{}, Holds: append([]string{}, r.Protection.By...),
		Weeps: r.WeepScore, Assumed: append([]string{}, r.Assumed...), Unknown: append([]string{}, r.Unknown...)}
	for _, f := range r.Findings {
		x := FindingShown{Code: f.Code, About: append([]string{}, f.Components...), Severity: f.Severity.String(), Grade: int(f.Severity), ByItself: f.ByItself.String(), Mechanism: f.Mechanism, Because: f.Because,
			Figures: append([]finding.Figure{}, f.Figures...), Source: f.Source, Confirm: f.Confirm, Remedies: []RemedyShown{}}
		for _, m := range f.Remedies {
			x.Remedies = append(x.Remedies, showRemedy(p.Dosed(m, mass)))
		}
		out.Findings = append(out.Findings, x)
	}
	for _, q := range r.Passed {
		out.Passed = append(out.Passed, PassedShown{Code: q.Code, About: append([]string{}, q.Components...), ByItself: q.ByItself.String(), Why: q.Why})
	}
	return out
}

func showRemedy(m Remedied) RemedyShown {
	x := RemedyShown{ID: m.ID, Do: m.Do, Low: m.Remedy.Low, High: m.Remedy.High, Basis: m.Basis, LowG: m.Low, HighG: m.High, Source: m.Source, Confirm: m.Confirm}
	if m.Tried {
		x.After, x.AfterGrade = m.After.String(), int(m.After)
	}
	return x
}

func showDoses(d Doses, w Want) DosesShown {
	out := DosesShown{Mass: w.Mass, Sauce: d.Sauce, Use: w.Use, Thickness: string(w.Thickness), Series: string(w.Series), Taste: string(w.Taste), Lines: []LineShown{}}
	for _, l := range d.Lines {
		x := LineShown{Key: l.Key, Substance: l.Substance, In: l.In, Doses: []DoseShown{}, Now: showAmount(l.Now), Target: showAmount(l.Target), Verdict: string(l.Verdict), Good: l.Good(), Says: l.Says,
			Found: append(finding.List{}, l.Found...)}
		if l.Own != nil {
			own := showAmount(*l.Own)
			x.Own, x.OwnSays = &own, l.OwnSays
		}
		for _, y := range l.Doses {
			x.Doses = append(x.Doses, DoseShown{Basis: string(y.Basis), Base: y.Base, Low: y.Shares.Low, Target: y.Shares.Target, High: y.Shares.High, LowG: y.Low, TargetG: y.Target, HighG: y.High,
				MostG: y.Most, MostIs: y.MostIs, Source: y.Source, Confirm: y.Confirm})
		}
		out.Lines = append(out.Lines, x)
	}
	return out
}

func showAmount(a Amount) AmountShown {
	x := AmountShown{Mass: a.Mass, Share: a.Share}
	if a.Weighed != nil {
		x.Weighed = showWeighing(*a.Weighed)
	}
	return x
}

func showWeighing(w dosing.Weighing) *WeighedShown {
	x := &WeighedShown{Step: w.Scale.Division, Show: w.Show, Error: w.ErrPct / 100, Parts: w.Parts, Within: w.Within, Finer: w.Finer}
	if !math.IsInf(w.DoubtPct, 0) {
		doubt := w.DoubtPct / 100
		x.Doubt = &doubt
	}
	if s := w.Stock; s != nil {
		x.Stock = &StockShown{Share: s.Share, Make: s.Make, Holds: s.Holds, Take: s.Take, Error: s.ErrPct / 100}
	}
	return x
}

func showPrediction(y Prediction) *PredictionShown {
	l := y.Life
	x := &PredictionShown{StoreC: y.Stored.TempC, Where: y.Stored.Where, Assumed: y.Stored.Assumed, WarmestC: y.Point.WarmestC, ColdestC: y.Point.ColdestC, Lowers: []LowersShown{}, LeftOut: y.Point.LeftOut,
		Liquid: y.Liquid.OfWater, LiquidMost: y.Liquid.OfWaterMost, Ice: y.Liquid.IceOfFood, Concentrated: y.Liquid.Concentrated, Salt: y.Salt, Brine: y.Liquid.SaltOfBrine, Guide: y.Liquid.Beyond,
		Life: LifeShown{Low: l.LowDays, High: l.HighDays, Source: l.Source, Own: l.Own, Least: l.Least, From: l.From, To: l.To, Most: l.Most, Q10: l.Rule.Q10, Q10Low: l.Rule.Q10Low, Q10Hi: l.Rule.Q10High}}
	for _, s := range y.Point.Parts {
		x.Lowers = append(x.Lowers, LowersShown{s.Name, s.LowersK})
	}
	if c := y.Cost; c != nil {
		x.Excursion = &ExcursionCost{TempC: c.TempC, Hours: c.Stay.Days * 24, Days: c.Days, Low: c.Low, High: c.High, Lost: c.Lost, Share: c.Used.Share, TooWarm: c.TooWarm}
	}
	return x
}
