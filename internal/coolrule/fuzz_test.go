package coolrule

import (
	"errors"
	"math"
	"testing"
)

func FuzzJudge(f *testing.F) {
	f.Add(60.0, 0.0, 21.1, 7200.0, 5.0, 21600.0)
	f.Add(21.0, 0.0, 21.0, 0.0, -273.0, 1e9)
	f.Fuzz(func(t *testing.T, c1, s1, c2, s2, c3, s3 float64) {
		when, err := FromMarks(Mark{c1, s1}, Mark{c2, s2}, Mark{c3, s3})
		var bad *CurveError
		if err != nil {
			if !errors.As(err, &bad) || err.Error() == "" {
				t.Errorf("untyped error %v", err)
			}
			return
		}
		for _, rule := range All() {
			v, err := Judge(rule, when)
			if err != nil {
				t.Fatalf("marks that fall in order are refused: %v", err)
			}
			for _, s := range v.Stages {
				if math.IsNaN(s.TookS) || math.IsInf(s.TookS, 0) || math.IsNaN(s.MarginS) || math.IsInf(s.MarginS, 0) {
					t.Errorf("%s: took %g, margin %g", rule.ID, s.TookS, s.MarginS)
				}
				if v.Outcome == WithinRule && !s.Stage.Advisory && !s.Reached {
					t.Errorf("%s passes without reaching %g °C", rule.ID, s.Stage.ToC)
				}
			}
		}
	})
}
