package cli

import (
	"bytes"
	"errors"
	"io"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/language"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/record"
)

// labelShowCommand shows or prints one label.
type labelShowCommand struct {
	bookFlag
	smallFlags
	Pack         string `arg:"" help:"A pack of the book."`
	Lot          string `placeholder:"LOT" help:"A lot that was packed; a draft of none when left out."`
	In           string `name:"run" placeholder:"NAME" help:"Of a draft: the run at whose scale it is reckoned; the first that makes it when left out."`
	Language     string `placeholder:"LANGUAGE" help:"en-US, en-GB, es-US, es-ES, fr-CA or fr-FR; the kitchen's first when left out."`
	Stock        string `placeholder:"LABELS" help:"What is in the printer: a name of kettlefrost label stocks, or a size on a roll such as '100 x 150 mm'; the kitchen's when left out."`
	Rules        string `placeholder:"us|eu" help:"Whose rules; the kitchen's when left out."`
	WithoutPanel bool   `help:"Leave the nutrition panel out if an exemption may lift it."`

	JSON bool   `name:"json" help:"As JSON (kettlefrost.label/1)."`
	SVG  string `name:"svg" placeholder:"FILE" help:"Its picture, to a file that is not there yet."`
	PNG  string `name:"png" placeholder:"FILE" help:"Its picture, to a file that is not there yet."`
	Side int    `default:"1" help:"Which side of a front and a back the picture is of."`

	PDF    string `name:"pdf" placeholder:"FILE" help:"Labels of a lot for the printer, to a file that is not there yet; they are entered as printed."`
	Count  int64  `placeholder:"N" help:"How many packs get one; as many as have none when left out."`
	Start  int    `name:"sheet" placeholder:"PLACE" help:"Of a sheet that was begun: the first place to print on, row by row from 1."`
	Skip   []int  `placeholder:"PLACES" help:"Places of the first sheet that are used up or spoilt: 3,5,6."`
	Why    string `placeholder:"TEXT" help:"Why labels are printed again."`
	Who    string `help:"Who prints them."`
	Device string `default:"command line" help:"What it is done with (${default})."`
}

// Run shows it.
func (c labelShowCommand) Run(s *surroundings) error {
	open := c.open
	if c.Lot != "" || c.PDF != "" {
		open = c.openKept
	}
	h, err := open(s)
	if err != nil {
		return err
	}
	book, err := h.sound(s)
	if err != nil {
		return err
	}
	labels := labelsOf(h)
	made, err := c.make(s, labels, book)
	if err != nil {
		return labelFailure(c.Pack, err)
	}
	var printed []app.LabelPrint
	var count *app.LabelCount
	if !made.Draft() {
		err := h.records.Labelled(s.ctx, func(p *app.LabelsPrinted, _ *lots.State, _ finding.List) error {
			n := p.Count(made.Ask.Lot, made.Packs.Count())
			printed, count = slices.Clone(p.Of(made.Ask.Lot)), &n
			return nil
		})
		if err != nil {
			return err
		}
	}
	return c.give(s, h, made, made.Sheet(printed, count))
}

func (c labelShowCommand) make(s *surroundings, labels *app.Labels, book kitchen.Book) (*app.LabelMade, error) {
	ask := app.LabelAsk{Pack: kitchen.PackID(c.Pack), Lot: record.Lot(c.Lot), Run: c.In, Stock: c.Stock, Regime: kitchen.LabelRegime(c.Rules), Business: c.business(), WithoutPanel: c.WithoutPanel}
	if c.Language != "" {
		in, err := language.Parse(c.Language)
		if err != nil {
			return nil, &coldstore.Refusal{Field: "language", Problem: err.Error(), Fix: "leave --language out for the kitchen's first"}
		}
		ask.Language = in
	}
	var made *app.LabelMade
	var err error
	s.meanwhile("making the label", func() { made, err = labels.Make(s.ctx, book, ask) })
	return made, err
}

