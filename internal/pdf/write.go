package pdf

import (
	"fmt"
	"io"
	"slices"
	"time"

	"codeberg.org/go-pdf/fpdf"
)

// family is the name of the embedded faces.
const family = "go"

// Write writes a document as PDF. The same document gives the same bytes. The error is that of the writer, or says what of the document cannot be
// printed.
func Write(w io.Writer, doc Document) error {
	f := lay(doc)
	wide, tall := doc.size()
	out := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "pt", Size: fpdf.SizeType{Wd: wide, Ht: tall}})
	made := time.UnixMilli(doc.MadeMs).UTC()
	out.SetCatalogSort(true)
	out.SetCreationDate(made)
	out.SetModificationDate(made)
	out.SetTitle(doc.Title, true)
	out.SetSubject(doc.Subject, true)
	out.SetCreator("kettlefrost", true)
	out.SetProducer("kettlefrost", true)
	out.SetLang(string(doc.In.Language()))
	out.SetAutoPageBreak(false, 0)
	out.SetMargins(0, 0, 0)
	out.AddUTF8FontFromBytes(family, "", slices.Clone(faceOf(false).ttf)) // cut to what is used
	out.AddUTF8FontFromBytes(family, "B", slices.Clone(faceOf(true).ttf))
	level := -1
	for i, p := range f.pages {
		out.AddPage()
		f.picture(i).Draw(canvas{out})
		for _, h := range p.heads {
			level = min(h.level-1, level+1) // an outline leaves out no level
			out.SetFont(family, "B", plainSize)
			out.Bookmark(h.text, level, h.y*f.scale)
		}
	}
	if err := out.Output(w); err != nil {
		return fmt.Errorf("pdf: %q: %w", doc.Title, err)
	}
	return nil
}
