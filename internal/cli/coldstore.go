package cli

import (
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/unit"
)

// stockCommand is what is on hand.
type stockCommand struct {
	bookFlag
	Place string      `placeholder:"PLACE" help:"Only what is at this place and in its parts: its id or name, such as chest-1/baskets."`
	JSON  bool        `name:"json" help:"As JSON (kettlefrost.stock/1): every place with what is in it and what still fits."`
	Units unit.System `default:"metric" placeholder:"metric|us" help:"Units of the text (${default})."`
}

// Help is the longer help of the command.
func (stockCommand) Help() string {
	return `A code that is scanned or typed is the lot as it stands on the tub or the bag, such as R-1126-2, or the lot, a number sign and
the number of the pack: P-1201-3#17. The pages of the stock take it, with several numbers behind the sign (P-1201-3#1-40, 52) too.`
}

func (c stockCommand) Run(s *surroundings) error {
	return c.cold(s, func(store coldstore.Store, found finding.List) error {
		var only *coldstore.Place
		if c.Place != "" {
			p, ok := store.Layout.Find(c.Place)
			if !ok {
				return failure{badUsage, "--place " + c.Place, "the book has no such place, or more than one, and no entry names it", "kettlefrost places lists them"}
			}
			only = &p
		}
		if !c.JSON {
			return s.show(sheet.StoreText(store, found, only, c.Units))
		}
		report := store.Report(c.Units, found)
		if only != nil {
			report, _ = report.Only(only.ID)
		}
		return s.showJSON(report)
	})
}

// placesCommand is where things are kept.
type placesCommand struct {
	bookFlag
	For   string      `name:"for" xor:"as" placeholder:"RUN" help:"Where the packs of this run of the book could go, and whether they fit."`
	JSON  bool        `name:"json" xor:"as" help:"As JSON (kettlefrost.stock/1)."`
	Units unit.System `default:"metric" placeholder:"metric|us" help:"Units of the text (${default})."`
}

// Help is the longer help of the command.
func (placesCommand) Help() string {
	return `Places are single freezers, the walk-in, the dry store, and the shelves and boxes in them; the book has them after places:. A freezer
that no place is one of is a place by itself. What still fits is the room of the book less what the records say is there.

With --for, the packs of a run are put away on paper: where it is cold enough, in as few places as can be, and where nothing older of their
kind would lie beneath them. If they do not all fit, the command ends with 4.`
}

func (c placesCommand) Run(s *surroundings) error {
	if c.For != "" {
		return c.putAway(s)
	}
	return c.cold(s, func(store coldstore.Store, found finding.List) error {
		if c.JSON {
			return s.showJSON(store.Report(c.Units, found))
		}
		return s.show(sheet.PlacesText(store, c.Units))
	})
}

// putAway proposes where the packs of a run go.
func (c placesCommand) putAway(s *surroundings) error {
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	book, err := h.sound(s)
	if err != nil {
		return err
	}
	req, err := app.Request(book, c.For)
	if err != nil {
		return failure{badUsage, "--for " + c.For, err.Error(), "name a run of the book"}
	}
	var loads []coldstore.Load
	s.meanwhile("planning the run", func() { loads = app.LoadsOf(h.Plan(s.ctx, book, req)) })
	today := record.Day(s.now().Format(time.DateOnly))
	return h.records.Cold(s.ctx, book, today, func(store coldstore.Store, _ *lots.State, _ finding.List) error {
		p, found := store.RoomFor(loads, c.Units)
		if err := s.show(sheet.PutText(p, loads, found, c.Units)); err != nil {
			return err
		}
		if found.Worst() == finding.Stop {
			return failure{code: stopped, what: "not all packs of the run fit", fix: "make room, or pack less"}
		}
		return nil
	})
}

// cold opens the book and the records, and looks up what lies where.
func (b bookFlag) cold(s *surroundings, show func(coldstore.Store, finding.List) error) error {
	h, err := b.openKept(s)
	if err != nil {
		return err
	}
	book, _ := h.Book()
	today := record.Day(s.now().Format(time.DateOnly))
	return h.records.Cold(s.ctx, book, today, func(store coldstore.Store, _ *lots.State, found finding.List) error { return show(store, found) })
}
