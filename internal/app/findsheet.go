package app

import "kettlefrost/internal/find"

// FoundSchema names the shape of a FoundSheet.
const FoundSchema = "kettlefrost.found/1"

// FoundSheet is what was found, as one value.
type FoundSheet struct {
	Schema  string       `json:"schema"`
	Asked   string       `json:"asked"`
	Scanned *find.Scan   `json:"scanned,omitempty"` // it was what a scanner reads from a bar code or a link
	Lot     string       `json:"lot,omitempty"`     // the lot, or the pack, that it names: nothing else is meant
	Words   []string     `json:"words"`             // that were looked for
	Left    bool         `json:"left,omitempty"`    // it was longer than what counts
	Total   int          `json:"total"`             // how many there are, those that are not listed among them
	Listed  int          `json:"listed"`
	Groups  []FoundGroup `json:"groups"` // by kind, the one with the best result first
}

// FoundGroup is what was found of one kind.
type FoundGroup struct {
	Kind    find.Kind   `json:"kind"`
	Total   int         `json:"total"` // how many there are of the kind
	Results []FoundItem `json:"results"`
}

// FoundItem is one thing that was found.
type FoundItem struct {
	ID    string `json:"id"`              // its code
	Of    string `json:"of,omitempty"`    // a step's dish, a credit note's invoice, the file of the book that it is written in
	Name  string `json:"name,omitempty"`  // where it has one besides its code
	About string `json:"about,omitempty"` // in short
	Day   string `json:"day,omitempty"`
	Near  bool   `json:"near,omitempty"` // only if a word that was asked for was misspelt
}

func (v *FoundSheet) take(f find.Found) {
	v.Words, v.Left, v.Total = append([]string{}, f.Words...), f.Left, f.Total
	for _, g := range f.Groups {
		group := FoundGroup{Kind: g.Kind, Total: g.Total, Results: []FoundItem{}}
		for _, r := range g.Results {
			group.Results = append(group.Results, FoundItem{ID: r.ID, Of: r.Of, Name: r.Name, About: r.About, Day: r.Day, Near: r.Near})
		}
		v.Groups = append(v.Groups, group)
		v.Listed += len(group.Results)
	}
}
