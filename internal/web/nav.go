package web

import (
	"slices"
	"strings"
)

// placeLink leads to a place, or to a page of one.
type placeLink struct {
	Name, URL string
	Here      string // how it is marked: page for the page itself, true for the place that it is in, or nothing
}

// navPlace is where the navigation leads to, by the key that a page gives of itself.
type navPlace struct {
	key, name, url string
	also           string      // the beginning of other addresses that lie within its page
	pages          *[]navPlace // of a place with several: the first is where it leads to
}

// navigation are the places: few, in the order of a day. What is done in each are its pages.
var navigation = []navPlace{
	{key: "board", name: "Board", url: boardPath},
	{name: "Plan", pages: &planPlaces},
	{name: "Stock", pages: &stockPlaces},
	{name: "Orders", pages: &orderPlaces},
	{name: "Safety", pages: &safetyPlaces},
	{name: "Workshop", pages: &workshopPlaces},
	{name: "Book", pages: &bookPlaces},
	{name: "Office", pages: &officePlaces},
	{name: "Help", pages: &helpPlaces},
}

// planPlaces are what is planned, and the questions of a production that need no run.
var planPlaces = []navPlace{
	{key: runKey, name: "Runs", url: "/#runs"},
	{key: "nextrun", name: "Next run", url: nextRunPath},
	{key: "week", name: "Week", url: "/week"},
	{key: "filling", name: "Weigh", url: fillingPath},
	{key: "cool", name: "Cool", url: coolPath},
	{key: "heat", name: "Heat", url: heatPath},
}

// stockPlaces are what is there, comes and goes.
var stockPlaces = []navPlace{
	{key: "stock", name: "On hand", url: stockPath},
	{key: "receive", name: "Receive", url: receivePath},
	{key: "put", name: "Where to put", url: putPath},
	{key: "count", name: "Take stock", url: countPath},
	{key: "labels", name: "Labels", url: packLabelsPath},
	{key: "recall", name: "Recall", url: recallPath},
}

// orderPlaces are who wants what, and what is owed for it.
var orderPlaces = []navPlace{
	{key: "orders", name: "Open orders", url: ordersPath},
	{key: "customers", name: "Customers", url: customersPath},
	{key: "bills", name: "Bills", url: billsPath},
}

// safetyPlaces are the pages about food safety.
var safetyPlaces = []navPlace{
	{key: "safety", name: "What is open", url: "/safety"},
	{key: "cooling", name: "Cooling now", url: "/cooling"},
	{key: "watch", name: "Freezers", url: "/freezers/watch"},
	{key: "logs", name: "Logs", url: "/logs"},
	{key: "thermometers", name: "Thermometers", url: "/thermometers"},
	{key: "hazards", name: "Hazard plans", url: "/hazards"},
	{key: "rules", name: "Rules", url: "/rules"},
	{key: "folder", name: "Inspector's folder", url: "/folder"},
}

// workshopPlaces are the pages about how a dish is made up and how it keeps.
var workshopPlaces = []navPlace{
	{key: "workshop", name: "Review", url: workshopPath},
	{key: "trials", name: "Trials", url: trialsPath},
	{key: "disperse", name: "Getting it in", url: dispersePath},
	{key: "retained", name: "Retained packs", url: retainedPath},
	{key: "keeping", name: "Best before", url: keepingPath},
	{key: "learned", name: "What runs have shown", url: learnedPath},
	{key: "homecard", name: "Home card", url: homeCardPath},
	{key: "draft", name: "From a recipe", url: draftPath},
}

// bookPlaces are what the kitchen knows how to make, and of what.
var bookPlaces = []navPlace{
	{key: "book", name: "The book", url: bookPath},
	{key: "book", name: "Dishes", url: bookPath + "/dishes", also: "/dish/"},
	{key: "book", name: "Packs", url: bookPath + "/packs"},
	{key: "book", name: "Ingredients", url: bookPath + "/ingredients"},
	{key: "foods", name: "Foods", url: "/foods"},
	{key: "files", name: "Files", url: bookFilesPath},
}

// officePlaces are files in and out, and who works here.
var officePlaces = []navPlace{
	{key: "office", name: "Files in and out", url: officePath},
	{key: "people", name: "People", url: peoplePath},
}

// helpPlaces are how things are meant and done.
var helpPlaces = []navPlace{
	{key: "help", name: "Figures", url: helpPath},
	{key: "glossary", name: "Words", url: glossaryPath},
	{key: "tutorial", name: "Tutorial", url: tutorialPath},
}

// runKey is of the pages of a run, which have their own row of parts: the row of their place would only be in the way.
const runKey = "run"

// navTo is the navigation as it stands on a page of that key and path: the places, the pages of the place one is in where there are several,
// and its name.
func navTo(here, path string) (places, within []placeLink, around string) {
	for _, p := range navigation {
		pages := []navPlace{p}
		if p.pages != nil {
			pages = *p.pages
		}
		if len(pages) == 0 {
			continue
		}
		place := placeLink{Name: p.name, URL: pages[0].url}
		if here != "" && slices.ContainsFunc(pages, func(x navPlace) bool { return x.key == here }) {
			place.Here = markOf(place.URL, path)
			if len(pages) > 1 && here != runKey {
				within, around = pagesIn(pages, here, path), p.name
			}
		}
		places = append(places, place)
	}
	return places, within, around
}

// pagesIn are the pages of a place, with the one marked that has the key; where several have it, the one below whose address the path lies
// deepest.
func pagesIn(pages []navPlace, here, path string) []placeLink {
	links, at, deepest := make([]placeLink, len(pages)), -1, -1
	for i, x := range pages {
		links[i] = placeLink{Name: x.name, URL: x.url}
		if x.key != here {
			continue
		}
		depth := 0
		if path == x.url || strings.HasPrefix(path, x.url+"/") || x.also != "" && strings.HasPrefix(path, x.also) {
			depth = len(x.url)
		}
		if depth > deepest {
			at, deepest = i, depth
		}
	}
	if at >= 0 {
		links[at].Here = markOf(pages[at].url, path)
	}
	return links
}

// markOf is how a link is marked to where one is: page where it leads to this very page, true where this page lies within.
func markOf(url, path string) string {
	if url == path {
		return "page"
	}
	return "true"
}
