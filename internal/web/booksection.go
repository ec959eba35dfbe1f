package web

import (
	"net/http"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/bookform"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/people"
)

// sectionPage is all that templates/booksection.html may show: the entries of one kind.
type sectionPage struct {
	shell
	Name, About string
	One         string
	NewURL      string
	Query       string
	Action      string
	Heads       []sortLink
	Rows        []sectionRow
	Tally       string
	Saved       string
	Teach       []string // when there is none: what it is for, and an example
}

// sortLink sorts the entries by a figure.
type sortLink struct {
	Name, URL string
	Here      bool
}

// sectionRow is one entry in a list.
type sectionRow struct {
	Name, ID, URL string
	Figures       []namedText
	Wrong         string
	Sign, Class   string
	worst         finding.Severity
}

// namedText is a figure with its name.
type namedText struct{ Name, Text string }

// sectionFigures are what matters most of each kind of entry, by the path within it.
var sectionFigures = map[string][]namedText{
	"people":       {{"Begins", ".shift.from"}, {"Ends", ".shift.to"}, {"Wage", ".wage"}},
	"suppliers":    {{"Smallest order", ".minimum"}, {"Delivery", ".delivery"}, {"Days", ".lead-days"}},
	"ingredients":  {{"What", ".class"}, {"Kept", ".storage"}, {"Allergens", ".allergens"}, {"Price", ".buy[0].price"}},
	"equipment":    {{"Kind", ".kind"}, {"How many", ".count"}, {"Volume", ".volume"}},
	"chilling":     {{"How", ".method"}, {"At once", ".count"}, {"Stands in", ".in"}},
	"media":        {{"Low", ".low"}, {"Usual", ".usual"}, {"High", ".high"}},
	"freezers":     {{"How many", ".count"}, {"Air", ".air"}, {"Room", ".room"}},
	"places":       {{"Kind", ".kind"}, {"Freezer", ".freezer"}, {"Room", ".room"}},
	"thermometers": {{"Kind", ".kind"}, {"Watches", ".at"}, {"May be wrong by", ".accuracy"}},
	"bags":         {{"Length", ".length"}, {"Width", ".width"}, {"On hand", ".stock"}},
	"dishes":       {{"About", ".about"}},
	"packs":        {{"Dish", ".dish"}, {"Price", ".price"}, {"In the freezer", ".frozen"}},
	"tax-rates":    {{"Rate", ".rate"}, {"Source", ".source"}},
	"price-lists":  {{"Discount", ".off"}, {"Days to pay", ".terms-days"}},
	"runs":         {{"Day", ".day"}, {"First", ".want[0].pack"}, {"Sealed by", ".finish"}},
}

// teaching is an example of each kind of entry, for a kitchen that has none yet.
var teaching = map[string]string{
	"people":       "Ada works from 06:30 to 15:00 with a break at 10:30, earns $22.00/h and can do kettle and sealing. The timetable gives work only to people who are here and can do it.",
	"suppliers":    "A farm from whom an order of $60 or more is brought free, two days after it is placed. Purchases are then told when to order.",
	"ingredients":  "Onion: class produce, kept dry, no allergens, 12 % trimmed away, bought as 50 lb for $24. With its number in the composition table its water, fat and salt are known.",
	"equipment":    "Two burners of 30,000 Btu/h; a pot of 20 qt that may be filled to 85 % and stands on a burner. The plan cooks in as many loads as they need.",
	"chilling":     "A pot of 20 qt in an ice bath, stirred; or hotel pans 2 in deep in the walk-in. The plan says which are predicted to be fast enough, and your thermometer decides.",
	"media":        "A surface coefficient found from a log of your own, in place of the published range. Most kitchens have none.",
	"freezers":     "One chest freezer of 15 ft3 at -10 °F that takes out 250 W and has room for 300 lb of packs.",
	"places":       "The walk-in with its shelves, the dry store, the chest with its baskets: where lots are kept, so that they are found again.",
	"thermometers": "The probe thermometer of the kettle: may be wrong by 2 °F, checked every 30 days.",
	"bags":         "A bag of 8 by 10 in inside, $0.11 each, with the maker's letter that food may be heated in it.",
	"packs":        "Ale and cheddar sauce, 1 lb: filled with 1 lb of the sauce into a bag of 6 by 9 in, 40 s of hands each, sold for $9.",
	"tax-rates":    "A meals tax with its rate and who says so. Which tax holds for you, ask the authority.",
	"price-lists":  "Shops pay less than neighbours: a list with their prices, a discount, and days to pay.",
	"runs":         "The big Tuesday: 160 packs of a sauce and 90 of a soup, sealed by 16:00.",
	"dishes":       "A sauce as a graph of steps: sweat, simmer, melt. It is built on a page of its own.",
}

