package cli

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/keeping"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/unit"
)

// keepCommand is packs that are kept for tasting, and for how long packs are at their best.
type keepCommand struct {
	List    keepListCommand    `cmd:"" default:"withargs" help:"What is to be opened now and later, and what was found: as text or JSON."`
	Aside   keepAsideCommand   `cmd:"" help:"Keep packs of a lot to be opened on some days; no order gets them."`
	Taste   keepTasteCommand   `cmd:"" help:"Enter what was found in a pack that was opened."`
	Propose keepProposeCommand `cmd:"" help:"For how long packs may be called at their best, and packs in stock that say more."`
}

// Help is the longer help of the command.
func (keepCommand) Help() string { return app.KeepingNotSafety }

// keepListCommand lists what is kept.
type keepListCommand struct {
	bookFlag
	Pack  string     `placeholder:"PACK" help:"Only this kind of pack."`
	Today record.Day `placeholder:"DAY" help:"The day that counts as today, such as 2026-12-04; today when left out."`
	JSON  bool       `name:"json" help:"As JSON (kettlefrost.retained/1)."`
}

// Run shows it.
func (c keepListCommand) Run(s *surroundings) error {
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	book, _ := h.read()
	today := deskFlags{Today: c.Today}.today(s)
	v, err := h.records.Retained(s.ctx, today, c.Pack)
	switch {
	case err != nil:
		return err
	case c.JSON:
		return s.showJSON(v)
	}
	return s.show(retainedText(v, names(book)))
}

// keepAsideCommand keeps packs.
type keepAsideCommand struct {
	bookFlag
	whoFlag
	Code  string `arg:"" name:"lot" help:"The lot as it stands on the bag, or packs of it: P-1201-3, P-1201-3#17."`
	Which string `placeholder:"PACKS" help:"Which packs: 38-40, 42, or next 3."`
	Open  string `required:"" placeholder:"WHEN" help:"When they are opened: weeks after packing, such as 4,8,13, or days, such as 2027-01-05."`
	Place string `placeholder:"PLACE" help:"Where they are put; where they are when left out."`
	Why   string `placeholder:"TEXT" help:"Why just these."`
}

// Run enters it.
func (c keepAsideCommand) Run(s *surroundings) error {
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	body, err := h.records.KeepForTasting(s.ctx, app.KeepAsk{Code: c.Code, Which: c.Which, Open: c.Open, Place: c.Place, Why: c.Why}, app.Today(s.now()))
	if err != nil {
		return keepFailure(err)
	}
	return c.enter(s, h, body)
}

// enter enters what was kept or found, and says so.
func (f whoFlag) enter(s *surroundings, h house, body record.Body) error {
	entries, err := h.records.Enter(s.ctx, app.Said{Who: f.Who, Device: f.Device, At: s.now(), Body: body})
	if err != nil {
		return err
	}
	return s.show(fmt.Sprintf("entry %d: %s\n", entries[0].Seq, sheet.EntryText(body, unit.Metric)))
}

// keepFailure is why something typed cannot be entered, with the flag that says it.
func keepFailure(err error) error {
	if why := (*coldstore.Refusal)(nil); errors.As(err, &why) {
		flag := "--" + strings.TrimPrefix(why.Field, "score-")
		if why.Field == "code" {
			flag = "the lot"
		}
		return failure{badUsage, flag, why.Problem, why.Fix}
	}
	return err
}

// keepTasteCommand enters what was found.
type keepTasteCommand struct {
	bookFlag
	whoFlag
	Code       string            `arg:"" name:"pack" help:"The pack as it stands on the bag: P-1201-3#17."`
	Which      string            `placeholder:"PACKS" help:"Of a lot alone: which packs, opened together."`
	Verdict    string            `required:"" enum:"good,fading,bad" placeholder:"good|fading|bad" help:"How it has kept: good is as you sell it, fading eats and is not, bad you would not serve."`
	Whole      string            `placeholder:"MASS" help:"What it weighed, net."`
	Drip       string            `placeholder:"GRAMS" help:"What ran out of it when it had thawed."`
	Separation string            `placeholder:"PERCENT" help:"How much of it has separated."`
	Score      map[string]string `placeholder:"FIGURE=POINTS" help:"Points from 0, the worst, to 10: --score texture=7.5 --score flavour=8."`
	Note       string            `placeholder:"TEXT" help:"In your own words."`
}

