package app

import (
	"context"
	"errors"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
)

type actorKey struct{}

// Acting is a context in which everything is done on behalf of somebody: what they may not is refused, whichever way it comes. Where nobody
// acts (the command line, pages of a kitchen without people) everything may be done.
func Acting(ctx context.Context, a people.Actor) context.Context {
	return context.WithValue(ctx, actorKey{}, a)
}

func actorIn(ctx context.Context) (people.Actor, bool) {
	a, ok := ctx.Value(actorKey{}).(people.Actor)
	return a, ok
}

// allow says whether entries may be taken in: the one gate that all of them pass. What is there already may be sent again by anybody, since
// nothing is written. Errors are *people.DeniedError and *PersonError.
func (p *People) allow(ctx context.Context, entries []record.Entry) error {
	for i, e := range entries {
		err := p.allowOne(ctx, e, entries[:i])
		if err == nil {
			continue
		}
		if _, there, errThere := p.r.store.ByID(ctx, e.ID); errThere != nil || !there {
			return errors.Join(err, errThere)
		}
	}
	return nil
}

func (p *People) allowOne(ctx context.Context, e record.Entry, before []record.Entry) error {
	a, acts := actorIn(ctx)
	about := e.Kind
	var original *record.Entry
	if e.Corrects != (record.ID{}) {
		for _, o := range before {
			if o.ID == e.Corrects {
				original = &o
			}
		}
		if original == nil {
			if o, there, err := p.r.store.ByID(ctx, e.Corrects); err != nil {
				return err
			} else if there {
				original, about = &o, o.Kind
			}
		}
	}
	if !acts && !people.Heeds(e.Kind) && !people.Heeds(about) {
		return nil
	}
	return look(ctx, p.r, p.staff, func(s *people.Staff, _ finding.List) error {
		if acts {
			if err := s.Judge(a, people.Asked{Kind: e.Kind, Who: e.Who, Device: e.Device, Original: original}, p.day()); err != nil {
				return err
			}
		}
		if people.Heeds(e.Kind) || people.Heeds(about) {
			return p.fits(s, e)
		}
		return nil
	})
}
