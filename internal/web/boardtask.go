package web

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/board"
	"kettlefrost/internal/caution"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/unit"
)

// boardTaskPage is all that templates/boardtask.html may show: one task of a production, and all that can be entered of it.
type boardTaskPage struct {
	shell
	Run   string
	Board string // its address
	Who   string // acts on this device
	Card  boardCard
	Done  string // how it went, when it is over
	How   string

	Careful []caution.Caution
	Decides string // who has the last word on them

	In    []amountView
	Out   []amountView
	Asks  string // what is odd about what was sent, and how to enter it all the same
	Sure  boardForm
	Bad   string // why what was sent cannot be used, when no field of it is shown
	Forms []boardForm
	Told  []toldRow
}

// amountView is an amount of something.
type amountView struct {
	Name string
	Mass figure
	Each figure
}

// toldRow is an entry about the task.
type toldRow struct {
	At, Who, Says string
	Entry         string
	Action        string
	Back          string
	Correct       string // address of the form that puts it right; "" when it can only be taken back
}

// boardForm is a form by which something is entered.
type boardForm struct {
	ID     string
	Title  string
	Action string
	Kept   []kept
	Fields []field
	Button string
	Queue  string // what a device calls it while it waits to be sent; "" is sent at once
	Open   bool
}

var boardTaskTemplate = parse[boardTaskPage]("boardtask")

func (s *server) showBoardTask(w http.ResponseWriter, r *http.Request) {
	p, ok := s.boardOf(w, r)
	if !ok {
		return
	}
	s.showTaskWith(w, r, p, http.StatusOK, boardAnswer{})
}

// again shows a form once more, with what is wrong or odd about it.
func (s *server) again(w http.ResponseWriter, r *http.Request, p *app.Production, status int, a boardAnswer) {
	if fromQueue(r) {
		writeJSON(w, status, a)
		return
	}
	s.showTaskWith(w, r, p, status, a)
}

func (s *server) showTaskWith(w http.ResponseWriter, r *http.Request, p *app.Production, status int, a boardAnswer) {
	key := r.FormValue("task")
	item, ok := itemOf(p, key)
	if !ok {
		s.missing(w, r, p.Book, "The plan of this production has no task of that name.")
		return
	}
	rd := readerOf(p.Book.Kitchen, r)
	b := boardView{p: p, rd: rd, codes: draw.NewCodes(p.First.Dishes), now: record.Instant(s.house.Now().UnixMilli()), cools: s.coolOnBoard(r, p)}
	v := boardTaskPage{shell: s.inShell(r, p.Book.Kitchen, draw.Brief(item.Task), "board"), Run: p.Run.Name, Board: boardURL(p.Run.Name), Who: s.actsHere(r), Card: b.card(item), Bad: a.Why}
	if t := item.Went; t.Is == board.Done || t.Is == board.Skipped {
		v.Done = fmt.Sprintf("%s, %s–%s", t.Is, clockText(p.Clock, t.Began), clockText(p.Clock, t.Ended))
	}
	now, _ := s.house.Book()
	f := taskForms{p: p, now: now, rd: rd, item: item, sent: r, bad: a.Bad}
	var err error
	if f.lots, f.names, f.packs, err = s.lotsHere(r.Context(), p.Opened.Day); err != nil {
		s.refuse(w, r, http.StatusServiceUnavailable, sentence(err))
		return
	}
	if step, there := stepOf(p.First, item.Task); there {
		v.How, v.In, v.Out = step.How, amountsOf(step.In, rd), amountsOf(step.Out, rd)
		f.step = step
	}
	if v.Careful = item.Task.Careful; len(v.Careful) > 0 {
		v.Decides = caution.Decides
	}
	f.all()
	v.Forms, v.Told = f.forms, toldOf(p, item, rd)
	if a.State == "asks" {
		v.Asks, v.Bad = a.Why, ""
		v.Sure = boardForm{ID: "sure", Action: v.Board, Button: "Enter it as it is", Kept: append(keep(r.PostForm, sureField), kept{sureField, "1"})}
	}
	boardTaskTemplate.show(w, status, v)
}

