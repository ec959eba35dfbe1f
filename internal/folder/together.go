package folder

import (
	"fmt"
	"slices"
	"strings"
)

// mostNamed are named of many for which the same is missing.
const mostNamed = 8

// together makes one of those for which the same is missing, and differ only in where: lots of a pack without a plan, runs that are not judged.
// They have to be in order. Each stands in All by its name.
func together(missing []Missing) (all []Missing) {
	at := map[string]int{}
	for _, m := range missing {
		kind, _, _ := strings.Cut(m.Where, " ")
		key := fmt.Sprint(m.Code, m.Grave, kind, "\n", m.Says, "\n", m.Fix)
		i, there := at[key]
		if !there || !slices.Contains(alike, kind) {
			at[key] = len(all)
			all = append(all, m)
			continue
		}
		if len(all[i].All) == 0 {
			all[i].All = []string{nameIn(all[i].Where)}
		}
		all[i].All = append(all[i].All, nameIn(m.Where))
	}
	for i := range all {
		if names := all[i].All; len(names) > 0 {
			kind, _, _ := strings.Cut(all[i].Where, " ")
			all[i].Where = fmt.Sprintf("%d %ss: %s", len(names), kind, strings.Join(names[:min(len(names), mostNamed)], ", "))
			if more := len(names) - mostNamed; more > 0 {
				all[i].Where += fmt.Sprintf(" and %d more", more)
			}
		}
	}
	return all
}

// alike are the words with which places begin of which there may be many.
var alike = []string{"lot", "run", "thermometer"}

func nameIn(where string) string {
	_, name, _ := strings.Cut(where, " ")
	return name
}
