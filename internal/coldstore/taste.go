package coldstore

import (
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// Packs are the packs that are meant, all of which are on hand. Errors are *Refusal; a lot in bulk is one.
func (a Ask) Packs(s *lots.State) (*lots.Lot, record.Numbers, error) {
	_, l, err := InHand(s, a.Code)
	if err != nil {
		return nil, record.Numbers{}, err
	}
	if l.Sort != lots.Packs {
		return l, record.Numbers{}, refuse("code", "look at the bag", "lot %s is not of packs", l.ID)
	}
	p, err := a.pick(s)
	return l, p.numbers, err
}
