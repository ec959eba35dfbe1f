package web

import (
	"cmp"
	"fmt"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

// planPath reads the form that plans a run and leads to the plan.
const planPath = "/plan"

// planForm plans a run: packs with their numbers, or a dish by another measure.
type planForm struct {
	Action  string
	Problem string // of the form as a whole
	First   []packField
	More    []packField
	Open    bool // something is asked of the packs under more
	Day     field
	Dish    field // by another measure
	Use, Of field // this much of that ingredient
	Other   bool  // something is asked of those
}

// packField asks how many of a pack.
type packField struct {
	Key     string // of the query
	Label   string
	Value   string // as typed
	Problem string // what is wrong with Value
	About   string // what there is of it
	Low     bool   // fewer than should be
	Step    string // by so many a large button changes it
}

// ID is fit for an id attribute.
func (x packField) ID() string { return field{Key: x.Key}.ID() }

// Keys of the form that are not those of a plan's address.
const (
	dishFormKey = "dish"
	useFormKey  = "amount"
	ofFormKey   = "of"
)

// mostFirst is how many packs stand in sight; the others fold.
const mostFirst = 6

// usualStep is by how many a button changes a number of packs of which the book names no batch.
const usualStep = 10

// planForm is the form with what an address says.
func (s *server) planForm(r *http.Request, book kitchen.Book) planForm {
	q := r.URL.Query()
	f := planForm{Action: planPath, Day: field{Key: dayKey, Label: "Day", Hint: "on which it begins", Value: s.house.Now().AddDate(0, 0, 1).Format(time.DateOnly), Date: true}}
	if q.Has(dayKey) {
		f.Day.Value = tidy(q.Get(dayKey))
	}
	for i, id := range s.packsByNeed(r, book) {
		x := viewPackField(id, book.Packs[id], tidy(q.Get(countKey+string(id))))
		if i < mostFirst {
			f.First = append(f.First, x)
			continue
		}
		f.More, f.Open = append(f.More, x), f.Open || x.Value != ""
	}
	f.Dish = field{Key: dishFormKey, Label: "As much as there is room for", Hint: "one dish, not by number of packs", Value: measureAsked(q)}
	f.Dish.Options = measureOptions(book, f.Dish.Value)
	f.Use = field{Key: useFormKey, Label: "From this much", Hint: "as purchased, such as 20 lb or 9 kg", Value: cmp.Or(tidy(q.Get(useFormKey)), usedUp(q))}
	f.Of = field{Key: ofFormKey, Label: "Of", Hint: "an ingredient, and the dish it goes into", Value: ofAsked(q)}
	f.Of.Options = useOptions(book, f.Of.Value)
	f.Other = f.Dish.Value != "" || f.Use.Value != "" || f.Of.Value != ""
	return f
}

func viewPackField(id kitchen.PackID, p kitchen.Pack, typed string) packField {
	x := packField{Key: countKey + string(id), Label: cmp.Or(p.Name, string(id)), Value: typed, Step: strconv.Itoa(cmp.Or(p.Batch, usualStep)), Low: p.Keep > 0 && p.Frozen < p.Keep}
	x.About = fmt.Sprintf("%d in the freezer", p.Frozen)
	if x.Low {
		x.About += fmt.Sprintf(", %d should be", p.Keep)
	}
	return x
}

// soldDays is how far back a pack counts as sold, in days.
const soldDays = 56

// packsByNeed are the packs of a book: first those of which there are fewer than should be, then those that sell most.
func (s *server) packsByNeed(r *http.Request, book kitchen.Book) []kitchen.PackID {
	sold := map[kitchen.PackID]int64{}
	if s.records != nil {
		since := record.Day(s.house.Now().AddDate(0, 0, -soldDays).Format(time.DateOnly))
		if got, err := s.records.Sold(r.Context(), since); err == nil { // else they stand in the order of their names
			sold = got
		}
	}
	ids := slices.Sorted(maps.Keys(book.Packs))
	slices.SortStableFunc(ids, func(a, b kitchen.PackID) int {
		short := func(id kitchen.PackID) int { return max(0, book.Packs[id].Keep-book.Packs[id].Frozen) }
		return cmp.Or(cmp.Compare(min(1, short(b)), min(1, short(a))), cmp.Compare(sold[b], sold[a]), cmp.Compare(short(b), short(a)))
	})
	return ids
}

// measureOptions are the dishes by what a day gives, and by the largest vessel that they are cooked in.
func measureOptions(book kitchen.Book, here string) []option {
	list := []option{{Says: "no: by number of packs"}}
	for _, id := range slices.Sorted(maps.Keys(book.Dishes)) {
		dish := book.Dishes[id]
		name := cmp.Or(dish.Name, string(id))
		if v := largestVessel(book, dish); v != "" {
			list = append(list, option{Value: fillKey + string(id) + "=" + string(v), Says: name + ": one filling of the " + cmp.Or(book.Equipment[v].Name, string(v))})
		}
		list = append(list, option{Value: mostKey + "=" + string(id), Says: name + ": as much as a day gives"})
	}
	return chosen(list, here)
}

func chosen(list []option, here string) []option {
	for i := range list {
		list[i].Here = list[i].Value == here
	}
	return list
}

func largestVessel(book kitchen.Book, dish kitchen.Dish) (largest kitchen.EquipmentID) {
	for _, step := range dish.Steps {
		for _, id := range step.In {
			if e, there := book.Equipment[id]; there && e.Kind == kitchen.Vessel && e.Volume > book.Equipment[largest].Volume {
				largest = id
			}
		}
	}
	return largest
}

// useOptions are the ingredients of each dish; what there is of them is told.
func useOptions(book kitchen.Book, here string) []option {
	list := []option{{Says: "choose"}}
	for _, id := range slices.Sorted(maps.Keys(book.Dishes)) {
		seen := map[kitchen.IngredientID]bool{}
		for _, step := range book.Dishes[id].Steps {
			for _, u := range step.Use {
				if u.Of == "" || seen[u.Of] {
					continue
				}
				seen[u.Of] = true
				list = append(list, option{Value: string(id) + "/" + string(u.Of), Says: capital(ingredientName(book, u.Of)) + ", in " + cmp.Or(book.Dishes[id].Name, string(id))})
			}
		}
	}
	slices.SortStableFunc(list[1:], func(a, b option) int { return cmp.Compare(a.Says, b.Says) })
	return chosen(list, here)
}

// measureAsked is the choice of a dish by another measure, from the form or from the address of a plan.
func measureAsked(q url.Values) string {
	if q.Has(mostKey) {
		return mostKey + "=" + q.Get(mostKey)
	}
	for _, key := range slices.Sorted(maps.Keys(q)) {
		if strings.HasPrefix(key, fillKey) {
			return key + "=" + q.Get(key)
		}
	}
	return q.Get(dishFormKey)
}

func usedUp(q url.Values) string {
	_, amount := usedIn(q)
	return amount
}

func ofAsked(q url.Values) string {
	of, _ := usedIn(q)
	return cmp.Or(of, q.Get(ofFormKey))
}

// usedIn is what the address of a plan uses up, as the form has it.
func usedIn(q url.Values) (of, amount string) {
	for _, key := range slices.Sorted(maps.Keys(q)) {
		if id, is := strings.CutPrefix(key, useKey); is {
			return q.Get(useInKey+id) + "/" + id, tidy(q.Get(key))
		}
	}
	return "", ""
}

// planRun reads the form: it leads to the plan, or shows the home page with what is wrong beside each field.
func (s *server) planRun(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	f := s.planForm(r, book)
	q := f.read(book)
	if f.Problem != "" || f.wrong() {
		s.home(w, r, http.StatusUnprocessableEntity, f)
		return
	}
	if units := r.URL.Query().Get("units"); units != "" {
		q.Set("units", units)
	}
	http.Redirect(w, r, runPath(newRun)+"?"+q.Encode(), http.StatusSeeOther)
}

// wrong says whether a field cannot be read.
func (f *planForm) wrong() bool {
	return wrong([]field{f.Day, f.Dish, f.Use, f.Of}) || slices.ContainsFunc(slices.Concat(f.First, f.More), func(x packField) bool { return x.Problem != "" })
}

// read is the address of the plan that the form asks for. What is wrong stands beside its field then.
func (f *planForm) read(book kitchen.Book) url.Values {
	q := url.Values{}
	for _, list := range [][]packField{f.First, f.More} {
		for i := range list {
			list[i].read(q)
		}
	}
	if _, err := readRunDay(f.Day.Value); err != nil {
		f.Day.Problem = sentence(err)
	} else if f.Day.Value != "" {
		q.Set(dayKey, f.Day.Value)
	}
	if key, value, is := strings.Cut(f.Dish.Value, "="); is {
		q.Set(key, value)
	}
	f.readUse(q)
	f.judge(book, q)
	return q
}

// read puts a number of packs into an address; none and zero ask for nothing.
func (x *packField) read(q url.Values) {
	if x.Value == "" || x.Value == "0" {
		return
	}
	n, err := readCount(x.Value)
	if err != nil {
		x.Problem = sentence(err)
		return
	}
	q.Set(x.Key, strconv.Itoa(n))
}

func (f *planForm) readUse(q url.Values) {
	dish, of, is := strings.Cut(f.Of.Value, "/")
	switch {
	case !is && f.Use.Value == "":
		return
	case !is:
		f.Of.Problem = "Choose what to use up, and in which dish."
		return
	}
	if _, err := readMore(f.Use.Value); err != nil {
		f.Use.Problem = sentence(err)
		return
	}
	q.Set(useKey+of, f.Use.Value)
	q.Set(useInKey+of, dish)
}

// judge says what is wrong with the form as a whole.
func (f *planForm) judge(book kitchen.Book, q url.Values) {
	if f.wrong() {
		return
	}
	wants := madeWants(q)
	if len(wants) == 0 {
		f.Problem = "Nothing is asked for yet: write how many of a pack are to be made, or choose one of the other ways."
		return
	}
	for _, x := range kitchen.CheckRequest(book, kitchen.Request{Day: q.Get(dayKey), Want: wants}) {
		if x.Severity == finding.Stop {
			f.Problem = capital(x.Message) + "."
			return
		}
	}
}

// planAgain is the home page with the form as a plan that is not in the book has it.
func planAgain(a asked, query url.Values) string {
	if !a.made {
		return ""
	}
	return "/" + queryOf(across(query)) + "#plan"
}
