package web

import (
	"net/http"
	"net/url"
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/plan"
)

// componentsPath shows what pages are made of, in every state. Nothing on it is entered.
const componentsPath = "/look"

// componentsPage is all that templates/look.html may show: each part of pages in its states, made of the templates of the pages.
type componentsPage struct {
	shell
	Looks    []choiceLink
	Swatches []string
	Grave    findingsView
	Short    []reminder
	Figures  []keyFigure
	Runs     []runCard
	Rows     []stockRow
	Spots    []placeRow
	Fields   []field
	Choice   choices
	Jobs     []jobSample
	Loads    []coolingCard
	Cools    []coolingLine
	Undo     didView
	Tallies  []tallySample
	States   []stateSign
	Form     boardForm
	Fold     boardForm
	Methods  []method
	Key      []keyLine
	Picture  pictureView
	Opens    []openingRow
	RunParts runSample
}

// jobSample are jobs of the board of one sort, under the class that they have there.
type jobSample struct {
	Name, Class string
	Jobs        []boardCard
}

// tallySample counts findings under the class of the gravest.
type tallySample struct{ Tally, Worst string }

// runSample is the head and the foot of a run's page.
type runSample struct {
	Part, Run, Date  string
	Parts            []partLink
	Notice, NoticeAt string
	Before, After    link
}

var componentsTemplate = parse[componentsPage]("look")

// showComponentsAgain answers what is pressed on the page: it is there to be looked at.
func showComponentsAgain(w http.ResponseWriter, r *http.Request) {
	http.Redirect(w, r, componentsPath, http.StatusSeeOther)
}

func (s *server) showComponents(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	v := componentsPage{shell: s.inShell(r, book.Kitchen, "How everything looks", "look")}
	now := lookOf(r).String()
	for _, l := range []choiceLink{{Name: "As the device is set"}, {Name: "Light", URL: "light"}, {Name: "Dark", URL: "dark"}, {Name: "High contrast, light", URL: "light.high"}, {Name: "High contrast, dark", URL: "dark.high"}, {Name: "Larger type", URL: "larger"}, {Name: "Largest type", URL: "largest"}} {
		v.Looks = append(v.Looks, choiceLink{Name: l.Name, Here: l.URL == now, URL: componentsPath + "?" + url.Values{lookCookie: {l.URL}}.Encode()})
	}
	v.Swatches = strings.Fields("paper sheet wash ink quiet faint line accent on-accent stop stop-ground caution caution-ground note note-ground yes")
	v.sampleWords()
	v.sampleForms()
	v.sampleBoard()
	componentsTemplate.show(w, http.StatusOK, v)
}

// sampleWords are what is told: findings, figures, rows, cards, drawings.
func (v *componentsPage) sampleWords() {
	say := func(class, word, sign, message, fix string) reminder {
		return reminder{Class: class, Word: word, Sign: sign, Where: "bean pot", Message: message, Fix: fix}
	}
	stop := say("stop", "STOP", "■", "it does not cool in time in the walk-in", "put it into an ice bath")
	caution := say("caution", "CAUTION", "▲", "the kettle is 96 % full", "cook two loads")
	note := say("note", "NOTE", "●", "3 lb of beans are left over", "")
	full := func(r reminder) findingView {
		return findingView{reminder: r, Compared: []compared{{"predicted", "2 h 40 min"}, {"limit", "2 h"}}, Source: "an example, not a rule", At: "dishes/bean-pot.yaml:12:3"}
	}
	v.Grave = findingsView{Grave: []findingView{full(stop), full(caution)}, Notes: []findingView{full(note)}, Tally: "1 stop, 2 cautions", Worst: "stop"}
	v.Short = []reminder{stop, caution, note}
	v.Tallies = []tallySample{{Tally: "2 cautions", Worst: "caution"}, {Tally: "3 notes", Worst: "note"}}
	v.Figures = []keyFigure{{Title: "Packs", Value: figure{First: "288"}}, {Title: "Food in them", Value: figure{"323 lb", "147 kg"}, More: "an example"}, {Title: "Start – end", Value: figure{First: "06:00 – 14:49"}}}
	v.Runs = []runCard{{URL: componentsPath, Name: "a run", Day: "2026-12-01", Wants: []string{"160 × a sauce, 1 lb", "as many as the kettle holds"}}}
	v.Rows = []stockRow{
		{URL: componentsPath, Lot: "P-1201-3", What: "a sauce, 1 lb", Handle: componentsPath, Place: "chest freezer", PlaceURL: componentsPath, Count: "40 packs", Numbers: "1–40", Mass: figure{"40 lb", "18.1 kg"}, Until: "2027-03-01", Oldest: true},
		{URL: componentsPath, Lot: "R-1126-2", What: "carrots", Handle: componentsPath, Place: "walk-in", PlaceURL: componentsPath, Mass: figure{"25 lb", "11.3 kg"}, Until: "2026-11-01", Past: true, Held: "all of it", Taste: "no. 13"}}
	v.Spots = []placeRow{{URL: componentsPath, Name: "chest freezer", Code: "chest-1", Kind: "frozen", Packs: "40 packs", Holds: figure{"40 lb", "18.1 kg"}, Left: figure{"360 lb", "163 kg"}, Over: "12 lb too much"}}
	v.States = []stateSign{{"stop", "■", "overdue"}, {"caution", "▲", "due soon"}, {"note", "●", "open"}, {"yes", "✓", "paid"}}
	v.Methods = []method{{"a formula by its name", []string{"bean pot", "sauce"}}}
	v.Opens = []openingRow{{URL: componentsPath, Says: "no. 13 of P-1201-3", From: "a sauce, 1 lb", Where: "chest freezer", Late: "since yesterday"}}
	dishes := make([]plan.Dish, 6)
	for i, id := range strings.Fields("bean-pot sauce soup filling stock dal") {
		dishes[i].ID, dishes[i].Name = id, strings.ReplaceAll(id, "-", " ")
	}
	v.Key = keyLines(dishes, draw.NewCodes(dishes))
	v.Picture = pictures{path: runPath("small-friday")}.cooling(0, 0)
	v.RunParts = runSample{Part: "At a glance", Run: "a run", Date: "2026-12-01", Parts: []partLink{{link{"Glance", componentsPath}, true}, {link{"Findings", componentsPath}, false}, {link{"Buy", componentsPath}, false}}, Before: link{"Findings", componentsPath}, After: link{"Day", componentsPath}, Notice: "What follows was moved."}
}

