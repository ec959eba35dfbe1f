package app

import (
	"context"
	"slices"

	"kettlefrost/internal/board"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/learned"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
)

// pastBooks finds the book that a run was opened by: among the versions that the records keep, or by taking back what was accepted since. The
// hash that the run was opened with says whether it is the one.
type pastBooks struct {
	house    *App
	now      kitchen.Book
	versions []store.Version // of a book in the records, the first first
	current  *store.Book
	accepted []learned.Said // the last first
	runs     map[string]*board.Run
	known    map[uint64]kitchen.Book // by the version of the book
}

func (l *Learning) books(ctx context.Context, now kitchen.Book, runs []*board.Run, told *learned.Told) (*pastBooks, error) {
	p := &pastBooks{house: l.house, now: now, runs: map[string]*board.Run{}, known: map[uint64]kitchen.Book{}}
	for _, r := range runs {
		p.runs[r.Name] = r
	}
	for _, key := range told.Figures() {
		for _, s := range told.Of(key) {
			if s.Body.Outcome == record.TakenOver {
				p.accepted = append(p.accepted, s)
			}
		}
	}
	slices.SortFunc(p.accepted, func(a, b learned.Said) int { return -record.Compare(a.Entry, b.Entry) })
	if !l.house.InRecords() {
		return p, nil
	}
	for v, err := range l.records.store.Log(ctx) {
		if err != nil {
			return nil, err
		}
		if !store.Hidden(v.Path) {
			p.versions = append(p.versions, v)
		}
	}
	var err error
	p.current, err = l.records.BookFiles(ctx)
	return p, err
}

// of is the book that a run was opened by, its hash, and whether it is that for certain; else it is the book of today.
func (p *pastBooks) of(seq uint64, says record.Opened) (kitchen.Book, record.Hash, bool, error) {
	fits := func(b kitchen.Book) (record.Hash, bool, error) {
		req, err := Request(b, says.Request)
		if err != nil {
			return record.Hash{}, false, nil
		}
		req.Day = string(says.Day)
		hash, err := PlanHash(b, req)
		return hash, hash == says.Plan, err
	}
	today, ok, err := fits(p.now)
	if ok || err != nil {
		return p.now, today, ok, err
	}
	if b, there := p.at(seq); there {
		if hash, ok, err := fits(b); ok || err != nil {
			return b, hash, ok, err
		}
	}
	b := p.now
	for _, s := range p.accepted { // those since the run, from the last back
		if s.Entry.Seq < seq {
			break
		}
		b = learned.Undo(b, s.Body, p.runs)
		if hash, ok, err := fits(b); ok || err != nil {
			return b, hash, ok, err
		}
	}
	return p.now, today, false, nil
}

// at is the book of the records as it was when an entry came.
func (p *pastBooks) at(seq uint64) (kitchen.Book, bool) {
	var last uint64
	for _, v := range p.versions {
		if v.Seq < seq {
			last = v.Seq
		}
	}
	if last == 0 || p.current == nil {
		return kitchen.Book{}, false
	}
	if b, known := p.known[last]; known {
		return b, true
	}
	was := map[string]store.Version{}
	for _, v := range p.versions {
		if v.Seq <= last {
			was[v.Path] = v
		}
	}
	var back []store.Change
	for _, name := range p.current.Names() {
		if _, there := was[name]; !there {
			back = append(back, store.Change{Path: name, Deleted: true})
		}
	}
	for name, v := range was {
		back = append(back, store.Change{Path: name, Text: v.Text, Deleted: v.Deleted})
	}
	book, _ := p.house.read(p.current.With(back...))
	p.known[last] = unstocked(book)
	return p.known[last], true
}
