package store

import "testing"

// New readings in a stretch of time change its mark; others, and what is sent again, do not.
func TestReadingsMark(t *testing.T) {
	for _, db := range databases {
		t.Run(db.name, func(t *testing.T) {
			s := open(t, db.address(t))
			take := func(n int, r ...Reading) {
				t.Helper()
				if err := s.TakeReadings(t.Context(), batch(n, r...)); err != nil {
					t.Fatal(err)
				}
			}
			mark := func() [2]int64 {
				t.Helper()
				m, err := s.ReadingsMark(t.Context(), "p1", reading("p1", 0, 0).At, reading("p1", 60, 0).At)
				if err != nil {
					t.Fatal(err)
				}
				return m
			}
			none := mark()
			take(1, reading("p1", 5, 4000))
			one := mark()
			take(1, reading("p1", 5, 4000))
			take(2, reading("p2", 6, 4000))
			take(3, reading("p1", 100, 4000))
			if none == one || mark() != one {
				t.Errorf("%v, %v, %v", none, one, mark())
			}
			take(4, reading("p1", 6, 4000))
			if mark() == one {
				t.Error("a reading came, and the mark is the same")
			}
		})
	}
}
