package cli

import (
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/tables"
)

// importFileCommand enters what stands in a sheet.
type importFileCommand struct {
	bookFlag
	What      string `arg:"" enum:"customers,orders,goods,stock,prices" help:"What its rows are: customers, orders, goods, stock or prices."`
	File      string `arg:"" optional:"" help:"A CSV file in UTF-8, or an XLSX file."`
	Sheet     string `placeholder:"NAME" help:"Which sheet of a workbook with several."`
	Delimiter string `placeholder:"comma|semicolon|tab" help:"What stands between columns, if the header does not show it."`
	Dates     string `placeholder:"dmy|mdy|ymd" help:"In which order days are written that are not like 2026-12-01."`
	Decimal   string `placeholder:"point|comma" help:"What stands before decimals, if the numbers do not show it."`
	MassUnit  string `placeholder:"kg|g|lb|oz" help:"Of masses without a unit, in the cell or the header."`
	TempUnit  string `placeholder:"c|f" help:"Of temperatures without a unit."`
	Enter     bool   `help:"Enter it; without, it is only shown what would be entered."`
	Who       string `help:"Who says so; needed with --enter."`
	JSON      bool   `name:"json" help:"What would be entered, or was, as JSON."`
	Header    bool   `help:"Print a header for such a sheet, to start from."`
}

// Help is the longer help of the command.
func (importFileCommand) Help() string {
	return `Columns may stand in any order and under several names; units stand in the header or in the cells. What a sheet leaves open is asked, never
guessed. First it is shown what would be entered, row by row, with every mistake and where it stands; --enter then enters all of it or, with a
mistake left, nothing. The same file enters nothing a second time. Prices change the book that the records keep.`
}

func (c importFileCommand) Run(s *surroundings) error {
	kind, _ := app.ImportKindOf(c.What)
	if c.Header {
		csv, err := kind.HeaderCSV()
		if err != nil {
			return err
		}
		return s.show(string(csv))
	}
	f, err := c.file(s)
	if err != nil {
		return err
	}
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	if kind.Books && !h.kept {
		return failure{badUsage, "prices", "they are a part of the book, and this one is " + h.name(), "put the book into the records first: kettlefrost book import DIR"}
	}
	p, err := c.enter(s, h, kind, f)
	notReady, isNot := errors.AsType[*app.NotReadyError](err)
	if _, ours := errors.AsType[failure](err); ours {
		return err
	}
	if err != nil && !isNot {
		return failure{code: mistakes, place: c.File, what: err.Error()}
	}
	if isNot {
		p = notReady.Preview
	}
	if err := c.showPreview(s, p, err == nil && c.Enter); err != nil {
		return err
	}
	if isNot && p.Done == nil && p.Entries == 0 && len(p.Mistakes)+len(p.Questions) == 0 {
		return nil // all of it is known already
	}
	if isNot || len(p.Mistakes)+len(p.Questions) > 0 {
		return failure{code: mistakes, place: c.File, what: (&app.NotReadyError{Preview: p}).Error(), fix: ""}
	}
	return nil
}

// enter enters the file, or looks what it would enter.
func (c importFileCommand) enter(s *surroundings, h house, kind app.ImportKind, f app.ImportFile) (app.ImportPreview, error) {
	book, err := h.sound(s)
	if err != nil {
		return app.ImportPreview{}, err
	}
	by := app.Author{Who: c.Who, Device: "command line", At: s.now()}
	switch {
	case !c.Enter:
		return h.records.PreviewImport(s.ctx, book, kind, f, s.now())
	case c.Who == "":
		return app.ImportPreview{}, failure{badUsage, "--enter", "nobody said who says so", "give --who"}
	case kind.Books:
		return h.EnterPrices(s.ctx, h.records, f, by)
	}
	return h.records.EnterImport(s.ctx, book, kind, f, by)
}

// file is the file with what was said about it.
func (c importFileCommand) file(s *surroundings) (app.ImportFile, error) {
	f := app.ImportFile{Name: c.File, Sheet: c.Sheet, Settings: tables.Settings{}}
	for key, value := range map[string]string{tables.AskDelimiter: c.Delimiter, tables.AskDates: c.Dates, tables.AskDecimal: c.Decimal, tables.AskMass: c.MassUnit, tables.AskTemp: c.TempUnit} {
		if value != "" {
			f.Settings[key] = value
		}
	}
	if err := f.Settings.Check(); err != nil {
		return f, failure{badUsage, "", strings.TrimPrefix(err.Error(), "tables: "), "kettlefrost import --help shows what can be said"}
	}
	if c.File == "" {
		return f, failure{badUsage, c.What, "no file is named", "name a CSV or XLSX file; --header prints a header to start from"}
	}
	file, err := os.Open(c.File)
	if err == nil {
		defer file.Close()
		f.Data, err = io.ReadAll(io.LimitReader(file, mostImport))
	}
	if err != nil {
		return f, failure{badUsage, c.File, "cannot be read: " + reason(err), "name a CSV or XLSX file"}
	}
	return f, nil
}

// mostImport is more than is read of a file; that it is too large is then said by whoever reads it.
const mostImport = 20 << 20

func (c importFileCommand) showPreview(s *surroundings, p app.ImportPreview, entered bool) error {
	if c.JSON {
		return s.showJSON(p.View(entered))
	}
	var text strings.Builder
	for _, l := range p.Lines {
		sign := "+"
		if !l.New {
			sign = "="
		}
		fmt.Fprintf(&text, "%s %-8s %s\n", sign, rowsText(l.Rows), l.Says)
		if l.Note != "" {
			fmt.Fprintf(&text, "           %s\n", l.Note)
		}
	}
	for _, m := range p.Mistakes {
		fmt.Fprintf(&text, "! %s\n", m.Error())
	}
	for _, q := range p.Questions {
		fmt.Fprintf(&text, "? %s --%s\n", q.Error(), q.Key)
	}
	if len(p.Unused) > 0 {
		fmt.Fprintf(&text, "Not used: %s\n", strings.Join(p.Unused, ", "))
	}
	switch {
	case p.Done != nil:
		fmt.Fprintf(&text, "This file was entered on %s by %s.\n", time.UnixMilli(int64(p.Done.At)).In(s.now().Location()).Format("2006-01-02 15:04"), p.Done.Who)
	case entered:
		fmt.Fprintf(&text, "Entered: %d.\n", p.Entries)
	case p.Ready():
		fmt.Fprintf(&text, "To enter: %d. Nothing is entered yet; --enter --who NAME does.\n", p.Entries)
	}
	return s.show(text.String())
}

// rowsText is the rows of a line: 2, 2-4 or 2, 5.
func rowsText(rows []int) string {
	if n := len(rows); n > 1 && rows[n-1]-rows[0] == n-1 && slices.IsSorted(rows) {
		return fmt.Sprintf("%d-%d", rows[0], rows[n-1])
	}
	var all []string
	for _, r := range rows {
		all = append(all, fmt.Sprint(r))
	}
	return strings.Join(all, ", ")
}
