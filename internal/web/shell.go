package web

import (
	"cmp"
	"net/http"
	"net/url"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/language"
	"kettlefrost/internal/unit"
)

// shell is what stands around every page.
type shell struct {
	Title     string
	Kitchen   string
	Home      string // how the kitchen's page is marked: page for itself, or nothing
	Nav       []placeLink
	InPlace   string      // the name of the place that one is in
	Within    []placeLink // the pages of its place, where there are several
	Around    string      // the name of that place
	Refresh   int         // seconds after which a page that follows the clock is asked for again; 0 for never
	Did       *didView    // what was entered just now
	Acting    *actingView // who acts; nil where nobody signs in
	OnDevice  shownView   // how this device is shown pages
	Shortcuts keySheet
	Thing     *thingView // what this page is about, where that has a name
	Demo      bool       // the kitchen is the demo
	Loose     bool       // and its book is not in the records, so that it cannot be changed here
	spoken    language.Language
}

// shownView is how a device is shown a page, and the switch of the units.
type shownView struct {
	Units  []unitChoice
	Switch bool   // the units can be switched here: there is an address to come back to
	Sent   bool   // a form that was sent is shown
	Back   string // the address that the switch comes back to, without the units it may ask for
	Device string // the address of all that a device can choose

	Styles string // address of the shared style sheets
	Scheme string // the colour schemes that the page is made for
	Type   string // the size of the type, where it is not the usual one

	Address string // of this page, for the foot of its print
	Date    string // of its print
	look    deviceLook
}

// unitChoice is one side of the switch of the units.
type unitChoice struct {
	Value, Name, Says string
	Here              bool
}

// inShell makes the shell of a page. Here is the key of its place in the navigation, "home", or nothing.
func (s *server) inShell(r *http.Request, k kitchen.Kitchen, title, here string) shell {
	v := shell{Title: title, Kitchen: cmp.Or(k.Name, "Kitchen"), Did: did(r), Acting: s.acting(r), OnDevice: s.shownOn(r, k), Shortcuts: keysOn(r), Thing: thingOf(r, here), spoken: s.speaks(r), Demo: s.isDemo()}
	keeper, can := s.house.(bookKeeper)
	v.Loose = v.Demo && !(can && keeper.InRecords())
	if here == "home" {
		v.Home = "page"
	}
	v.Nav, v.Within, v.Around = navTo(here, r.URL.Path)
	for _, p := range v.Nav {
		if p.Here != "" {
			v.InPlace = p.Name
		}
	}
	return v
}

// frame is the shell itself, of whatever page it is part of.
func (v shell) frame() shell { return v }

// system is what a number without a unit is read in: us or metric, or nothing on a page that belongs to nobody.
func (v shownView) system() string {
	for _, u := range v.Units {
		if u.Here {
			return u.Value
		}
	}
	return ""
}

// shownOn is how a page is shown on the device that asks for it.
func (s *server) shownOn(r *http.Request, k kitchen.Kitchen) shownView {
	now := readerOf(k, r).units
	back := s.backTo(r)
	look := lookOf(r)
	v := shownView{Styles: stylesFor(look), Scheme: look.colours(), Type: look.Type, look: look, Address: r.Host + back, Date: s.house.Now().Format("2006-01-02 15:04"), Back: back, Switch: back != "", Sent: r.Method != http.MethodGet, Device: devicePath + "?" + url.Values{backField: {back}}.Encode()}
	for _, u := range []struct {
		system     unit.System
		name, says string
	}{{unit.US, "°F lb", "Degrees Fahrenheit and pounds first"}, {unit.Metric, "°C kg", "Degrees Celsius and kilograms first"}} {
		v.Units = append(v.Units, unitChoice{u.system.String(), u.name, u.says, u.system == now})
	}
	return v
}

// choiceLink leads to the same thing shown in another way.
type choiceLink struct {
	Name string
	Here bool
	URL  string
}

// navLink leads to a part of a page's own.
type navLink struct {
	Name, URL string
	Here      bool
}
