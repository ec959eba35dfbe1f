package cli

import (
	"errors"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/unit"
)

// stockCommand is what is on hand.
type stockCommand struct {
	recordsFlag
	Units unit.System `default:"metric" placeholder:"metric|us" help:"Units of the text (${default})."`
}

func (c stockCommand) Run(s *surroundings) error {
	return c.lots(s, func(state *lots.State, found finding.List) error {
		return s.show(sheet.StockText(state, found, c.Units))
	})
}

// lots opens the records and folds them.
func (f recordsFlag) lots(s *surroundings, show func(*lots.State, finding.List) error) error {
	return f.with(s, func(r *app.Records) error {
		state, found, err := r.Lots(s.ctx)
		if err != nil {
			return err
		}
		return show(state, found)
	})
}

// traceCommand is where a lot came from and went.
type traceCommand struct {
	recordsFlag
	Lot   string      `arg:"" help:"The lot, as it stands on the tub or the bag."`
	Units unit.System `default:"metric" placeholder:"metric|us" help:"Units of the text (${default})."`
}

func (c traceCommand) Run(s *surroundings) error {
	return c.lots(s, func(state *lots.State, _ finding.List) error {
		id := record.Lot(c.Lot)
		back, err := state.Backward(id)
		if err != nil {
			return unknownLot(err)
		}
		forward, err := state.Forward(id)
		if err != nil {
			return unknownLot(err)
		}
		balance, err := state.Balance(id)
		if err != nil {
			return unknownLot(err)
		}
		return s.show(sheet.TraceText(state.Lot(id), back, forward, balance, c.Units))
	})
}

// recallCommand is what has to be fetched back.
type recallCommand struct {
	recordsFlag
	Lots  []string    `arg:"" help:"The lots that are bad."`
	Units unit.System `default:"metric" placeholder:"metric|us" help:"Units of the text (${default})."`
}

func (c recallCommand) Run(s *surroundings) error {
	return c.lots(s, func(state *lots.State, found finding.List) error {
		var ids []record.Lot
		for _, l := range c.Lots {
			ids = append(ids, record.Lot(l))
		}
		r, err := state.Recall(ids...)
		if err != nil {
			return unknownLot(err)
		}
		if err := s.show(sheet.RecallText(r, found, c.Units)); err != nil {
			return err
		}
		if !r.Complete() {
			return failure{code: stopped, what: "not everything is accounted for", fix: "look for what the sheet names as missing, told twice or unaccounted"}
		}
		return nil
	})
}

func unknownLot(err error) error {
	if unknown := (*lots.UnknownError)(nil); errors.As(err, &unknown) {
		return failure{badUsage, "lot " + string(unknown.Lot), strings.TrimPrefix(err.Error(), "lots: "), "kettlefrost stock lists what is on hand"}
	}
	return err
}
