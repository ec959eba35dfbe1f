package phrasebook

import (
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// verb is a verb of package fmt, with the number of its argument where that is given.
var verb = regexp.MustCompile(`%(?:\[(\d+)\])?[-+# 0]*\d*(?:\.\d+)?([a-zA-Z%])`)

// pattern is an English sentence with gaps, and what is said for it.
type pattern struct {
	literals []string // around the gaps: one more than gaps
	gaps     []gap
	said     []piece
	letters  int  // in the literals
	weak     bool // too few words to be told from what people write by themselves
	english  string
}

// gap is where something is put in.
type gap struct {
	argument int
	number   bool // only digits and their signs
}

// piece is a text, or the argument with that number, counted from 1.
type piece struct {
	text     string
	argument int
}

// longWord is how long the longest word around gaps must be, so that "of the" alone is no sentence.
const longWord = 4

// newPattern is false for a sentence without gaps, for one without words, and for one whose gaps touch.
func newPattern(english, said string) (*pattern, bool) {
	p := &pattern{english: english}
	next, from, literal := 1, 0, ""
	for _, m := range verb.FindAllStringSubmatchIndex(english, -1) {
		literal += english[from:m[0]]
		from = m[1]
		kind := english[m[4]:m[5]]
		if kind == "%" {
			literal += "%"
			continue
		}
		if m[2] >= 0 {
			next, _ = strconv.Atoi(english[m[2]:m[3]])
		}
		p.gaps = append(p.gaps, gap{next, strings.Contains("dfge", kind)})
		p.literals, literal = append(p.literals, literal), ""
		next++
	}
	if len(p.gaps) == 0 {
		return nil, false
	}
	p.literals = append(p.literals, literal+english[from:])
	for _, l := range p.literals {
		for _, r := range l {
			if unicode.IsLetter(r) {
				p.letters++
			}
		}
	}
	for _, between := range p.literals[1 : len(p.literals)-1] {
		if between == "" {
			return nil, false // two gaps with nothing between them: nobody can tell where one ends
		}
	}
	if p.letters == 0 {
		return nil, false
	}
	words, long, around := 0, 0, strings.Join(p.literals, " ")
	for word := range strings.FieldsSeq(around) {
		if strings.ContainsFunc(word, unicode.IsLetter) {
			words++
			long = max(long, utf8.RuneCountInString(strings.Trim(word, ":;,.()!?")))
		}
	}
	p.weak = long < longWord || words < 2 && !strings.ContainsAny(around, ":;()!?")
	p.said = pieces(said)
	return p, true
}

func pieces(said string) (all []piece) {
	next, from, text := 1, 0, ""
	for _, m := range verb.FindAllStringSubmatchIndex(said, -1) {
		text += said[from:m[0]]
		from = m[1]
		if said[m[4]:m[5]] == "%" {
			text += "%"
			continue
		}
		if m[2] >= 0 {
			next, _ = strconv.Atoi(said[m[2]:m[3]])
		}
		all, text = append(all, piece{text: text}, piece{argument: next}), ""
		next++
	}
	return append(all, piece{text: text + said[from:]})
}

// fit is what stands in the gaps of a sentence, or nil. Steps bounds the work on what somebody typed to be slow.
func (p *pattern) fit(text string) []string {
	if !strings.HasPrefix(text, p.literals[0]) || !strings.HasSuffix(text, p.literals[len(p.gaps)]) {
		return nil
	}
	got, steps := make([]string, len(p.gaps)), 60
	if p.rest(text[len(p.literals[0]):], 0, got, &steps) {
		return got
	}
	return nil
}

func (p *pattern) rest(text string, at int, got []string, steps *int) bool {
	after := p.literals[at+1]
	if at == len(p.gaps)-1 {
		in, ok := strings.CutSuffix(text, after)
		got[at] = in
		return ok && p.gaps[at].takes(in)
	}
	for from := 0; *steps > 0; *steps-- {
		i := strings.Index(text[from:], after)
		if i < 0 {
			return false
		}
		if in := text[:from+i]; p.gaps[at].takes(in) && p.rest(text[from+i+len(after):], at+1, got, steps) {
			got[at] = in
			return true
		}
		from += i + 1
	}
	return false
}

func (g gap) takes(in string) bool {
	if in == "" {
		return false
	}
	return !g.number || strings.Trim(in, "0123456789.,-+") == ""
}

// pattern says a text by the sentence with the most letters that fits it.
func (b *Book) pattern(text string, depth int) (string, bool) {
	var best *pattern
	var put map[int]string
	b.index.candidates(text, func(p *pattern) {
		if best != nil && best.letters >= p.letters {
			return
		}
		if got := p.fit(text); got != nil {
			if in, ok := b.fill(p, got, depth); ok {
				best, put = p, in
			}
		}
	})
	if best == nil {
		return "", false
	}
	var out strings.Builder
	for _, x := range best.said {
		out.WriteString(x.text)
		out.WriteString(put[x.argument])
	}
	return out.String(), true
}

// fill says what stands in the gaps. A sentence of a single word fits only around figures and what can be said itself: "5 min late" and
// not "Stew late".
func (b *Book) fill(p *pattern, got []string, depth int) (map[int]string, bool) {
	in := make(map[int]string, len(got))
	for i, g := range p.gaps {
		in[g.argument] = got[i]
		if g.number {
			continue
		}
		said, ok := b.whole(got[i], depth-1, false)
		if ok {
			in[g.argument] = said
		} else if p.weak && !measure(got[i]) {
			return nil, false
		}
	}
	return in, true
}
