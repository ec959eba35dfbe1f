package web

import (
	"strings"

	"kettlefrost/internal/finding"
)

// reminder is a finding in short, said again where a cook acts on it.
type reminder struct {
	Class   string // stop, caution or note
	Word    string
	Sign    string // a shape that differs, so that colour is never needed
	Where   string
	Message string
	Fix     string
}

// findingView is a finding in words.
type findingView struct {
	reminder
	Compared []compared
	Source   string
	At       string
}

// compared is a figure that a finding compared.
type compared struct{ Name, Text string }

var signs = map[finding.Severity]string{finding.Stop: "■", finding.Caution: "▲", finding.Note: "●"}

func remind(f finding.Finding) reminder {
	return reminder{Class: f.Severity.String(), Word: strings.ToUpper(f.Severity.String()), Sign: signs[f.Severity], Where: f.Where, Message: f.Message, Fix: f.Fix}
}

func viewFinding(f finding.Finding) findingView {
	v := findingView{reminder: remind(f), Source: f.Source}
	for _, c := range f.Figures {
		v.Compared = append(v.Compared, compared{c.Name, c.Text})
	}
	if f.At != nil {
		v.At = f.At.String()
	}
	return v
}

// findingsView is a list, the notes apart so that they do not hide what is grave.
type findingsView struct {
	Grave []findingView // stops and cautions
	Notes []findingView
	Tally string // "1 stop, 3 cautions, 2 notes"
	Worst string // class of the gravest, "" when there is none
}

func viewFindings(list finding.List) findingsView {
	var v findingsView
	counts := map[finding.Severity]int{}
	for _, f := range list {
		counts[f.Severity]++
		shown := viewFinding(f)
		if f.Severity > finding.Note {
			v.Grave = append(v.Grave, shown)
		} else {
			v.Notes = append(v.Notes, shown)
		}
	}
	var parts []string
	for s := finding.Stop; s >= finding.Note; s-- {
		if n := counts[s]; n > 0 {
			parts = append(parts, times(n, s.String(), s.String()+"s"))
			if v.Worst == "" {
				v.Worst = s.String()
			}
		}
	}
	v.Tally = strings.Join(parts, ", ")
	return v
}

// place is the part of the page where a cook acts on a finding.
type place string

const (
	atDay    place = "day"
	atChill  place = "chill"
	atFill   place = "fill"
	atFreeze place = "freeze"
	atCards  place = "cards"
	atBuy    place = "buy"
	atCost   place = "cost"
	atLabels place = "labels"
)

// places leads from the beginning of a finding's code to its part of the page; the first that fits counts.
var places = []struct {
	code string
	at   place
}{
	{"chill-", atChill}, {"held-", atChill}, {"freez", atFreeze}, {"no-freezer", atFreeze}, {"ice-", atChill}, {"card-", atCards}, {"bag-not", atCards}, {"no-minutes", atCards}, {"bag", atFill}, {"fewer-packs", atFill},
	{"vacuum", atFill}, {"cannot-buy", atBuy}, {"stock-", atBuy}, {"price-", atCost}, {"sold-", atCost}, {"allergen", atLabels},
	{"day-", atDay}, {"no-timetable", atDay}, {"nobody", atDay},
}

// repeated are the stops and cautions that belong to one part of the page, to be said again there.
func repeated(list finding.List, at place) []reminder {
	var out []reminder
	for _, f := range list {
		if f.Severity > finding.Note && placeOf(f.Code) == at {
			out = append(out, remind(f))
		}
	}
	return out
}

func placeOf(code string) place {
	for _, p := range places {
		if strings.HasPrefix(code, p.code) {
			return p.at
		}
	}
	return ""
}

// atStep are the stops and cautions about one step of a dish, by their path in the book.
func atStep(list finding.List, path string) []reminder {
	var out []reminder
	for _, f := range list {
		if f.Severity > finding.Note && (f.Path == path || strings.HasPrefix(f.Path, path+".")) {
			out = append(out, remind(f))
		}
	}
	return out
}
