package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"
	"text/tabwriter"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
)

// bookCommand is about the book that the records keep.
type bookCommand struct {
	Import  bookImportCommand  `cmd:"" help:"Make the book in the records the same as a folder, byte for byte."`
	Export  bookExportCommand  `cmd:"" help:"Write the book in the records to a new folder."`
	Log     bookLogCommand     `cmd:"" help:"Every change of the book, or of one file: when, by whom, how much."`
	Diff    bookDiffCommand    `cmd:"" help:"What differs between a folder and the book in the records, or between versions of a file."`
	PutBack bookPutBackCommand `cmd:"" name:"put-back" help:"Make a file what it was in an earlier version."`
}

// whoFlag is who stands for a change.
type whoFlag struct {
	Who    string `required:"" help:"Who says so."`
	Device string `default:"command line" help:"What it is done with (${default})."`
}

func (f whoFlag) author(s *surroundings) app.Author {
	return app.Author{Who: f.Who, Device: f.Device, At: s.now()}
}

type bookImportCommand struct {
	recordsFlag
	whoFlag
	Dir    string `arg:"" help:"Folder with the book's files."`
	Anyway bool   `help:"Also when the book could not be planned with then."`
}

// Help is the longer help of the command.
func (bookImportCommand) Help() string {
	return `What differs is written as new versions, what is not in the folder is deleted; every version is kept. Files and folders whose names begin with
a point are left out. From then on every command given --records, and serve, use the book in the records, unless --book names a folder.`
}

func (c bookImportCommand) Run(s *surroundings) error {
	if wrong := notFolder(c.Dir); wrong != "" {
		return failure{badUsage, c.Dir, wrong, "give the folder that holds the book's .yaml files"}
	}
	folder := os.DirFS(c.Dir)
	a, err := app.New(folder, s.now)
	if err != nil {
		return err
	}
	h := house{App: a, folder: c.Dir}
	if _, found := h.read(); found.Worst() == finding.Stop && !c.Anyway {
		return failure{mistakes, c.Dir, "this book could not be planned with (" + tally(found) + "), and nothing was changed", "kettlefrost check --book " + c.Dir + " lists what to mend; --anyway puts it into the records as it is"}
	}
	return c.with(s, func(r *app.Records) error {
		entries, err := r.ImportBook(s.ctx, folder, c.author(s))
		if err != nil {
			return failure{code: mistakes, place: c.Dir, what: strings.TrimPrefix(err.Error(), "store: ")}
		}
		if len(entries) == 0 {
			return s.show("Nothing differs.\n")
		}
		return s.show(fmt.Sprintf("%d files of the book changed, as entries %d to %d.\n", len(entries), entries[0].Seq, entries[len(entries)-1].Seq))
	})
}

type bookExportCommand struct {
	recordsFlag
	Dir string `arg:"" help:"Folder to make; it must not be there yet."`
}

func (c bookExportCommand) Run(s *surroundings) error {
	if _, err := os.Lstat(c.Dir); !errors.Is(err, fs.ErrNotExist) {
		return failure{badUsage, c.Dir, "this is there already and is not overwritten", "name a folder that is not there yet"}
	}
	return c.with(s, func(r *app.Records) error {
		book, err := r.BookFiles(s.ctx)
		if err != nil {
			return err
		}
		if len(book.Names()) == 0 {
			return noBook()
		}
		if err := os.CopyFS(c.Dir, book); err != nil {
			return failure{failed, c.Dir, "cannot be written: " + reason(err), "look for space on the disk and leave to write, then try again"}
		}
		return s.show(fmt.Sprintf("%d files are in %s.\n", len(book.Names()), c.Dir))
	})
}

func noBook() error {
	return failure{badUsage, "the records", "keep no book", "kettlefrost book import DIR puts one into them"}
}

type bookLogCommand struct {
	recordsFlag
	File string `arg:"" optional:"" help:"Of this file alone."`
	JSON bool   `name:"json" help:"As JSON (kettlefrost.book-log/1)."`
}

func (c bookLogCommand) Run(s *surroundings) error {
	return c.with(s, func(r *app.Records) error {
		log, err := r.BookLog(s.ctx, c.File)
		if err != nil {
			return err
		}
		if len(log) == 0 && c.File != "" {
			return failure{badUsage, c.File, "there never was such a file in the book", "kettlefrost book log lists all"}
		}
		rows := []app.LoggedVersion{}
		for _, v := range log {
			rows = append(rows, app.LoggedVersion{File: v.Path, Version: v.Number, Entry: v.Seq, Who: v.Who, Device: v.Device, When: v.When, Deleted: v.Deleted, Bytes: len(v.Text)})
		}
		if c.JSON {
			return s.showJSON(app.BookLogSheet{Schema: app.BookLogSchema, Versions: rows})
		}
		var text strings.Builder
		w := tabwriter.NewWriter(&text, 0, 0, 2, ' ', 0)
		for _, v := range rows {
			what := fmt.Sprintf("version %d", v.Version)
			if v.Deleted {
				what += ", deleted"
			}
			fmt.Fprintf(w, "%d\t%s\t%s\t%s\t%s\n", v.Entry, time.UnixMilli(int64(v.When)).In(s.now().Location()).Format("2006-01-02 15:04"), v.Who, v.File, what)
		}
		w.Flush() // into memory
		return s.show(text.String())
	})
}

type bookDiffCommand struct {
	recordsFlag
	What string `arg:"" help:"A folder, to compare the book in the records with; or a file of the book."`
	From int    `placeholder:"N" help:"Of a file: this version; the one before the other when left out."`
	To   int    `placeholder:"N" help:"And this one; the last when left out."`
}

func (c bookDiffCommand) Run(s *surroundings) error {
	return c.with(s, func(r *app.Records) error {
		if notFolder(c.What) == "" && c.From == 0 && c.To == 0 {
			return c.folder(s, r)
		}
		log, err := r.BookLog(s.ctx, c.What)
		if err != nil {
			return err
		}
		to, from := c.To, c.From
		if to == 0 {
			to = len(log)
		}
		if from == 0 {
			from = max(1, to-1)
		}
		if len(log) == 0 || from < 1 || from > len(log) || to < 1 || to > len(log) {
			return failure{badUsage, c.What, fmt.Sprintf("the book has %d versions of this file", len(log)), "kettlefrost book log lists them; a folder is compared when it is named"}
		}
		return s.show(diffText(fmt.Sprintf("%s, version %d", c.What, from), fmt.Sprintf("version %d", to), log[len(log)-from].Text, log[len(log)-to].Text))
	})
}

// folder shows what importing a folder would change.
func (c bookDiffCommand) folder(s *surroundings, r *app.Records) error {
	book, err := r.BookFiles(s.ctx)
	if err != nil {
		return err
	}
	folder := os.DirFS(c.What)
	names := map[string]bool{}
	for _, name := range book.Names() {
		names[name] = true
	}
	err = fs.WalkDir(folder, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if name != "." && strings.HasPrefix(d.Name(), ".") {
			if d.IsDir() {
				return fs.SkipDir
			}
			return nil
		}
		if !d.IsDir() {
			names[name] = true
		}
		return nil
	})
	if err != nil {
		return failure{failed, c.What, "cannot be read: " + reason(err), "let this user read it"}
	}
	text, err := diffOf(names, book, folder)
	if err != nil {
		return err
	}
	if text == "" {
		text = "Nothing differs.\n"
	}
	return s.show(text)
}
