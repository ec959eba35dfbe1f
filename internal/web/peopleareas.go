package web

import (
	"path"
	"strings"

	"kettlefrost/internal/people"
)

// areas are the addresses that not everybody may see, as patterns of path.Match. What is in none is the kitchen's.
var areas = map[people.Area][]string{
	people.Money: {"/bills", "/bills.json", "/bills/*", "/bill/*", "/bill/*/*", "/credit/*", "/customer/*/account", "/orders/*/bill", "/run/*/money", "/week",
		"/book/suppliers", "/book/suppliers/*", "/book/suppliers/*/*", "/book/price-lists", "/book/price-lists/*", "/book/price-lists/*/*", "/book/tax-rates", "/book/tax-rates/*", "/book/tax-rates/*/*", "/book/seller", "/book/seller/*"},
	people.Office:   {"/office", "/office/*", "/office/*/*", "/office/*/*/*", bookFilesPath, bookFilePath, bookComparePath},
	people.Managing: {peoplePath, peoplePath + "/*", "/devices", "/keys", "/book/people/*", "/book/people/*/*"},
}

// areaOf is the area that an address belongs to.
func areaOf(address string) people.Area {
	address = "/" + strings.Trim(path.Clean(address), "/")
	for area, patterns := range areas {
		for _, p := range patterns {
			if ok, err := path.Match(p, address); ok && err == nil {
				return area
			}
		}
	}
	return people.Kitchen
}
