package coldstore

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Words of an amount.
const (
	wordAll  = "all"
	wordNone = "none"
)

// readPacks reads which of some packs are meant: all, next 12 (the lowest numbers), or numbers as 1-12, 15 or #17. A number alone could be
// either and is asked about.
func readPacks(text string, there record.Numbers) (record.Numbers, error) {
	text = strings.ToLower(strings.Join(strings.Fields(text), " "))
	const how = "write all, next 12 for twelve packs, or numbers such as #17 or 1-12, 15"
	if text == wordAll {
		return there, nil
	}
	if count, ok := strings.CutPrefix(text, "next "); ok {
		return nextPacks(count, there, how)
	}
	for _, tail := range []string{" packs", " pack"} {
		if count, ok := strings.CutSuffix(text, tail); ok {
			return nextPacks(count, there, how)
		}
	}
	numbers, sure := strings.CutPrefix(text, "#")
	n, err := record.ParseNumbers(numbers)
	switch {
	case text == "":
		return n, refuse("which", how, "it is not said which packs")
	case err != nil:
		return n, refuse("which", how, "%.40q says no packs", text)
	case n.Empty():
		return n, refuse("which", how, "there are no packs in it")
	case !sure && strings.Trim(text, "0123456789") == "":
		return n, refuse("which", "write #"+text+" for the pack of that number, or next "+text+" for so many packs", "%s alone can be a number or a count", text)
	}
	return n, nil
}

func nextPacks(count string, there record.Numbers, how string) (record.Numbers, error) {
	k, err := strconv.ParseInt(strings.TrimSpace(count), 10, 64)
	switch {
	case err != nil || k < 0:
		return record.Numbers{}, refuse("which", how, "%.40q is no count of packs", count)
	case k == 0:
		return record.Numbers{}, refuse("which", "write how many, or leave it", "no packs are none")
	case k > there.Count():
		return record.Numbers{}, refuse("which", "write all, or look for the others", "%d packs are more than the %d that are there", k, there.Count())
	}
	n, _ := there.Take(k)
	return n, nil
}

// readMass reads how much of something in bulk is meant; a number alone is in the kitchen's usual unit.
func readMass(text string, there unit.Mass, units unit.System) (unit.Mass, error) {
	text = strings.TrimSpace(text)
	const how = "write all, or what it weighs, such as 2 lb 3 oz or 1.5 kg"
	if strings.EqualFold(text, wordAll) && there > 0 {
		return there, nil
	}
	if text == "" {
		return 0, refuse("which", how, "it is not said how much")
	}
	if strings.Trim(text, "0123456789.,") == "" {
		text += map[unit.System]string{unit.US: " lb", unit.Metric: " kg"}[units]
	}
	m, err := unit.ParseMass(text)
	switch {
	case err != nil:
		return 0, refuse("which", how, "%s", strings.TrimPrefix(err.Error(), "unit: "))
	case m <= 0:
		return 0, refuse("which", how, "no mass is none")
	}
	return m, nil
}

// placesOf are the places at which any of a lot is, in the order of their names.
func placesOf(l *lots.Lot) []record.Place { return slices.Sorted(maps.Keys(l.Here)) }
