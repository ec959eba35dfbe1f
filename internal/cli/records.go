package cli

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
)

// recordsFlag is how every command about what happened is told where that is kept.
type recordsFlag struct {
	Records string `placeholder:"FILE" help:"File of the records, made if it is not there, or postgres://…. When left out: KETTLEFROST_RECORDS, else kitchen.records in the folder of the book that is named."`
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
	f.judged(s, r)
	return errors.Join(work(r), r.Close())
}

// judged has lots held by their critical records, if anybody says where the book is: the demo kitchen's rules are nobody's.
func (f recordsFlag) judged(s *surroundings, r *app.Records) {
	h := house{records: r, around: f.bookAround(s)}
	folder := s.getenv("KETTLEFROST_BOOK")
	has, err := r.HasBook(s.ctx)
	if err != nil || folder == "" && h.around == "" && !has {
		return // what is asked may be something else than lots, and says what is wrong
	}
	files, err := h.find(s, folder, "KETTLEFROST_BOOK")
	if err == nil {
		h.App, err = app.New(files, s.now)
	}
	if err != nil {
		s.say("the book cannot be read, so no lot is shown as held for its critical records: " + err.Error())
		return
	}
	h.Follow(r)
}

// bookAround is the folder that the records lie in, when it is that of a book, as "serve --book" keeps them.
func (f recordsFlag) bookAround(s *surroundings) string {
	address := cmp.Or(f.Records, s.getenv("KETTLEFROST_RECORDS"))
	folder := filepath.Dir(address)
	if address == "" || strings.Contains(address, "://") || !isFile(filepath.Join(folder, "kitchen.yaml")) {
		return ""
	}
	return folder
}

// recordCommand is everything about the records themselves.
type recordCommand struct {
	Enter   enterCommand   `cmd:"" help:"Enter what happened."`
	Verify  verifyCommand  `cmd:"" help:"Hold every entry against the chain, and name the first that is bad."`
	Export  exportCommand  `cmd:"" help:"Write everything in open formats: the entries as JSON lines, or all of it as a folder or a ZIP file."`
	Import  importCommand  `cmd:"" help:"Take in what export wrote, into records that are empty."`
	Backup  backupCommand  `cmd:"" help:"Write a copy to a file, while the records are in use."`
	Restore restoreCommand `cmd:"" help:"Bring back a backup or an export where nothing is yet."`
	Kinds   kindsCommand   `cmd:"" help:"List the kinds of entries."`
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

// exportCommand writes everything out.
type exportCommand struct {
	recordsFlag
	As string `default:"lines" enum:"lines,folder,zip" placeholder:"lines|folder|zip" help:"Entries alone as JSON lines, or with the tables as CSV and XLSX and the book's files (${default})."`
	To string `placeholder:"PATH" help:"Where to; it must not be there yet. Standard output for lines and zip when left out."`
}

// Help is the longer help of the command.
func (exportCommand) Help() string {
	return `A folder or a ZIP file has entries.jsonl (every entry with its hash, for kettlefrost record restore), tables/*.csv and tables.xlsx (lots, stock,
packs by ranges, moves, receiving, customers, orders, invoices, payments, temperatures, weights, runs), the book if the records keep one, and a
README.txt that says what is what. Passwords and PINs are in no export.`
}

func (c exportCommand) Run(s *surroundings) error {
	return c.with(s, func(r *app.Records) error {
		if c.As == "folder" {
			return c.folder(s, r)
		}
		return c.file(s, func(w io.Writer) (head record.Head, err error) {
			if c.As == "lines" {
				return r.Export(s.ctx, w)
			}
			z := app.NewZip(w, s.now())
			x, err := r.ExportAll(s.ctx, z)
			return x.Head, errors.Join(err, z.Close())
		})
	})
}

func (c exportCommand) folder(s *surroundings, r *app.Records) error {
	if c.To == "" {
		return failure{badUsage, "--as folder", "nobody said where to", "give --to a folder that is not there yet"}
	}
	bundle, err := app.Folder(c.To)
	if err != nil {
		return failure{badUsage, "--to " + c.To, err.Error(), ""}
	}
	x, err := r.ExportAll(s.ctx, bundle)
	if err != nil {
		return failure{code: failed, place: c.To, what: err.Error()}
	}
	return s.show(fmt.Sprintf("%s: %d entries; the last hash is %s\n", c.To, x.Head.Seq, x.Head.Hash))
}

// file writes to a new file, or to standard output.
func (c exportCommand) file(s *surroundings, write func(io.Writer) (record.Head, error)) error {
	var head record.Head
	counted := func(w io.Writer) (err error) {
		head, err = write(w)
		return err
	}
	if c.To == "" {
		if err := counted(s.stdout); err != nil {
			return err
		}
		s.say("%d entries; the last hash is %s", head.Seq, head.Hash)
		return nil
	}
	if err := writeNew("--to", c.To, counted); err != nil {
		return err
	}
	return s.show(fmt.Sprintf("%s: %d entries; the last hash is %s\n", c.To, head.Seq, head.Hash))
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

// restoreCommand brings back a backup.
type restoreCommand struct {
	From    string `arg:"" placeholder:"BACKUP" help:"What record backup or record export wrote: a database file, JSON lines, a folder or a ZIP file."`
	Records string `required:"" placeholder:"FILE" help:"Where to: a file that is not there yet, or postgres://… with an empty database."`
}

// Help is the longer help of the command.
func (restoreCommand) Help() string {
	return `Every entry is verified before anything is written. Nothing is written over: where entries are already, the command says how they stand to the
backup, which of the two is newer and by how much, and changes nothing. Restore to a new file, look at it, stop the server and put it in the
place of the old one. A database file becomes a database file again with all that is in it; from JSON lines, and into PostgreSQL, the entries
alone come back: people get new passwords with kettlefrost people.`
}

func (c restoreCommand) Run(s *surroundings) error {
	done, err := app.Restore(s.ctx, c.From, c.Records, s.now)
	if err != nil {
		return failure{code: mistakes, place: c.From, what: strings.TrimPrefix(strings.TrimPrefix(err.Error(), "store: "), "record: ")}
	}
	if n := len(done.Newer); n > 0 {
		s.say("this was not the latest backup: %d of the folder are newer, the last is %s", n, done.Newer[n-1])
	}
	if !done.Whole {
		s.say("passwords and PINs are in no backup of this kind: give people new ones with kettlefrost people")
	}
	text := fmt.Sprintf("%s: %d entries restored and verified; the last hash is %s\n", c.Records, done.Head.Seq, done.Head.Hash)
	if done.Head.Seq > 0 {
		text += fmt.Sprintf("The last is %s by %s at %s: what happened after that has to be entered again.\n", done.Last.Kind, done.Last.Who, time.UnixMilli(int64(done.Last.Entered)).Format("2006-01-02 15:04"))
	}
	return s.show(text)
}

type kindsCommand struct{}

func (kindsCommand) Run(s *surroundings) error {
	var text strings.Builder
	for _, k := range record.Kinds() {
		fmt.Fprintln(&text, k)
	}
	return s.show(text.String())
}
