package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
)

// diffOf compares files of two folders; one that is not in both is compared with nothing.
func diffOf(names map[string]bool, kept, folder fs.FS) (string, error) {
	var text strings.Builder
	for _, name := range slices.Sorted(maps.Keys(names)) {
		old, err1 := fs.ReadFile(kept, name)
		new, err2 := fs.ReadFile(folder, name)
		for _, err := range []error{err1, err2} {
			if err != nil && !errors.Is(err, fs.ErrNotExist) {
				return "", failure{failed, name, "cannot be read: " + reason(err), "let this user read it"}
			}
		}
		a, b := name+" in the records", "in the folder"
		if err1 != nil {
			a = name + ", not in the records"
		}
		if err2 != nil {
			b = "not in the folder"
		}
		text.WriteString(diffText(a, b, string(old), string(new)))
	}
	return text.String(), nil
}

// diffText is a comparison as text; "" when nothing differs.
func diffText(a, b, old, new string) string {
	lines := app.Diff(old, new)
	if lines == nil {
		return ""
	}
	added, removed := app.Counts(lines)
	var text strings.Builder
	fmt.Fprintf(&text, "%s → %s: %d lines added, %d removed\n", a, b, added, removed)
	for _, l := range lines {
		fmt.Fprintf(&text, "%c%s\n", l.Sign, l.Text)
	}
	return text.String()
}

type bookPutBackCommand struct {
	recordsFlag
	whoFlag
	File    string `arg:"" help:"File of the book."`
	Version int    `arg:"" help:"What it is to be again; kettlefrost book log FILE lists the versions."`
}

func (c bookPutBackCommand) Run(s *surroundings) error {
	return c.with(s, func(r *app.Records) error {
		log, err := r.BookLog(s.ctx, c.File)
		if err != nil {
			return err
		}
		if c.Version < 1 || c.Version > len(log) {
			return failure{badUsage, c.File, fmt.Sprintf("the book has %d versions of this file", len(log)), "kettlefrost book log lists them"}
		}
		a, err := app.New(r.Book(), s.now)
		if err != nil {
			return err
		}
		old := log[len(log)-c.Version]
		edit := app.Edit{Path: c.File, Text: old.Text, Deleted: old.Deleted}
		if now := log[0]; !now.Deleted {
			edit.Base = now.Seq
		}
		err = a.SaveBook(s.ctx, r, record.ID{}, c.author(s), edit)
		if stops := (*app.StopsError)(nil); errors.As(err, &stops) {
			return mistaken("the book with "+c.File+" as it was", stops.Found)
		}
		if err != nil {
			return failure{code: mistakes, place: c.File, what: strings.TrimPrefix(err.Error(), "store: ")}
		}
		return s.show(fmt.Sprintf("%s is what it was in version %d.\n", c.File, c.Version))
	})
}
