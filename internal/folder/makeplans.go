package folder

import (
	"cmp"
	"encoding/json"
	"slices"

	"kettlefrost/internal/hazardplan"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// plans are the versions of the hazard plans that were in force when the lots were packed; where none was, the last that was written by then, which
// nobody had accepted.
func (m Material) plans() (used []Plan) {
	var state hazardplan.State
	for _, e := range m.standing() {
		state.Take(e) // what does not fit is told by those who show plans
	}
	for _, x := range m.packed() {
		v, _, accepted := state.InForce(x.pack, x.at)
		for _, written := range state.Versions(x.pack) {
			if !accepted && written.At <= x.at {
				v = written
			}
		}
		if v.Number > 0 && !slices.ContainsFunc(used, func(u Plan) bool { return u.Entry == v.Entry && u.Accepted == accepted }) {
			used = append(used, planOf(x.pack, v, accepted))
		}
	}
	slices.SortFunc(used, func(a, b Plan) int { return cmp.Or(cmp.Compare(a.Pack, b.Pack), cmp.Compare(a.Version, b.Version)) })
	return used
}

// standing are the entries that hold, in the order in which they happened.
func (m Material) standing() (all []record.Entry) {
	for _, g := range m.Reach.Groups {
		if g.Holds != nil {
			all = append(all, *g.Holds)
		}
	}
	slices.SortFunc(all, record.Compare)
	return all
}

func planOf(pack string, v hazardplan.Version, accepted bool) Plan {
	p := Plan{Pack: pack, Entry: v.Entry, At: v.At, Who: v.Who, Version: v.Number, Basis: v.Basis, Note: v.Note, Accepted: accepted, Readable: v.Bad == "", Text: json.RawMessage(v.Text), plan: v.Doc.Plan}
	if !json.Valid(p.Text) {
		p.Text, _ = json.Marshal(v.Text) // a text always can
	}
	for _, r := range v.Reviews {
		outcome := record.SentBack
		if r.Accepted {
			outcome = record.Accepted
		}
		p.Reviews = append(p.Reviews, Review{r.At, r.Reviewer, r.Qualified, string(outcome), r.Authority, r.Why, r.Who})
	}
	return p
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
