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

// Find is the lots that are meant. Errors are as of ReadCode.
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

func (s *State) findCodes(texts []string, f *Found) error {
	for _, text := range texts {
		codes, err := s.codesIn(text)
		if err != nil {
			return err
		}
		for _, c := range codes {
			if !slices.Contains(f.Lots, c.Lot) {
				f.Lots = append(f.Lots, c.Lot)
			}
			if !c.Numbers.Empty() {
				f.Packs[c.Lot] = f.Packs[c.Lot].Union(c.Numbers)
			}
		}
	}
	slices.Sort(f.Lots)
	return nil
}

// codesIn are the codes of a text: several with commas between them, but for a name or numbers of packs that have some.
func (s *State) codesIn(text string) ([]Code, error) {
	whole, _, err := s.ReadCode(text)
	if !strings.Contains(text, ",") || err == nil && whole.Numbers.Empty() {
		return []Code{whole}, err
	}
	var parts []Code
	for part := range strings.SplitSeq(text, ",") {
		if strings.TrimSpace(part) == "" {
			continue
		}
		c, _, wrong := s.ReadCode(part)
		if wrong != nil && err == nil {
			return []Code{whole}, nil
		}
		if wrong != nil {
			return nil, wrong
		}
		parts = append(parts, c)
	}
	if err == nil && len(parts) > 1 { // a number is also the name of a lot
		last := parts[len(parts)-1]
		return nil, badCode(text, "ask for one of them at a time", "%.80q can mean %s, or %s by itself", text, whole.words(), last.words())
	}
	return parts, nil
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
