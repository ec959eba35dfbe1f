package lots_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// bagged are lots of packs 1 to 20 each, and lots in bulk.
func bagged(t testing.TB, bulk string, packed ...record.Lot) *lots.State {
	t.Helper()
	bodies := []record.Body{record.Received{Lot: "kettle", Ingredient: "salt", Supplier: "s", Mass: 900 * kg}}
	for lot := range strings.FieldsSeq(bulk) {
		bodies = append(bodies, record.Received{Lot: record.Lot(lot), Ingredient: "salt", Supplier: "s", Mass: kg})
	}
	for _, lot := range packed {
		bodies = append(bodies, record.Packed{Run: "r", Pack: "p", Lot: lot, Numbers: packs(t, "1-20"), Label: kg, Mass: 20 * kg, From: []record.Part{{Lot: "kettle", Mass: 20 * kg}}, BestBefore: "2027-01-01"})
	}
	s, _ := state(t, bodies...)
	return s
}

// readsAs is the code in its plain form; ? and the problem if it is asked about or not right, and nothing if no lot is called so.
func readsAs(t testing.TB, s *lots.State, text string) string {
	t.Helper()
	code, l, err := s.ReadCode(text)
	wrong, unknown := (*lots.CodeError)(nil), (*lots.UnknownError)(nil)
	switch {
	case err == nil && (l == nil || l.ID != code.Lot || !l.Numbers.Covers(code.Numbers)):
		t.Errorf("%q: %+v is not of %+v", text, code, l)
	case err != nil && (l != nil || code.Lot != "" || !code.Numbers.Empty()):
		t.Errorf("%q: %+v beside %v", text, code, err)
	case errors.As(err, &wrong):
		if wrong.Fix == "" {
			t.Errorf("%q: nothing to do about %s", text, wrong.Problem)
		}
		return "? " + wrong.Problem
	case errors.As(err, &unknown):
		return ""
	}
	return code.String()
}

// What scanners and people type.
func TestCodes(t *testing.T) {
	s := bagged(t, "77#4 Tub TUB R-1 R-12", "P-1", "P-12", "P-soup", "P 7", "P 1", "2026 A/7", "P-5", "P-5-3", "p5", "salt, fine")
	for text, want := range map[string]string{
		// plain, and all that stands for it
		"P-1#17": "P-1#17", "P-12": "P-12", "P-12#3": "P-12#3", " p-1 # 3, 5-6 ": "? ", "P-soup#17": "P-soup#17", "p-SOUP #3, 5-6": "P-soup#3, 5-6",
		"P-soup/17": "P-soup#17", " P-soup : 1-4, 9 ": "P-soup#1-4, 9", "P-soup no. 17": "P-soup#17", "p soup No. 17": "P-soup#17", "P-soup # no. 17": "P-soup#17", "p soup: no. 17": "P-soup#17", "P-soup": "P-soup",
		"(10)P-soup(21)17": "P-soup#17", "(10)P-soup": "P-soup", "(10)p soup(21)3": "P-soup#3", "(10)P 9(21)3": "",
		"p 7 #3": "P 7#3", "P 7/3": "P 7#3", "P 7:3-4": "P 7#3-4", "P7": "P 7", "2026 A/7/3": "2026 A/7#3", "2026 a 7#3": "2026 A/7#3", "salt, fine": "salt, fine", "SALT FINE#2, 3": "salt, fine#2-3",
		// names letter for letter, also with the sign in them
		"77#4": "77#4", "77 #4": "77#4", "77": "", "Tub": "Tub", "TUB": "TUB", "tub": `? "tub" can mean lot TUB or lot Tub`, "P 1": "P 1", "P-1": "P-1",
		// several numbers behind a space are numbers of packs; one alone could be a count, or part of a name
		"P-soup 1-4": "P-soup#1-4", "P-soup 3, 5": "P-soup#3, 5", "P-soup 17": `? it is not clear whether "P-soup 17" means pack 17 of lot P-soup`, "P-12 3": `? it is not clear whether "P-12 3" means pack 3 of lot P-12`,
		"2026 A/7 3": `? it is not clear whether "2026 A/7 3" means pack 3 of lot 2026 A/7`, "P-soup-17": `? it is not clear whether "P-soup-17" means pack 17 of lot P-soup`,
		"P-5 3": `? "P-5 3" can mean lot P-5-3 or pack 3 of lot P-5`, "P-5/3": `? "P-5/3" can mean lot P-5-3 or pack 3 of lot P-5`, "P-5#3": "P-5#3", "p-5-3": "P-5-3", "P-5-3#3": "P-5-3#3",
		// numbers that are not right
		"P-1#41": "? lot P-1 has no pack 41: its packs are 1-20", "P-1 41": "? lot P-1 has no pack 41: its packs are 1-20", "R-1#4": "? lot R-1 is not of numbered packs", "R-12 2": "? lot R-12 is not of numbered packs",
		"P 7/": `? "" is no number of a pack`, "P 7#": `? "" is no number of a pack`, "P 7#x": `? "x" is no number of a pack`, "P 7#9-3": `? "9-3" is no number of a pack`, "P-soup 0": `? "0" is no number of a pack`, "(10)P 7(21)": `? "" is no number of a pack`,
		// nothing that is known
		"R-3 1": "", "P-soup x": "", "17": "", "P-soup17": "", "P-112": "", "P-1-12": "? ", "#": "", "--": "", "4006381333931": "", "": "? there is no code", "  ": "? there is no code",
	} {
		got := readsAs(t, s, text)
		if got != want && (want != "? " || !strings.HasPrefix(got, want)) {
			t.Errorf("%q reads as %q, want %q", text, got, want)
		}
		if got != "" && got[0] != '?' {
			if again := readsAs(t, s, got); again != got {
				t.Errorf("%q reads back as %q", got, again)
			}
		}
	}
	for text, want := range map[string]string{"P-soup 17": "P-soup#17 for pack 17", "P-5/3": "P-5-3 or P-5#3", "tub": "TUB or Tub", "P-soup-17": "P-soup#17"} {
		if _, _, err := s.ReadCode(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: what to write is %v, want %s", text, err, want)
		}
	}
}

