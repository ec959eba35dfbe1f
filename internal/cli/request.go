package cli

import (
	"fmt"
	"io"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/spelling"
	"kettlefrost/internal/unit"
)

// wanted is what to make, as typed.
type wanted struct {
	Named   string   `arg:"" optional:"" name:"run" help:"A run of the book."`
	Request string   `placeholder:"FILE" help:"A file with a request; - reads standard input."`
	Pack    []string `sep:"none" placeholder:"PACK=COUNT" help:"So many of this pack; may be given several times."`
	Dish    string   `placeholder:"DISH" help:"Cook this dish, by one of the next three."`
	Use     string   `placeholder:"INGREDIENT=AMOUNT" help:"Use up this much of an ingredient, as purchased."`
	Vessel  string   `name:"fill-vessel" placeholder:"VESSEL" help:"Fill this vessel once."`
	AsMany  bool     `help:"As many as the kitchen's limits allow."`
	Mix     []string `sep:"none" placeholder:"PACK=PARTS" help:"How the packs of the dish stand to each other; may be given several times."`

	Day       string      `placeholder:"DATE" help:"The day it starts, such as 2026-12-01."`
	Today     string      `placeholder:"DATE" help:"The day the orders go out, such as 2026-11-27: who cannot deliver by the day it starts is left out."`
	Finish    *unit.Clock `placeholder:"TIME" help:"Everything sealed by then, such as 18:30."`
	Reserve   *unit.Share `placeholder:"SHARE" help:"Bought beyond the need, such as \"3 %\"."`
	OnlyStock bool        `help:"Buy nothing, use what is in stock."`

	Aim []kitchen.Aim `placeholder:"AIM" enum:"finish,late-start,short-day,least-waiting,least-change" help:"What the day should be good at, most important first: finish, late-start, short-day, least-waiting or least-change; may be given several times."`
}

// of opens the book and is what to make of it.
func (w wanted) of(s *surroundings, b bookFlag) (house, kitchen.Book, kitchen.Request, error) {
	targets, err := w.targets()
	if err != nil {
		return house{}, kitchen.Book{}, kitchen.Request{}, err
	}
	h, err := b.open(s)
	if err != nil {
		return house{}, kitchen.Book{}, kitchen.Request{}, err
	}
	book, err := h.sound(s)
	if err != nil {
		return h, book, kitchen.Request{}, err
	}
	request, err := w.request(s, book, targets)
	return h, book, request, err
}

// request is what to make. Day, today, finish, reserve, aims and only-stock replace what a run or a file says.
func (w wanted) request(s *surroundings, book kitchen.Book, targets []kitchen.Want) (kitchen.Request, error) {
	request, place, err := w.source(s, book, targets)
	if err != nil {
		return request, err
	}
	if w.Day != "" {
		request.Day = w.Day
	}
	if w.Today != "" {
		request.Today = w.Today
	}
	if w.Finish != nil {
		request.Finish = *w.Finish
	}
	if w.Reserve != nil {
		request.Reserve = *w.Reserve
	}
	if len(w.Aim) > 0 {
		request.Aims = w.Aim
	}
	request.OnlyHave = request.OnlyHave || w.OnlyStock
	if found := kitchen.CheckRequest(book, request); found.Worst() == finding.Stop {
		return request, mistaken(place, found)
	}
	return request, nil
}

// source is the request before the command line changes it, and where it comes from.
func (w wanted) source(s *surroundings, book kitchen.Book, targets []kitchen.Want) (kitchen.Request, string, error) {
	switch {
	case w.Named != "":
		request, err := w.run(book)
		return request, "run " + w.Named, err
	case w.Request != "":
		request, err := readRequest(s, w.Request)
		return request, w.Request, err
	case len(targets) > 0:
		return kitchen.Request{Name: "targets on the command line", Want: targets}, "command line", nil
	}
	return kitchen.Request{}, "", failure{badUsage, "", "it is not said what to make", "give a run" + runsOf(book) + ", --request FILE, or targets such as --pack PACK=COUNT"}
}

