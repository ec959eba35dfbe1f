package cli

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/folder"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/sheet"
)

// folderCommand is the inspector's folder of some lots.
type folderCommand struct {
	bookFlag
	Lot        []string  `placeholder:"LOT" help:"About these lots, or packs of them: P-1201-3#17."`
	InRun      string    `name:"run" help:"About what was made and packed in a run."`
	From       time.Time `placeholder:"DAY" format:"2006-01-02" help:"About what was received, made and packed from this day on."`
	To         time.Time `placeholder:"DAY" format:"2006-01-02" help:"Until this day, the last one included."`
	PDF        string    `name:"pdf" placeholder:"FILE" help:"Write it for paper, to a file that is not there yet."`
	ZIP        string    `name:"zip" placeholder:"FILE" help:"Write the bundle: the PDF, everything as JSON, readings as CSV, the entries with their hashes, and how to verify them."`
	JSON       bool      `name:"json" help:"Everything but the readings as JSON (kettlefrost.folder/1)."`
	OnlyTheirs bool      `help:"The bundle holds only the entries that it rests on, not the whole chain: others stay private, and that none was left out cannot be verified."`
	AsOf       time.Time `placeholder:"TIME" help:"What was entered and read until then, such as 2026-12-02T10:00:00-05:00; until the last entry when left out."`
}

// Help is the longer help of the command.
func (folderCommand) Help() string {
	return `The folder holds where the lots came from and where they are, the hazard plan and rules in force, every critical record with what was read and how
it was judged, corrective actions, holds and decisions, checks of thermometers, what freezers showed, and corrections. What is missing is listed first.

The same records give the same files, byte for byte. The command ends with 4 when something is missing on which nobody has decided.`
}

// asked is which lots it is about, and in words.
func (c folderCommand) asked() (app.FolderAsk, error) {
	a := app.FolderAsk{Ask: lots.Ask{Codes: c.Lot, Run: c.InRun}, Only: c.OnlyTheirs}
	local := func(t time.Time, days int) record.Instant {
		return record.Instant(time.Date(t.Year(), t.Month(), t.Day()+days, 0, 0, 0, 0, time.Local).UnixMilli())
	}
	if !c.From.IsZero() {
		a.From = local(c.From, 0)
	}
	if !c.To.IsZero() {
		a.Before = local(c.To, 1)
	}
	switch {
	case a.Empty():
		return a, failure{badUsage, "folder", "nobody said which lots it is about", "give --lot, --run, --from or --to"}
	case a.From != 0 && a.Before != 0 && a.From >= a.Before:
		return a, failure{badUsage, "--to", "is before --from", "give the last day"}
	}
	a.Words = app.DaysInWords(a.Ask, dayOrNone(c.From), dayOrNone(c.To))
	if !c.AsOf.IsZero() {
		a.AsOf = record.Instant(c.AsOf.UnixMilli())
	}
	return a, nil
}

func dayOrNone(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format(time.DateOnly)
}

func (c folderCommand) Run(s *surroundings) error {
	a, err := c.asked()
	if err != nil {
		return err
	}
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	book, _ := h.Book()
	a.Zone, a.Says = time.Local, sheet.EntryText
	f, err := h.records.Folder(s.ctx, book, a)
	switch {
	case app.IsNoLot(err):
		return failure{badUsage, a.Words, "no lot fits", "ask for less: kettlefrost stock and kettlefrost trace show what there is"}
	case err != nil:
		return unknownLot(err)
	}
	if err := c.write(s, f); err != nil {
		return err
	}
	if slices.ContainsFunc(f.Missing, func(m folder.Missing) bool { return m.Grave }) {
		return failure{code: stopped, what: "something is missing, or not as it must be, on which nobody has decided", fix: "it is listed first"}
	}
	return nil
}

func (c folderCommand) write(s *surroundings, f app.InspectorFolder) error {
	for _, x := range []struct {
		flag, path string
		write      func(io.Writer) error
	}{{"--pdf", c.PDF, func(w io.Writer) error { return f.WritePDF(w, f.Clock) }}, {"--zip", c.ZIP, func(w io.Writer) error { return f.WriteZIP(w, f.Chain, f.Clock) }}} {
		if x.path == "" {
			continue
		}
		if err := writeNew(x.flag, x.path, x.write); err != nil {
			return err
		}
		s.say("%s is written", x.path)
	}
	if c.JSON {
		text, err := f.JSON()
		return errors.Join(err, s.show(string(text)))
	}
	return s.show(folderText(f))
}

// folderText is what a folder holds, in short.
func folderText(f app.InspectorFolder) string {
	text := fmt.Sprintf("Safety records: %s\n\n%s.\nSHA-256 of the contents: %s\n", f.Asked, f.Seal.Chain.Says(), f.Seal.Contents)
	for _, s := range f.Seal.Signatures {
		text += "Signed: " + s.Says(f.Clock.Time) + "\n"
	}
	text += fmt.Sprintf("\n%d lots, %d critical records, %d readings, %d corrective actions, %d holds and decisions, %d entries\n\n", len(f.Lots), len(f.Records), f.Readings.Rows, len(f.Actions), len(f.Holds), len(f.Entries))
	if len(f.Missing) == 0 {
		return text + "The program found nothing of what it looks for to be missing. It cannot find what nobody wrote down and no rule asks for.\n"
	}
	text += "Missing, or not as it must be (■: nobody has decided on it)\n"
	for _, m := range f.Missing {
		mark := " "
		if m.Grave {
			mark = "■"
		}
		text += fmt.Sprintf("%s %s [%s]: %s\n", mark, m.Where, m.Code, m.Says)
		if m.Fix != "" {
			text += "    " + m.Fix + "\n"
		}
	}
	return text
}