// Run enters it.
func (c keepTasteCommand) Run(s *surroundings) error {
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	ask := app.TasteAsk{Code: c.Code, Which: c.Which, Whole: c.Whole, Drip: c.Drip, Separation: c.Separation, Verdict: c.Verdict, Note: c.Note, Units: unit.Metric}
	for _, figure := range slices.Sorted(maps.Keys(c.Score)) {
		ask.Scores = append(ask.Scores, app.TypedScore{Figure: figure, Points: c.Score[figure]})
	}
	body, err := h.records.Taste(s.ctx, ask, app.Today(s.now()))
	if err != nil {
		return keepFailure(err)
	}
	return c.enter(s, h, body)
}

// keepProposeCommand proposes how long packs keep.
type keepProposeCommand struct {
	bookFlag
	bookWrite
	Pack     string `arg:"" optional:"" help:"A pack of the book; every one when left out."`
	As       string `placeholder:"ROW" help:"The row of the published table that it is taken for, such as cooked-fish; by its ingredients when left out. --table lists them."`
	Table    bool   `help:"What is published, with its sources." xor:"as"`
	TakeOver bool   `help:"Write what is proposed for the pack into the book: shown first, done with --write." xor:"as"`
	JSON     bool   `name:"json" help:"As JSON (kettlefrost.keeping/1)." xor:"as"`
}

// Help is the longer help of the command.
func (keepProposeCommand) Help() string {
	return `What supports a time: packs that were kept, opened and tasted, trials, what is published of foods of the kind, and how warm the freezers were. What is
published carries as far as its shorter end; packs of your own that were opened later and found good carry it further, as far as each was kept, and
never beyond the longer end. One that is not good ends it. Each stands with its source. ` + app.KeepingNotSafety + `

    kettlefrost keep propose
    kettlefrost keep propose ale-cheddar-lb --take-over --write --who Ada`
}

// Run shows or writes it.
func (c keepProposeCommand) Run(s *surroundings) error {
	if c.Table {
		return s.show(publishedText())
	}
	if row, ok := keeping.Of(keeping.Class(c.As)); c.As != "" && (!ok || row.Memory) {
		return failure{badUsage, "--as " + c.As, "nothing that counts is published of that name", "kettlefrost keep propose --table lists the rows"}
	}
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	book, err := h.sound(s)
	if err != nil {
		return err
	}
	if _, there := book.Packs[kitchen.PackID(c.Pack)]; c.Pack != "" && !there {
		return failure{badUsage, c.Pack, "the book has no pack of that name", "kettlefrost keep propose lists them"}
	}
	v, err := h.records.Keeping(s.ctx, book, record.Instant(s.now().UnixMilli()), app.KeepingAsk{Pack: c.Pack, As: keeping.Class(c.As), Storage: true})
	switch {
	case err != nil:
		return err
	case c.JSON:
		return s.showJSON(v)
	case c.TakeOver:
		return c.takeOver(s, h, v)
	case c.Pack != "":
		return s.show(packKeepingText(v.Packs[0]))
	}
	return s.show(keepingText(v))
}

// takeOver writes the proposal into the book.
func (c keepProposeCommand) takeOver(s *surroundings, h house, v app.KeepingSheet) error {
	if c.Pack == "" {
		return failure{badUsage, "--take-over", "it is not said of which pack", "name one"}
	}
	k, ok := v.Packs[0].Accepted()
	if !ok {
		return failure{code: mistakes, place: c.Pack, what: "not even a week is supported: there is nothing to write into the book", fix: "look at the packs in stock, and change the dish"}
	}
	return c.make(s, h, app.KeepingChange(kitchen.PackID(c.Pack), k))
}