// sampleForms are what is filled in: each field empty, filled, read in another way, and with a problem.
func (v *componentsPage) sampleForms() {
	v.Fields = []field{
		{Key: "empty", Label: "Empty", Hint: "such as 12 lb"}, {Key: "filled", Label: "Filled in", Hint: "read as 2 lb 3 oz", Value: "2 lb 3"}, {Key: "problem", Label: "With a problem", Hint: "such as 12 lb", Value: "a few", Problem: "“a few” is no weight; write for example 12 lb"},
		{Key: "chosen", Label: "Chosen from a list", Hint: "one of them", Options: []option{{Value: "a", Says: "chest freezer", Here: true}, {Value: "b", Says: "walk-in"}}}, {Key: "day", Label: "A day", Value: "2026-12-01", Date: true}, {Key: "number", Label: "A number", Value: "160", Number: true}}
	v.Choice = one("choice", "One of these", "Exactly one holds.", "b", choice{Value: "a", Says: "The first"}, choice{Value: "b", Says: "The second", Means: "which holds now"})
	v.Form = boardForm{ID: "sample", Action: componentsPath, Button: "Enter it", Fields: []field{{Key: "weighed", Label: "It weighs", Hint: "a number alone is lb"}}}
	v.Fold = boardForm{ID: "folded", Title: "Something went another way", Action: componentsPath, Button: "Enter it", Open: true, Fields: []field{{Key: "why", Label: "Why"}}}
	v.Undo = didView{Says: []string{"40 packs into the chest freezer"}, Back: componentsPath}
}

// sampleBoard are jobs in their states, and loads that cool.
func (v *componentsPage) sampleBoard() {
	job := func(key string, change func(*boardCard)) boardCard {
		c := boardCard{Key: key, URL: componentsPath, Action: componentsPath, What: "start", Button: "Start", Code: "A1", Label: "Sweat the vegetables", Load: "load 1", From: "06:00", To: "06:40", Place: "kettle"}
		change(&c)
		return c
	}
	running := func(c *boardCard) { c.What, c.Button, c.Left, c.Who = "finish", "Done", "12 min left", "Sam" }
	v.Jobs = []jobSample{
		{"To do now", "do", []boardCard{job("now", func(c *boardCard) {})}},
		{"Behind the plan", "do", []boardCard{job("behind", func(c *boardCard) { c.Behind = "20 min later" })}},
		{"Next", "next", []boardCard{job("next", func(c *boardCard) { c.With = "Kim" })}},
		{"Waiting", "wait", []boardCard{job("wait", func(c *boardCard) { c.Waits = "A1 Sweat the vegetables" })}},
		{"Under way", "way", []boardCard{job("way", running)}},
		{"Its time is up", "way", []boardCard{job("due", func(c *boardCard) { running(c); c.Over, c.Left = true, "3 min over" })}},
	}
	for _, x := range []struct{ class, sign, headline, says string }{{"yes", "✓", "In time", "as predicted"}, {"caution", "▲", "Read it now", "20 minutes since the last reading"}, {"stop", "■", "Not in time", "it will be late at 70 °F"}} {
		v.Loads = append(v.Loads, coolingCard{URL: componentsPath, Title: "Bean pot", Load: "load 1", Class: x.class, Sign: x.sign, Headline: x.headline, Says: x.says})
		v.Cools = append(v.Cools, coolingLine{URL: componentsPath, Class: x.class, Sign: x.sign, Headline: x.headline, Says: x.says})
	}
}
