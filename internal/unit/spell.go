package unit

import (
	"math"
	"strconv"
)

// outOfBand is what it costs, in characters, to print a quantity in a unit that no cook would use for it: 196 oz.
const outOfBand = 8

// speller looks for the shortest text that reads back as the same grains.
type speller struct {
	mag  uint64
	best []byte
	cost int
	try  [64]byte
}

// offer keeps text if it is the cheapest so far; of equals, the first.
func (s *speller) offer(text []byte, u *unitRow, inBand bool) {
	cost := len(text) + u.style.extra
	if !inBand {
		cost += outOfBand
	}
	if s.best == nil || cost < s.cost {
		s.best, s.cost = append(s.best[:0], text...), cost
	}
}

// spell is v as a cook would have typed it: the shortest spelling that parses to v exactly, where a character too many is
// taken before a unit too big or too small. Metric comes first among equals.
func spell(k kind, v int64) string {
	if v == 0 && kinds[k].zero != "" {
		return kinds[k].zero
	}
	s := speller{mag: magnitude(v)}
	units := kinds[k].units
	for i := range units {
		if u := &units[i]; len(u.style.fractions) == 0 && u.style.places > 0 {
			s.decimals(v, u)
		}
	}
	found := s.chained(v, k)
	for i := range units {
		if u := &units[i]; len(u.style.fractions) > 0 && !u.style.chain {
			found = s.single(v, u) || found
		}
	}
	for i := range units {
		if u := &units[i]; !found && len(u.style.fractions) > 0 && u.style.places > 0 {
			s.decimals(v, u)
		}
	}
	return string(s.best)
}

// above is v counted from the zero of u, without its sign.
func above(v int64, u *unitRow) (mag uint64, negative bool) {
	if u.offset != 0 && v > 0 {
		return uint64(v) + uint64(u.offset), false
	}
	return magnitude(v + u.offset), v+u.offset < 0
}

func (s *speller) start(negative bool) []byte {
	text := s.try[:0]
	if negative {
		text = append(text, '-')
	}
	return text
}

func (u *unitRow) inBand(mag uint64) bool {
	return mag >= u.style.low && (u.style.high == 0 || mag <= u.style.high)
}

// decimals offers the shortest decimal number of u that reads back as v.
func (s *speller) decimals(v int64, u *unitRow) {
	mag, negative := above(v, u)
	for places := 0; places <= u.style.places; places++ {
		n, ok := inUnit(mag, u, powersOfTen[places])
		if !ok {
			continue
		}
		text := appendDecimal(s.start(negative), n, places, 0)
		s.offer(appendUnit(text, u, n, powersOfTen[places]), u, u.inBand(s.mag))
		return
	}
}

// inUnit is mag as a count of 1/den of u, if that reads back as mag.
func inUnit(mag uint64, u *unitRow, den uint64) (n uint64, ok bool) {
	n, ok = steps(mag, u, den)
	return n, ok && stepsBack(n, u, den) == mag
}

// steps is the count of 1/den of u that is nearest to mag grains.
func steps(mag uint64, u *unitRow, den uint64) (uint64, bool) {
	if d := u.divisor(); den <= math.MaxUint64/d {
		return mulDivRound(mag, den*d, u.num)
	}
	return 0, false
}

// stepsBack is n/den of u in grains, rounded as parsing rounds; the biggest uint64 if out of range.
func stepsBack(n uint64, u *unitRow, den uint64) uint64 {
	back, ok := mulDivRound(n, u.num, den*u.divisor())
	if !ok {
		return math.MaxUint64
	}
	return back
}

func appendUnit(text []byte, u *unitRow, n, den uint64) []byte {
	if u.word == "" {
		return text
	}
	text = append(text, ' ')
	return append(text, u.named(n, den)...)
}

// single offers v in a unit that stands alone, with the fractions it allows.
func (s *speller) single(v int64, u *unitRow) bool {
	mag, negative := above(v, u)
	text, ok := appendChain(s.start(negative), mag, []*unitRow{u})
	if ok {
		s.offer(text, u, u.inBand(s.mag))
	}
	return ok
}

// chained offers v in every run of the units of k that stand side by side: 12 lb, 4 oz, 12 lb 4 oz.
func (s *speller) chained(v int64, k kind) (found bool) {
	chain := chains[k]
	for i, u := range chain {
		for end := i + 1; end <= len(chain); end++ {
			if end > i+1 && s.mag < u.num {
				break // nothing of the first unit: the same as a run that starts later
			}
			if text, ok := appendChain(s.start(v < 0), s.mag, chain[i:end]); ok {
				s.offer(text, u, u.inBand(s.mag))
				found = true
			}
		}
	}
	return found
}

// appendChain appends mag in whole units of chain, the last with a fraction; not ok if that does not read back as mag.
func appendChain(dst []byte, mag uint64, chain []*unitRow) ([]byte, bool) {
	start := len(dst)
	last := chain[len(chain)-1]
	for _, u := range chain[:len(chain)-1] {
		if n := mag / u.num; n > 0 {
			dst = appendPart(dst, start, u, n, 1)
			mag -= n * u.num
		}
	}
	if mag == 0 && len(dst) > start {
		return dst, true
	}
	for _, den := range last.style.fractions {
		if n, ok := inUnit(mag, last, den); ok {
			return appendPart(dst, start, last, n, den), true
		}
	}
	return dst, false
}

func appendPart(dst []byte, start int, u *unitRow, n, den uint64) []byte {
	if len(dst) > start {
		dst = append(dst, ' ')
	}
	return appendUnit(appendFraction(dst, n, den), u, n, den)
}

// spellReal is x in its canonical unit, or in another that is shorter and reads back as the same float64.
func spellReal(k kind, x float64) string {
	units := kinds[k].units
	best := strconv.FormatFloat(x, 'f', -1, 64) + " " + units[0].word
	for i := range units {
		u := &units[i]
		for places := 0; places < u.style.places; places++ {
			digits := strconv.FormatFloat(x/u.factor, 'f', places, 64)
			if len(digits)+1+len(u.word) >= len(best) {
				break
			}
			if y, err := strconv.ParseFloat(digits, 64); err == nil && y*u.factor == x {
				best = digits + " " + u.word
				break
			}
		}
	}
	return best
}
