package record

import (
	"cmp"
	"fmt"
	"iter"
	"slices"
	"strconv"
	"strings"
)

// Range is packs numbered First to Last, both in it.
type Range struct{ First, Last int64 }

// Count is how many numbers are in the range.
func (r Range) Count() int64 { return r.Last - r.First + 1 }

// maxNumber is the highest pack number, far above what a kitchen makes, so that counting cannot overflow.
const maxNumber = 1_000_000_000_000

// maxRanges is how many ranges a text may hold; a lot whose packs lie in more pieces than that is not one lot.
const maxRanges = 100_000

// Numbers is a set of pack numbers, all of them 1 or more, kept as ranges so that a million packs take no more room than one. The zero
// Numbers is empty. A Numbers is never changed: Union, Minus and Intersect give new ones.
type Numbers struct {
	ranges []Range // ascending, with at least one number missing between two
}

// NumbersOf is the set of all numbers in the ranges, which may overlap and stand in any order. Errors are *TextError.
func NumbersOf(ranges ...Range) (Numbers, error) {
	for _, r := range ranges {
		if problem := r.problem(); problem != "" {
			return Numbers{}, &TextError{Text: fmt.Sprintf("%d-%d", r.First, r.Last), Want: "pack numbers", Problem: problem}
		}
	}
	return Numbers{merge(slices.Clone(ranges))}, nil
}

func (r Range) problem() string {
	switch {
	case r.First < 1:
		return "starts below 1; packs are numbered from 1"
	case r.Last > maxNumber:
		return fmt.Sprintf("goes above %d; number the packs of a lot from 1", int64(maxNumber))
	case r.First > r.Last:
		return "is reversed; write the lower number first"
	}
	return ""
}

// merge puts ranges in order and joins those that touch, in place.
func merge(ranges []Range) []Range {
	slices.SortFunc(ranges, func(a, b Range) int { return cmp.Compare(a.First, b.First) })
	joined := ranges[:0]
	for _, r := range ranges {
		if n := len(joined); n > 0 && r.First <= joined[n-1].Last+1 {
			joined[n-1].Last = max(joined[n-1].Last, r.Last)
		} else {
			joined = append(joined, r)
		}
	}
	return joined
}

// Ranges are the ranges in ascending order; between two of them at least one number is missing.
func (n Numbers) Ranges() iter.Seq[Range] { return slices.Values(n.ranges) }

// Empty says whether there are no numbers.
func (n Numbers) Empty() bool { return len(n.ranges) == 0 }

// Count is how many numbers there are.
func (n Numbers) Count() int64 {
	var sum int64
	for _, r := range n.ranges {
		sum += r.Count()
	}
	return sum
}

// Has says whether k is one of the numbers.
func (n Numbers) Has(k int64) bool {
	i, found := slices.BinarySearchFunc(n.ranges, k, func(r Range, k int64) int { return cmp.Compare(r.First, k) })
	return found || i > 0 && k <= n.ranges[i-1].Last
}

// Covers says whether all of m is in n.
func (n Numbers) Covers(m Numbers) bool { return m.Minus(n).Empty() }

// Equal says whether n and m are the same numbers.
func (n Numbers) Equal(m Numbers) bool { return slices.Equal(n.ranges, m.ranges) }

// Union is the numbers that are in n, in m or in both.
func (n Numbers) Union(m Numbers) Numbers {
	return Numbers{merge(slices.Concat(n.ranges, m.ranges))}
}

// Intersect is the numbers that are in n and in m.
func (n Numbers) Intersect(m Numbers) Numbers {
	var both []Range
	for a, b := n.ranges, m.ranges; len(a) > 0 && len(b) > 0; {
		if first, last := max(a[0].First, b[0].First), min(a[0].Last, b[0].Last); first <= last {
			both = append(both, Range{first, last})
		}
		if a[0].Last < b[0].Last {
			a = a[1:]
		} else {
			b = b[1:]
		}
	}
	return Numbers{both}
}

// Minus is the numbers that are in n and not in m.
func (n Numbers) Minus(m Numbers) Numbers {
	var left []Range
	taken := m.ranges
	for _, r := range n.ranges {
		for len(taken) > 0 && taken[0].Last < r.First {
			taken = taken[1:]
		}
		for _, t := range taken {
			if t.First > r.Last || r.First > r.Last {
				break
			}
			if t.First > r.First {
				left = append(left, Range{r.First, t.First - 1})
			}
			r.First = t.Last + 1
		}
		if r.First <= r.Last {
			left = append(left, r)
		}
	}
	return Numbers{left}
}

// Take divides n into its lowest k numbers, or all when there are no more, and the rest.
func (n Numbers) Take(k int64) (lowest, rest Numbers) {
	for i, r := range n.ranges {
		if k < r.Count() {
			rest.ranges = slices.Clone(n.ranges[i:])
			if k > 0 {
				lowest.ranges = append(lowest.ranges, Range{r.First, r.First + k - 1})
				rest.ranges[0].First = r.First + k
			}
			return lowest, rest
		}
		lowest.ranges = append(lowest.ranges, r)
		k -= r.Count()
	}
	return lowest, rest
}

// String is the ranges in ascending order: 1-40, 52. Of no numbers it is empty.
func (n Numbers) String() string {
	var text []byte
	for i, r := range n.ranges {
		if i > 0 {
			text = append(text, ", "...)
		}
		text = strconv.AppendInt(text, r.First, 10)
		if r.Last > r.First {
			text = append(text, '-')
			text = strconv.AppendInt(text, r.Last, 10)
		}
	}
	return string(text)
}

// MarshalText writes String.
func (n Numbers) MarshalText() ([]byte, error) { return []byte(n.String()), nil }

// UnmarshalText reads what ParseNumbers reads.
func (n *Numbers) UnmarshalText(text []byte) error {
	read, err := ParseNumbers(string(text))
	if err == nil {
		*n = read
	}
	return err
}

// ParseNumbers reads numbers and ranges with commas between them, in any order: 1-40, 52. Spaces do not matter, and a number that stands
// there twice counts once. Nothing is the empty set. Errors are *TextError.
func ParseNumbers(text string) (Numbers, error) {
	fail := func(problem string) (Numbers, error) {
		return Numbers{}, &TextError{Text: text, Want: "pack numbers", Problem: problem}
	}
	if strings.TrimSpace(text) == "" {
		return Numbers{}, nil
	}
	var ranges []Range
	for part := range strings.SplitSeq(text, ",") {
		first, last, isRange := strings.Cut(part, "-")
		if !isRange {
			last = first
		}
		a, okA := parseNumber(first)
		b, okB := parseNumber(last)
		r := Range{a, b}
		switch problem := r.problem(); {
		case !okA || !okB:
			return fail(fmt.Sprintf("has %.40q, which is no number and no range; write 1-40, 52", strings.TrimSpace(part)))
		case problem != "":
			return fail(problem)
		case len(ranges) == maxRanges:
			return fail(fmt.Sprintf("has more than %d ranges; write it in pieces", maxRanges))
		}
		ranges = append(ranges, r)
	}
	return Numbers{merge(ranges)}, nil
}

// parseNumber reads digits, with spaces around them. More of them than maxNumber has are no number.
func parseNumber(text string) (int64, bool) {
	text = strings.TrimSpace(text)
	if text == "" || strings.Trim(text, "0123456789") != "" {
		return 0, false
	}
	k, err := strconv.ParseInt(text, 10, 64)
	return k, err == nil
}
