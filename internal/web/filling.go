package web

import (
	"fmt"
	"html/template"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// fillingsPage is all that templates/fillings.html may show: the packs of the book and who has weighed them.
type fillingsPage struct {
	shell
	Blocked findingsView // what is wrong with the book
	Packs   []fillingCard
}

// fillingCard leads to a pack's check-weights.
type fillingCard struct{ URL, Name, Says string }

// fillingPage is all that templates/filling.html may show: check-weights, and how to fill next time.
type fillingPage struct {
	shell
	Units   []unitLink
	Name    string
	Of      string // what the weights are of
	Action  string
	Reset   string
	Kept    []kept
	Tare    weightsField
	Gross   weightsField
	Fields  []field // how many were filled, and what a bare number means
	Wrong   bool
	Problem string // why the weights say nothing
	Seen    *fillingView
}

// weightsField is several weights, one beside the other or one on a line.
type weightsField struct{ Key, Label, Hint, Value, Problem string }

// fillingView is the answer.
type fillingView struct {
	Chart   []template.HTML // none of a pack that nobody has weighed
	Weights []weightRow
	Facts   []factRow
	Drift   []string
	TooFew  bool
	Rules   string
	Lot     []factRow
	Verdict string
	Passes  bool
	Missing string // why there is no verdict
	Next    []factRow
}

// weightRow is one pack that was weighed.
type weightRow struct {
	No, Net, Off string
	Marks        []string
}

// factRow is a figure with what it means.
type factRow struct{ Name, Value, Says string }

const fillingPath = "/filling"

func fillingURL(id kitchen.PackID) string { return fillingPath + "/" + url.PathEscape(string(id)) }

func (s *server) showFillings(w http.ResponseWriter, _ *http.Request) {
	book, found := s.house.Book()
	v := fillingsPage{shell: inShell(book.Kitchen, "Check-weights", "")}
	if found.Worst() >= finding.Stop {
		v.Blocked = viewFindings(found)
	}
	for _, id := range slices.Sorted(maps.Keys(book.Packs)) {
		pack := book.Packs[id]
		says := "nobody has weighed it"
		if n := len(pack.Checks); n > 0 {
			last := pack.Checks[n-1]
			says = fmt.Sprintf("%s weighed on %s", times(len(last.Gross), "pack", "packs"), last.Date)
		}
		v.Packs = append(v.Packs, fillingCard{fillingURL(id), pack.Name, says})
	}
	fillingsTemplate.show(w, http.StatusOK, v)
}

func (s *server) showFilling(w http.ResponseWriter, r *http.Request) {
	book, found := s.house.Book()
	id := kitchen.PackID(r.PathValue("pack"))
	pack, ok := book.Packs[id]
	if !ok || found.Worst() >= finding.Stop {
		missing(w, book, "There is no such pack, or the book has to be put right first.")
		return
	}
	query := r.URL.Query()
	rd := readerOf(book.Kitchen, query)
	v := fillingPage{shell: inShell(book.Kitchen, "Check-weights of "+pack.Name, ""), Units: unitLinks(fillingURL(id), query, rd.units), Name: pack.Name, Action: fillingURL(id), Reset: fillingURL(id), Kept: keep(query, "tare", "gross", "lot", "in")}
	weighing := v.ask(query, pack)
	status := http.StatusUnprocessableEntity
	if !v.Wrong {
		f, err := s.house.Filling(book, id, weighing)
		if err == nil {
			status, v.Seen = http.StatusOK, viewFilling(f, rd)
		} else {
			v.Problem = sentence(err)
		}
	}
	fillingTemplate.show(w, status, v)
}

// ask reads what was typed, or else takes the last check-weights of the book.
func (v *fillingPage) ask(query url.Values, pack kitchen.Pack) kitchen.Weighing {
	in := unit.Gram
	if query.Get("in") == "oz" {
		in = unit.Ounce
	}
	v.Tare = weightsField{Key: "tare", Label: "Empty bags with their labels", Hint: "two at least, such as 11.2, 11.4", Value: tidyLines(query.Get("tare"))}
	v.Gross = weightsField{Key: "gross", Label: "Filled packs, in the order of filling", Hint: "one on a line, or with commas between", Value: tidyLines(query.Get("gross"))}
	lot := field{Key: "lot", Label: "How many were filled", Hint: "the whole lot", Value: tidy(query.Get("lot")), Number: true}
	weighing := kitchen.Weighing{}
	v.Of = "as typed here; nothing is stored"
	weighing.Tare = v.Tare.read(in)
	weighing.Gross = v.Gross.read(in)
	if lot.Value != "" {
		n, err := strconv.Atoi(lot.Value)
		if err != nil || n < 1 || n > 1_000_000 {
			lot.Problem = "Write how many packs were filled, such as 150."
		}
		weighing.Lot = n
	}
	v.Fields = []field{lot, {Key: "in", Label: "A number without a unit is", Hint: "as your scale shows", Options: []option{{Value: "g", Says: "grams", Here: in == unit.Gram}, {Value: "oz", Says: "ounces", Here: in == unit.Ounce}}}}
	v.Wrong = lot.Problem != "" || v.Tare.Problem != "" || v.Gross.Problem != ""
	if v.Tare.Value+v.Gross.Value != "" || v.Wrong {
		return weighing
	}
	n := len(pack.Checks)
	if n == 0 {
		v.Of = "nobody has weighed this pack: what follows is a first belief"
		return weighing
	}
	last := pack.Checks[n-1]
	v.Of = "of " + last.Date + ", from the book"
	if weighing.Lot > 0 {
		last.Lot = weighing.Lot
	}
	return last
}

// mostWeights is more than anybody weighs of one filling.
const mostWeights = 500

// read takes several weights apart; a number without a unit is in the unit given.
func (f *weightsField) read(in unit.Mass) []unit.Mass {
	var masses []unit.Mass
	for _, text := range strings.FieldsFunc(f.Value, func(r rune) bool { return r == ',' || r == ';' || r == '\n' || r == '\t' }) {
		words := []string{strings.TrimSpace(text)}
		if strings.Trim(text, "0123456789. ") == "" { // numbers alone may stand beside each other
			words = strings.Fields(text)
		}
		for _, word := range words {
			m, err := weightOf(word, in)
			if err != nil {
				f.Problem = sentence(err)
				return nil
			}
			if word != "" {
				masses = append(masses, m)
			}
		}
	}
	if len(masses) > mostWeights {
		f.Problem = fmt.Sprintf("These are %d weights: at most %d of one filling are read.", len(masses), mostWeights)
		return nil
	}
	return masses
}

func weightOf(word string, in unit.Mass) (unit.Mass, error) {
	if word == "" {
		return 0, nil
	}
	if strings.Trim(word, "0123456789.") != "" {
		return unit.ParseMass(word)
	}
	symbol := " g"
	if in == unit.Ounce {
		symbol = " oz"
	}
	return unit.ParseMass(word + symbol)
}

// tidyLines is what was typed into several lines, without what no weight has.
func tidyLines(text string) string {
	if len(text) > 20_000 {
		text = text[:20_000]
	}
	var lines []string
	for line := range strings.Lines(strings.ToValidUTF8(strings.ReplaceAll(text, "\r", "\n"), "")) {
		if line = strings.TrimSpace(line); line != "" {
			lines = append(lines, line)
		}
	}
	return strings.Join(lines, "\n")
}

// viewFilling puts the answer into words.
func viewFilling(f plan.LotWeights, rd reader) *fillingView {
	v := &fillingView{TooFew: f.TooFew, Rules: f.Net.Rules, Verdict: f.Net.Verdict, Passes: f.Net.Verdict == "passes", Missing: capital(f.Net.WhyNot)}
	if len(f.Nets) > 0 {
		v.Chart = []template.HTML{template.HTML(draw.InlineSVG(draw.FillingChart(f), "weights"))}
		v.Weights = weightRows(f)
		v.Facts = []factRow{{"Mean", f.Mean.Fine(), "net, the empty bag's " + f.Tare.Fine() + " taken off"}, {"Label", f.Label.Fine(), rd.fig(f.Label).First}, {"Given away", f.Given.Fine(), "each, mean less label"},
			{"Scatter", f.SD.Fine(), "standard deviation of single packs"}, {"Below the label", fmt.Sprintf("%d of %d", f.Below, len(f.Nets)), "of those weighed"}, {"Control limits", f.Lower.Fine() + " to " + f.Upper.Fine(), "from the distance of each pack to the one before"}}
	}
	for _, d := range f.Signals {
		v.Drift = append(v.Drift, fmt.Sprintf("%s (%s): packs %s", capital(d.Rule), d.Side, counted(d.Points)))
	}
	n := f.Net
	if n.Sample > 0 {
		v.Lot = append(v.Lot, factRow{"Sample", fmt.Sprint(n.Sample), "packs, chosen before anybody sees a weight"}, factRow{"Counts as short", n.Shortfall.Fine(), "under the label, and more than that"})
	}
	if len(n.Why) > 0 {
		v.Lot = append(v.Lot, factRow{"Why", strings.Join(n.Why, ", "), ""})
	}
	if len(n.Short) > 0 {
		v.Lot = append(v.Lot, factRow{"Short", fmt.Sprint(len(n.Short)), "packs " + counted(n.Short)})
	}
	if n.Next != nil {
		v.Next = nextRows(f, *n.Next, rd)
	}
	return v
}

// weightRows are the packs one by one, with what is noteworthy of each.
func weightRows(f plan.LotWeights) []weightRow {
	var rows []weightRow
	for i, net := range f.Nets {
		row := weightRow{No: fmt.Sprint(i + 1), Net: net.Fine(), Off: (net - f.Label).Fine()}
		if net < f.Label {
			row.Marks = append(row.Marks, "below the label")
		}
		if slices.Contains(f.Net.Short, i+1) {
			row.Marks = append(row.Marks, "counts as short")
		}
		for _, d := range f.Signals {
			if slices.Contains(d.Points, i+1) {
				row.Marks = append(row.Marks, d.Rule)
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// nextRows is how full to fill the next lot, and what to weigh of it.
func nextRows(f plan.LotWeights, n plan.FillAt, rd reader) []factRow {
	lot := fmt.Sprintf("net on average: a lot of %d then passes with at least %s, if packs scatter so; what asks for it: %s", f.Lot, n.Confidence.Show(rd.units), n.Bind)
	rows := []factRow{{"Fill to", n.Mean.Fine(), lot}}
	if len(n.Parts) > 1 {
		for _, part := range n.Parts {
			row := factRow{capital(part.Output), part.Target.Fine(), "as on the label"}
			if part.Pieces > 0 {
				row.Value = times(part.Pieces, "piece", "pieces")
			}
			if part.Target > part.Label {
				row.Says = (part.Target - part.Label).Fine() + " more than its part of the label: that costs the least"
			}
			rows = append(rows, row)
		}
	}
	if f.Tare > 0 {
		rows = append(rows, factRow{"On the scale", (n.Mean + f.Tare).Fine(), "with the bag"})
	}
	return append(rows, factRow{"Given away", n.Over.Fine(), fmt.Sprintf("each; in the lot %s, %s at %s", rd.fig(n.Given).First, rd.money(n.Lost), n.LostAt)},
		factRow{"Scatter", n.Scatter.Fine(), fmt.Sprintf("at most, as sure as %s; likely %s, from %s weighed and a first belief of %s of the label (%s)", n.Confidence.Show(rd.units), n.Likely.Fine(), times(n.Weighed, "pack", "packs"), n.Believed.Show(rd.units), n.Belief)},
		factRow{"Still under the label", n.Under.Show(rd.units), "of the packs: the rules ask for the average, and count packs short by more than " + f.Net.Shortfall.Fine()},
		factRow{"Weigh", times(len(n.Weigh), "pack", "packs"), "one about every " + rd.span(n.Every) + ", in the order of filling: " + counted(n.Weigh)})
}

func counted(of []int) string {
	var words []string
	for _, n := range of {
		words = append(words, fmt.Sprint(n))
	}
	return strings.Join(words, ", ")
}
