package web

import (
	"net/url"

	"kettlefrost/internal/app"
	"kettlefrost/internal/find"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

// kindNames are the headings of what was found.
var kindNames = map[find.Kind]string{
	find.Dish: "Dishes", find.Pack: "Packs", find.Run: "Runs of the book", find.Production: "Productions", find.Ingredient: "Ingredients", find.Lot: "Lots", find.Order: "Orders",
	find.Customer: "Customers", find.Invoice: "Invoices", find.Credit: "Credit notes", find.Supplier: "Suppliers", find.Equipment: "Equipment", find.Place: "Places", find.Person: "People",
	find.Staff: "Who may sign in", find.Trial: "Trials", find.Step: "Steps", find.Food: "Composition table", find.Help: "Help",
}

// foundURL is where something that was found is looked at: its own page, or what of the book it is written in.
func (s *server) foundURL(query url.Values, kind find.Kind, x app.FoundItem) string {
	switch kind {
	case find.Dish:
		return coldURL(workshopDishPath, query, dishKey, x.ID)
	case find.Step:
		return coldURL(workshopDishPath, query, dishKey, x.Of)
	case find.Pack:
		return coldURL(packLabelPath, query, packKey, x.ID)
	case find.Run:
		return runPath(x.ID) + coldURL("", query)
	case find.Production:
		return boardURL(x.ID) + coldURL("", query)
	case find.Lot:
		return lotURL(lotPath, record.Lot(x.ID), query)
	case find.Order:
		return orderURL(x.ID) + coldURL("", query)
	case find.Customer:
		return customerURL(x.ID) + coldURL("", query)
	case find.Invoice:
		return billURL(x.ID) + coldURL("", query)
	case find.Credit:
		return creditURL(x.ID) + coldURL("", query)
	case find.Place:
		return coldURL(placePath, query, "place", x.ID)
	case find.Staff:
		return peoplePath + "/" + url.PathEscape(x.ID)
	case find.Trial:
		return trialURL(x.ID, "", query)
	case find.Help:
		return foundHelpURL(x.ID, x.Of)
	case find.Food:
		return "/foods?" + url.Values{"q": {x.ID}}.Encode()
	case find.Ingredient:
		return entryURL("ingredients", x.ID)
	case find.Supplier:
		return entryURL("suppliers", x.ID)
	case find.Equipment:
		return entryURL(s.sectionOf(x.ID), x.ID)
	case find.Person:
		return entryURL("people", x.ID)
	}
	return s.writtenURL(x)
}

// sectionOf is where the book lists a thing of the kitchen.
func (s *server) sectionOf(id string) string {
	book, _ := s.house.Book()
	if _, is := book.Chilling[kitchen.ChillingID(id)]; is {
		return "chilling"
	}
	if _, is := book.Freezers[kitchen.FreezerID(id)]; is {
		return "freezers"
	}
	if _, is := book.Thermometers[kitchen.ThermometerID(id)]; is {
		return "thermometers"
	}
	if _, is := book.Bags[kitchen.BagID(id)]; is {
		return "bags"
	}
	return "equipment"
}

// writtenURL is the file of the book in which something is written, where the pages can show it; else the page of the book.
func (s *server) writtenURL(x app.FoundItem) string {
	if keeper, can := s.house.(bookKeeper); can && keeper.InRecords() && x.Of != "" {
		return bookFilePath + "?" + url.Values{"file": {x.Of}}.Encode()
	}
	return "/book"
}