// itemOf is a task of the plan as it stands.
func itemOf(p *app.Production, key string) (board.Item, bool) {
	for _, c := range p.Columns() {
		for _, x := range slices.Concat(c.UnderWay, c.Now, c.Next, c.Waiting) {
			if x.Task.Key == key {
				return x, true
			}
		}
	}
	for _, t := range p.First.Timetable.Tasks { // it is over
		if t.Key == key {
			return board.Item{Task: t, Went: p.Board.Tasks[key]}, true
		}
	}
	return board.Item{}, false
}

func stepOf(p plan.Plan, t plan.Task) (plan.Step, bool) {
	for _, s := range dishSteps(p, t.Dish) {
		if s.ID == t.Step && t.Kind == plan.Cook {
			return s, true
		}
	}
	return plan.Step{}, false
}

func amountsOf(lines []plan.Line, rd reader) []amountView {
	var all []amountView
	for _, l := range lines {
		all = append(all, amountView{l.Name, rd.mass(l.Mass), rd.mass(l.Each)})
	}
	return all
}

// toldOf is what was entered of a task, the last first.
func toldOf(p *app.Production, item board.Item, rd reader) []toldRow {
	var rows []toldRow
	for _, t := range slices.Backward(p.Run.All()) {
		if !about(t.Says, item.Task) {
			continue
		}
		row := toldRow{At: clockText(p.Clock, t.Happened), Who: t.Who, Says: sheet.EntryText(t.Says, rd.units), Entry: t.ID.String(), Action: boardURL(p.Run.Name), Back: taskURL(p.Run.Name, item.Task.Key)}
		switch t.Says.(type) {
		case record.Weighed, record.Measured:
			row.Correct = row.Back + "&" + url.Values{"correct": {row.Entry}}.Encode()
		}
		rows = append(rows, row)
	}
	return rows
}

// about says whether an entry is about a task, or about the dish that it is part of.
func about(says record.Body, t plan.Task) bool {
	switch x := says.(type) {
	case record.Started:
		return x.Task == t.Key
	case record.Finished:
		return x.Task == t.Key
	case record.Skipped:
		return x.Task == t.Key
	case record.Measured:
		return x.Task == t.Key || x.Task == "" && x.Dish == t.Dish
	case record.Acted:
		return x.Task == t.Key || x.Task != "" && stageOf(t.Key, x.Task)
	case record.Watched:
		return x.Task == t.Key || x.Task != "" && stageOf(t.Key, x.Task)
	case record.Weighed:
		return x.Dish == t.Dish
	case record.Used:
		return x.Dish == t.Dish && (x.Step == "" || x.Step == t.Step)
	case record.Made:
		return x.Dish == t.Dish
	case record.Wasted:
		return x.Dish == t.Dish
	case record.Packed:
		return packOf(t) == x.Pack
	case record.CheckWeighed:
		return packOf(t) == x.Pack
	}
	return false
}

// packOf is the pack that a task fills; "" for none.
func packOf(t plan.Task) string {
	if t.Kind != plan.Filling {
		return ""
	}
	pack, _, _ := strings.Cut(t.Key, "/")
	return pack
}

// taskForms are the forms of a task's page.
type taskForms struct {
	p     *app.Production
	now   kitchen.Book // as it is now
	rd    reader
	item  board.Item
	step  plan.Step
	sent  *http.Request
	bad   map[string]string
	lots  []lotHere
	names map[record.Lot]bool
	packs map[string]lastPack
	forms []boardForm
}

func (f *taskForms) all() {
	switch t := f.item.Task; t.Kind {
	case plan.Cook:
		f.measure()
		f.use()
		f.weigh()
		f.make()
		f.waste()
	case plan.Cool:
		f.measure()
		f.weigh()
	case plan.Filling:
		f.pack()
		f.check()
		f.measure()
		f.waste()
	}
	f.times()
}

