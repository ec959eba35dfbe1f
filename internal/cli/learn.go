package cli

import (
	"errors"
	"fmt"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/learned"
	"kettlefrost/internal/record"
)

// learnCommand is what runs say of the figures of the book.
type learnCommand struct {
	bookFlag
	Of     string `arg:"" optional:"" help:"A dish, or a figure by its place in the book, such as dishes/ale-cheddar/steps/base/loses/evaporation; every dish when left out."`
	All    bool   `help:"Also figures that stay as they are, and those of which nothing was learned, with the reasons."`
	Accept bool   `help:"Set the figure in the book to what is proposed, and enter that it was learned." xor:"do"`
	Refuse bool   `help:"Leave it as it is; it is proposed again when a run has come." xor:"do"`
	Leave  string `name:"leave-out" placeholder:"RUN" help:"Leave a run out of the figure." xor:"do"`
	Why    string `placeholder:"TEXT" help:"What went wrong in the run that is left out."`
	Who    string `placeholder:"NAME" help:"Who says so."`
	Write  bool   `help:"With --accept, of a book in a folder: write its file too."`
	Sure   bool   `help:"With --accept: you know that it is this figure, although the same weighings may mean another."`
	JSON   bool   `name:"json" help:"As JSON (kettlefrost.learned/1)."`
}

// Help is the longer help of the command.
func (learnCommand) Help() string {
	return fmt.Sprintf(`What was weighed, ticked off and check-weighed in runs that are over, held against the plan that each was opened with: shares lost, evaporation,
residue, trim, times and paces, how packs scatter and how far pots turn out otherwise. The proposal is the mean of the book and the runs: a figure
that is written is worth 4 runs, one from a published table 2, a learned one as many as it rests on, at most %d; fewer than %d runs propose nothing.
What cannot be learned from is listed with its reason, far-off runs are asked about and count until somebody leaves them out. The book changes
only with --accept.

    kettlefrost learn
    kettlefrost learn dishes/ale-cheddar/steps/base/loses/evaporation
    kettlefrost learn dishes/ale-cheddar/steps/base/loses/evaporation --accept --who Ines
    kettlefrost learn dishes/turkey-meatballs/steps/bake/loses/water --leave-out tuesday-2026-02-09 --why 'a tray fell' --who Ines`, learned.MostWorth, learned.LeastRuns)
}

// Run shows or enters.
func (c learnCommand) Run(s *surroundings) error {
	h, err := c.openKept(s)
	if err != nil {
		return err
	}
	learning := h.Learning(h.records, app.NewBoards(h.records, h))
	x, err := learning.Lessons(s.ctx)
	if err != nil {
		return err
	}
	if x.Found.Worst() == finding.Stop {
		_, err := h.sound(s)
		return err
	}
	enters := c.Accept || c.Refuse || c.Leave != ""
	switch {
	case !strings.Contains(c.Of, "/") && !enters:
		return c.list(s, x)
	case enters && c.Who == "":
		return failure{badUsage, "--who", "is missing", "say who says so: --who NAME"}
	}
	f, err := x.Figure(c.Of)
	if err != nil {
		return learnFailure(err)
	}
	switch {
	case c.Accept:
		return c.accept(s, h, learning, f)
	case c.Refuse:
		return c.enter(s, h, func() (record.Body, error) { return x.Refusal(c.Of) })
	case c.Leave != "":
		return c.enter(s, h, func() (record.Body, error) { return x.Leaving(c.Of, c.Leave, c.Why) })
	case c.JSON:
		return s.showJSON(x.One(c.Of))
	}
	return s.show(lessonText(x, f))
}

// list is every figure that is proposed, dish by dish; all of them when they are asked for.
func (c learnCommand) list(s *surroundings, x app.Lessons) error {
	if _, known := x.Book.Dishes[dishID(c.Of)]; c.Of != "" && !known {
		return failure{badUsage, c.Of, "the book has no such dish", "kettlefrost learn lists all; a figure is named by its place in the book, with slashes"}
	}
	if c.JSON {
		return s.showJSON(x.Report(c.Of))
	}
	return s.show(lessonsText(x, c.Of, c.All))
}

// accept sets the figure in the book.
func (c learnCommand) accept(s *surroundings, h house, learning *app.Learning, f learned.Figure) error {
	if f.State == learned.Waiting {
		return c.write(s, h, learning)
	}
	if len(f.With) > 0 && !c.Sure {
		return failure{badUsage, c.Of, "the same weighings may mean " + strings.Join(f.With, " or "), "weigh once in between, or give --sure when you know that it is this one"}
	}
	if !h.kept && h.folder == "" {
		return failure{badUsage, "--book", "is missing: the demo cannot be changed", "kettlefrost demo DIR writes it to a folder, and --book DIR names that"}
	}
	f, edit, err := learning.Accept(s.ctx, record.ID{}, whoFlag{c.Who, "command line"}.author(s), c.Of, f.After)
	if err != nil {
		return learnFailure(err)
	}
	if err := s.show(editText(edit)); err != nil || edit.Saved {
		return err
	}
	if !c.Write {
		s.say("it is entered, and the file is not written: --write does it, or write it yourself")
		return nil
	}
	return writeFiles(h.folder, edit.Files)
}

// write writes what was accepted before into the files of a book in a folder.
func (c learnCommand) write(s *surroundings, h house, learning *app.Learning) error {
	_, _, edit, err := learning.Try(s.ctx, c.Of)
	if err != nil {
		return learnFailure(err)
	}
	if err := s.show(editText(edit)); err != nil || !c.Write {
		s.say("it was accepted before, and waits for its file: --write writes it")
		return err
	}
	return writeFiles(h.folder, edit.Files)
}

// enter enters what somebody says of the figure.
func (c learnCommand) enter(s *surroundings, h house, body func() (record.Body, error)) error {
	b, err := body()
	if err != nil {
		return learnFailure(err)
	}
	_, err = h.records.Enter(s.ctx, app.Said{Who: c.Who, Device: "command line", At: s.now(), Body: b})
	return learnFailure(err)
}

// learnFailure is an error in the form of the command line.
func learnFailure(err error) error {
	if err == nil {
		return nil
	}
	if wrong := (*app.LessonError)(nil); errors.As(err, &wrong) {
		return failure{badUsage, wrong.Figure, wrong.Problem, wrong.Fix}
	}
	if wrong := (*bookfile.EditError)(nil); errors.As(err, &wrong) {
		return failure{mistakes, "", wrong.Error(), ""}
	}
	return failure{code: mistakes, what: err.Error()}
}
