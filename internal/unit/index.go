package unit

import "strings"

// spellings leads from every spelling that is read, in lower case, to its unit, kind by kind.
var spellings = func() (byKind [kindCount]map[string]*unitRow) {
	for k := range byKind {
		byKind[k] = map[string]*unitRow{}
		for i := range kinds[k].units {
			u := &kinds[k].units[i]
			byKind[k][strings.ToLower(u.word)] = u
			if u.plural != "" {
				byKind[k][u.plural] = u
			}
			for _, word := range strings.Split(u.also, "|") {
				if word != "" {
					byKind[k][word] = u
				}
			}
		}
	}
	return byKind
}()

// chains holds, kind by kind, the units that are printed side by side, big before small.
var chains = func() (byKind [kindCount][]*unitRow) {
	for k := range kinds {
		for i := range kinds[k].units {
			if u := &kinds[k].units[i]; u.style.chain {
				byKind[k] = append(byKind[k], u)
			}
		}
	}
	return byKind
}()

// otherKind is the kind, not k, that knows a unit word.
func otherKind(k kind, key string) (kind, bool) {
	for other := range kindCount {
		if other == k || other == countKind {
			continue
		}
		if _, ok := spellings[other][key]; ok {
			return other, true
		}
	}
	return 0, false
}

// divisor is den, where 0 stands for 1.
func (u *unitRow) divisor() uint64 { return max(u.den, 1) }

// named is the unit as it stands beside the number n/den.
func (u *unitRow) named(n, den uint64) string {
	if u.plural != "" && n > den {
		return u.plural
	}
	return u.word
}
