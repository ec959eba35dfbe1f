package tastetrial

import (
	"fmt"

	"gonum.org/v1/gonum/stat/distuv"
)

// Method is how a p was had.
type Method int

const (
	Exact Method = iota + 1 // of all permutations
	Drawn                   // of permutations drawn by the seed
)

// String is "exact" or "drawn".
func (m Method) String() string {
	switch m {
	case Exact:
		return "exact"
	case Drawn:
		return "drawn"
	}
	return fmt.Sprintf("method(%d)", int(m))
}

// Friedman is the test of several variants by ranks within blocks, such as what each taster said.
type Friedman struct {
	Blocks, Variants int
	RankSums         []float64 // the lowest value of a block has rank 1
	ChiSquare        float64   // with the correction for ties (Conover), Variants-1 degrees of freedom
	PChiSquare       float64   // by that distribution, which is rough for few blocks
	W                float64   // Kendall's concordance: 0 none, 1 all blocks alike
	P                float64   // by permutations
	Method           Method
	PError           float64 // standard error of a drawn P
	Pairs            []RankPair
}

// RankPair compares the rank sums of two variants. P is exact, of all permutations of the ranks within blocks, and two-sided; PHolm is
// adjusted for all pairs of the test.
type RankPair struct {
	First, Second int
	Difference    float64 // of rank sums, first less second
	P, PHolm      float64
}

// FriedmanTest tests rows of values, a row for a block and a column for a variant. The seed is used where there are too many permutations to
// go through all. Errors are *InputError.
func FriedmanTest(rows [][]float64, seed uint64) (Friedman, error) {
	if err := checkRows(rows); err != nil {
		return Friedman{}, err
	}
	n, k := len(rows), len(rows[0])
	f := Friedman{Blocks: n, Variants: k, RankSums: make([]float64, k)}
	ranks := make([][]int, n)
	ties := 0
	for b, row := range rows {
		var runs []int
		ranks[b], runs = doubledRanks(row)
		for _, r := range runs {
			ties += r*r*r - r
		}
		for v, r := range ranks[b] {
			f.RankSums[v] += float64(r) / 2
		}
	}
	squares := 0.0
	for _, s := range f.RankSums {
		off := s - float64(n*(k+1))/2
		squares += off * off
	}
	whole := float64(n*k*(k+1)) - float64(ties)/float64(k-1)
	if whole == 0 { // every block holds one value only
		f.P, f.PChiSquare, f.Method = 1, 1, Exact
	} else {
		f.ChiSquare = 12 * squares / whole
		f.PChiSquare = distuv.ChiSquared{K: float64(k - 1)}.Survival(f.ChiSquare)
		f.W = f.ChiSquare / float64(n*(k-1))
		f.P, f.Method, f.PError = permuted(ranks, seed)
	}
	f.pairs(ranks)
	return f, nil
}

func checkRows(rows [][]float64) error {
	if len(rows) < 2 || len(rows) > mostPairs {
		return &InputError{"the blocks", fmt.Sprintf("are %d", len(rows)), fmt.Sprintf("give 2 to %d", mostPairs)}
	}
	k := len(rows[0])
	if k < 2 || k > mostVariants {
		return &InputError{"the variants", fmt.Sprintf("are %d", k), fmt.Sprintf("give 2 to %d", mostVariants)}
	}
	for b, row := range rows {
		if len(row) != k {
			return &InputError{fmt.Sprintf("block %d", b+1), fmt.Sprintf("has %d values and not %d", len(row), k), "give every variant in every block"}
		}
		if err := checkValues(fmt.Sprintf("the values of block %d", b+1), row); err != nil {
			return err
		}
	}
	return nil
}

func (f *Friedman) pairs(ranks [][]int) {
	chance := rankDifferences(ranks)
	middle := len(chance) / 2
	var p []float64
	for i := range f.Variants {
		for j := i + 1; j < f.Variants; j++ {
			d := f.RankSums[i] - f.RankSums[j]
			off := int(max(d, -d) * 2)
			both := min(1, 2*tail(chance, middle+off))
			f.Pairs = append(f.Pairs, RankPair{First: i, Second: j, Difference: d, P: both})
			p = append(p, both)
		}
	}
	for i, adjusted := range Holm(p) {
		f.Pairs[i].PHolm = adjusted
	}
}