// form begins a form. What was typed into it stays, when it is shown again.
func (f *taskForms) form(what, title, button string, fields ...field) {
	t := f.item.Task
	mine := f.sent.Method == http.MethodPost && f.sent.PostFormValue("what") == what && f.sent.PostFormValue("form") == title
	x := boardForm{ID: "form-" + what, Title: title, Action: boardURL(f.p.Run.Name), Button: button, Queue: title, Open: mine,
		Kept: []kept{{"what", what}, {"form", title}, {"task", t.Key}, {"dish", t.Dish}, {"step", t.Step}, {entryField, newEntryID()}, {backField, taskURL(f.p.Run.Name, t.Key)}}}
	for _, y := range fields {
		if mine {
			y.Value, y.Problem = f.sent.PostFormValue(y.Key), f.bad[y.Key]
			for i := range y.Options {
				y.Options[i].Here = y.Options[i].Value == y.Value
			}
		}
		if was := f.corrected(what); was != nil && !mine {
			y.Value = was[y.Key]
			for i := range y.Options {
				y.Options[i].Here = y.Options[i].Value == y.Value
			}
		}
		y.before = len(f.forms)
		x.Fields = append(x.Fields, y)
	}
	if id := f.sent.FormValue("corrects"); mine && id != "" {
		x.Kept = append(x.Kept, kept{"corrects", id})
	} else if f.corrected(what) != nil {
		x.Title, x.Queue, x.Button, x.Open = "Correct: "+title, "Correct: "+title, "Correct it", true
		x.Kept = append(x.Kept, kept{"corrects", f.sent.FormValue("correct")})
	}
	f.forms = append(f.forms, x)
}

// corrected is what an entry says that is to be put right with a form, by the fields of that form; nil when it is not this form's.
func (f *taskForms) corrected(what string) map[string]string {
	for _, t := range f.p.Run.All() {
		if t.ID.String() != f.sent.FormValue("correct") {
			continue
		}
		switch x := t.Says.(type) {
		case record.Weighed:
			if what != "weigh" {
				return nil
			}
			was := map[string]string{"output": x.Output, "gross": f.typed(x.Net), "instrument": x.Instrument}
			if x.Tare > 0 {
				was["gross"], was["tare"] = f.typed(x.Gross), f.typed(x.Tare)
			}
			return was
		case record.Measured:
			if what == "measure" {
				return map[string]string{"temp": x.Temp.Show(f.rd.units), "place": string(x.Place), "instrument": x.Instrument}
			}
		}
	}
	return nil
}

func (f *taskForms) bare() string {
	return "such as 12.4 " + f.rd.bareUnit() + "; a number alone is " + f.rd.bareUnit()
}

func (f *taskForms) measure() {
	degrees := map[unit.System]string{unit.US: "°F", unit.Metric: "°C"}[f.rd.units]
	f.form("measure", "Enter a temperature", "Enter it", field{Key: "temp", Label: "Temperature", Hint: "a number alone is " + degrees},
		field{Key: "place", Label: "Where in the food", Hint: "middle of the pot; may be left empty"}, field{Key: "instrument", Label: "Thermometer", Hint: "may be left empty"})
}

// outputs are what comes of the task's step, or of the dish when it has none of its own.
func (f *taskForms) outputs() []option {
	var all []option
	seen := map[string]bool{}
	steps := []plan.Step{f.step}
	if f.step.ID == "" {
		steps = dishSteps(f.p.First, f.item.Task.Dish)
	}
	for _, s := range steps {
		for _, l := range s.Out {
			if !seen[l.ID] && l.ID != "" {
				seen[l.ID] = true
				all = append(all, option{Value: l.ID, Says: l.Name + ", planned " + f.rd.fig(l.Mass).First})
			}
		}
	}
	return all
}

func (f *taskForms) weigh() {
	if out := f.outputs(); out != nil {
		f.form("weigh", "Enter a weight", "Enter it", field{Key: "output", Label: "Of what", Hint: "that comes of this step", Options: out},
			field{Key: "gross", Label: "With its vessel", Hint: f.bare()}, field{Key: "tare", Label: "The vessel alone", Hint: "left empty: nothing is taken off"}, field{Key: "instrument", Label: "Scale", Hint: "may be left empty"})
	}
}

