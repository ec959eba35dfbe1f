package coldstore

import (
	"fmt"
	"iter"
	"strings"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// Code is what stands on a tub or a bag and is scanned or typed. Its plain form is the lot alone, R-1126-2, or the lot, a number sign and the
// number of the pack: P-1201-3#17. Read, it may have spaces around the sign, several numbers behind it (P-1201-3 #1-40, 52) and any case of
// letters; a stroke or a colon may stand for the sign, and the brackets of GS1 for both: (10)P-1201-3(21)17.
type Code struct {
	Lot     record.Lot
	Numbers record.Numbers // none: the lot alone
}

// String is the code in its plain form.
func (c Code) String() string {
	if c.Numbers.Empty() {
		return string(c.Lot)
	}
	return string(c.Lot) + "#" + c.Numbers.String()
}

// Refusal says why something cannot be entered. Nothing of it is.
type Refusal struct {
	Field   string // of the form: code, which, from, to, why
	Problem string
	Fix     string
}

func (e *Refusal) Error() string {
	if e.Fix == "" {
		return e.Problem
	}
	return e.Problem + ": " + e.Fix
}

func refuse(field, fix, problem string, of ...any) error {
	return &Refusal{Field: field, Problem: fmt.Sprintf(problem, of...), Fix: fix}
}

// ReadCode finds the lot that a code names. Errors are *Refusal.
func ReadCode(s *lots.State, text string) (Code, *lots.Lot, error) {
	text = strings.Join(strings.Fields(text), " ")
	if text == "" {
		return Code{}, nil, refuse("code", "scan a label, or type the lot such as P-1201-3 or the pack such as P-1201-3#17", "there is no code")
	}
	if l := byName(s, text); l != nil { // also a lot whose name has the sign in it
		return Code{Lot: l.ID}, l, nil
	}
	for name, numbers := range cuts(text) {
		if l := byName(s, name); l != nil {
			n, err := packNumbers(l, numbers)
			return Code{Lot: l.ID, Numbers: n}, l, err
		}
	}
	return Code{}, nil, unknownLot(text)
}

func unknownLot(name string) error {
	return refuse("code", "look how it is written on the tub or the bag; what nobody entered is set aside until somebody says where it came from", "no entry names a lot %.80q", name)
}

// signs may stand between the lot and the numbers.
const signs = "#/:"

// cuts are the ways to take a code apart into a name and numbers, the number sign first.
func cuts(text string) iter.Seq2[string, string] {
	return func(yield func(name, numbers string) bool) {
		if rest, ok := strings.CutPrefix(text, "(10)"); ok {
			name, numbers, _ := strings.Cut(rest, "(21)")
			yield(name, numbers)
			return
		}
		for _, sign := range signs {
			if i := strings.LastIndexByte(text, byte(sign)); i > 0 && !yield(strings.TrimSpace(text[:i]), strings.TrimSpace(text[i+1:])) {
				return
			}
		}
	}
}

// byName is a lot by its name; in any case of letters where that fits one alone. Pots are no lots that anybody can hold.
func byName(s *lots.State, name string) *lots.Lot {
	if l := s.Lot(record.Lot(name)); l != nil && l.Sort != lots.Pot {
		return l
	}
	var found *lots.Lot
	for l := range s.All() {
		if l.Sort == lots.Pot || !strings.EqualFold(string(l.ID), name) {
			continue
		}
		if found != nil {
			return nil
		}
		found = l
	}
	return found
}

// packNumbers reads numbers of packs that the lot has.
func packNumbers(l *lots.Lot, text string) (record.Numbers, error) {
	if l.Numbers.Empty() {
		return record.Numbers{}, refuse("code", "leave the number out", "lot %s is not of numbered packs", l.ID)
	}
	n, err := record.ParseNumbers(text)
	if err != nil || n.Empty() {
		return record.Numbers{}, refuse("code", "write the number of the pack behind #, as in "+string(l.ID)+"#17", "%.40q is no number of a pack", text)
	}
	if none := n.Minus(l.Numbers); !none.Empty() {
		return record.Numbers{}, refuse("code", "look at the label again", "lot %s has no pack %s: its packs are %s", l.ID, none, l.Numbers)
	}
	return n, nil
}
