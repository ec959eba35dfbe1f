package cli

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/people"
	"kettlefrost/internal/unit"
	"kettlefrost/internal/web"
)

// logsCommand is everything about temperature logs.
type logsCommand struct {
	Probes listProbesCommand `cmd:"" default:"withargs" help:"Every probe and logger: its last reading, where it is, which are silent or flagged."`
	Day    logDayCommand     `cmd:"" help:"What a probe read on a day: as text, JSON, CSV or a drawing."`
	Import importLogCommand  `cmd:"" help:"Take in a logger's CSV file: shown first, every reading kept as it came, never twice."`
}

// listProbesCommand lists the probes.
type listProbesCommand struct {
	bookFlag
	JSON  bool        `name:"json" help:"As JSON (kettlefrost.probes/1)."`
	Units unit.System `default:"metric" placeholder:"metric|us" help:"Units of the text (${default})."`
}

// Help is the longer help of the command.
func (listProbesCommand) Help() string {
	return `A probe sends what it reads to the pages, at /readings, with the key of an instrument (kettlefrost people key):

    curl -H "Authorization: Bearer kettlefrost-key-…" -H "Content-Type: application/json" \
         -d '{"probe":"walk-in-air","at":"2026-12-01T14:05:00-05:00","temp_f":38.1}' https://kitchen.example/readings

Several at once: {"probe":"walk-in-air","unit":"F","readings":[{"at_ms":1796133900000,"temp":38.1}, …]}. What is sent again is taken in once.
Readings are kept as they were sent; what is odd about one is flagged, and the answer says so.`
}

func (c listProbesCommand) Run(s *surroundings) error {
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	book, _ := h.Book()
	list, err := h.records.ProbeList(s.ctx, book, s.now())
	if err != nil {
		return err
	}
	if c.JSON {
		return s.showJSON(list)
	}
	return s.show(probesText(list, c.Units))
}

// logDayCommand is a probe's day.
type logDayCommand struct {
	bookFlag
	Probe string      `arg:"" help:"The probe, as readings name it; kettlefrost logs lists them."`
	Day   string      `arg:"" optional:"" help:"The day, such as 2026-12-01; today when left out."`
	JSON  bool        `name:"json" xor:"as" help:"As JSON (kettlefrost.readings-day/1): every reading as it was received."`
	CSV   bool        `name:"csv" xor:"as" help:"As CSV: every reading as it was received."`
	SVG   bool        `name:"svg" xor:"as" help:"The chart, SVG."`
	Units unit.System `default:"metric" placeholder:"metric|us" help:"Units of the text and the chart (${default})."`
}

func (c logDayCommand) Run(s *surroundings) error {
	now := s.now()
	day := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, now.Location())
	if c.Day != "" {
		var err error
		if day, err = time.ParseInLocation(time.DateOnly, c.Day, now.Location()); err != nil {
			return failure{badUsage, c.Day, "is no day", "write it as in 2026-12-01"}
		}
	}
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	book, _ := h.Book()
	d, err := h.records.ReadingDay(s.ctx, book, c.Probe, day, now)
	switch {
	case err != nil:
		return err
	case c.JSON:
		return s.showJSON(d)
	case c.CSV:
		return s.show(string(d.CSV(now.Location())))
	case c.SVG:
		return s.show(string(draw.SVG(web.ReadingChart(d, c.Units, now.Location()).Picture())))
	}
	return s.show(readingDayText(d, c.Units, now.Location()))
}

// importLogCommand takes in a logger's file.
type importLogCommand struct {
	bookFlag
	File  string            `arg:"" help:"The file, as the logger's program writes it."`
	Unit  string            `enum:",c,f" default:"" placeholder:"c|f" help:"Of temperatures without a unit."`
	Zone  string            `placeholder:"ZONE" help:"The zone of the logger's clock, if the file does not say it: kitchen (this computer's, put forward and back with it), a name such as America/New_York, or an offset such as -05:00 that never changes."`
	Order string            `enum:",mdy,dmy" default:"" placeholder:"mdy|dmy" help:"Whether the month or the day stands first, if the file does not show it."`
	Probe map[string]string `placeholder:"COLUMN=PROBE" help:"Which probe a column is, by the word at its head; once for each."`
	Enter bool              `help:"Take it in; without, it is only shown what would be."`
	Again bool              `help:"Take in a file that was taken in before with other answers: the earlier readings stay beside these."`
	Who   string            `help:"Who says so; needed with --enter."`
	JSON  bool              `name:"json" help:"What was read, as JSON (kettlefrost.log-file/1)."`
}

// Help is the longer help of the command.
func (importLogCommand) Help() string {
	return `Columns may stand in any order, in °F or °C, with any clock. What the file does not say is asked, never guessed. Everything in it is kept as it
stands: out of order, twice, in the future, text in place of a number, a step to another unit. What is odd is flagged, with its lines; nothing is
dropped or put right. An entry ties the readings to the file by its SHA-256.`
}

func (c importLogCommand) Run(s *surroundings) error {
	if c.Enter && c.Who == "" {
		return failure{badUsage, "--enter", "nobody said who says so", "give --who"}
	}
	f, err := c.file()
	if err != nil {
		return err
	}
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	book, _ := h.Book()
	now := s.now()
	x, err := h.records.ReadLog(s.ctx, book, f, app.LogAnswers{Unit: c.Unit, Zone: c.Zone, Order: c.Order, Probes: c.Probe}, now, s.linesRead())
	if err != nil {
		return err
	}
	entered := false
	if c.Enter && x.Ready() {
		e, err := h.records.TakeLog(s.ctx, x, app.Author{Who: c.Who, Device: "command line", At: now}, c.Again)
		if notReady, is := errors.AsType[*app.LogNotReadyError](err); is {
			return failure{mistakes, c.File, notReady.Problem, notReady.Fix}
		}
		if denied, is := errors.AsType[*people.DeniedError](err); is {
			return failure{code: mistakes, what: denied.Error()}
		}
		if err != nil {
			return err
		}
		entered = true
		x.Entered = e.ID
	}
	if err := c.showLog(s, x, entered); err != nil {
		return err
	}
	if x.Problem != "" {
		return failure{code: mistakes, place: c.File, what: strings.TrimSuffix(x.Problem, ".")}
	}
	if !x.Ready() {
		return failure{mistakes, c.File, "it does not say everything", "answer what is asked with the flags beside it"}
	}
	return nil
}

func (c importLogCommand) showLog(s *surroundings, x *app.LogReading, entered bool) error {
	if c.JSON {
		return s.showJSON(x)
	}
	return s.show(logFileText(x, entered, s.now().Location()))
}

// mostLogFile is more than is read of a file.
const mostLogFile = 256 << 20

func (c importLogCommand) file() (f app.LogFile, err error) {
	file, err := os.Open(c.File)
	if err == nil {
		defer file.Close()
		f.Name = filepath.Base(c.File)
		f.Data, err = io.ReadAll(io.LimitReader(file, mostLogFile+1))
	}
	switch {
	case err != nil:
		return f, failure{badUsage, c.File, "cannot be read: " + reason(err), "name a CSV file"}
	case len(f.Data) > mostLogFile:
		return f, failure{badUsage, c.File, "is too large", "cut it into several files"}
	}
	return f, nil
}

// linesRead tells on standard error how far a long file is.
func (s *surroundings) linesRead() func(done, of int) {
	next := time.Now().Add(quiet)
	return func(done, of int) {
		if now := time.Now(); now.After(next) {
			s.say("%d of %d lines are read", done, of)
			next = now.Add(every / 5)
		}
	}
}
