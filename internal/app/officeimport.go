package app

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"fmt"
	"path"
	"slices"
	"strings"
	"time"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/tables"
	"kettlefrost/internal/workbook"
)

// ImportFile is a sheet that somebody wants to enter.
type ImportFile struct {
	Name     string // its ending says what it is
	Data     []byte
	Settings tables.Settings
	Sheet    string            // of a workbook with several
	Mended   map[string]string // what is to stand in a cell instead, by its name in a spreadsheet: "B3"
}

// AskSheet is the question which sheet of a workbook is meant.
const AskSheet = workbook.AskSheet

// ImportPreview is what a sheet would enter, row by row, and what keeps it from being entered.
type ImportPreview struct {
	Kind      ImportKind        `json:"-"`
	Lines     []ImportLine      `json:"lines"`
	Mistakes  []tables.Mistake  `json:"mistakes,omitempty"`
	Questions []tables.Question `json:"questions,omitempty"`
	Read      []string          `json:"read,omitempty"`   // which column is what
	Unused    []string          `json:"unused,omitempty"` // columns that are none of the fields
	Done      *ImportDone       `json:"done,omitempty"`   // this very file was entered before
	Entries   int               `json:"entries"`          // that would be made
	Sheet     tables.Sheet      `json:"-"`                // as it was sent, with what was mended

	id    record.ID
	said  []Said
	edits []Edit
}

// ImportLine is one thing that would be entered.
type ImportLine struct {
	Rows []int  `json:"rows"`
	Says string `json:"says"`
	New  bool   `json:"new"`            // it changes something; what is as it should be already is not entered again
	Note string `json:"note,omitempty"` // worth a look
}

// ImportDone is when a file was entered, and by whom.
type ImportDone struct {
	Who     string         `json:"who"`
	At      record.Instant `json:"at_ms"`
	First   record.ID      `json:"first"`
	Entries int            `json:"entries"`
}

// Ready says whether it can be entered: something would be, and nothing keeps it.
func (p ImportPreview) Ready() bool {
	return len(p.Mistakes)+len(p.Questions) == 0 && p.Done == nil && p.Entries > 0
}

// ID is that of the first entry that would be made; the others are PartIDs of it.
func (p ImportPreview) ID() record.ID { return p.id }

// PreviewImport reads a sheet and says what it would enter. Nothing is entered. Errors are those of the records; what is wrong with the sheet
// is in the preview.
func (r *Records) PreviewImport(ctx context.Context, book kitchen.Book, kind ImportKind, f ImportFile, now time.Time) (p ImportPreview, err error) {
	p.Kind = kind
	if p.Sheet, err = f.sheet(); err != nil {
		return p, p.add(err)
	}
	f.mend(&p.Sheet)
	reading := kind.Form.Read(p.Sheet, f.Settings)
	p.Mistakes, p.Questions, p.Read, p.Unused = reading.Mistakes, reading.Questions, reading.Read, reading.Unused
	if p.id, p.Done, err = r.importID(ctx, kind, f); err != nil || p.Done != nil {
		return p, err
	}
	in := &importing{r: r, book: book, now: now, p: &p, rows: reading.Rows}
	if err := in.read(ctx); err != nil {
		return p, err
	}
	slices.SortStableFunc(p.Mistakes, func(a, b tables.Mistake) int {
		return cmp.Or(cmp.Compare(a.Row, b.Row), cmp.Compare(a.Column, b.Column))
	})
	p.Entries = len(p.said) + len(p.edits)
	return p, nil
}

// add puts what is wrong with a file into the preview; any other error is returned.
func (p *ImportPreview) add(err error) error {
	if m, ok := errors.AsType[*tables.Mistake](err); ok {
		p.Mistakes = append(p.Mistakes, *m)
		return nil
	}
	if q, ok := errors.AsType[*tables.Question](err); ok {
		p.Questions = append(p.Questions, *q)
		return nil
	}
	return err
}

func (f ImportFile) sheet() (tables.Sheet, error) {
	switch strings.ToLower(path.Ext(f.Name)) {
	case ".xlsx", ".xlsm":
		return workbook.Sheet(f.Data, f.Sheet)
	case ".xls", ".ods", ".numbers", ".pdf":
		return tables.Sheet{}, &tables.Mistake{Text: path.Ext(f.Name), Problem: "is no kind of file that is read", Fix: "save it as .xlsx, or as CSV in UTF-8"}
	}
	return tables.ReadCSV(f.Data, f.Settings.Delimiter())
}

