package web

import (
	"errors"
	"maps"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// Names under which a run is planned that is not in the book: all that it asks for stands in the address. A run of the book that has one of them
// for its own is that of the book.
const (
	newRun      = "new"
	proposedRun = "next-run"
)

// Keys of such an address, beside countKey and promisedKey: a dish of which as much is made as a day gives, the vessel that is filled once with a
// dish, the amount of an ingredient that is used up, and in which dish.
const (
	dayKey    = "day"
	mostKey   = "most"
	fillKey   = "fill."
	useKey    = "use."
	useInKey  = "in."
	mostWants = 40 // more than a day has dishes and packs
)

// errNothingAsked is an address of a run that names no target.
var errNothingAsked = errors.New("this plan asks for nothing: begin it again from the home page")

// isMade says whether a run of that name is not in the book but described by its address.
func isMade(book kitchen.Book, name string) bool {
	_, kept := book.Runs[name]
	return !kept && (name == newRun || name == proposedRun)
}

// proposed is the run that an address describes. The error says what it asks for that the book does not have.
func proposed(book kitchen.Book, name string, q url.Values) (kitchen.Request, error) {
	req := kitchen.Request{Name: map[string]string{newRun: "a new run", proposedRun: "proposed"}[name], Want: madeWants(q), Orders: promised(q)}
	if day := tidy(q.Get(dayKey)); isDay(day) {
		req.Day = day // anything else is told beside its field
	}
	if len(req.Want) == 0 {
		return req, errNothingAsked
	}
	for _, f := range kitchen.CheckRequest(book, req) {
		if f.Severity == finding.Stop {
			return req, errors.New("this plan cannot be made: " + f.Message)
		}
	}
	return req, nil
}

// madeWants are the targets in an address, in the order of their keys. What is no number and no amount is read again by retarget, and told beside
// its field.
func madeWants(q url.Values) []kitchen.Want {
	var wants []kitchen.Want
	for _, key := range slices.Sorted(maps.Keys(q)) {
		if pack, is := strings.CutPrefix(key, countKey); is {
			n, _ := strconv.Atoi(q.Get(key))
			wants = append(wants, kitchen.Want{Pack: kitchen.PackID(pack), Count: min(max(1, n), mostPacks)})
		}
		if dish, is := strings.CutPrefix(key, fillKey); is {
			wants = append(wants, kitchen.Want{Dish: kitchen.DishID(dish), Vessel: kitchen.EquipmentID(q.Get(key))})
		}
		if of, is := strings.CutPrefix(key, useKey); is && q.Has(useInKey+of) {
			wants = append(wants, kitchen.Want{Dish: kitchen.DishID(q.Get(useInKey + of)), Use: &kitchen.UseUp{Of: kitchen.IngredientID(of), Amount: unit.Amount{Kind: unit.AmountMass, Mass: unit.Kilogram}}})
		}
	}
	for _, dish := range q[mostKey] {
		wants = append(wants, kitchen.Want{Dish: kitchen.DishID(dish), Most: true})
	}
	return wants[:min(len(wants), mostWants)]
}

// promised is how many packs of the run are promised already.
func promised(q url.Values) map[kitchen.PackID]int {
	var all map[kitchen.PackID]int
	for key := range q {
		pack, is := strings.CutPrefix(key, promisedKey)
		n, err := strconv.Atoi(q.Get(key))
		if !is || err != nil || n < 1 {
			continue
		}
		if all == nil {
			all = map[kitchen.PackID]int{}
		}
		all[kitchen.PackID(pack)] = n
	}
	return all
}