// showSection shows the entries of a section, or the form of the one thing that it is.
func (s *server) showSection(w http.ResponseWriter, r *http.Request) {
	book, found := s.house.Book()
	section, ok := bookform.SectionOf(r.PathValue("section"))
	switch {
	case !ok:
		s.missing(w, r, book, "The book has no such section.")
		return
	case section.Single:
		s.showSingle(w, r, book, found)
		return
	}
	query := r.URL.Query()
	v := sectionPage{shell: s.inShell(r, book.Kitchen, section.Name, "book"), Name: section.Name, About: section.About, One: section.One, NewURL: sectionURL(section.Key) + "/new", Action: sectionURL(section.Key),
		Query: tidy(query.Get("q")), Saved: retiredText(query)}
	figures := s.figuresFor(r, section.Key)
	entries := bookform.Entries(book, section.Key)
	for _, e := range entries {
		row := s.sectionRow(r, section.Key, e, figures, found, houseOf(book.Kitchen))
		if v.Query == "" || rowHas(row, v.Query) {
			v.Rows = append(v.Rows, row)
		}
	}
	sortRows(v.Rows, query.Get("sort"), figures)
	v.Heads = sortLinks(section.Key, query, figures)
	if len(entries) == 0 {
		v.Teach = []string{section.About + ".", "For example: " + teaching[section.Key]}
	}
	v.Tally = times(len(v.Rows), section.One, strings.ToLower(section.Name))
	bookSectionTemplate.show(w, http.StatusOK, v)
}

// showSingle shows one of the things of which there is one alone; what is not given yet has an empty form.
func (s *server) showSingle(w http.ResponseWriter, r *http.Request, book kitchen.Book, found finding.List) {
	x, ok := s.nounOf(w, r, book)
	if !ok {
		return
	}
	v := s.entryPage(r, book, x)
	v.Saved, v.Before, v.Changed = s.savedEntry(r, x)
	s.entry(w, r, http.StatusOK, v, book, x, nil, found)
}

func retiredText(query url.Values) string {
	if query.Get(savedKey) == "retired" {
		return "It is out of the book. Its versions stay: what it was can be brought back."
	}
	return ""
}

// figuresFor are the figures of a section that who asks may see.
func (s *server) figuresFor(r *http.Request, section string) []namedText {
	return slices.DeleteFunc(slices.Clone(sectionFigures[section]), func(f namedText) bool {
		return f.Text == ".wage" && !sees(r, people.Managing) || (f.Name == "Price" || f.Text == ".minimum" || f.Text == ".delivery") && !sees(r, people.Money)
	})
}

func (s *server) sectionRow(r *http.Request, section string, e bookform.Entry, figures []namedText, found finding.List, h bookform.House) sectionRow {
	row := sectionRow{Name: e.Name, ID: e.ID, URL: entryURL(section, e.ID)}
	if section == "people" && !sees(r, people.Managing) {
		row.URL = ""
	}
	pairs := bookform.Compare(e.Value, nil, h)
	for _, f := range figures {
		i := slices.IndexFunc(pairs, func(p bookform.Pair) bool { return p.Path == f.Text })
		text := ""
		if i >= 0 {
			text = pairs[i].A
		}
		row.Figures = append(row.Figures, namedText{f.Name, text})
	}
	mine := within(found, e.Path)
	row.Class, row.Sign = worstMark(mine)
	if row.Class != "" {
		row.Wrong, row.worst = viewFindings(mine).Tally, mine.Worst()
	}
	return row
}

// rowHas says that an entry has all words that are looked for.
func rowHas(row sectionRow, query string) bool {
	all := strings.ToLower(row.Name + " " + row.ID)
	for _, f := range row.Figures {
		all += " " + strings.ToLower(f.Text)
	}
	for _, word := range strings.Fields(strings.ToLower(query)) {
		if !strings.Contains(all, word) {
			return false
		}
	}
	return true
}

// Ways to sort besides by a figure.
const sortWrong = "wrong"

func sortRows(rows []sectionRow, by string, figures []namedText) {
	i := slices.IndexFunc(figures, func(f namedText) bool { return f.Text == by })
	slices.SortStableFunc(rows, func(a, b sectionRow) int {
		switch {
		case by == sortWrong:
			return int(b.worst) - int(a.worst)
		case i < 0:
			return 0
		case a.Figures[i].Text == "" || b.Figures[i].Text == "": // what is not given comes last
			return strings.Compare(b.Figures[i].Text, a.Figures[i].Text)
		}
		return strings.Compare(a.Figures[i].Text, b.Figures[i].Text)
	})
}

func sortLinks(section string, query url.Values, figures []namedText) []sortLink {
	var all []sortLink
	ways := append([]namedText{{"Name", ""}}, figures...)
	ways = append(ways, namedText{"What is wrong", sortWrong})
	for _, x := range ways {
		q := url.Values{}
		if text := query.Get("q"); text != "" {
			q.Set("q", text)
		}
		if x.Text != "" {
			q.Set("sort", x.Text)
		}
		all = append(all, sortLink{x.Name, sectionURL(section) + queryOf(q), query.Get("sort") == x.Text})
	}
	return all
}

var bookSectionTemplate = parse[sectionPage]("booksection")