// use is a form for each ingredient that goes in.
func (f *taskForms) use() {
	for _, l := range f.step.In {
		if l.Kind != plan.Fresh && l.Kind != plan.MadeUp || f.p.Book.Ingredients[kitchen.IngredientID(l.ID)].Free {
			continue
		}
		f.form("use", "Lot of "+l.Name, "Enter it", field{Key: "lot", Label: "Lot", Hint: "the oldest first", Options: f.lotsOf(l.ID, lots.Goods)},
			field{Key: "lot-typed", Label: "Another lot", Hint: "scan it, or type it as it stands on the tub"}, field{Key: "mass", Label: "How much", Hint: "planned " + f.rd.fig(l.Mass).First + "; " + f.bare(), Value: f.typed(l.Mass)})
		last := &f.forms[len(f.forms)-1]
		last.Kept = append(last.Kept, kept{"of", l.ID})
	}
}

// typed is a mass as somebody would type it.
func (f *taskForms) typed(m unit.Mass) string { return m.Show(f.rd.units) }

// lotsOf are the lots of something that are on hand, to choose from.
func (f *taskForms) lotsOf(what string, sort lots.Sort) []option {
	all := []option{}
	for _, l := range f.lots {
		if l.what != what || l.sort != sort {
			continue
		}
		says := string(l.id) + ", " + f.rd.fig(l.mass).First
		if l.last != "" {
			says += ", until " + string(l.last)
		}
		switch {
		case l.held != "":
			says += " – HELD"
		case l.past:
			says += " – PAST ITS DAY"
		}
		all = append(all, option{Value: string(l.id), Says: says, Here: len(all) == 0})
	}
	return append(all, option{Value: "", Says: "none of these"})
}

// newLot is a name that no lot has.
func (f *taskForms) newLot(letter string) string {
	day, _ := time.Parse(time.DateOnly, string(f.p.Opened.Day))
	for n := 1; ; n++ {
		name := record.Lot(fmt.Sprintf("%s-%s-%d", letter, day.Format("0102"), n))
		if !f.names[name] {
			return string(name)
		}
	}
}

func (f *taskForms) make() {
	out := f.outputs()
	if out == nil {
		return
	}
	mass := ""
	if all, _ := (&boardRead{p: f.p}).planned(f.item.Task.Dish, out[0].Value); all > 0 {
		mass = f.typed(all)
	}
	for _, w := range board.Of[record.Weighed](f.p.Run) {
		if w.Dish == f.item.Task.Dish && w.Output == out[0].Value {
			mass = f.typed(w.Net)
		}
	}
	f.form("make", "Give it a lot", "Enter the lot", field{Key: "output", Label: "What was made", Hint: "that comes of this step", Options: out}, field{Key: "lot", Label: "Its lot", Hint: "write it on the tub", Value: f.newLot("M")},
		field{Key: "mass", Label: "How much", Hint: "as weighed; " + f.bare(), Value: mass}, field{Key: "use-by", Label: "Use by", Hint: "may be left empty", Date: true}, field{Key: "place", Label: "Where it is", Hint: "walk-in/left; may be left empty"})
}

func (f *taskForms) waste() {
	f.form("waste", "Something was thrown away", "Enter it", field{Key: "output", Label: "Of what", Hint: "as far as anybody can tell", Options: append([]option{{Value: "", Says: "the dish as it was"}}, f.outputs()...)},
		field{Key: "mass", Label: "How much", Hint: f.bare()}, field{Key: "why", Label: "Why", Hint: "burnt, spilt, left in the pot"})
}

func (f *taskForms) check() {
	f.form("check", "Check-weights", "Enter them", field{Key: "tares", Label: "Empty bags", Hint: "one after another, in grams: 11, 11.5"}, field{Key: "gross", Label: "Filled packs", Hint: "in the order of filling, in grams: 472, 470"})
	last := &f.forms[len(f.forms)-1]
	last.Kept = append(last.Kept, kept{"pack", packOf(f.item.Task)})
}

