package cli

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/trials"
)

// trialsCommand is trials in the freezer.
type trialsCommand struct {
	List  listTrialsCommand `cmd:"" default:"withargs" help:"How trials stand, and what is to be opened; as text or JSON."`
	Lay   layTrialCommand   `cmd:"" help:"Lay a trial out: variants of a dish, what is measured and tasted, by whom, in which weeks; and what it can find out."`
	Sheet trialSheetCommand `cmd:"" help:"The codes of a trial and the orders of tasting: for who portions, not for who tastes."`
	Made  trialMadeCommand  `cmd:"" help:"Enter the batch of a variant that went into the freezer."`
	Open  trialOpenCommand  `cmd:"" help:"Enter what was measured of a thawed pack, by its code."`
	Score trialScoreCommand `cmd:"" help:"Enter what a taster said of a code."`
	Show  trialShowCommand  `cmd:"" help:"What can be told from a trial so far: comparisons, how long variants keep, what is not known; as text, JSON or CSV."`
	Close trialCloseCommand `cmd:"" help:"Close a trial, with what is made otherwise from now on, and why."`
}

// today is the day on the clock here.
func (s *surroundings) today() record.Day { return record.Day(s.now().Format(time.DateOnly)) }

type listTrialsCommand struct {
	bookFlag
	JSON bool `name:"json" help:"As JSON (kettlefrost.trials/1)."`
}

func (c listTrialsCommand) Run(s *surroundings) error {
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	report, err := h.records.TrialsReport(s.ctx, s.today())
	if err != nil {
		return err
	}
	if c.JSON {
		return s.showJSON(report)
	}
	return s.show(sheet.TrialsText(report))
}

// trialArg is a trial that is there.
type trialArg struct {
	bookFlag
	Trial string `arg:"" help:"The trial, by its name."`
}

func (c trialArg) find(s *surroundings) (house, trials.Trial, error) {
	h, err := c.openKept(s)
	if err != nil {
		return h, trials.Trial{}, err
	}
	t, known, err := h.records.Trial(s.ctx, c.Trial)
	switch {
	case err != nil:
		return h, t, err
	case !known:
		return h, t, failure{badUsage, c.Trial, "nobody laid out a trial of that name", "kettlefrost trials lists them"}
	}
	return h, t, nil
}

type trialSheetCommand struct{ trialArg }

func (c trialSheetCommand) Run(s *surroundings) error {
	_, t, err := c.find(s)
	if err != nil {
		return err
	}
	return s.show(sheet.TrialCodesText(t, s.today()))
}

type trialShowCommand struct {
	trialArg
	JSON bool `name:"json" xor:"as" help:"As JSON (kettlefrost.trial/1), with every value."`
	CSV  bool `name:"csv" xor:"as" help:"Every value in a row, as CSV."`
	Next bool `help:"Also how large the next trial must be."`
}

func (c trialShowCommand) Run(s *surroundings) error {
	_, t, err := c.find(s)
	if err != nil {
		return err
	}
	results := trials.ResultsOf(t)
	switch {
	case c.JSON:
		return s.showJSON(results.Report(s.today()))
	case c.CSV:
		data, err := app.TrialTable(results).CSV()
		if err != nil {
			return err
		}
		return s.show(string(data))
	}
	text := sheet.TrialText(results)
	if c.Next {
		text += sheet.NextTrialText(results.PlanNext(trials.Aimed))
	}
	return s.show(text)
}

// trialFailure gives what is wrong with a trial its exit code.
func trialFailure(err error) error {
	if wrong := (*app.TrialError)(nil); errors.As(err, &wrong) {
		return failure{code: mistakes, what: strings.ReplaceAll(wrong.Error(), "trials: ", "")}
	}
	if wrong := record.FieldErrors(nil); errors.As(err, &wrong) {
		return failure{code: mistakes, what: strings.TrimPrefix(wrong.Error(), "record: ")}
	}
	return err
}

// bySaid is who enters something on the command line.
type bySaid struct {
	Who string    `required:"" placeholder:"NAME" help:"Who says so."`
	ID  record.ID `placeholder:"ID" help:"The id of the entry, so that what is sent twice is taken in once; drawn when left out."`
}

func (b bySaid) said(s *surroundings, body record.Body) app.Said {
	return app.Said{ID: b.ID, Who: b.Who, Device: "command line", At: s.now(), Body: body}
}

// enterTrial enters something about a trial and says what it now comes to.
func enterTrial(s *surroundings, h house, said app.Said, says string, args ...any) error {
	if _, err := h.records.Enter(s.ctx, said); err != nil {
		return trialFailure(err)
	}
	return s.show(fmt.Sprintf(says, args...) + "\n")
}
