package app

import (
	"context"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/labelrule"
	"kettlefrost/internal/language"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/spelling"
)

// LabelHouse is where a book is kept and planned with; *App is one.
type LabelHouse interface {
	BookHouse
	Plan(ctx context.Context, book kitchen.Book, req kitchen.Request) plan.Plan
}

// Labels makes the labels of a kitchen's packs, and keeps the last ones: a page, its picture and its print are one computation.
type Labels struct {
	house   LabelHouse
	records *Records // nil when none are kept
	boards  *Boards  // of the same records

	mu     sync.Mutex
	kept   []keptLabel // oldest first
	listed listedLabels
	past   touchedLabels
}

// NewLabels makes the labels of a house by its records; without records there are drafts alone.
func NewLabels(house LabelHouse, records *Records, boards *Boards) *Labels {
	return &Labels{house: house, records: records, boards: boards}
}

// LabelAsk is which label is asked for.
type LabelAsk struct {
	Pack     kitchen.PackID
	Lot      record.Lot          // "" for a draft, which is never printed
	Run      string              // of the book, for a draft: the scale of its pots; "" for the first that makes the dish
	Language language.Language   // "": the kitchen's first
	Stock    string              // a name of labelmaker.Stocks, or "100 x 150 mm"; "": the kitchen's
	Regime   kitchen.LabelRegime // "": the kitchen's
	Business labelrule.Business
	// WithoutPanel leaves the nutrition panel out if an exemption may lift it.
	WithoutPanel bool
}

// LabelMade is a label with what it is made from.
type LabelMade struct {
	Ask   LabelAsk
	Label packlabel.Label
	Run   string // of the book, whose plan it rests on; "" for as the dish is written
	Held  []LabelHold
	Packs record.Numbers // of the lot, as they were packed
	Book  kitchen.Book   // that it is of
	Found finding.List   // about the lot: what went into it and is not on the label
	Ways  []LabelWay     // out, when it does not fit
	Of    string         // the production that packed the lot; "" when nobody said
}

// Withheld says whether something stops the label, so that it may not be printed.
func (m *LabelMade) Withheld() bool {
	return m.Label.Withheld() || m.Found.Worst() == finding.Stop
}

// Draft says that it is of no lot.
func (m *LabelMade) Draft() bool { return m.Ask.Lot == "" }

// draftCode stands on a draft where the code of a lot would.
const draftCode = "DRAFT"

// LabelHold is what keeps a lot from being labelled.
type LabelHold struct {
	Numbers string         `json:"numbers,omitempty"` // of packs; all of the lot when it is empty
	Why     string         `json:"why"`
	Who     string         `json:"who"` // put it on hold; "its critical records"
	Since   record.Instant `json:"since_ms"`
	Decides string         `json:"decides"` // who ends it
}

// lotToLabel is what the records know of a lot that is to be labelled.
type lotToLabel struct {
	pack       kitchen.PackID
	run        string
	packed     record.Day
	bestBefore record.Day
	numbers    record.Numbers
	held       []LabelHold
	instead    []packlabel.Instead
	found      finding.List
}

