package foodtable

// Fit says how well a search is answered.
type Fit struct {
	Words int  `json:"words"` // words of the query that fit
	Of    int  `json:"of"`    // words of the query
	Near  bool `json:"near"`  // one of them fits only if it was misspelt
}

// All says whether every word of the query fits.
func (f Fit) All() bool { return f.Words == f.Of }

// Match is a food that answers a search.
type Match struct {
	Food Food `json:"food"`
	Fit
}

// YieldMatch is a yield that answers a search.
type YieldMatch struct {
	Yield Yield `json:"yield"`
	Fit
}

// Search finds foods by words in any order: whole words or their beginnings, singular or plural, with a small slip of the pen.
// It is asked like a cook asks: "chicken thigh raw", "chedar", "lentil". A food counts when at least half of the words fit. The
// best come first: most words, in the cook's name before the official description, exact before beginnings before slips, the
// food itself ("garlic, raw") before what is made of it ("garlic powder"), the shorter name. An NDB number finds its food. The
// same query always gives the same list. At most limit foods are returned; all when limit is 0 or less. Of a long query the first
// 16 different words count.
func (t *Table) Search(query string, limit int) []Match {
	hits, of := t.foodWords.search(query)
	var ms []Match
	for _, h := range firstOf(hits, limit) {
		ms = append(ms, Match{Food: t.foods[h.entry], Fit: h.fit(of)})
	}
	return ms
}

// SearchYields finds yields by the words of item, method and basis, like Search: "brisket braised", "lentils dry".
func (t *Table) SearchYields(query string, limit int) []YieldMatch {
	hits, of := t.yieldWords.search(query)
	var ms []YieldMatch
	for _, h := range firstOf(hits, limit) {
		ms = append(ms, YieldMatch{Yield: t.yields[h.entry], Fit: h.fit(of)})
	}
	return ms
}

func (h hit) fit(of int) Fit { return Fit{Words: h.words, Of: of, Near: h.near} }

func firstOf(hits []hit, limit int) []hit {
	if limit <= 0 {
		return hits
	}
	return hits[:min(limit, len(hits))]
}

func (t *Table) buildIndexes() {
	for _, f := range t.foods {
		t.foodWords.add(f.Name, f.Description+" "+f.NDB)
	}
	for _, y := range t.yields {
		t.yieldWords.add(y.Item, y.Method+" "+y.Basis+" "+y.NDB)
	}
}
