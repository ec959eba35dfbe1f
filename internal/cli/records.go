package cli

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
)

// recordsFlag is how every command about what happened is told where that is kept.
type recordsFlag struct {
	Records string `placeholder:"FILE" help:"File of the records, made if it is not there, or postgres://…; KETTLEFROST_RECORDS when left out."`
}

// kept says whether anybody said where the records are.
func (f recordsFlag) kept(s *surroundings) bool {
	return f.Records != "" || s.getenv("KETTLEFROST_RECORDS") != ""
}

func (f recordsFlag) open(s *surroundings) (*app.Records, error) {
	address := f.Records
	if address == "" {
		address = s.getenv("KETTLEFROST_RECORDS")
	}
	if address == "" {
		return nil, failure{badUsage, "--records", "nobody said where the records are kept", "give --records kitchen.records, or set KETTLEFROST_RECORDS"}
	}
	r, err := app.OpenRecords(s.ctx, address, s.now)
	if err != nil {
		return nil, failure{code: failed, what: err.Error()}
	}
	return r, nil
}

// with opens the records for one piece of work.
func (f recordsFlag) with(s *surroundings, work func(r *app.Records) error) error {
	r, err := f.open(s)
	if err != nil {
		return err
	}
	return errors.Join(work(r), r.Close())
}

// recordCommand is everything about the records themselves.
type recordCommand struct {
	Enter  enterCommand  `cmd:"" help:"Enter what happened."`
	Verify verifyCommand `cmd:"" help:"Hold every entry against the chain, and name the first that is bad."`
	Export exportCommand `cmd:"" help:"Write all entries, one JSON object a line."`
	Import importCommand `cmd:"" help:"Take in what export wrote, into records that are empty."`
	Backup backupCommand `cmd:"" help:"Write a copy to a file, while the records are in use."`
	Kinds  kindsCommand  `cmd:"" help:"List the kinds of entries."`
}

// enterCommand takes one entry in.
type enterCommand struct {
	recordsFlag
	Kind     string    `arg:"" help:"What kind of entry; kettlefrost record kinds lists them."`
	Body     string    `arg:"" help:"What happened, as JSON; - reads standard input."`
	Who      string    `required:"" help:"Who says so."`
	Device   string    `default:"command line" help:"What it is written with (${default})."`
	At       time.Time `placeholder:"TIME" help:"When it happened, such as 2026-12-01T14:05:00-05:00; now when left out."`
	Corrects record.ID `placeholder:"ID" help:"The entry that was wrong, by its id. To take an entry back: voided '{\"why\":\"a slip\"}' --corrects ID."`
}

// Help is the longer help of the command.
func (enterCommand) Help() string {
	return `Entries are only ever added; a wrong one is put right by another that names it. Masses are in grams and stand in quotation marks:

    kettlefrost record enter received '{"lot":"R-1","ingredient":"carrot","supplier":"farm","mass_g":"20000"}' --who Ada
    kettlefrost record enter used '{"run":"tue","dish":"soup","lot":"R-1","mass_g":"16000"}' --who Ada`
}

func (c enterCommand) Run(s *surroundings) error {
	text := []byte(c.Body)
	if c.Body == "-" {
		var err error
		if text, err = io.ReadAll(io.LimitReader(s.stdin, 8<<20)); err != nil {
			return fmt.Errorf("standard input cannot be read: %w", err)
		}
	}
	body, err := record.Read(record.Kind(c.Kind), text)
	if err != nil {
		return failure{mistakes, "the entry", strings.TrimPrefix(err.Error(), "record: "), "kettlefrost record enter --help shows how entries are written"}
	}
	at := c.At
	if at.IsZero() {
		at = s.now()
	}
	return c.with(s, func(r *app.Records) error {
		sealed, err := r.Enter(s.ctx, app.Said{Who: c.Who, Device: c.Device, At: at, Corrects: c.Corrects, Body: body})
		if correction := (*record.CorrectionError)(nil); errors.As(err, &correction) {
			return failure{mistakes, "--corrects", strings.TrimPrefix(err.Error(), "record: "), ""}
		}
		if err != nil {
			return err
		}
		return s.show(fmt.Sprintf("entry %d: %s, id %s\n", sealed[0].Seq, sealed[0].Kind, sealed[0].ID))
	})
}

type verifyCommand struct{ recordsFlag }

func (c verifyCommand) Run(s *surroundings) error {
	return c.with(s, func(r *app.Records) error {
		head, err := r.Verify(s.ctx)
		if bad := (*record.ChainError)(nil); errors.As(err, &bad) {
			return failure{stopped, "the records", strings.TrimPrefix(err.Error(), "record: "), "keep them as they are, and compare with a backup"}
		}
		if err != nil {
			return err
		}
		return s.show(fmt.Sprintf("%d entries hang together; the last hash is %s\nKeep it elsewhere, on paper or in a mail: only beside an older hash can a chain that was cut or sealed anew be told.\n", head.Seq, head.Hash))
	})
}

type exportCommand struct{ recordsFlag }

func (c exportCommand) Run(s *surroundings) error {
	return c.with(s, func(r *app.Records) error {
		head, err := r.Export(s.ctx, s.stdout)
		if err == nil {
			s.say("%d entries; the last hash is %s", head.Seq, head.Hash)
		}
		return err
	})
}

type importCommand struct {
	recordsFlag
	From string `arg:"" help:"What export wrote; - reads standard input."`
}

func (c importCommand) Run(s *surroundings) error {
	from := s.stdin
	if c.From != "-" {
		f, err := os.Open(c.From)
		if err != nil {
			return failure{badUsage, c.From, "cannot be read: " + reason(err), "give the file that record export wrote"}
		}
		defer f.Close()
		from = f
	}
	return c.with(s, func(r *app.Records) error {
		head, err := r.Import(s.ctx, from)
		if err != nil {
			return failure{code: mistakes, place: c.From, what: err.Error()}
		}
		return s.show(fmt.Sprintf("%d entries taken in; the last hash is %s\n", head.Seq, head.Hash))
	})
}

type backupCommand struct {
	recordsFlag
	To string `arg:"" help:"A file that is not there yet."`
}

func (c backupCommand) Run(s *surroundings) error {
	return c.with(s, func(r *app.Records) error {
		head, err := r.Backup(s.ctx, c.To)
		if err != nil {
			return failure{code: failed, place: c.To, what: err.Error()}
		}
		return s.show(fmt.Sprintf("%s: %d entries; the last hash is %s\n", c.To, head.Seq, head.Hash))
	})
}

type kindsCommand struct{}

func (kindsCommand) Run(s *surroundings) error {
	var text strings.Builder
	for _, k := range record.Kinds() {
		fmt.Fprintln(&text, k)
	}
	return s.show(text.String())
}
