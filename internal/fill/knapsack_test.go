package fill

import (
	"testing"

	"kettlefrost/internal/unit"
)

// The 0-1 knapsack instances P01 to P08 that John Burkardt collected at Florida State University, with their optima; all from
// memory.
func TestKnapsackInstances(t *testing.T) {
	for _, c := range []struct {
		name           string
		room           int
		weight, profit []int
		best           int64
	}{
		{"P01", 165, []int{23, 31, 29, 44, 53, 38, 63, 85, 89, 82}, []int{92, 57, 49, 68, 60, 43, 67, 84, 87, 72}, 309},
		{"P02", 26, []int{12, 7, 11, 8, 9}, []int{24, 13, 23, 15, 16}, 51},
		{"P03", 190, []int{56, 59, 80, 64, 75, 17}, []int{50, 50, 64, 46, 50, 5}, 150},
		{"P04", 50, []int{31, 10, 20, 19, 4, 3, 6}, []int{70, 20, 39, 37, 7, 5, 10}, 107},
		{"P05", 104, []int{25, 35, 45, 5, 25, 3, 2, 2}, []int{350, 400, 450, 20, 70, 8, 5, 5}, 900},
		{"P06", 170, []int{41, 50, 49, 59, 55, 57, 60}, []int{442, 525, 511, 593, 546, 564, 617}, 1735},
		{"P07", 750, []int{70, 73, 77, 80, 82, 87, 90, 94, 98, 106, 110, 113, 115, 118, 120},
			[]int{135, 139, 149, 150, 156, 163, 173, 184, 192, 201, 210, 214, 221, 229, 240}, 1458},
		{"P08", 6404180, []int{382745, 799601, 909247, 729069, 467902, 44328, 34610, 698150, 823460, 903959, 853665, 551830, 610856, 670702, 488960, 951111, 323046, 446298, 931161, 31385, 496951, 264724, 224916, 169684},
			[]int{825594, 1677009, 1676628, 1523970, 943972, 97426, 69666, 1296457, 1679693, 1902996, 1844992, 1049289, 1252836, 1319836, 953277, 2067538, 675367, 853655, 1826027, 65731, 901489, 577243, 466257, 369261}, 13549094},
	} {
		p := Problem{Stock: []unit.Mass{unit.Mass(c.room) * unit.Gram}}
		for i := range c.weight {
			p.Packs = append(p.Packs, Pack{Value: int64(c.profit[i]), Max: 1, Needs: []Need{of(0, c.weight[i])}})
		}
		got, err := Solve(p)
		if err != nil || got.Value != c.best || !got.Proof.Optimal {
			t.Errorf("%s: %d, %+v, %v; want %d", c.name, got.Value, got.Proof, err, c.best)
		}
	}
}
