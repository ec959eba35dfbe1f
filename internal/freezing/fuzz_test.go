package freezing

import (
	"errors"
	"math"
	"testing"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
)

// FuzzLoad throws any numbers at a freezer: a typed error or finite answers, nothing else.
func FuzzLoad(f *testing.F) {
	f.Add(0.3, -20.0, 150.0, 8.0, 80.0, 40.0, 0.25, 0.0254, 0.68, 5.0, 12, 0.0, -17.0, 86400.0, 1, 1, 0.02)
	f.Add(0.01, -60.0, 1.0, 1e7, 1e5, 1e5, 1e-3, 0.5, 100.0, 100.0, 20000, 1e7, -59.0, 60.0, 3, 50, 1.0)
	f.Add(200.0, -5.0, 1e6, 0.1, 0.0, 0.0, 1.0, 0.001, 0.001, -0.7, 1, 0.0, -4.0, 5e6, 2, 1, 0.0)
	f.Add(0.01, -18.0, 1e6, 1e5, 1.0, 0.001, 1.0, 0.001, 0.001, 20.0, 1, 0.0, -17.0, 86400.0, 3, 50, 1.0)
	f.Fuzz(func(t *testing.T, volume, setC, coolingW, film, room, stock, exposed, thick, mass, startC float64,
		count int, inS, coreC, withinS float64, lie, high int, gap float64) {
		fr := Freezer{VolumeM3: volume, SetC: setC, CoolingW: coolingW, Film: one(film), RoomKg: room, Stock: Stock{MassKg: stock, Exposed: exposed}}
		p := Pack{Food: soup, ThicknessM: thick, MassKg: mass, StartC: startC}
		at := Placing{Lie: Lie(lie), High: high, GapM2KW: gap, Plate: medium.Film{LowWM2K: film, UsualWM2K: film, HighWM2K: film}}
		got, err := fr.Load([]Batch{{Pack: p, Placing: at, Count: count, InS: inS}}, Ask{CoreC: coreC, WithinS: withinS})
		typed(t, err)
		finite(t, got)
		intake, err := fr.PacksADay(p, at, Limits{CoreC: coreC, WithinS: withinS})
		typed(t, err)
		finite(t, intake.Load)
		if intake.Packs < 0 || math.IsNaN(intake.AloneS+intake.BalanceKg) {
			t.Errorf("%+v", intake)
		}
		w := Want{Kinds: []Kind{{Pack: p, Placing: at, Count: min(count, 300), ReadyS: inS}}, Freezers: []Freezer{fr}, Days: high,
			Limits: Limits{CoreC: coreC, WithinS: withinS, Relax: count%2 == 0}}
		s, err := w.Schedule()
		typed(t, err)
		if left, kg := s.NotPlaced(); err == nil && (left+s.Placed != w.Kinds[0].Count || math.IsNaN(kg+s.FrozenS)) {
			t.Errorf("%d left and %d placed of %d", left, s.Placed, w.Kinds[0].Count)
		}
	})
}

// typed fails on an error that is not one of package heat or of this one.
func typed(t *testing.T, err error) {
	t.Helper()
	var out *heat.RangeError
	var never *heat.NeverError
	if err != nil && !errors.As(err, &out) && !errors.As(err, &never) {
		t.Errorf("untyped error %v", err)
	}
}