// Make makes a label. Errors are *coldstore.Refusal for what is asked for and is not there, *packlabel.AskedError, that of a dish that cannot be
// solved, and *store.Error.
func (x *Labels) Make(ctx context.Context, book kitchen.Book, ask LabelAsk) (*LabelMade, error) {
	lot := lotToLabel{pack: ask.Pack, packed: record.Day(x.house.Now().Format(time.DateOnly))}
	if ask.Lot != "" {
		var err error
		if lot, err = x.lotOf(ctx, book, ask.Lot); err != nil {
			return nil, err
		}
		if ask.Pack != "" && ask.Pack != lot.pack {
			return nil, &coldstore.Refusal{Field: "lot", Problem: fmt.Sprintf("lot %s holds packs of %s", ask.Lot, packName(book, string(lot.pack))), Fix: "choose a lot of this pack"}
		}
		ask.Pack = lot.pack
	}
	if _, there := book.Packs[ask.Pack]; !there {
		return nil, unknownPack(book, ask.Pack)
	}
	stock, err := stockNamed(ask.Stock)
	if err != nil {
		return nil, err
	}
	if ask.Regime != "" && ask.Regime != kitchen.USLabels && ask.Regime != kitchen.EULabels {
		return nil, &coldstore.Refusal{Field: "rules", Problem: fmt.Sprintf("%q are no rules for labels", ask.Regime), Fix: "write us or eu"}
	}
	book = unstocked(book)
	of := func(k keptLabel) *LabelMade {
		return &LabelMade{Ask: ask, Label: k.label, Run: k.run, Held: lot.held, Packs: lot.numbers, Book: book, Found: lot.found, Ways: k.ways, Of: lot.run}
	}
	key := labelKey{ask, lot.bestBefore, lot.packed, fmt.Sprint(lot.instead)}
	if k, ok := x.known(book, key); ok {
		return of(k), nil
	}
	p, run, err := x.planFor(ctx, book, ask, lot)
	if err != nil {
		return nil, err
	}
	asked := packlabel.Asked{Book: book, Foods: x.house.Foods(), Plan: p, Pack: ask.Pack, Regime: ask.Regime, Language: ask.Language, Stock: stock, Business: ask.Business, WithoutPanel: ask.WithoutPanel,
		Lot: packlabel.Lot{Code: string(ask.Lot), BestBefore: string(lot.bestBefore), Packed: string(lot.packed), Instead: lot.instead}}
	if ask.Lot == "" {
		asked.Lot.Code = draftCode
	}
	l, err := packlabel.Of(asked)
	if err != nil {
		return nil, err
	}
	l.Open = x.placer()(l.Open)
	k := keptLabel{book, key, l, run, waysOut(l)}
	x.keep(k)
	return of(k), nil
}

// unknownPack says which packs there are, or which one is near.
func unknownPack(book kitchen.Book, id kitchen.PackID) error {
	var all []string
	for _, known := range slices.Sorted(maps.Keys(book.Packs)) {
		all = append(all, string(known))
	}
	fix := "the book has none"
	if near := spelling.Nearest(string(id), all); near != "" {
		fix = "did you mean " + near + "?"
	} else if len(all) > 0 {
		fix = "name one of the book: " + strings.Join(all, ", ")
	}
	return &coldstore.Refusal{Field: "pack", Problem: fmt.Sprintf("the book has no pack %q", id), Fix: fix}
}

// stockNamed is labels by their name, or of a free size on a roll; the zero Stock for "".
func stockNamed(text string) (labelmaker.Stock, error) {
	text = strings.Join(strings.Fields(text), " ")
	if text == "" {
		return labelmaker.Stock{}, nil
	}
	var names []string
	for _, s := range labelmaker.Stocks() {
		if strings.EqualFold(s.Name, text) {
			return s, nil
		}
		names = append(names, s.Name)
	}
	size, mm := strings.TrimSuffix(text, " mm"), 1.0
	if inches, is := strings.CutSuffix(text, " in"); is {
		size, mm = inches, 25.4
	}
	wide, high, two := strings.Cut(size, " x ")
	w, err1 := strconv.ParseFloat(wide, 64)
	h, err2 := strconv.ParseFloat(high, 64)
	if !two || err1 != nil || err2 != nil {
		return labelmaker.Stock{}, &coldstore.Refusal{Field: "stock", Problem: fmt.Sprintf("%q are no labels that are known here", text), Fix: "choose one of " + strings.Join(names, ", ") + "; or give a size on a roll: 100 x 150 mm"}
	}
	s := labelmaker.Roll(w*mm, h*mm)
	if err := s.Check(); err != nil {
		return labelmaker.Stock{}, &coldstore.Refusal{Field: "stock", Problem: err.Error(), Fix: "give its width and height, such as 100 x 150 mm"}
	}
	return s, nil
}

// labelKey is what a label depends on besides the book.
type labelKey struct {
	ask                LabelAsk
	bestBefore, packed record.Day
	instead            string
}

type keptLabel struct {
	book  kitchen.Book
	key   labelKey
	label packlabel.Label
	run   string
	ways  []LabelWay
}

// keptLabels is how many labels are kept.
const keptLabels = 24

func (x *Labels) known(book kitchen.Book, key labelKey) (keptLabel, bool) {
	x.mu.Lock()
	defer x.mu.Unlock()
	for _, k := range x.kept {
		if k.key == key && reflect.DeepEqual(k.book, book) {
			return k, true
		}
	}
	return keptLabel{}, false
}

func (x *Labels) keep(k keptLabel) {
	x.mu.Lock()
	defer x.mu.Unlock()
	if len(x.kept) == keptLabels {
		x.kept = x.kept[1:]
	}
	x.kept = append(x.kept, k)
}