// mend puts what was mended into the cells.
func (f ImportFile) mend(s *tables.Sheet) {
	for i, row := range s.Rows {
		for k := range s.Rows[0] {
			if text, mended := f.Mended[fmt.Sprintf("%s%d", tables.Letters(k+1), i+1)]; mended {
				for len(row) <= k {
					row = append(row, tables.Cell{})
				}
				row[k] = tables.Cell{Text: text}
			}
		}
		s.Rows[i] = row
	}
}

// importID is the id of the first entry that a file makes: it follows from what is in the file, so that the same file makes the same entries
// and enters nothing a second time. When all that it entered was taken back, it can be entered once more, under another id. A mended cell is
// part of how the file was entered and not of which file it is.
func (r *Records) importID(ctx context.Context, kind ImportKind, f ImportFile) (id record.ID, done *ImportDone, err error) {
	for round := uint32(0); ; round++ {
		sum := sha256.New()
		fmt.Fprintf(sum, "kettlefrost import\x00%s\x00%s\x00", kind.Key, f.Sheet)
		sum.Write(binary.BigEndian.AppendUint32(nil, round))
		sum.Write(f.Data)
		copy(id[:], sum.Sum(nil))
		first, there, err := r.store.ByID(ctx, id)
		if err != nil || !there {
			return id, nil, err
		}
		n, stands, err := r.importStands(ctx, id)
		if err != nil || stands {
			return id, &ImportDone{Who: first.Who, At: first.Entered, First: id, Entries: n}, err
		}
	}
}

// importStands counts the entries of an import, and says whether any of them stands.
func (r *Records) importStands(ctx context.Context, id record.ID) (n int, stands bool, err error) {
	for ; ; n++ {
		e, there, err := r.store.ByID(ctx, PartID(id, n))
		if err != nil || !there {
			return n, stands, err
		}
		if !stands {
			_, holds, err := r.Entry(ctx, e.ID)
			if err != nil {
				return n, stands, err
			}
			stands = holds || e.Kind == record.Booked{}.Kind() // the book is put back by booking again
		}
	}
}

// NotReadyError is an import that cannot be entered as it is.
type NotReadyError struct{ Preview ImportPreview }

func (e *NotReadyError) Error() string {
	p := e.Preview
	switch {
	case p.Done != nil:
		return "this file was entered before, by " + p.Done.Who + ": nothing is entered twice"
	case len(p.Mistakes) > 0:
		cells := "1 cell"
		if len(p.Mistakes) > 1 {
			cells = fmt.Sprintf("%d cells", len(p.Mistakes))
		}
		return cells + " to mend first: nothing was entered"
	case len(p.Questions) > 0:
		return p.Questions[0].Error()
	}
	return "there is nothing new in it: nothing was entered"
}

// EnterImport enters a sheet, all of it or nothing. Errors are *NotReadyError and those of Enter.
func (r *Records) EnterImport(ctx context.Context, book kitchen.Book, kind ImportKind, f ImportFile, by Author) (ImportPreview, error) {
	r.ordering.Lock() // no two orders get one number
	defer r.ordering.Unlock()
	p, err := r.PreviewImport(ctx, book, kind, f, by.At)
	if err != nil {
		return p, err
	}
	if !p.Ready() || kind.Books {
		return p, &NotReadyError{p}
	}
	for i := range p.said {
		p.said[i].ID, p.said[i].Who, p.said[i].Device = PartID(p.id, i), by.Who, by.Device
	}
	_, err = r.Enter(ctx, p.said...)
	return p, err
}

// EnterPrices changes the prices in the book that the records hold, as a sheet says. Errors are *NotReadyError and those of SaveBook.
func (a *App) EnterPrices(ctx context.Context, r *Records, f ImportFile, by Author) (ImportPreview, error) {
	kind, _ := ImportKindOf("prices")
	book, _ := a.Book()
	p, err := r.PreviewImport(ctx, book, kind, f, by.At)
	if err != nil {
		return p, err
	}
	if !p.Ready() {
		return p, &NotReadyError{p}
	}
	return p, a.SaveBook(ctx, r, p.id, by, p.edits...)
}
