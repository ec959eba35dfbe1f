package cli

import (
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/unit"
)

// recallCommand is what has to be fetched back.
type recallCommand struct {
	recordsFlag
	Lots        []string    `arg:"" optional:"" help:"The lots that are bad, or packs of them: P-1201-3#17."`
	Supplier    string      `help:"In place of lots: goods of a supplier; part of the name will do."`
	SupplierLot string      `help:"Their lot number; case, spaces and strokes do not matter."`
	What        string      `help:"An ingredient, something made, or a pack; part of the name will do."`
	InRun       string      `name:"run" help:"What was made and packed in a run."`
	Sort        string      `help:"Only what was received, made or packed." enum:",received,made,packed" default:""`
	From        time.Time   `placeholder:"TIME" help:"Only what came at that time or later, such as 2026-12-01T14:05:00-05:00."`
	Until       time.Time   `placeholder:"TIME" help:"Only what came before that time."`
	JSON        bool        `name:"json" xor:"as" help:"All of it as JSON (kettlefrost.recall/1)."`
	CSV         bool        `name:"csv" xor:"as" help:"The customers to tell, for a spreadsheet."`
	SVG         bool        `name:"svg" xor:"as" help:"Where it went, as a picture, SVG."`
	Rule        string      `placeholder:"EVENT" help:"A table of the traceability rule, 21 CFR 1 subpart S, as CSV, with what is missing: receiving, transformation or shipping; of all lots, when none are asked for." enum:",receiving,transformation,shipping" default:""`
	House       string      `help:"The kitchen's name, for --rule."`
	Address     string      `help:"And its address."`
	Units       unit.System `default:"metric" placeholder:"metric|us" help:"Units of the text (${default})."`
}

// sorts are the kinds of lots as people say them.
var sorts = map[string]lots.Sort{"received": lots.Goods, "made": lots.Batch, "packed": lots.Packs}

func (c recallCommand) ask() lots.Ask {
	a := lots.Ask{Codes: c.Lots, Supplier: c.Supplier, SupplierLot: c.SupplierLot, What: c.What, Run: c.InRun, Sort: sorts[c.Sort]}
	if !c.From.IsZero() {
		a.From = record.Instant(c.From.UnixMilli())
	}
	if !c.Until.IsZero() {
		a.Before = record.Instant(c.Until.UnixMilli())
	}
	return a
}

func (c recallCommand) Run(s *surroundings) error {
	if c.ask().Empty() && c.Rule == "" {
		return failure{badUsage, "recall", "nobody said what is bad", "name a lot, or give --supplier, --supplier-lot, --what, --run, --sort, --from or --until"}
	}
	return c.with(s, func(r *app.Records) error {
		if c.Rule != "" {
			return c.rule(s, r)
		}
		report, found, err := r.Recall(s.ctx, c.ask(), record.Instant(s.now().UnixMilli()))
		switch {
		case err != nil:
			return unknownLot(err)
		case len(report.Of)+len(report.Unsure) == 0:
			return failure{badUsage, report.Asked, "no lot fits", "ask for less: part of a name will do"}
		}
		if err := c.show(s, report, found); err != nil {
			return err
		}
		if !report.Account.Complete || len(report.Unsure) > 0 {
			return failure{code: stopped, what: "not everything is accounted for", fix: "look for what the sheet names as missing, told twice, unaccounted or not to be ruled out"}
		}
		return nil
	})
}

func (c recallCommand) show(s *surroundings, r lots.Report, found finding.List) error {
	switch {
	case c.JSON:
		return s.showJSON(r)
	case c.CSV:
		return s.show(string(sheet.CallsCSV(r, clockHere)))
	case c.SVG:
		return s.show(string(draw.SVG(draw.RecallGraph(r, c.Units).Picture())))
	}
	return s.show(sheet.RecallText(r, found, c.Units, clockHere))
}

// rule prints one table; to standard error goes how many of its rows lack something.
func (c recallCommand) rule(s *surroundings, r *app.Records) error {
	tables, err := r.Rule(s.ctx, c.ask(), lots.House{Name: c.House, Address: c.Address, Date: dayHere})
	if err != nil {
		return unknownLot(err)
	}
	for _, t := range tables {
		if t.Event != c.Rule {
			continue
		}
		lacking := 0
		for _, row := range t.Rows {
			if len(row.Missing) > 0 {
				lacking++
			}
		}
		s.say("%d of %d rows lack elements. The tables cover all food, listed or not: your business may be exempt (21 CFR 1.1305); ask your authority.", lacking, len(t.Rows))
		return s.show(string(sheet.RuleCSV(t)))
	}
	return nil
}
