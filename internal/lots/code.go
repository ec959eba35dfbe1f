package lots

import (
	"fmt"
	"iter"
	"slices"
	"strings"

	"kettlefrost/internal/record"
)

// Code is what stands on a tub or a bag and is scanned or typed. Its plain form is the lot alone, R-1126-2, or the lot, a number sign and the
// number of the pack: P-1201-3#17.
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

// words is the code in a sentence.
func (c Code) words() string {
	switch c.Numbers.Count() {
	case 0:
		return "lot " + string(c.Lot)
	case 1:
		return "pack " + c.Numbers.String() + " of lot " + string(c.Lot)
	}
	return "packs " + c.Numbers.String() + " of lot " + string(c.Lot)
}

// CodeError says why a text is no code of one lot or of packs of it, though it comes near to one.
type CodeError struct{ Text, Problem, Fix string }

func (e *CodeError) Error() string { return e.Problem + ": " + e.Fix }

func badCode(text, fix, problem string, of ...any) error {
	return &CodeError{text, fmt.Sprintf(problem, of...), fix}
}

// ReadCode is the lot that a code names, and the packs of it. Letter for letter the name of a lot, or a name, # and numbers of its packs, a
// text is that. Else it may be written a little differently: names as they are read out (see alike), several numbers (P-1201-3 #1-40, 52), a
// stroke, a colon or "no." for the sign, nothing but a space before several numbers, or the brackets of GS1: (10)P-1201-3(21)17. What can be
// read in two ways is not read at all. Errors are *UnknownError when nothing is called so, and *CodeError.
func (s *State) ReadCode(text string) (Code, *Lot, error) {
	if l := s.lots[record.Lot(strings.TrimSpace(text))]; l != nil { // also a name that has the sign in it
		return Code{Lot: l.ID}, l, nil
	}
	text = strings.Join(strings.Fields(text), " ")
	if text == "" {
		return Code{}, nil, badCode(text, "scan a label, or type the lot such as P-1201-3 or the pack such as P-1201-3#17", "there is no code")
	}
	if c, l := s.plainly(text); l != nil {
		return c, l, nil
	}
	var read []reading
	var first error
	for cut := range cuts(text) {
		if cut.dash && (len(read) > 0 || first != nil) {
			break
		}
		for _, l := range s.named(cut.name) {
			n, err := cut.packs(l, text)
			switch {
			case err == nil && slices.ContainsFunc(read, func(r reading) bool { return r.lot == l && r.Numbers.Equal(n) }): // the same, cut elsewhere
			case err == nil:
				read = append(read, reading{Code{l.ID, n}, l, cut.sure})
			case first == nil && !cut.dash:
				first = err
			}
		}
	}
	switch {
	case len(read) == 1 && read[0].sure:
		return read[0].Code, read[0].lot, nil
	case len(read) > 0:
		return Code{}, nil, unclear(text, read)
	case first != nil:
		return Code{}, nil, first
	}
	return Code{}, nil, &UnknownError{record.Lot(text)}
}

// plainly reads the plain form of a pack.
func (s *State) plainly(text string) (Code, *Lot) {
	at := strings.LastIndexByte(text, '#')
	if at < 0 {
		return Code{}, nil
	}
	cut := cut{name: strings.TrimSpace(text[:at]), numbers: text[at+1:], numbered: true}
	l := s.lots[record.Lot(cut.name)]
	if l == nil {
		return Code{}, nil
	}
	n, err := cut.packs(l, text)
	if err != nil {
		return Code{}, nil
	}
	return Code{l.ID, n}, l
}

// reading is a way to understand a text.
type reading struct {
	Code
	lot  *Lot
	sure bool
}

// unclear asks which of some readings is meant.
func unclear(text string, read []reading) error {
	if len(read) == 1 {
		c := read[0].Code
		return badCode(text, "write "+c.String()+" for "+c.words(), "it is not clear whether %.80q means %s", text, c.words())
	}
	const most = 3
	var words, plain []string
	for _, r := range read[:min(len(read), most)] {
		words, plain = append(words, r.words()), append(plain, r.String())
	}
	if len(read) > most {
		words = append(words, "yet another")
	}
	return badCode(text, "write it letter for letter: "+strings.Join(plain, " or "), "%.80q can mean %s", text, strings.Join(words, " or "))
}

// cut is a text taken apart into a name and the numbers of packs behind it.
type cut struct {
	name, numbers string
	numbered      bool // a number must be there
	sure          bool // what stands between them, or the numbers, leave no doubt that they are numbers of packs
	dash          bool // a stroke as in names stands between them: not read, but asked about where nothing else is meant
}

// cuts are the ways to take a text apart, the whole as a name first, and then by the number sign.
func cuts(text string) iter.Seq[cut] {
	return func(yield func(cut) bool) {
		if rest, ok := strings.CutPrefix(text, "(10)"); ok {
			name, numbers, numbered := strings.Cut(rest, "(21)")
			yield(cut{name: strings.TrimSpace(name), numbers: numbers, numbered: numbered, sure: true})
			return
		}
		if !strings.ContainsRune("/:", rune(text[len(text)-1])) && !yield(cut{name: text, sure: true}) { // behind those a number is missing
			return
		}
		for _, sign := range []string{"#", "/", ":", " no.", " No."} {
			if i := strings.LastIndex(text, sign); i > 0 && !yield(cut{name: strings.TrimRight(text[:i], " #/:"), numbers: text[i+len(sign):], numbered: true, sure: true}) {
				return
			}
		}
		numbers := len(strings.TrimRight(text, "0123456789-, ")) // where the longest that could be numbers begins
		for _, sign := range []byte(" -") {
			for i := len(text) - 1; i > 0 && i >= numbers; i-- {
				if text[i] != sign || strings.ContainsRune("#/:", rune(text[i-1])) {
					continue
				}
				// one number behind a space may be a count, or the end of a name
				several := sign == ' ' && strings.ContainsAny(text[i+1:], "-,")
				if !yield(cut{text[:i], text[i+1:], true, several, sign == '-'}) {
					return
				}
			}
		}
	}
}

// packs reads the numbers of packs that the lot has.
func (c cut) packs(l *Lot, text string) (record.Numbers, error) {
	if !c.numbered {
		return record.Numbers{}, nil
	}
	if l.Numbers.Empty() {
		return record.Numbers{}, badCode(text, "leave the number out", "lot %s is not of numbered packs", l.ID)
	}
	numbers := strings.TrimSpace(c.numbers)
	for _, word := range []string{"no.", "No."} {
		numbers = strings.TrimSpace(strings.TrimPrefix(numbers, word))
	}
	n, err := record.ParseNumbers(numbers)
	if err != nil || n.Empty() {
		return record.Numbers{}, badCode(text, "write the number of the pack behind #, as in "+string(l.ID)+"#17", "%.40q is no number of a pack", numbers)
	}
	if none := n.Minus(l.Numbers); !none.Empty() {
		return record.Numbers{}, badCode(text, "look at the label again", "lot %s has no pack %s: its packs are %s", l.ID, none, l.Numbers)
	}
	return n, nil
}
