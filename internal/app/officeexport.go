package app

import (
	"archive/zip"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/tables"
	"kettlefrost/internal/workbook"
)

// Tables are the tables of all that is in the records, and the number of the last entry in them.
func (r *Records) Tables(ctx context.Context) (all []tables.Table, last uint64, err error) {
	err = r.Lots(ctx, func(state *lots.State, _ finding.List) error { // nothing is taken in meanwhile
		all, last = tablesOf(r.standing.All(), state), r.seen
		return nil
	})
	return all, last, err
}

// Exported is what an export holds.
type Exported struct {
	Head   record.Head
	Tables []tables.Table
	Files  int // of the book
	Shots  int // pictures
}

// Bundle is where an export is put: files by their names, with slashes.
type Bundle interface {
	Put(name string, write func(io.Writer) error) error
}

// ExportAll puts everything into a bundle, in open formats: the entries with their chain as JSON lines, each table as CSV, all of them as one
// workbook, the book as its files, pictures as they came, and a text that says what is what. All of it is as of one entry.
func (r *Records) ExportAll(ctx context.Context, into Bundle) (x Exported, err error) {
	var last uint64
	if x.Tables, last, err = r.Tables(ctx); err != nil {
		return x, err
	}
	err = into.Put("entries.jsonl", func(w io.Writer) (err error) {
		x.Head, err = r.store.ExportUpTo(ctx, w, last)
		return err
	})
	if err != nil {
		return x, err
	}
	for _, t := range x.Tables {
		csv, err := t.CSV()
		if err != nil {
			return x, err
		}
		if err := into.Put("tables/"+FileName(t)+".csv", func(w io.Writer) error { _, err := w.Write(csv); return err }); err != nil {
			return x, err
		}
	}
	if err := into.Put("tables.xlsx", func(w io.Writer) error { return workbook.Write(w, x.Tables) }); err != nil {
		return x, err
	}
	if x.Files, err = r.exportBook(ctx, into); err != nil {
		return x, err
	}
	for p, err := range r.store.Pictures(ctx) {
		if err == nil {
			err = into.Put(p.FileName(), func(w io.Writer) error { _, err := w.Write(p.Data); return err })
		}
		if err != nil {
			return x, err
		}
		x.Shots++
	}
	return x, into.Put("README.txt", func(w io.Writer) error { _, err := io.WriteString(w, readme(x)); return err })
}

// WriteWorkbook writes tables as one XLSX file.
func WriteWorkbook(w io.Writer, all []tables.Table) error { return workbook.Write(w, all) }

// FileName is what the file of a table is called, without an ending.
func FileName(t tables.Table) string { return strings.ReplaceAll(t.Name, " ", "-") }

// Head is the end of the chain.
func (r *Records) Head(ctx context.Context) (record.Head, error) { return r.store.Head(ctx) }

// exportBook puts the files of the book in the store, if there is one.
func (r *Records) exportBook(ctx context.Context, into Bundle) (files int, err error) {
	book, err := r.BookFiles(ctx)
	if err != nil {
		return 0, err
	}
	err = fs.WalkDir(book, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := fs.ReadFile(book, name)
		if err != nil {
			return err
		}
		files++
		return into.Put("book/"+name, func(w io.Writer) error { _, err := w.Write(text); return err })
	})
	return files, err
}

// readme says what the files of an export are.
func readme(x Exported) string {
	var b strings.Builder
	fmt.Fprintf(&b, `Everything that the records hold, up to entry %d.

entries.jsonl  Every entry, one JSON object a line, in the order in which they were taken in. Each names the SHA-256 of the one before it, so
               that a change can be found out. The last hash is %s.
               This file alone brings all of it back: kettlefrost record restore entries.jsonl --records NEW
tables.xlsx    The tables below as one workbook, a sheet each.
tables/        The same as CSV: RFC 4180, UTF-8, commas between the columns, a point before decimals. Units stand in the headers, money is in the
               kitchen's currency, days are ISO 8601 dates, times are UTC. What was taken back is not in them; it is in the entries.
               A text that a spreadsheet would take for a formula (after any apostrophes it begins with =, +, -, @, a tab or a line break) has
               one apostrophe in front: take one away from a text that is apostrophes and then such a character, and it is as it was.
`, x.Head.Seq, x.Head.Hash)
	if x.Shots > 0 {
		fmt.Fprintf(&b, "pictures/      %d pictures as they came, each under its SHA-256, which stands in an entry. To bring them back too, restore this folder or ZIP\n               file whole in place of entries.jsonl.\n", x.Shots)
	}
	if x.Files > 0 {
		fmt.Fprintf(&b, "book/          The book that is kept in the records, %d files, byte for byte.\n", x.Files)
	}
	b.WriteString("\n")
	for _, t := range x.Tables {
		fmt.Fprintf(&b, "%-14s %s: %d\n", t.Name, t.About, len(t.Rows))
	}
	return b.String()
}

// Folder is a bundle in a folder that is made for it. It is an error if there is something in it already.
func Folder(path string) (Bundle, error) {
	entries, err := os.ReadDir(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return nil, fmt.Errorf("%s cannot be written: %w", path, err)
	case len(entries) > 0:
		return nil, fmt.Errorf("%s is not empty: give a folder that is not there yet", path)
	}
	return folderOut(path), nil
}

type folderOut string

func (f folderOut) Put(name string, write func(io.Writer) error) (err error) {
	path := filepath.Join(string(f), filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	file, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	return errors.Join(write(file), file.Close())
}

// Zip is a bundle in a ZIP file that is written to w, its files dated with at. It is whole once Close has succeeded.
type Zip struct {
	w  *zip.Writer
	at time.Time
}

// NewZip begins one.
func NewZip(w io.Writer, at time.Time) Zip { return Zip{zip.NewWriter(w), at} }

// Put writes one file.
func (z Zip) Put(name string, write func(io.Writer) error) error {
	w, err := z.w.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate, Modified: z.at})
	if err != nil {
		return err
	}
	return write(w)
}

// Close ends the file.
func (z Zip) Close() error { return z.w.Close() }