// pack proposes the lot of the packs that the plan fills: the next numbers, the parts from the lots of this production.
func (f *taskForms) pack() {
	i := slices.IndexFunc(f.p.First.Fill, func(x plan.PackFill) bool { return x.Pack == packOf(f.item.Task) })
	if i < 0 {
		return
	}
	x, last := f.p.First.Fill[i], f.packs[packOf(f.item.Task)]
	count := int64(x.Count)*int64(f.item.Task.Load)/int64(max(1, f.item.Task.Loads)) - int64(x.Count)*int64(f.item.Task.Load-1)/int64(max(1, f.item.Task.Loads))
	fields := []field{{Key: "lot", Label: "Lot on the bags", Hint: "new for each filling", Value: f.newLot("P")},
		{Key: "numbers", Label: "Pack numbers", Hint: "they go on from the last pack of this kind", Value: fmt.Sprintf("%d-%d", last.number+1, last.number+max(1, count))},
		{Key: "mass", Label: "Net, of all of them", Hint: "planned " + f.rd.fig((x.Net+x.Over)*unit.Mass(count)).First, Value: f.typed((x.Net + x.Over) * unit.Mass(count))},
		f.bestBefore(x.Pack, last)}
	fields = append(fields, f.keepSome(x.Pack)...)
	for n, l := range x.Each[:min(3, len(x.Each))] {
		k := fmt.Sprint(n + 1)
		fields = append(fields, field{Key: "from-" + k, Label: "Lot of " + l.Name, Hint: "made in this production", Options: f.lotsOf(l.ID, lots.Batch)}, field{Key: "from-typed-" + k, Label: "Another lot", Hint: "scan or type it"},
			field{Key: "from-mass-" + k, Label: "How much of it", Hint: f.bare(), Value: f.typed(l.Mass * unit.Mass(count))})
	}
	fields = append(fields, field{Key: "bag-lot", Label: "Lot of the bags", Hint: "may be left empty"}, field{Key: "place", Label: "Where they are", Hint: "chest-1/shelf 2; may be left empty"})
	f.form("pack", "Packs that were filled", "Enter the packs", fields...)
	mine := &f.forms[len(f.forms)-1]
	mine.Kept = append(mine.Kept, kept{"pack", x.Pack})
}

// bestBefore proposes the day by how long the book says that packs of the kind keep, or else by the last of them.
func (f *taskForms) bestBefore(pack string, last lastPack) field {
	x := field{Key: "best-before", Label: "Best before", Hint: "that stands on the bags; nothing tells how long these keep", Date: true}
	if k := f.now.Packs[kitchen.PackID(pack)].BestBefore; k.Weeks > 0 {
		x.Value, x.Hint = string(orders.Plus(f.p.Opened.Day, 7*k.Weeks)), fmt.Sprintf("%s by the book: %s", weeksWord(k.Weeks), k.Source)
		return x
	}
	if day, err := time.Parse(time.DateOnly, string(f.p.Opened.Day)); err == nil && last.days > 0 {
		x.Value, x.Hint = day.AddDate(0, 0, last.days).Format(time.DateOnly), fmt.Sprintf("%d days, as on the last packs of this kind", last.days)
	}
	return x
}

// times are the forms by which the task itself is told: at another time than now, or that it is not done.
func (f *taskForms) times() {
	when := field{Key: "when", Label: "At", Hint: "such as " + f.p.Now.String()}
	if f.item.Went.Is == board.ToDo {
		f.form("start", "It began earlier", "Enter it", when)
	}
	if f.item.Went.Is == board.ToDo || f.item.Went.Is == board.Begun {
		f.form("finish", "It was finished earlier", "Enter it", when)
		f.form("skip", "It is not done", "Skip it", field{Key: "why", Label: "Why", Hint: "so that others know"})
	}
}