// labelFailure is why no label was made or printed, with its exit code.
func labelFailure(pack string, err error) error {
	if stop := (*app.LabelStop)(nil); errors.As(err, &stop) {
		return failure{stopped, "label of " + pack, stop.Problem, stop.Fix}
	}
	if why := (*coldstore.Refusal)(nil); errors.As(err, &why) {
		flag := map[string]string{"pack": "label show", "start": "--sheet"}[why.Field]
		if flag == "" {
			flag = "--" + why.Field
		}
		return failure{badUsage, flag, why.Problem, why.Fix}
	}
	if unknown := (*packlabel.AskedError)(nil); errors.As(err, &unknown) {
		return failure{badUsage, "label show", unknown.What, unknown.Fix}
	}
	return err
}

// give gives what was asked for; the exit code says that a label is withheld.
func (c labelShowCommand) give(s *surroundings, h house, made *app.LabelMade, sheet app.LabelSheet) error {
	withheld := func() error {
		if !made.Withheld() {
			return nil
		}
		return failure{stopped, "label of " + c.Pack, "it is withheld: something stops it", "kettlefrost label show " + c.Pack + " says what"}
	}
	switch {
	case c.PDF != "":
		return c.print(s, h, made, sheet)
	case c.SVG != "" || c.PNG != "":
		if err := withheld(); err != nil {
			return err
		}
		return c.picture(s, made)
	case c.JSON:
		return firstOf(s.showJSON(sheet), withheld())
	}
	return firstOf(s.show(labelText(sheet)), withheld())
}

// firstOf is the first error of two.
func firstOf(a, b error) error {
	if a != nil {
		return a
	}
	return b
}

func (c labelShowCommand) picture(s *surroundings, made *app.LabelMade) error {
	all := made.Pictures()
	if c.Side < 1 || c.Side > len(all) {
		return failure{badUsage, "--side", "there is no side " + strconv.Itoa(c.Side), "it has " + strconv.Itoa(len(all))}
	}
	p := all[c.Side-1]
	if c.SVG != "" {
		if err := writeNew("--svg", c.SVG, func(w io.Writer) error { _, err := w.Write(labelmaker.SVG(p, "label")); return err }); err != nil {
			return err
		}
		s.say("%s is written", c.SVG)
	}
	if c.PNG == "" {
		return nil
	}
	if err := writeNew("--png", c.PNG, func(w io.Writer) error { return labelmaker.PNG(w, p, labelDPI) }); err != nil {
		return err
	}
	s.say("%s is written", c.PNG)
	return nil
}

// labelDPI is that of a picture to be looked at.
const labelDPI = 300

// print enters labels and writes their file: made first, so that what cannot be printed is not entered.
func (c labelShowCommand) print(s *surroundings, h house, made *app.LabelMade, sheet app.LabelSheet) error {
	if stop := made.Stops(); stop != nil {
		return labelFailure(c.Pack, stop)
	}
	if c.Who == "" {
		return failure{badUsage, "--who", "it is not said who prints them", "give a name: labels are entered as printed"}
	}
	count := c.Count
	if count == 0 {
		if count = -sheet.Count.Difference; count <= 0 {
			return failure{badUsage, "--count", "every pack has its label", "say how many are printed again, and --why"}
		}
	}
	bodies, err := made.Print(app.LabelJob{Count: count, Why: strings.TrimSpace(c.Why)}, *sheet.Count)
	if err != nil {
		return labelFailure(c.Pack, err)
	}
	job, err := made.Sheets(count, app.Onto{Start: c.Start, Skip: c.Skip}, s.now().UnixMilli())
	if err != nil {
		return labelFailure(c.Pack, err)
	}
	var out bytes.Buffer
	if err := labelmaker.PDF(&out, job); err != nil {
		return err
	}
	enter := func(w io.Writer) error {
		if _, err := w.Write(out.Bytes()); err != nil {
			return err
		}
		var said []app.Said
		for _, b := range bodies {
			said = append(said, app.Said{Who: c.Who, Device: c.Device, At: s.now(), Body: b})
		}
		_, err := h.records.Enter(s.ctx, said...)
		return err
	}
	if err := writeNew("--pdf", c.PDF, enter); err != nil {
		return err
	}
	s.say("%s is written; %d labels of lot %s are entered as printed", c.PDF, count, c.Lot)
	return nil
}
