package web

import (
	"net/http"

	"kettlefrost/internal/language"
	"kettlefrost/internal/unit"
)

// Names of the fields of what a device chooses.
const (
	schemeField   = "scheme"
	contrastField = "contrast"
	typeField     = "type"
	keysField     = "keys"
)

// devicePage is all that templates/device.html may show: how this device shows pages, to be chosen.
type devicePage struct {
	shell
	Back    string // where one came from
	Choices []choices
	KeysURL string
	LookURL string
	Address string
}

// choices is one thing to choose: exactly one of its options holds.
type choices struct {
	Name, Legend, Hint string
	Options            []choice
}

type choice struct {
	Value, Says, Means string
	Tongue             string // the language that it is said in, where it is another one
	Here               bool
}

var deviceTemplate = parse[devicePage]("device")

func (s *server) showDevice(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	look := lookOf(r)
	units := ""
	if u, err := unit.ParseSystem(cookie(r, unitsCookie)); err == nil {
		units = u.String()
	}
	v := devicePage{shell: s.inShell(r, book.Kitchen, "This device", "device"), Back: ours(r.URL.Query().Get(backField)), KeysURL: keysPath, LookURL: componentsPath, Address: devicePath}
	v.Choices = []choices{
		one(unitsKey, "Units", "What stands first; the other stands beside it. An address that asks for units gets them.", units,
			choice{Value: "", Says: "As the kitchen’s book has them", Means: map[unit.System]string{unit.US: "°F and lb", unit.Metric: "°C and kg"}[book.Kitchen.Units]}, choice{Value: unit.US.String(), Says: "°F and lb first"}, choice{Value: unit.Metric.String(), Says: "°C and kg first"}),
		one(languageCookie, "Language", "No specialist has read the translations: have cautions read by somebody who knows both languages before people rely on them.", cookie(r, languageCookie), s.languages(r)...),
		one(schemeField, "Light or dark", "", look.Scheme,
			choice{Value: "", Says: "As the device is set"}, choice{Value: lightLook, Says: "Light", Means: "for a bright kitchen"}, choice{Value: darkLook, Says: "Dark", Means: "for the evening"}),
		one(contrastField, "Contrast", "", map[bool]string{true: highLook}[look.High],
			choice{Value: "", Says: "As the device is set"}, choice{Value: highLook, Says: "High", Means: "black, white and thick lines: in glare, or where eyes tire"}),
		one(typeField, "Type", "", look.Type,
			choice{Value: "", Says: "Usual", Means: "read at arm’s length"}, choice{Value: largerLook, Says: "Larger", Means: "read at 80 cm, on a shelf or a wall"}, choice{Value: largestLook, Says: "Largest", Means: "read from further away"}),
		one(keysField, "Keys", "Such as g and then b for the board. They do nothing while something is typed.", cookie(r, keysCookie),
			choice{Value: "", Says: "On"}, choice{Value: keysOff, Says: "Off", Means: "for whoever steers by voice, or where a scanner types"}),
	}
	deviceTemplate.show(w, http.StatusOK, v)
}

// one is a choice with what holds now: the first option where a cookie says something that is none of them.
func one(name, legend, hint, now string, options ...choice) choices {
	at := 0
	for i, o := range options {
		if o.Value == now {
			at = i
		}
	}
	options[at].Here = true
	return choices{name, legend, hint, options}
}

// languages are the languages that pages can be in, each in its own words.
func (s *server) languages(r *http.Request) []choice {
	all := []choice{{Says: "As the browser asks", Means: language.Match(r.Header.Get("Accept-Language")).Name()}}
	for _, l := range language.Languages() {
		all = append(all, choice{Value: string(l), Says: l.Name(), Tongue: string(l)})
	}
	return all
}

// keepDevice keeps what was chosen. What is none of the options is forgotten, so that the device is as it is set.
func (s *server) keepDevice(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	var look deviceLook
	for _, field := range []string{schemeField, contrastField, typeField} {
		look.add(r.PostFormValue(field))
	}
	units, tongue, keys := "", "", ""
	if u, err := unit.ParseSystem(r.PostFormValue(unitsKey)); err == nil {
		units = u.String()
	}
	if l, err := language.Parse(r.PostFormValue(languageCookie)); err == nil {
		tongue = string(l)
	}
	if r.PostFormValue(keysField) == keysOff {
		keys = keysOff
	}
	keepOnDevice(w, unitsCookie, units)
	keepOnDevice(w, languageCookie, tongue)
	keepOnDevice(w, lookCookie, look.String())
	keepOnDevice(w, keysCookie, keys)
	http.Redirect(w, r, ours(r.PostFormValue(backField)), http.StatusSeeOther)
}
