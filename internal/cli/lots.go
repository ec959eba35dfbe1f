package cli

import (
	"errors"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/unit"
)

// traceCommand is where a lot came from and went.
type traceCommand struct {
	recordsFlag
	Lot   string      `arg:"" help:"The lot as it stands on the tub or the bag, or a pack of it: P-1201-3#17."`
	JSON  bool        `name:"json" xor:"as" help:"All of it as JSON (kettlefrost.trace/1)."`
	SVG   bool        `name:"svg" xor:"as" help:"What went into it and what came of it, as a picture, SVG."`
	Units unit.System `default:"metric" placeholder:"metric|us" help:"Units of the text (${default})."`
}

func (c traceCommand) Run(s *surroundings) error {
	return c.with(s, func(r *app.Records) error {
		story, _, err := r.Story(s.ctx, c.Lot)
		switch {
		case err != nil:
			return unknownLot(err)
		case c.JSON:
			return s.showJSON(story)
		case c.SVG:
			return s.show(string(draw.SVG(draw.StoryGraph(story, draw.Whole, c.Units).Picture())))
		}
		return s.show(sheet.TraceText(story, c.Units, clockHere))
	})
}

// clockHere is a time as it is read on this computer.
func clockHere(at record.Instant) string {
	return time.UnixMilli(int64(at)).Format("2006-01-02 15:04")
}

// dayHere is the day of a time on this computer.
func dayHere(at record.Instant) string { return time.UnixMilli(int64(at)).Format(time.DateOnly) }

func unknownLot(err error) error {
	if unknown := (*lots.UnknownError)(nil); errors.As(err, &unknown) {
		return failure{badUsage, "lot " + string(unknown.Lot), strings.TrimPrefix(err.Error(), "lots: "), "kettlefrost stock lists what is on hand"}
	}
	if wrong := (*lots.CodeError)(nil); errors.As(err, &wrong) {
		return failure{badUsage, "lot " + wrong.Text, wrong.Problem, wrong.Fix}
	}
	return err
}
