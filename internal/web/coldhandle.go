package web

import (
	"cmp"
	"errors"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// handlePage is all that templates/handle.html may show: something is scanned or typed, and moved, written off, held or released.
type handlePage struct {
	shell
	Ways     []partLink
	Do       string
	Name     string // of what is done
	Button   string
	Entry    string
	Code     typedField
	Fields   []field
	Problem  string // of no field
	Lot      *handleLot
	StockURL string
}

// handleLot is what is known of the lot that was scanned.
type handleLot struct {
	Code, What string
	StoryURL   string
	LabelURL   string
	Is         []string
	Held       []string
	Past       bool
	Until      string
	Rows       []stockRow
}

// way is something that is done with a lot.
type way struct {
	key, name, button string
	enter             func(coldstore.Ask, *lots.State) ([]record.Body, error)
	fields            []string
}

// ways are what can be done, the commonest first.
var ways = []way{
	{"move", "Move", "Move it", coldstore.Ask.Move, []string{"which", "from", "to"}},
	{"hold", "Hold", "Hold it", coldstore.Ask.Hold, []string{"which", "why"}},
	{"release", "Release", "Decide so", coldstore.Ask.Release, []string{"which", "disposition", "why"}},
	{"write-off", "Write off", "Write it off", coldstore.Ask.WriteOff, []string{"which", "from", "why"}},
}

func wayOf(key string) way {
	i := slices.IndexFunc(ways, func(w way) bool { return w.key == key })
	return ways[max(0, i)]
}

var handleTemplate = parse[handlePage]("handle")

// showHandle shows the form, with what is known of the lot if one was scanned.
func (s *server) showHandle(w http.ResponseWriter, r *http.Request) {
	s.ofCold(w, r, func(c cold) func() {
		v := s.handleForm(r, c, c.query)
		status := http.StatusOK
		if code := c.query.Get("code"); strings.TrimSpace(code) != "" && v.Lot == nil {
			_, _, err := coldstore.InHand(c.state, code)
			v.refuse(err)
			status = http.StatusNotFound
		}
		return func() { handleTemplate.show(w, status, v) }
	})
}

// handle enters what was asked for, or shows the form again with what is wrong beside its field. Afterwards the same is done with the next: only
// the code is empty.
func (s *server) handle(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form cannot be read.")
		return
	}
	s.ofCold(w, r, func(c cold) func() {
		form := r.PostForm
		bodies, err := wayOf(form.Get("do")).enter(askOf(c, form), c.state)
		if err != nil {
			v := s.handleForm(r, c, form)
			v.refuse(err)
			return func() { handleTemplate.show(w, http.StatusUnprocessableEntity, v) }
		}
		next := url.Values{"do": {form.Get("do")}}
		for _, key := range []string{"to", "why", "units"} {
			if x := tidy(form.Get(key)); x != "" {
				next.Set(key, x)
			}
		}
		return func() { s.enter(w, r, handlePath+queryOf(next), bodies...) }
	})
}

// nowhere is how a form says the place that nobody told.
const nowhere = "?"

func askOf(c cold, form url.Values) coldstore.Ask {
	a := coldstore.Ask{Code: tidy(form.Get("code")), Which: tidy(form.Get("which")), Why: tidy(form.Get("why")), Do: record.Disposition(form.Get("disposition")), Units: c.rd.units, To: record.Place(tidy(form.Get("to")))}
	if from := form.Get("from"); from != "" {
		place := record.Place(from)
		if from == nowhere {
			place = ""
		}
		a.From = &place
	}
	if p, ok := c.store.Layout.Find(string(a.To)); ok && a.To != "" {
		a.To = p.ID
	}
	return a
}

func (s *server) handleForm(r *http.Request, c cold, form url.Values) handlePage {
	do := wayOf(form.Get("do"))
	code := strings.Join(strings.Fields(tidy(form.Get("code"))), " ")
	v := handlePage{shell: s.inShell(r, c.book.Kitchen, do.name, "stock"), Do: do.key, Name: do.name, Button: do.button, Entry: cmp.Or(form.Get(entryField), newEntryID()), StockURL: coldURL(stockPath, c.query),
		Code: typedField{Key: "code", Label: "Lot or pack", Hint: "Scan it, or type it as on the tub or bag: R-1126-2, P-1201-3#17.", Value: code}}
	for _, x := range ways {
		v.Ways = append(v.Ways, partLink{link{x.name, coldURL(handlePath, c.query, "do", x.key, "code", code, "from", form.Get("from"))}, x.key == do.key})
	}
	read, l, err := coldstore.InHand(c.state, code)
	if err == nil {
		v.Lot = c.handleLot(l, read)
	} else {
		l = nil
	}
	for _, key := range do.fields {
		if f, ok := c.handleField(key, form, l, !read.Numbers.Empty()); ok {
			v.Fields = append(v.Fields, f)
		}
	}
	return v
}

