package coldstore

import (
	"fmt"
	"slices"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// NextLots proposes names for lots that come on a day, R-1126-1 and on, which no entry and none of those taken has.
func NextLots(s *lots.State, day record.Day, count int, taken ...record.Lot) []record.Lot {
	var names []record.Lot
	for n := 1; len(names) < count; n++ {
		id := record.Lot(fmt.Sprintf("R-%s%s-%d", day[5:7], day[8:10], n))
		if s.Lot(id) == nil && !slices.Contains(taken, id) {
			names = append(names, id)
		}
	}
	return names
}
