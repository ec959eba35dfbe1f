package web

import (
	"errors"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/dishgraph"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// Fields of the forms that change a dish as a graph.
const (
	dishDo     = "do"
	dishWhere  = "where"  // after.OUTPUT, between.OUTPUT.STEP, ahead.STEP, or nothing for a new start
	dishDoes   = "does"   // what a new step does
	dishIn     = "in"     // what it is done in
	dishTakes  = "takes"  // places of what it takes over
	dishInto   = "into"   // a step
	dishOut    = "output" // an output
	dishPlace  = "place"  // of something that goes in
	dishAcross = "across"
	dishOf     = "of"     // an ingredient, by its name
	dishAmount = "amount" // how much
	dishNamed  = "name"
	dishShare  = "share"
	dishPart   = "part"
)

// dishOperation changes a dish. It says which step is to be open then; "" for none.
type dishOperation func(a dishAsked) (now kitchen.Book, open string, err error)

// dishOperations are what the buttons of the page do.
var dishOperations = map[string]dishOperation{
	"add":     addStep,
	"earlier": func(a dishAsked) (kitchen.Book, string, error) { return movedStep(a, -1) },
	"later":   func(a dishAsked) (kitchen.Book, string, error) { return movedStep(a, 1) },
	"copy": func(a dishAsked) (kitchen.Book, string, error) {
		return dishgraph.Copy(a.book, a.id, a.said(dishStep))
	},
	"remove": func(a dishAsked) (kitchen.Book, string, error) {
		now, err := dishgraph.Remove(a.book, a.id, a.said(dishStep), a.said(dishAcross) == "yes")
		return now, "", err
	},
	"join": func(a dishAsked) (kitchen.Book, string, error) {
		now, err := dishgraph.Join(a.book, a.id, kitchen.OutputID(a.said(dishOut)), a.said(dishInto))
		return now, a.said(dishStep), err
	},
	"unuse": func(a dishAsked) (kitchen.Book, string, error) {
		place, err := strconv.Atoi(a.said(dishPlace))
		if err != nil {
			place = -1
		}
		now, err := dishgraph.Unuse(a.book, a.id, a.said(dishStep), place)
		return now, a.said(dishStep), err
	},
	"split": splitStep,
	"whole": func(a dishAsked) (kitchen.Book, string, error) {
		now, err := dishgraph.Whole(a.book, a.id, kitchen.OutputID(a.said(dishOut)))
		return now, a.said(dishStep), err
	},
	"use": putIn,
}

// said is a field of the form, without what no text may hold.
func (a dishAsked) said(key string) string { return tidy(a.query.Get(key)) }

// doToDish does an operation and leads to the dish as it then is. What is refused is told where it was asked, with all that was typed.
func (s *server) doToDish(w http.ResponseWriter, r *http.Request) {
	a, ok := s.askDish(w, r)
	if !ok {
		return
	}
	do, known := dishOperations[a.said(dishDo)]
	if _, can := s.house.(bookEditor); !known || !can || a.problem != "" {
		s.dishPage(w, r, http.StatusUnprocessableEntity, a, map[bool]string{true: "", false: "It is not said what to do with the dish."}[a.problem != ""], "")
		return
	}
	if a.said(dishDo) == "remove" && a.said(dishAcross) == "" && len(dishgraph.Hangs(a.book, a.id, a.said(dishStep))) > 0 {
		s.dishPage(w, r, http.StatusOK, a, "", "") // what hangs on it is told first
		return
	}
	now, open, err := do(a)
	if err != nil {
		problem, fix := refusedSays(err)
		s.dishPage(w, r, http.StatusUnprocessableEntity, a, problem, fix)
		return
	}
	more := url.Values{}
	hash := "#flow"
	if open != "" {
		more.Set(dishStep, open)
		hash = "#open"
	}
	http.Redirect(w, r, a.with(now, open).url(more)+hash, http.StatusSeeOther)
}

// refusedSays is why something was not done and what to do, as sentences.
func refusedSays(err error) (problem, fix string) {
	if no := (*dishgraph.Refused)(nil); errors.As(err, &no) {
		return capital(no.Says) + ".", capital(no.Fix) + "."
	}
	return sentence(err), ""
}

func movedStep(a dishAsked, by int) (kitchen.Book, string, error) {
	now, err := dishgraph.Move(a.book, a.id, a.said(dishStep), by)
	return now, a.said(dishStep), err
}

// addStep puts a step in where the form says.
func addStep(a dishAsked) (kitchen.Book, string, error) {
	does := a.said(dishDoes)
	if does == "" {
		return a.book, "", &dishgraph.Refused{Says: "nothing says what is done in the new step", Fix: "write it in a short sentence, such as “Simmer until soft.”"}
	}
	step := kitchen.Step{Do: does}
	if id := kitchen.EquipmentID(a.said(dishIn)); id != "" {
		if _, there := a.book.Equipment[id]; !there {
			return a.book, "", &dishgraph.Refused{Says: "the book has no equipment " + string(id), Fix: "choose one of the list"}
		}
		step.In = []kitchen.EquipmentID{id}
	}
	how, rest, _ := strings.Cut(a.said(dishWhere), ".")
	switch how {
	case "after":
		return dishgraph.After(a.book, a.id, kitchen.OutputID(rest), step)
	case "between":
		output, into, _ := strings.Cut(rest, ".")
		return dishgraph.Between(a.book, a.id, kitchen.OutputID(output), into, step)
	case "ahead":
		var places []int
		for _, text := range a.query[dishTakes] {
			if n, err := strconv.Atoi(text); err == nil && !slices.Contains(places, n) {
				places = append(places, n)
			}
		}
		return dishgraph.Ahead(a.book, a.id, rest, places, step)
	}
	return dishgraph.Add(a.book, a.id, step)
}

// splitStep lets a step give something more.
func splitStep(a dishAsked) (kitchen.Book, string, error) {
	o := kitchen.Output{Name: a.said(dishNamed), Part: kitchen.Part(a.said(dishPart)), ByProduct: true}
	if o.Name == "" {
		return a.book, "", &dishgraph.Refused{Says: "nothing says what else comes out", Fix: "write what the kitchen calls it, such as chicken fat"}
	}
	share, err := unit.ParseShare(withPercent(a.said(dishShare)))
	if err != nil {
		return a.book, "", &dishgraph.Refused{Says: "how much of it comes out cannot be read: " + err.Error(), Fix: "write a share of what goes in, such as 20 %"}
	}
	o.Takes = share
	if !slices.Contains([]kitchen.Part{"", kitchen.Mixed, kitchen.Fat, kitchen.Water}, o.Part) {
		o.Part = ""
	}
	now, _, err := dishgraph.Split(a.book, a.id, a.said(dishStep), o)
	return now, a.said(dishStep), err
}

// withPercent takes a bare number for per cent.
func withPercent(text string) string {
	if _, err := strconv.ParseFloat(text, 64); err == nil {
		return text + " %"
	}
	return text
}
