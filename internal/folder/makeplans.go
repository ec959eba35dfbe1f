package folder

import (
	"cmp"
	"encoding/json"
	"slices"

	"kettlefrost/internal/haccp"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// plans are the versions of the hazard plans that were in force when the lots were packed, each with its reviews.
func (m Material) plans() []Plan {
	versions := map[string][]Plan{}
	of(m, func(e record.Entry, b record.HazardPlan) {
		p := Plan{Pack: b.Pack, Entry: e.ID, At: e.Happened, Who: e.Who, Version: len(versions[b.Pack]) + 1, Basis: b.Basis, Note: string(b.Note), Text: json.RawMessage(b.Text)}
		p.read(string(b.Text))
		versions[b.Pack] = append(versions[b.Pack], p)
	})
	of(m, func(e record.Entry, b record.PlanReviewed) {
		for i := range versions[b.Pack] {
			if p := &versions[b.Pack][i]; p.Entry == b.Plan {
				p.Reviews = append(p.Reviews, Review{e.Happened, b.Reviewer, b.Qualified, string(b.Outcome), b.Authority, string(b.Why), e.Who})
				p.Accepted = b.Outcome == record.Accepted
			}
		}
	})
	var used []Plan
	for _, x := range m.packed() {
		p, ok := inForce(versions[x.pack], x.at)
		if ok && !slices.ContainsFunc(used, func(u Plan) bool { return u.Entry == p.Entry }) {
			used = append(used, p)
		}
	}
	slices.SortFunc(used, func(a, b Plan) int { return cmp.Or(cmp.Compare(a.Pack, b.Pack), cmp.Compare(a.Version, b.Version)) })
	return used
}

// inForce is the last version that was there at a time.
func inForce(versions []Plan, at record.Instant) (p Plan, ok bool) {
	for _, v := range versions {
		if v.At <= at {
			p, ok = v, true
		}
	}
	return p, ok
}

type packedAt struct {
	lot  record.Lot
	pack string
	at   record.Instant
}

// packed are the lots of packs, each with its pack of the book and when it was filled.
func (m Material) packed() (all []packedAt) {
	for _, id := range slices.Concat(m.Reach.Asked, m.Reach.Behind) {
		if l := m.State.Lot(id); l != nil && l.Sort == lots.Packs {
			all = append(all, packedAt{id, l.What, l.Born})
		}
	}
	return all
}

// read takes a plan out of its text. What cannot be read stays as it is, and is told to be missing.
func (p *Plan) read(text string) {
	doc, err := haccp.Read(text)
	if err != nil {
		p.Text, _ = json.Marshal(text) // a text always can
		return
	}
	p.plan, p.Readable = doc.Plan, true
}
