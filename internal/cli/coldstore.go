package cli

import (
	"time"

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
	JSON  bool        `name:"json" help:"As JSON (kettlefrost.stock/1)."`
	Units unit.System `default:"metric" placeholder:"metric|us" help:"Units of the text (${default})."`
}

func (c placesCommand) Run(s *surroundings) error {
	return c.cold(s, func(store coldstore.Store, found finding.List) error {
		if c.JSON {
			return s.showJSON(store.Report(c.Units, found))
		}
		return s.show(sheet.PlacesText(store, c.Units))
	})
}

// cold opens the book and the records, and looks up what lies where.
func (b bookFlag) cold(s *surroundings, show func(coldstore.Store, finding.List) error) error {
	if !b.recordsFlag.kept(s) {
		_, err := b.recordsFlag.open(s) // says how
		return err
	}
	h, err := b.open(s)
	if err != nil {
		return err
	}
	book, _ := h.Book()
	today := record.Day(s.now().Format(time.DateOnly))
	return h.records.Cold(s.ctx, book, today, func(store coldstore.Store, _ *lots.State, found finding.List) error { return show(store, found) })
}
