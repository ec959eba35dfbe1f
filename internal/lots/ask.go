package lots

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"kettlefrost/internal/record"
)

// Ask is which lots somebody means: what stands on a tub or a bag, or what a supplier says on the telephone. All that is given must fit.
type Ask struct {
	Codes       []string // of a lot or a pack, or several with commas between them
	Supplier    string   // part of the name will do
	SupplierLot string
	What        string // ingredient, output or pack: part of the name will do
	Run         string
	Sort        Sort           // received, made or packed; "" is any
	From        record.Instant // when it came: at or after; 0 is from the beginning
	Before      record.Instant // and before; 0 is without an end
}

// Empty says that nothing was asked.
func (a Ask) Empty() bool {
	return len(a.Codes) == 0 && a.Supplier == "" && a.SupplierLot == "" && a.What == "" && a.Run == "" && a.Sort == "" && a.From == 0 && a.Before == 0
}

// Found is the lots that an Ask means.
type Found struct {
	Lots []record.Lot // by name
	// Unsure are lots that fit all that was asked but for the supplier's lot number, which nobody wrote down: they cannot be ruled out.
	Unsure []record.Lot
	Packs  map[record.Lot]record.Numbers // the packs of a lot that codes named
}

// Find is the lots that are meant. A code that names no lot is an *UnknownError.
func (s *State) Find(a Ask) (Found, error) {
	f := Found{Packs: map[record.Lot]record.Numbers{}}
	if len(a.Codes) > 0 {
		return f, s.findCodes(a.Codes, &f)
	}
	if a.Empty() {
		return f, nil
	}
	for l := range s.All() {
		switch {
		case l.Sort == Pot || !a.fits(l):
		case a.SupplierLot == "" || same(l.SupplierLot, a.SupplierLot):
			f.Lots = append(f.Lots, l.ID)
		case l.SupplierLot == "" && l.Sort == Goods:
			f.Unsure = append(f.Unsure, l.ID)
		}
	}
	return f, nil
}

// fits says whether all fits but the supplier's lot number.
func (a Ask) fits(l *Lot) bool {
	return (a.Sort == "" || l.Sort == a.Sort) && has(l.Supplier, a.Supplier) && has(l.What, a.What) && (a.Run == "" || same(l.Run, a.Run)) &&
		(a.From == 0 || l.Born >= a.From) && (a.Before == 0 || l.Born < a.Before) && (a.SupplierLot == "" || l.Sort == Goods)
}

func (s *State) findCodes(codes []string, f *Found) error {
	for _, code := range s.apart(codes) {
		l, pack := s.byCode(code)
		if l == nil {
			return &UnknownError{record.Lot(code)}
		}
		if !slices.Contains(f.Lots, l.ID) {
			f.Lots = append(f.Lots, l.ID)
		}
		if !pack.Empty() {
			f.Packs[l.ID] = f.Packs[l.ID].Union(pack)
		}
	}
	slices.Sort(f.Lots)
	return nil
}

// apart divides codes at commas, but for a name that has one.
func (s *State) apart(codes []string) []string {
	var all []string
	for _, code := range codes {
		if l, _ := s.byCode(code); l != nil || !strings.Contains(code, ",") {
			all = append(all, code)
			continue
		}
		for part := range strings.SplitSeq(code, ",") {
			if part = strings.TrimSpace(part); part != "" {
				all = append(all, part)
			}
		}
	}
	return all
}

// byCode is the lot of a code: its name, its name written a little differently, or its name with the number of a pack behind it.
func (s *State) byCode(code string) (*Lot, record.Numbers) {
	code = strings.TrimSpace(code)
	if l := s.alike(code); l != nil {
		return l, record.Numbers{}
	}
	at := strings.LastIndexFunc(code, func(r rune) bool { return r < '0' || r > '9' })
	if at < 0 {
		return nil, record.Numbers{}
	}
	pack, err := record.ParseNumbers(code[at+1:])
	if err != nil || pack.Empty() {
		return nil, record.Numbers{}
	}
	name := strings.TrimRightFunc(code[:at+1], func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	if l := s.alike(name); l != nil && l.Numbers.Covers(pack) {
		return l, pack
	}
	return nil, record.Numbers{}
}

// alike is the lot of a name, or else the only one whose name differs from it in nothing but case, spaces and strokes.
func (s *State) alike(name string) *Lot {
	if l := s.lots[record.Lot(name)]; l != nil {
		return l
	}
	var found *Lot
	for _, l := range s.byNode {
		if same(string(l.ID), name) {
			if found != nil {
				return nil
			}
			found = l
		}
	}
	return found
}

// plain is a text without case, spaces and strokes: what is left when it is read out on the telephone.
func plain(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, text)
}

func same(a, b string) bool { return a == b || plain(a) != "" && plain(a) == plain(b) }

// has says whether a part of a text is what was asked for; nothing asked fits everything.
func has(text, asked string) bool {
	return asked == "" || plain(asked) != "" && strings.Contains(plain(text), plain(asked)) || text == asked
}

var sortWords = map[Sort]string{Goods: "what was received", Batch: "what was made", Packs: "what was packed"}

// Words is what was asked, to be read.
func (a Ask) Words() string {
	var words []string
	for _, w := range []struct{ lead, text string }{{"", strings.Join(a.Codes, ", ")}, {"", sortWords[a.Sort]}, {"", a.What}, {"supplier ", a.Supplier}, {"their lot ", a.SupplierLot}, {"run ", a.Run}} {
		if w.text != "" {
			words = append(words, w.lead+w.text)
		}
	}
	return cmp.Or(strings.Join(words, ", "), "everything")
}
