package web

import (
	"net/http"
	"strings"
)

// keysPath is the page of the sheet of the keys.
const keysPath = devicePath + "/keys"

// shortcut is a key, or two one after the other, that a page listens to while nothing is typed.
type shortcut struct {
	Keys string // as they are pressed, with a space between two
	Does string
	URL  string // where it leads to; "" for what the page itself does
}

// shortcuts is the one table of the keys: the sheet of them is made of it, and the script reads the sheet.
var shortcuts = []shortcut{
	{"/", "Find anything", ""},
	{"n", "Next: the part of a run that follows, or what is next to do", ""},
	{"p", "Back to the part before", ""},
	{"u", "The other units first", ""},
	{"?", "This sheet", ""},
	{"g h", "Today and the runs", "/"},
	{"g b", "Board", boardPath},
	{"g n", "What to make next", nextRunPath},
	{"g s", "Stock", stockPath},
	{"g r", "Receive goods", receivePath},
	{"g o", "Orders", ordersPath},
	{"g f", "Food safety", safetyPath},
	{"g c", "Cooling now", coolingPath},
	{"g w", "Workshop", workshopPath},
	{"g d", "Dishes", bookPath + "/dishes"},
	{"g k", "The book", bookPath},
	{"g v", "This device", devicePath},
}

// Cookie of a device on which the keys are off.
const (
	keysCookie = "keys"
	keysOff    = "off"
)

// shortcutRow is a shortcut as it is shown.
type shortcutRow struct {
	Press     string // as the script knows it
	Keys      []string
	Does, URL string
}

// keySheet is the table of the keys as it is shown.
type keySheet struct {
	Rows []shortcutRow
	On   bool // on this device
}

func keysOn(r *http.Request) keySheet {
	v := keySheet{On: cookie(r, keysCookie) != keysOff}
	for _, x := range shortcuts {
		v.Rows = append(v.Rows, shortcutRow{Press: x.Keys, Keys: strings.Fields(x.Keys), Does: x.Does, URL: x.URL})
	}
	return v
}

// keysPage is all that templates/keys.html may show: the sheet of the keys as a page.
type keysPage struct {
	shell
	DeviceURL string
}

var keysTemplate = parse[keysPage]("keys")

func (s *server) showKeys(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	v := keysPage{shell: s.inShell(r, book.Kitchen, "Keys", "keys"), DeviceURL: devicePath}
	keysTemplate.show(w, http.StatusOK, v)
}
