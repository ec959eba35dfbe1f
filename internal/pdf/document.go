// Package pdf sets documents for paper: a Document is a value, and the same Document gives the same bytes. Pages are drawn through the calls of
// draw.Canvas, as pictures on the screen are, so that a chart is the same on both, and what is on a page can be looked at without reading PDF.
//
// Everything can be read in black and white, and nothing is told by shading alone. The faces are the Go fonts, embedded: Latin, Greek and
// Cyrillic, the signs of measures. A character that they do not have is printed as □, never left out.
package pdf

import (
	"kettlefrost/internal/draw"
	"kettlefrost/internal/language"
)

// Document is what is to be printed. Its texts may be anything.
type Document struct {
	Title   string
	Subject string // for programs that list documents
	Head    string // stands above every page
	Foot    string // stands below every page, before its number
	Draft   string // when not empty: every page is marked as a draft, with these words
	MadeMs  int64  // when it was made, in milliseconds since 1970 UTC; the only time in the file
	Paper   Paper
	Wide    bool             // pages lie on their side
	Large   float64          // how much larger everything is set than to be read at a desk: 1.4 at arm's length; as it is at 1 and below
	In      language.Speaker // of page numbers and the like; what blocks say is said already
	Blocks  []Block
}

// Paper is the size of a page.
type Paper int

// The papers.
const (
	Letter Paper = iota // 8.5 by 11 inches
	A4
)

// size in points of 1/72 inch.
func (p Paper) size() (w, h float64) {
	if p == A4 {
		return 595.28, 841.89
	}
	return 612, 792
}

// size of a page of the document in points.
func (d Document) size() (w, h float64) {
	w, h = d.Paper.size()
	if d.Wide {
		return h, w
	}
	return w, h
}

// Block is one part of a document.
type Block interface{ set(*flow) }

// Title is what stands large at the beginning, with a line below it.
type Title struct{ Text, Below string }

// Heading begins a part. It stands in the outline of the file, and those of level 1 in the Contents.
type Heading struct {
	Level int // 1, 2 or 3
	Text  string
	Page  bool // begins a page
}

// Contents lists the headings of level 1 with their pages.
type Contents struct{ Name string }

// Tone is how a paragraph is set.
type Tone int

// The tones.
const (
	Plain  Tone = iota
	Strong      // bold
	Quiet       // small: sources, remarks
	Loud        // bold, in a frame: what must not be passed over
)

// Paragraph is running text. A line break in it begins a line.
type Paragraph struct {
	Text string
	Tone Tone
}

// List is items, each with a mark before it.
type List []string

// Facts are names with what they are, one below the other.
type Facts []Fact

// Fact is a name and what it is.
type Fact struct{ Name, Is string }

// Table is rows under a head that stands again on every page it goes on. Columns are as wide as what they hold asks for.
type Table struct {
	Name    string // above it; said again where it goes on
	Columns []Column
	Rows    []Row
	None    string  // said when there are no rows; nothing is printed without it
	Ruled   bool    // with lines between columns, to be written into by hand
	Tall    float64 // what a row has of height at least, in points, for writing by hand
}

// Column is one column of a table.
type Column struct {
	Name   string
	Figure bool    // set to the right
	Wide   float64 // at least, in points, for writing by hand
}

// Row is as long as there are columns.
type Row struct {
	Cells  []string
	Strong bool // bold: a row not to be passed over
}

// Figure is a picture with words below it.
type Figure struct {
	Picture draw.Picture
	Caption string
}

// Signatures are lines to be signed by hand, or that tell who signed.
type Signatures []Signature

// Signature is a line; Who and When are empty where somebody is to write them.
type Signature struct{ As, Who, When, Says string }

// PageBreak begins a page.
type PageBreak struct{}