func (w wanted) run(book kitchen.Book) (kitchen.Request, error) {
	request, err := app.Request(book, w.Named)
	if err == nil {
		return request, nil
	}
	fix := "give one" + runsOf(book)
	if near := spelling.Nearest(w.Named, slices.Collect(maps.Keys(book.Runs))); near != "" {
		fix = fmt.Sprintf("did you mean %s?", near)
	}
	return request, failure{badUsage, "run " + w.Named, "the book has no such run", fix}
}

func runsOf(book kitchen.Book) string {
	if len(book.Runs) == 0 {
		return " (this book has none)"
	}
	return " (" + strings.Join(slices.Sorted(maps.Keys(book.Runs)), ", ") + ")"
}

// longestRequest is far more than any request needs.
const longestRequest = 1 << 20

// readRequest reads a request from a file, or from standard input.
func readRequest(s *surroundings, name string) (kitchen.Request, error) {
	from := s.stdin
	if name == "-" {
		name = "standard input"
	} else {
		file, err := os.Open(name)
		if err != nil {
			return kitchen.Request{}, failure{badUsage, "--request " + name, "cannot be read: " + reason(err), "name a file with want: in it; kettlefrost schema request says what may stand there"}
		}
		defer file.Close()
		from = file
	}
	text, err := io.ReadAll(io.LimitReader(from, longestRequest+1))
	switch {
	case err != nil:
		return kitchen.Request{}, failure{badUsage, name, "cannot be read: " + reason(err), "name a text file"}
	case len(text) > longestRequest:
		return kitchen.Request{}, failure{mistakes, name, "is too large for a request", "name the file of one request"}
	}
	request, found := bookfile.ReadRequest(name, text)
	if found.Worst() == finding.Stop {
		return request, mistaken(name, found)
	}
	if request.Name == "" {
		request.Name = name
	}
	return request, nil
}

// targets are those on the command line. They cannot stand beside a run or a request in a file.
func (w wanted) targets() ([]kitchen.Want, error) {
	var targets []kitchen.Want
	for _, text := range w.Pack {
		pack, count, err := counted("--pack", text)
		if err != nil {
			return nil, err
		}
		targets = append(targets, kitchen.Want{Pack: kitchen.PackID(pack), Count: count})
	}
	if w.Dish != "" {
		want, err := w.cook()
		if err != nil {
			return nil, err
		}
		targets = append(targets, want)
	} else if w.Use != "" || w.Vessel != "" || w.AsMany || len(w.Mix) > 0 {
		return nil, failure{badUsage, "--dish", "--use, --fill-vessel, --as-many and --mix are about a dish, and none is named", "add --dish DISH"}
	}
	ways := 0
	for _, used := range []bool{w.Named != "", w.Request != "", len(targets) > 0} {
		if used {
			ways++
		}
	}
	if ways > 1 {
		return nil, failure{badUsage, "", "there is more than one answer to what to make", "give a run, or --request, or targets such as --pack"}
	}
	return targets, nil
}

// cook is the target that names a dish.
func (w wanted) cook() (kitchen.Want, error) {
	want := kitchen.Want{Dish: kitchen.DishID(w.Dish), Vessel: kitchen.EquipmentID(w.Vessel), Most: w.AsMany}
	if w.Use != "" {
		name, text, _ := strings.Cut(w.Use, "=")
		amount, err := unit.ParseAmount(text)
		if err != nil {
			return want, failure{badUsage, "--use", err.Error(), `write an ingredient, = and an amount, such as --use "bacon=20 lb"`}
		}
		want.Use = &kitchen.UseUp{Of: kitchen.IngredientID(strings.TrimSpace(name)), Amount: amount}
	}
	for _, text := range w.Mix {
		pack, parts, err := counted("--mix", text)
		if err != nil {
			return want, err
		}
		if want.Mix == nil {
			want.Mix = map[kitchen.PackID]int{}
		}
		want.Mix[kitchen.PackID(pack)] = parts
	}
	return want, nil
}

// counted reads NAME=NUMBER.
func counted(flag, text string) (string, int, error) {
	name, number, found := strings.Cut(text, "=")
	n, err := strconv.Atoi(strings.TrimSpace(number))
	if !found || err != nil {
		return "", 0, failure{badUsage, flag, fmt.Sprintf("%q is not a pack, = and a whole number", text), "write it like " + flag + " ale-cheddar-lb=40"}
	}
	return strings.TrimSpace(name), n, nil
}
