package pagetext

import "strings"

// kitchens are fields of views that hold what people of the kitchen wrote, or codes and addresses: they are shown as they are.
var kitchens = set("Kitchen Customer Dish Ingredient Ingredients Note Person Supplier Probe Device Lot Code Value Address Phone Mail File Email " +
	"Who TakenBy Taster Typed Text2 YAML JSON ID Key URL Hash Pack Food Site Brand Comment Quote Query Line Cells Password Statement Allergens Author")

// names are fields that mostly hold a name that the kitchen gave, and now and then a word of the program: single words in them stay.
var names = set("Name Label By With On Of Place Run Step Equipment What Where At From To First Second Mass Day Date Clock Ends Load Order Trial Tub Bag Recipe Method Freezer Product")

// program are lists whose names are words of the program.
var program = set("Nav Today Cards Part Within Parts Units Before After Columns Tabs Around Compared Options Choices Kinds Rules Stages Languages Looks Areas Sections Groups Worst Methods Words Heads")

func set(words string) map[string]bool {
	all := map[string]bool{}
	for _, w := range strings.Fields(words) {
		all[w] = true
	}
	return all
}

// isName tells whether what a field holds, given with the field that it lies in, is usually a name of the kitchen's.
func isName(field string) bool {
	parts := strings.Split(field, ".")
	last := parts[len(parts)-1]
	for _, p := range parts[:len(parts)-1] {
		if program[p] {
			return false
		}
	}
	return names[last]
}
