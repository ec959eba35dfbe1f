package kitchen

import (
	"slices"
	"strings"
)

// majorAllergens are the nine of 21 U.S.C. 321(qq), with sesame, in the words that the book writes.
var majorAllergens = [...]string{
	"milk", "egg", "fish", "crustacean shellfish", "tree nuts", "peanuts", "wheat", "soybeans", "sesame",
}

// kindWanted are those of which a label must name the kind: the nut, or the species (21 U.S.C. 343(w)).
var kindWanted = [...]string{"fish", "crustacean shellfish", "tree nuts"}

// otherWords are what kitchens call some of them, for a hint.
var otherWords = map[string]string{
	"dairy": "milk", "butter": "milk", "cream": "milk", "cheese": "milk", "lactose": "milk", "eggs": "egg",
	"soy": "soybeans", "soya": "soybeans", "soybean": "soybeans", "peanut": "peanuts", "groundnut": "peanuts",
	"gluten": "wheat", "flour": "wheat", "tahini": "sesame", "nuts": "tree nuts: almond", "shellfish": "crustacean shellfish: shrimp",
	"almond": "tree nuts: almond", "cashew": "tree nuts: cashew", "walnut": "tree nuts: walnut", "pecan": "tree nuts: pecan",
	"hazelnut": "tree nuts: hazelnut", "pistachio": "tree nuts: pistachio",
	"shrimp": "crustacean shellfish: shrimp", "prawn": "crustacean shellfish: shrimp", "crab": "crustacean shellfish: crab",
	"lobster": "crustacean shellfish: lobster", "anchovy": "fish: anchovy", "cod": "fish: cod", "salmon": "fish: salmon", "tuna": "fish: tuna",
}

// MajorAllergens are the words for the nine major allergens of United States food law, as Allergens.Names writes them.
func MajorAllergens() []string { return slices.Clone(majorAllergens[:]) }

// SplitAllergen takes a name such as "fish: trout" apart into the major allergen and its kind, which may be "". ok says that it is
// one of the nine.
func SplitAllergen(name string) (major, kind string, ok bool) {
	major, kind, colon := strings.Cut(name, ":")
	major, kind = strings.TrimSpace(major), strings.TrimSpace(kind)
	return major, kind, slices.Contains(majorAllergens[:], major) && colon == (kind != "")
}
