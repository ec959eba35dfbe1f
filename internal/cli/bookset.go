package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
)

// setCommand changes one thing in the book.
type setCommand struct {
	bookFlag
	bookWrite
	Path   string `arg:"" help:"What to change, such as dishes/ale-cheddar/steps/base/time or ingredients.xanthan.stock."`
	Value  string `arg:"" optional:"" help:"What it is to be, as the book writes it."`
	Delete bool   `help:"Take it out instead." xor:"do"`
	Before bool   `help:"Put the value into the list before the entry at PATH." xor:"do"`
	After  bool   `help:"Put the value into the list after the entry at PATH." xor:"do"`
	Append bool   `help:"Put the value at the end of the list at PATH." xor:"do"`
	File   string `placeholder:"FILE" help:"The file that a new entry goes into; where others of its kind are when left out."`
}

// bookWrite is how every command that changes the book is told to do it.
type bookWrite struct {
	Write bool   `help:"Change it; without this it is only shown what would be otherwise."`
	Who   string `placeholder:"NAME" help:"Who says so, for the book in the records."`
}

// Help is the longer help of the command.
func (setCommand) Help() string {
	return `PATH is what findings name, with entries of lists by number or by name: dishes.dal.steps[simmer].use[salt].amount, or with slashes. Only what is
changed is written anew: comments, order and everything else in the files stay as they are. It is shown what would be otherwise; --write does it,
unless the book could not be planned with then.

    kettlefrost set dishes/ale-cheddar/steps/base/loses/evaporation '5.2 kg/m2h'
    kettlefrost set 'dishes.dal.steps[simmer].use' '{of: salt, amount: 20 g}' --append --write`
}

// Run changes it.
func (c setCommand) Run(s *surroundings) error {
	h, err := c.open(s)
	if err != nil {
		return err
	}
	change := bookfile.Change{Do: bookfile.DoSet, Path: c.Path, Value: c.Value, File: c.File}
	switch {
	case c.Delete:
		change = bookfile.Delete(c.Path)
	case c.Before:
		change.Do = bookfile.DoBefore
	case c.After:
		change.Do = bookfile.DoAfter
	case c.Append:
		change.Do = bookfile.DoAppend
	}
	return c.make(s, h, change)
}

// make tries changes of the book and shows them, or makes them.
func (b bookWrite) make(s *surroundings, h house, changes ...bookfile.Change) error {
	edit, err := h.TryBook(changes...)
	if wrong, ok := errors.AsType[*bookfile.EditError](err); ok {
		return failure{mistakes, "", wrong.Error(), ""}
	}
	if err != nil {
		return err
	}
	if err := s.show(editText(edit)); err != nil || len(edit.Files) == 0 {
		return err
	}
	if edit.Stops {
		for _, f := range edit.Found {
			if f.Severity == finding.Stop {
				s.say("%s", f)
			}
		}
		return failure{mistakes, "", "the book could not be planned with after this, and nothing was changed", "mend what is named, in one change with it or before it"}
	}
	if !b.Write {
		s.say("nothing is changed: --write does it")
		return nil
	}
	return b.keep(s, h, edit, changes)
}

// keep makes the changes in the records or in the folder.
func (b bookWrite) keep(s *surroundings, h house, edit app.BookEdit, changes []bookfile.Change) error {
	switch {
	case h.kept && b.Who == "":
		return failure{badUsage, "--who", "is missing", "the records keep who changed the book: --who NAME"}
	case h.kept:
		_, err := h.EditBook(s.ctx, record.ID{}, whoFlag{b.Who, "command line"}.author(s), changes...)
		return err
	case h.folder == "":
		return failure{badUsage, "--book", "is missing: the demo cannot be changed", "kettlefrost demo DIR writes it to a folder, and --book DIR names that"}
	}
	return writeFiles(h.folder, edit.Files)
}

// writeFiles writes the files of an edit. One that was changed meanwhile stops it; each is there whole or as it was.
func writeFiles(folder string, files []app.FileEdit) error {
	for _, f := range files {
		now, err := os.ReadFile(filepath.Join(folder, filepath.FromSlash(f.Name)))
		if f.New != errors.Is(err, fs.ErrNotExist) || !f.New && !bytes.Equal(now, []byte(f.Before)) {
			return failure{failed, f.Name, "was changed meanwhile, and nothing was written", "try again"}
		}
	}
	for _, f := range files {
		if err := writeFile(filepath.Join(folder, filepath.FromSlash(f.Name)), f); err != nil {
			return failure{failed, f.Name, "cannot be written: " + reason(err), "look for space on the disk and leave to write, then try again"}
		}
	}
	return nil
}

func writeFile(name string, f app.FileEdit) error {
	if f.Removed {
		return os.Remove(name)
	}
	mode := fs.FileMode(0o644)
	if info, err := os.Stat(name); err == nil {
		mode = info.Mode().Perm()
	}
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		return err
	}
	half := name + ".half"
	if err := os.WriteFile(half, []byte(f.After), mode); err != nil {
		return err
	}
	return os.Rename(half, name)
}

// editText is what changes, file by file.
func editText(edit app.BookEdit) string {
	if len(edit.Files) == 0 {
		return "Nothing differs.\n"
	}
	var b strings.Builder
	for _, f := range edit.Files {
		switch {
		case f.New:
			fmt.Fprintf(&b, "%s (new)\n", f.Name)
		case f.Removed:
			fmt.Fprintf(&b, "%s (nothing is left in it: it goes)\n", f.Name)
		default:
			fmt.Fprintf(&b, "%s\n", f.Name)
		}
		for _, l := range f.Lines() {
			if l.Sign != '@' {
				fmt.Fprintf(&b, "%c %s\n", l.Sign, l.Text)
			}
		}
	}
	return b.String()
}
