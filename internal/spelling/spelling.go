// Package spelling says which word a mistyped one most likely meant.
package spelling

import (
	"slices"
	"strings"
)

// Slips is how many slips of the pen lie between a and b: letters too many, missing or wrong, or two neighbours swapped (optimal string
// alignment distance). It stops counting beyond most, and says whether they are that near.
func Slips(a, b string, most int) (n int, near bool) {
	s, t := letters(a), letters(b)
	if d := len(s) - len(t); d > most || -d > most {
		return most + 1, false
	}
	wide := len(t) + 1
	rows := make([]int, 3*wide)
	before, last, row := rows[:wide], rows[wide:2*wide], rows[2*wide:]
	for j := range last {
		last[j] = j
	}
	for i := range s {
		row[0] = i + 1
		for j := range t {
			change := 1
			if s[i] == t[j] {
				change = 0
			}
			row[j+1] = min(last[j]+change, last[j+1]+1, row[j]+1)
			if i > 0 && j > 0 && s[i] == t[j-1] && s[i-1] == t[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		if slices.Min(row) > most {
			return most + 1, false
		}
		before, last, row = last, row, before
	}
	return min(last[len(t)], most+1), last[len(t)] <= most
}

func letters(text string) []rune {
	buffer := make([]rune, 0, 32)
	for _, r := range text {
		buffer = append(buffer, r)
	}
	return buffer
}

// Nearest is the candidate that a mistyped word most likely meant, capitals aside. It is "" when none is near enough, which is a third
// of the word's letters, and at least one. Of equals the first in the alphabet is taken.
func Nearest(word string, candidates []string) string {
	word = strings.ToLower(strings.TrimSpace(word))
	best, most := "", max(1, len([]rune(word))/3)
	for _, c := range slices.Sorted(slices.Values(candidates)) {
		if c == "" {
			continue
		}
		if n, near := Slips(word, strings.ToLower(c), most); near {
			best, most = c, n-1
		}
		if most < 0 {
			break
		}
	}
	return best
}
