package help

import "kettlefrost/internal/find"

// What something that was found is of.
const (
	OfFigure = "figure"
	OfTerm   = "term"
)

// Found is an entry or a term that was found.
type Found struct {
	Key, Title, Says string
	Term             bool
}

// Findable is all entries and terms as things that can be found.
func (h *Help) Findable() []find.Entry {
	var all []find.Entry
	for _, e := range h.entries {
		all = append(all, find.Entry{Kind: find.Help, ID: e.Key, Of: OfFigure, Name: e.Title, About: e.What, Also: []string{e.Place}})
	}
	for _, t := range h.terms {
		all = append(all, find.Entry{Kind: find.Help, ID: t.Slug, Of: OfTerm, Name: t.Name, About: t.Means, Also: t.Also})
	}
	return all
}

// Find is what all of some words fit, the best first.
func (h *Help) Find(words string) []Found {
	var all []Found
	for _, g := range find.Search(words, find.All, find.Help, find.NewIndex(h.Findable())).Groups {
		for _, r := range g.Results {
			all = append(all, Found{Key: r.ID, Title: r.Name, Says: r.About, Term: r.Of == OfTerm})
		}
	}
	return all
}
