package draftdish

import (
	"slices"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// mention is a line that a sentence speaks of.
type mention struct {
	line  *Line
	share unit.Share // of it; 0 when the sentence does not say
	rest  bool       // what is left of it
}

// groups are words that mean several lines.
var groups = map[string]func(d *drafter, l *Line) bool{
	"vegetable": func(d *drafter, l *Line) bool { return d.isA(l, "produce") },
	"spice":     func(d *drafter, l *Line) bool { return d.isSpice(l) },
	"seasoning": func(d *drafter, l *Line) bool { return d.isSpice(l) },
	"herb":      func(d *drafter, l *Line) bool { return d.isSpice(l) },
	"aromatic":  func(d *drafter, l *Line) bool { return d.isA(l, "produce") },
	"meat":      func(d *drafter, l *Line) bool { return d.isMeat(l) },
}

func (d *drafter) isA(l *Line, class string) bool {
	ing := d.ingredient(l.Is)
	if ing.Class != "" {
		return string(ing.Class) == class
	}
	food, _ := d.foods.Lookup(ing.Food)
	return class == "produce" && strings.Contains(strings.ToLower(food.Group), "vegetable")
}

func (d *drafter) isMeat(l *Line) bool {
	ing := d.ingredient(l.Is)
	return slices.Contains([]kitchen.IngredientClass{"intact-meat", "ground-meat", "poultry", "cooked-meat"}, ing.Class) || ing.Role == "meat"
}

func (d *drafter) isSpice(l *Line) bool {
	ing := d.ingredient(l.Is)
	food, _ := d.foods.Lookup(ing.Food)
	return ing.Role == "herb-or-spice" || strings.Contains(strings.ToLower(food.Group), "spice") || slices.Contains(contentOf(l.Words), "salt")
}

// mentions are the lines that a sentence speaks of: by the words that tell them apart, by a word for several of which no sentence speaks by
// name, or by "everything".
func (d *drafter) mentions(s sentence, used, named map[*Line]bool) []mention {
	var found []mention
	low := strings.ToLower(s.text)
	remaining := hasWords(low, "remaining ingredients", "rest of the ingredients", "all ingredients", "all the ingredients", "all of the ingredients", "everything else", "other ingredients", "put it all", "put everything", "mix everything", "combine everything")
	words := singulars(s.words)
	byName := d.spokenOf(words)
	for _, l := range d.lines {
		if l.Problem != "" || l.Out {
			continue
		}
		at, is := byName[l]
		grouped := !named[l] && !used[l] && d.inGroup(l, words)
		if !is && !grouped && (!remaining || used[l] || named[l]) {
			continue
		}
		m := mention{line: l}
		if is && at > 0 {
			m.share, m.rest = shareBefore(words, at)
		}
		found = append(found, m)
	}
	return found
}

func hasWords(low string, phrases ...string) bool {
	return slices.ContainsFunc(phrases, func(p string) bool { return strings.Contains(low, p) })
}

// spokenOf are the lines that words name, with the place of the first word: first those of which all words are there, the longest first, and each
// word counts for one line only; then by a single word that no other line goes by.
func (d *drafter) spokenOf(words []string) map[*Line]int {
	taken := make([]bool, len(words))
	at := map[*Line]int{}
	lines := slices.Clone(d.lines)
	slices.SortStableFunc(lines, func(a, b *Line) int { return len(contentOf(b.Words)) - len(contentOf(a.Words)) })
	find := func(w string) int {
		for i, x := range words {
			if x == w && !taken[i] {
				return i
			}
		}
		return -1
	}
	for _, l := range lines {
		if places := findAll(contentOf(l.Words), find); l.Problem == "" && places != nil {
			at[l] = slices.Min(places)
			for _, i := range places {
				taken[i] = true
			}
		}
	}
	for _, l := range lines {
		if _, is := at[l]; is || l.Problem != "" {
			continue
		}
		content := contentOf(l.Words)
		for k, w := range slices.Backward(content) {
			if i := find(w); i >= 0 && d.only(l, w, k == len(content)-1) {
				at[l] = i
				break
			}
		}
	}
	return at
}

// findAll are the places of all words, nil when one is missing or they stand far apart.
func findAll(content []string, find func(string) int) []int {
	var places []int
	for _, w := range content {
		i := find(w)
		if i < 0 {
			return nil
		}
		places = append(places, i)
	}
	if slices.Max(places)-slices.Min(places) > len(content)+1 {
		return nil
	}
	return places
}

// only says whether one word is enough for a line: its last one, where no other line ends in it, or another that says what it is and that no
// other line has.
func (d *drafter) only(l *Line, word string, last bool) bool {
	if !last && vague[word] {
		return false
	}
	return !slices.ContainsFunc(d.lines, func(o *Line) bool {
		content := contentOf(o.Words)
		if o == l || o.Is == l.Is || o.Problem != "" || len(content) == 0 {
			return false
		}
		if last {
			return content[len(content)-1] == word
		}
		return slices.Contains(content, word)
	})
}

// vague are words that describe many foods: none of them alone names one.
var vague = map[string]bool{"red": true, "white": true, "green": true, "yellow": true, "black": true, "brown": true, "sweet": true, "heavy": true, "sharp": true, "dried": true, "canned": true, "crushed": true, "diced": true, "frozen": true, "smoked": true,
	"all": true, "purpose": true, "italian": true, "light": true, "dark": true, "bone": true, "boneless": true, "skinless": true, "lean": true}

// shareBefore is how much of a line the words before it say: half the cheese, the remaining milk.
func shareBefore(words []string, at int) (share unit.Share, rest bool) {
	before := strings.Join(words[max(0, at-4):at], " ")
	switch {
	case hasWords(before, "remaining", "rest of", "remainder", "other half"):
		return 0, true
	case strings.Contains(before, "half"):
		return unit.Whole / 2, false
	case hasWords(before, "a third", "one third"):
		return unit.Whole / 3, false
	case hasWords(before, "two third"):
		return unit.Whole / 3 * 2, false
	case hasWords(before, "a quarter", "one quarter"):
		return unit.Whole / 4, false
	case hasWords(before, "most of"):
		return unit.Whole / 4 * 3, false
	}
	return 0, false
}
