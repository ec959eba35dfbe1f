package app

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/spelling"
	"kettlefrost/internal/tables"
)

// importing makes entries of the rows of one sheet.
type importing struct {
	r    *Records
	book kitchen.Book
	now  time.Time
	p    *ImportPreview
	rows []tables.Row
}

func (in *importing) read(ctx context.Context) error {
	switch in.p.Kind.Key {
	case "customers":
		return in.customers(ctx)
	case "orders":
		return in.orders(ctx)
	case "goods":
		return in.goods(ctx)
	case "stock":
		return in.stock(ctx)
	case "prices":
		return in.prices(ctx)
	}
	return fmt.Errorf("nothing is called %q that could be entered from a sheet", in.p.Kind.Key)
}

func (in *importing) wrong(m tables.Mistake) { in.p.Mistakes = append(in.p.Mistakes, m) }

// line adds a line of the preview.
func (in *importing) line(l ImportLine) { in.p.Lines = append(in.p.Lines, l) }

// enter adds an entry, if its body makes sense; what does not is a mistake of the row.
func (in *importing) enter(row tables.Row, at time.Time, says, note string, body record.Body) {
	if _, err := record.Encode(body); err != nil {
		in.wrong(tables.Mistake{Row: row.Number, Problem: strings.TrimPrefix(err.Error(), "record: "), Fix: "mend the row"})
		return
	}
	in.line(ImportLine{Rows: []int{row.Number}, Says: says, New: true, Note: note})
	in.p.said = append(in.p.said, Said{At: at, Body: body})
}

// noun is what a cell should name, and what to do when there is no such thing.
type noun struct{ what, first string }

const intoBook = "put it into the book first"

var (
	aPack        = noun{"pack of the book", intoBook}
	anOffer      = noun{"ingredient or pack of the book", intoBook}
	anIngredient = noun{"ingredient of the book", intoBook}
	aList        = noun{"price list of the book", intoBook}
	aCustomer    = noun{"customer who is known", "enter the customers first"}
)

// meant is the key of something that a cell names by its key or its name, in any case.
func meant[K ~string, V any](in *importing, row tables.Row, field string, all map[K]V, name func(V) string, of noun) (K, bool) {
	text := row.Text(field)
	if _, ok := all[K(text)]; ok {
		return K(text), true
	}
	var near []string
	var found []K
	for key, v := range all {
		if strings.EqualFold(name(v), text) || strings.EqualFold(string(key), text) {
			found = append(found, key)
		}
		near = append(near, string(key), name(v))
	}
	if len(found) == 1 {
		return found[0], true
	}
	slices.Sort(near)
	fix := "write the id or the name of one, or " + of.first
	if best := spelling.Nearest(text, near); best != "" && len(found) == 0 {
		fix = "did you mean " + best + "? " + fix
	}
	problem := "is no " + of.what
	if len(found) > 1 {
		problem = "is the name of several"
	}
	in.wrong(row.Wrong(field, problem, fix))
	return "", false
}

func nameOfPack(p kitchen.Pack) string             { return p.Name }
func nameOfIngredient(g kitchen.Ingredient) string { return g.Name }

// noonOf is the middle of a day where the kitchen is; today it is not after now.
func (in *importing) noonOf(day string) time.Time {
	at, err := time.ParseInLocation(time.DateOnly, day, in.now.Location())
	if err != nil {
		return in.now
	}
	at = at.Add(12 * time.Hour)
	if at.After(in.now) && day == in.now.Format(time.DateOnly) {
		return in.now
	}
	return at
}

// slug is a short name for good: "Joe's Café" is joes-cafe.
func slug(name string) string {
	plain := strings.NewReplacer("à", "a", "á", "a", "â", "a", "ä", "a", "ã", "a", "å", "a", "ç", "c", "è", "e", "é", "e", "ê", "e", "ë", "e", "ì", "i", "í", "i", "î", "i", "ï", "i", "ñ", "n",
		"ò", "o", "ó", "o", "ô", "o", "ö", "o", "õ", "o", "ø", "o", "ù", "u", "ú", "u", "û", "u", "ü", "u", "ß", "ss", "'", "", "’", "").Replace(strings.ToLower(name))
	return strings.Join(strings.FieldsFunc(plain, func(r rune) bool { return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9') }), "-")
}
