package orders

import (
	"testing"

	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// A price is that of the order, of the delivery's day, or of the terms in force; never that of another kind of packs.
func TestAgreedPrices(t *testing.T) {
	priced := func(pack string, each unit.Money) record.OrderLine {
		return record.OrderLine{Pack: pack, Count: 4, Each: each * unit.Cent}
	}
	standing, later := fortnightly(), fortnightly()
	standing.Lines = []record.OrderLine{priced("soup", 500)}
	later.Due, later.Lines = "2027-01-01", []record.OrderLine{priced("soup", 550)}
	changed := order("O-7/2027-01-15", "cafe", "2027-01-14", priced("soup", 450))
	state, _ := tell(t, standing, later, changed, order("O-1", "shop", "2026-12-04", priced("soup", 600), priced("dal", 0))).fold()
	for _, c := range []struct {
		id, pack string
		today    record.Day
		want     unit.Money // cents
	}{
		{"O-1", "soup", "2026-12-01", 600}, {"O-1", "dal", "2026-12-01", 0}, {"O-1", "stew", "2026-12-01", 0},
		{"O-7", "soup", "2026-12-01", 500}, {"O-7", "soup", "2027-01-02", 550}, {"O-7", "soup", "2026-01-01", 500},
		{"O-7/2026-12-04", "soup", "2027-02-01", 500}, {"O-7/2027-01-01", "soup", "2026-12-01", 550}, {"O-7/2027-01-15", "soup", "2026-12-01", 450},
		{"O-7/2026-12-05", "soup", "2026-12-01", 0}, {"O-9", "soup", "2026-12-01", 0}, {"", "soup", "2026-12-01", 0},
	} {
		if got := state.Agreed(c.id, c.pack, c.today); got != c.want*unit.Cent {
			t.Errorf("%s of %q on %s: %s, want %s", c.pack, c.id, c.today, got, c.want*unit.Cent)
		}
	}
	for _, o := range state.Dated("2026-12-01", "2027-03-31") {
		for _, l := range o.Lines {
			if got := state.Agreed(o.ID, l.Pack, "2026-12-01"); got != l.Each {
				t.Errorf("%s of %s: %s, and its line says %s", l.Pack, o.ID, got, l.Each)
			}
		}
	}
}
