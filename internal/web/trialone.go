package web

import (
	"fmt"
	"net/http"
	"strings"

	"kettlefrost/internal/record"
	"kettlefrost/internal/trials"
)

// trialPage is all that templates/trial.html may show: one trial and what is to be done of it.
type trialPage struct {
	shell
	Name, Dish, Asks string
	Note             string
	Stands           string
	NowURL           string // where what is due is done; "" when nothing is
	Bad              string
	Batches          []trialBatchRow
	Weeks            []trialWeek
	Figures          []string
	Log              []trialEntry
	More             string // entries that are not listed
	Misfits          findingsView
	Shots            []trialShot
	Links            []link
}

// trialBatchRow is a variant and its batch.
type trialBatchRow struct {
	Name, Change string
	Base         bool
	Made         string // what was made; "" for nothing yet
	URL, Button  string
}

// trialWeek is a week in which packs are opened.
type trialWeek struct {
	ID            string
	Title         string
	Sign, Class   string
	Stands        string
	Due           string
	Packs         []trialStep
	Tasters       []trialStep
	Shots         []trialShot
	MeasuredWords string
}

// trialStep is one thing to do, or done.
type trialStep struct {
	URL, Name string
	Done      bool
}

// trialEntry is something that was entered.
type trialEntry struct {
	When, Who, Says string
	Fix             string // where it is corrected
	Entry, Back     string // to take it back
}

var trialTemplate = parse[trialPage]("trial")

func (s *server) showTrial(w http.ResponseWriter, r *http.Request, o onTrial) {
	b := o.t.Laid.Body
	v := trialPage{shell: s.inShell(r, o.book.Kitchen, "Trial "+o.t.Name, "trials"), Name: o.t.Name, Dish: o.dish(), Asks: string(b.Asks), Note: oneLine(string(b.Note)), Stands: trialStands(o.t, o.today), Bad: o.t.Bad, Misfits: viewFindings(o.t.Found)}
	for _, x := range b.Variants {
		v.Batches = append(v.Batches, o.batchRow(x))
	}
	for _, x := range o.t.Openings(o.today) {
		week := o.week(x)
		if v.NowURL == "" && (x.Stands == trials.DueToday || x.Stands == trials.Overdue) {
			v.NowURL = "#" + week.ID
		}
		v.Weeks = append(v.Weeks, week)
	}
	for _, f := range b.Figures {
		v.Figures = append(v.Figures, figureText(f))
	}
	var more int
	if v.Log, more = s.trialLog(o); more > 0 {
		v.More = times(more, "entry", "entries") + " before that: the packs and tasters above lead to what was entered of them."
	}
	for _, p := range o.t.Pictures {
		if !p.HasWeek {
			v.Shots = append(v.Shots, viewShot(o.t, p, false))
		}
	}
	v.Links = []link{{"Codes and labels to print", trialURL(o.t.Name, "sheet", o.query)}, {"Results so far", trialURL(o.t.Name, "results", o.query)}, {"All trials", coldURL(trialsPath, o.query)}}
	trialTemplate.show(w, http.StatusOK, v)
}

func (o onTrial) batchRow(x record.Variant) trialBatchRow {
	row := trialBatchRow{Name: x.Name, Change: oneLine(string(x.Change)), Base: x.Base, URL: trialURL(o.t.Name, "made", o.query, "variant", x.Name), Button: "It is in the freezer"}
	if m, ok := o.t.Batch(x.Name); ok {
		row.Made = fmt.Sprintf("%s of %s, from %s, frozen %s", times(int(m.Body.Packs), "pack", "packs"), o.rd.fig(m.Body.Each).First, o.rd.fig(m.Body.Mass).First, trialDay(m.Body.Frozen))
		if p, ok := o.book.AllPlaces()[kitchenPlace(m.Body.Place)]; ok {
			row.Made += ", " + p.Name
		} else if m.Body.Place != "" {
			row.Made += ", " + string(m.Body.Place)
		}
		row.Button = "Correct it"
	}
	return row
}

// figureText is a figure in words: what matters, and its bound.
func figureText(f record.Figured) string { return f.Figure + ": " + figureWords(f) }

func figureWords(f record.Figured) string {
	text := map[record.Better]string{record.LowIsBetter: "less is better", record.HighIsBetter: "more is better"}[f.Better] + "; " + trials.Difference(f, decimal(f.Matters)) + " would matter"
	if f.Bound == nil {
		return text + "; no bound"
	}
	return text + "; good " + map[record.Better]string{record.LowIsBetter: "up to ", record.HighIsBetter: "from "}[f.Better] + trials.Amount(f, decimal(*f.Bound))
}

func decimal(d record.Decimal) float64 { return float64(d) / 1000 }

// Marks of openings: never by colour alone.
var openingMarks = map[trials.Stands][2]string{
	trials.NotFrozen: {"○", "note"}, trials.Ahead: {"○", "note"}, trials.DueToday: {"●", "note"}, trials.Overdue: {"▲", "caution"}, trials.Done: {"✓", "over"}, trials.Ended: {"○", "note"},
}

func (o onTrial) week(x trials.Opening) trialWeek {
	mark := openingMarks[x.Stands]
	v := trialWeek{ID: fmt.Sprintf("week-%d", x.Week), Title: weekText(x.Week), Sign: mark[0], Class: mark[1], Stands: string(x.Stands)}
	if x.Due != "" {
		v.Due = trialDay(x.Due)
	}
	b := o.t.Laid.Body
	week := fmt.Sprint(x.Week)
	if x.Packs > 0 {
		v.MeasuredWords = fmt.Sprintf("%d of %d measured", x.Measured, x.Packs)
		for number := int64(1); number <= b.Packs; number++ {
			for i, variant := range b.Variants { // by its code: who measures may taste
				_, done := o.t.Pack(variant.Name, x.Week, number)
				code := o.t.CodeOf(i, x.Week)
				v.Packs = append(v.Packs, trialStep{trialURL(o.t.Name, "open", o.query, "week", week, "code", code, "number", fmt.Sprint(number)), packName(code, number, b.Packs), done})
			}
		}
		sortSteps(v.Packs)
	}
	for _, name := range b.Tasters {
		if !o.tastes() {
			break
		}
		waits := strings.Contains("\n"+strings.Join(x.Tasters, "\n")+"\n", "\n"+name+"\n")
		v.Tasters = append(v.Tasters, trialStep{trialURL(o.t.Name, "taste", o.query, "week", week, "taster", name), name, !waits})
	}
	for _, p := range o.t.Pictures {
		if p.HasWeek && p.Week == x.Week {
			v.Shots = append(v.Shots, viewShot(o.t, p, true))
		}
	}
	return v
}

func packName(code string, number, of int64) string {
	if of == 1 {
		return code
	}
	return fmt.Sprintf("%s, pack %d", code, number)
}

// tastes says whether anything is scored.
func (o onTrial) tastes() bool {
	for _, f := range o.t.Laid.Body.Figures {
		if f.Unit == trials.Points {
			return true
		}
	}
	return false
}