// Commas divide codes, and numbers of packs; where they could do both, nothing is taken for granted.
func TestCodesWithCommas(t *testing.T) {
	s := bagged(t, "5 R-1", "P-1", "salt, fine")
	for text, want := range map[string]string{"P-1#3, R-1,": "P-1 R-1", "P-1#3, 6": "P-1", "salt, fine": "salt, fine", "salt, fine#2, 3": "salt, fine", "R-1,P-1": "P-1 R-1", "P-1#3, 5": "?", "R-1, none": "?", "R-1, P-1 3": "?", ",": "", "P-1#3, x": "?"} {
		f, err := s.Find(lots.Ask{Codes: []string{text}})
		got := names(f.Lots)
		if err != nil {
			got = "?"
		}
		if got != want {
			t.Errorf("%q means %s (%v), want %s", text, got, err, want)
		}
	}
	if f, err := s.Find(lots.Ask{Codes: []string{"P-1#3, 6"}}); err != nil || f.Packs["P-1"].String() != "3, 6" {
		t.Errorf("the packs are %v (%v)", f.Packs, err)
	}
}

// Whatever is typed, what is read is a lot and packs of it, and its plain form is read as the same.
func FuzzReadCode(f *testing.F) {
	for _, text := range []string{"P-soup 17", "(10)P-soup(21)17", "P-soup no. 1-4, 9", "# /:", "P-5/3", "p 5 3", "77 # 4", "P-soup - 3", "İ#1", "\xff#2"} {
		f.Add(text)
	}
	s := bagged(f, "77#4 Tub TUB", "P-soup", "P-5", "P-5-3", "2026 A/7")
	f.Fuzz(func(t *testing.T, text string) {
		got := readsAs(t, s, text)
		if got == "" || got[0] == '?' {
			return
		}
		if again := readsAs(t, s, got); again != got {
			t.Errorf("%q is read as %q, and that as %q", text, got, again)
		}
		named := slices.ContainsFunc([]string{"77", "tub", "soup", "5", "2026"}, func(part string) bool { return strings.Contains(strings.ToLower(text), part) })
		if !named {
			t.Errorf("%q is read as %q", text, got)
		}
	})
}