// handleField is a field of the form, unless it is clear what it would say.
func (c cold) handleField(key string, form url.Values, l *lots.Lot, numbered bool) (field, bool) {
	value := tidy(form.Get(key))
	switch key {
	case "which":
		hint := "all; next 12 for any twelve packs; or the numbers on them: #17, 1-12, 15. Leave it empty if the code has the number."
		switch {
		case l != nil && l.Numbers.Empty():
			hint = "all, or what it weighs: 2 lb 3 oz, 1.5 kg. A number alone is " + map[unit.System]string{unit.US: "pounds", unit.Metric: "kilograms"}[c.rd.units] + "."
		case numbered:
			return field{Key: key, Label: "Which", Hint: "The code has the number: leave this empty.", Value: value}, value != ""
		}
		return field{Key: key, Label: "Which, or how much", Hint: hint, Value: value}, true
	case "from":
		return c.fromField(value, l)
	case "to":
		return field{Key: key, Label: "To", Hint: "What still fits is behind the name.", Value: value, Options: c.placeOptions(value, "", true)}, true
	case "disposition":
		return field{Key: key, Label: "What becomes of it", Hint: "Until it is reworked or destroyed it stays held.", Value: value, Options: []option{{"", "choose", value == ""},
			{string(record.ReleaseForUse), "released: it may be used and sold", value == string(record.ReleaseForUse)}, {string(record.Rework), "to be reworked", value == string(record.Rework)}, {string(record.Destroy), "to be destroyed", value == string(record.Destroy)}}}, true
	}
	return field{Key: key, Label: "Why", Hint: "In your own words: it is kept with your name.", Value: value}, true
}

// fromField asks from where, when a lot is at more than one place.
func (c cold) fromField(value string, l *lots.Lot) (field, bool) {
	if l == nil || len(l.Here) < 2 {
		return field{}, false
	}
	f := field{Key: "from", Label: "From", Hint: "It is at more than one place.", Value: value, Options: []option{{"", "wherever they are", value == ""}}}
	for _, spot := range c.store.Spots {
		if x, here := l.Here[spot.ID]; here {
			key := cmp.Or(string(spot.ID), nowhere)
			much := times(int(x.Numbers.Count()), "pack", "packs")
			if x.Numbers.Empty() {
				much = c.rd.fig(x.Mass).First
			}
			f.Options = append(f.Options, option{key, c.placeName(spot.ID) + ": " + much, value == key || value == string(spot.ID) && value != ""})
		}
	}
	return f, true
}

// placeOptions are the places of the book, with what still fits; of a kind alone if one is given. What was typed stays among them.
func (c cold) placeOptions(value string, kind coldstore.Kind, choose bool) []option {
	var options []option
	if choose {
		options = append(options, option{"", "choose", value == ""})
	}
	here := value == ""
	for _, spot := range c.store.Spots {
		if spot.ID == "" || !spot.Listed && string(spot.ID) != value || kind != "" && spot.Kind != kind && string(spot.ID) != value {
			continue
		}
		says := c.placeName(spot.ID)
		if fits, known := c.store.Fits(spot.ID); known {
			says += ": room for " + c.rd.fig(fits).First
		}
		here = here || string(spot.ID) == value
		options = append(options, option{string(spot.ID), says, string(spot.ID) == value})
	}
	if !here {
		options = append(options, option{value, value, true})
	}
	return options
}

func (c cold) handleLot(l *lots.Lot, code lots.Code) *handleLot {
	v := &handleLot{Code: code.String(), What: c.whatIs(l), StoryURL: lotURL(lotPath, l.ID, c.query), LabelURL: coldURL(labelPath, c.query, "lot", string(l.ID)), Until: string(l.Last()), Past: l.Last() != "" && l.Last() < c.store.Today}
	for _, w := range []struct{ lead, text string }{{"", string(l.Sort)}, {"run ", l.Run}, {"from ", l.Supplier}, {"their lot ", l.SupplierLot}} {
		if w.text != "" {
			v.Is = append(v.Is, w.lead+w.text)
		}
	}
	for _, h := range l.Holds {
		if !code.Numbers.Empty() && !h.Numbers.Empty() && h.Numbers.Intersect(code.Numbers).Empty() {
			continue
		}
		says := "all of it: "
		if !h.Numbers.Empty() {
			says = theirNumbers(h.Numbers.String()) + ": "
		}
		if says += h.Why; h.Who != "" {
			says += " (" + h.Who + ")"
		}
		if h.Decided != "" {
			says += "; decided: " + string(h.Decided)
		}
		v.Held = append(v.Held, says)
	}
	for _, g := range c.store.OldestFirst() {
		if g.Lot == l {
			v.Rows = append(v.Rows, c.stockRow(g))
		}
	}
	return v
}

// refuse puts what is wrong beside its field.
func (v *handlePage) refuse(err error) {
	why := (*coldstore.Refusal)(nil)
	if !errors.As(err, &why) {
		v.Problem = sentence(err)
		return
	}
	says := sentence(why)
	if why.Field == "code" {
		v.Code.Problem = says
		return
	}
	key := map[string]string{"do": "disposition"}[why.Field]
	i := slices.IndexFunc(v.Fields, func(f field) bool { return f.Key == cmp.Or(key, why.Field) })
	if i < 0 {
		v.Problem = says
		return
	}
	v.Fields[i].Problem = says
}
