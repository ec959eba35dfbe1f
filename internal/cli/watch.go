package cli

import (
	"fmt"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/unit"
)

// probesCommand is the thermometers and their checks.
type probesCommand struct {
	bookFlag
	JSON  bool        `name:"json" help:"As JSON (kettlefrost.thermometers/1): every thermometer with all its checks."`
	Units unit.System `default:"metric" placeholder:"metric|us" help:"Units of the text (${default})."`
}

// Help is the longer help of the command.
func (probesCommand) Help() string {
	return `A check is entered on the page of the thermometers, or with kettlefrost record enter calibrated. What a thermometer reads counts as
wrong by the worst of what the book says of it, what its last check left and what the next one found; a check that fails casts doubt on
everything since the last that was good.`
}

func (c probesCommand) Run(s *surroundings) error {
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	book, _ := h.Book()
	bench, found, err := h.records.Bench(s.ctx, book)
	if err != nil {
		return err
	}
	now := record.Instant(s.now().UnixMilli())
	if c.JSON {
		return s.showJSON(bench.Report(now, c.Units, found))
	}
	return s.show(sheet.ThermometersText(bench, now, found, c.Units, clockHere))
}

// watchCommand is what the probes in freezers and walk-ins show.
type watchCommand struct {
	bookFlag
	Days      int         `default:"14" help:"How many days to look back (${default})."`
	Lots      bool        `xor:"as" help:"With what lay there whenever somebody must look, and what it took of its life of quality."`
	JSON      bool        `name:"json" xor:"as" help:"As JSON (kettlefrost.watch/1)."`
	Excursion string      `xor:"as" placeholder:"PROBE@TIME" help:"One time in which a place was too warm or not known, with what lay there, as JSON (kettlefrost.excursion/1): the probe and when it began, such as chest-1-air@2026-12-01T06:00:00Z."`
	Units     unit.System `default:"metric" placeholder:"metric|us" help:"Units of the text (${default})."`
}

// Help is the longer help of the command.
func (watchCommand) Help() string {
	return `Thermometers that the book has after thermometers: with at: watch a place. What they read over its limit, and when nothing was read for
long, is told; the command ends with 4 as long as a place is far too warm. Nothing here says that food is safe.`
}

func (c watchCommand) Run(s *surroundings) error {
	if c.Days < 1 || c.Days > mostDays {
		return failure{badUsage, "--days", fmt.Sprintf("say how many days, from 1 to %d", mostDays), "--days 14"}
	}
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	book, _ := h.Book()
	now := record.Instant(s.now().UnixMilli())
	x, err := h.records.Watch(s.ctx, book, now, c.Days)
	if err != nil {
		return err
	}
	exposed := func(seen coldwatch.Seen, stretch coldwatch.Stretch, at func([]coldwatch.Exposure) error) error {
		return h.records.Exposed(s.ctx, book, seen, stretch, func(all []coldwatch.Exposure, _ *lots.State) error { return at(all) })
	}
	found := append(x.Alarms(c.Units, clockHere), x.Unlisted...)
	found.Sort()
	switch {
	case c.Excursion != "":
		seen, stretch, err := c.stretch(x)
		if err != nil {
			return err
		}
		return exposed(seen, stretch, func(all []coldwatch.Exposure) error {
			return s.showJSON(coldwatch.ReportExcursion(seen.Watch, stretch, all, x.Deeds))
		})
	case c.JSON:
		err = s.showJSON(coldwatch.ReportOf(now, x.Seen, x.Deeds, found))
	default:
		text := sheet.WatchText(x.Seen, x.Deeds, found, c.Units, clockHere)
		for _, seen := range x.Seen {
			for _, stretch := range seen.Stretches {
				if !c.Lots || !stretch.Asks() {
					continue
				}
				if err := exposed(seen, stretch, func(all []coldwatch.Exposure) error {
					text += "\n" + sheet.ExposedText(seen, stretch, all, c.Units, clockHere)
					return nil
				}); err != nil {
					return err
				}
			}
		}
		err = s.show(text)
	}
	if err == nil && x.TooWarm() {
		return failure{code: stopped, what: "a place is far too warm", fix: "look at once"}
	}
	return err
}

// mostDays is more than any kitchen keeps a freezer.
const mostDays = 36_500

// stretch is the one that is asked for.
func (c watchCommand) stretch(x app.Watching) (coldwatch.Seen, coldwatch.Stretch, error) {
	probe, when, ok := strings.Cut(c.Excursion, "@")
	at, err := time.Parse(time.RFC3339Nano, when)
	if !ok || err != nil {
		return coldwatch.Seen{}, coldwatch.Stretch{}, failure{badUsage, "--excursion " + c.Excursion, "this is no probe with a time", "write it like chest-1-air@2026-12-01T06:00:00Z"}
	}
	seen, stretch, ok := x.Stretch(probe, record.Instant(at.UnixMilli()))
	if !ok {
		return seen, stretch, failure{badUsage, "--excursion " + c.Excursion, "no such time of that probe is on record in these days", "kettlefrost watch --json lists them"}
	}
	return seen, stretch, nil
}
