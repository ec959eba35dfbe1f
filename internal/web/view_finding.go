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

// place is the page of a run where a cook acts on a finding: the key of its part.
type place string

const (
	atFindings place = "findings"
	atDay      place = "day"
	atCook     place = "cook"
	atChill    place = "chill"
	atSeal     place = "seal"
	atFreeze   place = "freeze"
	atCards    place = "cards"
	atBuy      place = "buy"
	atMoney    place = "money"
	atLabels   place = "labels"
)

// places leads from the beginning of a finding's code to its page; the first that fits counts.
var places = []struct {
	code string
	at   place
}{
	{"order-short", atSeal}, {"freezer-low", atSeal}, {"not-check-weighed", atSeal}, {"sauce-ratio", atSeal}, {"weight-doubted", atSeal},
	{"chill-", atChill}, {"held-", atChill}, {"freez", atFreeze}, {"no-freezer", atFreeze}, {"ice-", atChill}, {"card-", atCards}, {"bag-not", atCards}, {"no-minutes", atCards}, {"bag", atSeal}, {"fewer-packs", atSeal},
	{"vacuum", atSeal}, {"cannot-buy", atBuy}, {"supplier-too-late", atBuy}, {"not-in-time", atBuy}, {"stock-", atBuy}, {"order-", atBuy}, {"price-", atMoney}, {"sold-", atMoney}, {"joint-", atMoney}, {"allergen", atLabels},
	{"day-", atDay}, {"no-timetable", atDay}, {"nobody", atDay}, {"limit-missed", atDay}, {"appointment-late", atDay}, {"broken-in-use", atDay}, {"into-tubs", atDay},
}

// repeated are the stops and cautions that belong to one page, to be said again there.
func repeated(list finding.List, at place) []reminder {
	var out []reminder
	for _, f := range list {
		if f.Severity > finding.Note && placeOf(f) == at {
			out = append(out, remind(f))
		}
	}
	return out
}

// placeOf is where to act on a finding: by its code, else at the dish that it is about, else where all findings stand.
func placeOf(f finding.Finding) place {
	for _, p := range places {
		if strings.HasPrefix(f.Code, p.code) {
			return p.at
		}
	}
	if strings.HasPrefix(f.Path, "dishes") {
		return atCook
	}
	return atFindings
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
