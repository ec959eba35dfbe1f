package pdf

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"codeberg.org/go-pdf/fpdf"
	"pgregory.net/rapid"

	"kettlefrost/internal/draw"
)

// said is a text on a page.
type said struct {
	text       string
	x, y, wide float64
	draw.Type
}

// seen is a canvas that keeps what is set on it.
type seen struct {
	texts []said
	out   []draw.Point // corners of everything
}

func (s *seen) Rect(b draw.Box, st draw.Style) {
	if st.Stroke != draw.NoTone || st.Fill == draw.Ink {
		s.out = append(s.out, draw.Point{X: b.X, Y: b.Y}, draw.Point{X: b.X + b.W, Y: b.Y + b.H})
	}
}
func (s *seen) Line(a, b draw.Point, _ draw.Style)    { s.out = append(s.out, a, b) }
func (s *seen) Polyline(p []draw.Point, _ draw.Style) { s.out = append(s.out, p...) }
func (s *seen) Group(_ string, in func(draw.Canvas))  { in(s) }
func (s *seen) Text(p draw.Point, text string, t draw.Type) {
	w := width(printable(text), t.Size, t.Bold)
	x := p.X - w*map[draw.Anchor]float64{draw.Start: 0, draw.Middle: 0.5, draw.End: 1}[t.Anchor]
	s.texts = append(s.texts, said{text, x, p.Y, w, t})
	if !t.Turned {
		s.out = append(s.out, draw.Point{X: x, Y: p.Y - t.Size}, draw.Point{X: x + w, Y: p.Y})
	}
}

func look(doc Document) []*seen {
	var all []*seen
	for _, p := range Pages(doc) {
		s := &seen{}
		p.Draw(s)
		all = append(all, s)
	}
	return all
}

func (s *seen) count(text string) (n int) {
	for _, x := range s.texts {
		if x.text == text {
			n++
		}
	}
	return n
}

// Nothing leaves the page, whatever is printed.
func TestNothingLeavesThePage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.OneOf(rapid.String(), rapid.StringN(0, 400, -1), rapid.StringMatching(`[a-z0-9]{0,300}( [a-z]{1,12}){0,80}`))
		doc := Document{Title: word.Draw(t, "title"), Head: word.Draw(t, "head"), Foot: word.Draw(t, "foot"), Draft: word.Draw(t, "draft"), Paper: Paper(rapid.IntRange(0, 1).Draw(t, "paper"))}
		table := Table{Name: word.Draw(t, "name"), Columns: []Column{{Name: "a"}, {Name: word.Draw(t, "column"), Figure: true}, {Name: "c"}}}
		for range rapid.IntRange(0, 60).Draw(t, "rows") {
			table.Rows = append(table.Rows, Row{Cells: []string{word.Draw(t, "cell"), word.Draw(t, "cell"), word.Draw(t, "cell")}, Strong: rapid.Bool().Draw(t, "strong")})
		}
		doc.Blocks = []Block{Title{word.Draw(t, "t"), word.Draw(t, "u")}, Contents{"c"}, Heading{Level: rapid.IntRange(-1, 5).Draw(t, "level"), Text: word.Draw(t, "h")},
			Paragraph{word.Draw(t, "p"), Tone(rapid.IntRange(0, 3).Draw(t, "tone"))}, List{word.Draw(t, "l")}, Facts{{word.Draw(t, "n"), word.Draw(t, "is")}}, table,
			Signatures{{word.Draw(t, "as"), word.Draw(t, "who"), word.Draw(t, "when"), word.Draw(t, "says")}}, Figure{Caption: word.Draw(t, "caption")}}
		w, h := doc.Paper.size()
		for i, p := range look(doc) {
			for _, at := range p.out {
				if at.X < 40 || at.X > w-40 || at.Y < 20 || at.Y > h-20 {
					t.Fatalf("page %d: something is at %v of %v by %v", i+1, at, w, h)
				}
			}
			for _, x := range p.texts {
				if x.Tone != draw.Wash && strings.ContainsAny(x.text, "\n\t\a") {
					t.Fatalf("page %d: %q", i+1, x.text)
				}
			}
		}
	})
}

func TestTableGoesOnUnderItsHead(t *testing.T) {
	doc := sample(200)
	doc.Blocks = doc.Blocks[9:10] // the readings
	pages := look(doc)
	if len(pages) < 4 {
		t.Fatalf("200 rows on %d pages", len(pages))
	}
	for i, p := range pages {
		if p.count("temperature") != 1 || p.count(fmt.Sprintf("page %d of %d", i+1, len(pages))) != 1 || p.count("Small Kitchen, Burlington VT") != 1 {
			t.Errorf("page %d lacks the head of the table, its number, or the kitchen", i+1)
		}
	}
	for row := range 200 {
		n := 0
		for _, p := range pages {
			n += p.count(fmt.Sprintf("2026-12-01 %02d:%02d", 10+row/60, row%60))
		}
		if n != 1 {
			t.Errorf("row %d is printed %d times", row, n)
		}
	}
}

// A row that is taller than a page loses nothing.
func TestLongRow(t *testing.T) {
	var words []string
	for i := range 3000 {
		words = append(words, "w"+strconv.Itoa(i))
	}
	pages := look(Document{Blocks: []Block{Table{Columns: []Column{{Name: "who"}, {Name: "note"}}, Rows: []Row{{Cells: []string{"Ann", strings.Join(words, " ")}}, {Cells: []string{"Bea", "short"}}}}}})
	var got []string
	for _, p := range pages {
		for _, x := range p.texts {
			for word := range strings.FieldsSeq(x.text) {
				if strings.HasPrefix(word, "w") && word != "who" {
					got = append(got, word)
				}
			}
		}
	}
	if strings.Join(got, " ") != strings.Join(words, " ") {
		t.Errorf("%d of %d words are printed, or out of order", len(got), len(words))
	}
}

func TestContentsNameTheRightPages(t *testing.T) {
	pages := look(sample(120))
	for _, name := range []string{"What is missing", "Cooling", "Signs", "Signatures"} {
		on := 0
		for i, p := range pages {
			for _, x := range p.texts {
				if x.text == name && x.Bold && x.Size == 15 {
					on = i + 1
				}
			}
		}
		told := ""
		for _, x := range pages[0].texts {
			if x.text == name && !x.Bold {
				for _, y := range pages[0].texts {
					if y.y == x.y && y.Anchor == draw.End {
						told = y.text
					}
				}
			}
		}
		if told != strconv.Itoa(on) {
			t.Errorf("%s is on page %d; the contents say %q", name, on, told)
		}
	}
}

func TestSameBytes(t *testing.T) {
	want := written(t, sample(60))
	var group sync.WaitGroup
	for range 4 {
		group.Go(func() {
			if !bytes.Equal(written(t, sample(60)), want) {
				t.Error("the same document gives other bytes")
			}
		})
	}
	group.Wait()
}

func TestEverySignIsInTheFaces(t *testing.T) {
	for _, bold := range []bool{false, true} {
		for _, r := range signs {
			if faceOf(bold).widths[r] == 0 {
				t.Errorf("%q is not in the face, bold %v", r, bold)
			}
		}
	}
	for in, want := range map[string]string{"a\tb": "a b", "⅓ cup": " 1/3 cup", "中": "□", "a\u202eb": "a□b", "½ °F": "½ °F", "e\u0301": "e□", "✓": "√"} {
		if got := printable(in); got != want {
			t.Errorf("%q is printed as %q, want %q", in, got, want)
		}
	}
}

// What is measured is what is printed: fpdf reads the same faces with a reader of its own, in thousandths.
func TestWidthsAreThoseThatArePrinted(t *testing.T) {
	out := fpdf.New("P", "pt", "Letter", "")
	out.AddUTF8FontFromBytes(family, "", slices.Clone(faceOf(false).ttf))
	out.AddUTF8FontFromBytes(family, "B", slices.Clone(faceOf(true).ttf))
	for _, bold := range []bool{false, true} {
		style := map[bool]string{true: "B"}[bold]
		out.SetFont(family, style, 1000)
		for _, text := range append(strings.Fields(signs), "135 to 70 °F within 2 h", "WALK-IN, shelf 2") {
			n := float64(len([]rune(text)))
			if got, want := width(text, 1000, bold), out.GetStringWidth(text); math.Abs(got-want) > n {
				t.Errorf("%q is %.1f wide, and printed %.1f", text, got, want)
			}
		}
	}
}

var (
	object = regexp.MustCompile(`(?m)^(\d+) 0 obj`)
	entry  = regexp.MustCompile(`(\d{10}) \d{5} n `)
)

// The table of objects is where the end of the file says, and leads to every object; every stream that is packed unpacks.
func TestStructure(t *testing.T) {
	file := written(t, sample(100))
	if !bytes.HasPrefix(file, []byte("%PDF-1.")) || !bytes.HasSuffix(bytes.TrimSpace(file), []byte("%%EOF")) {
		t.Fatal("it does not begin or end as a PDF")
	}
	tail := strings.Fields(string(file[bytes.LastIndex(file, []byte("startxref")):]))
	at, err := strconv.Atoi(tail[1])
	if err != nil || !bytes.HasPrefix(file[at:], []byte("xref")) {
		t.Fatalf("the table of objects is not at %v", tail)
	}
	for _, m := range entry.FindAllSubmatch(file[at:], -1) {
		to, _ := strconv.Atoi(string(m[1]))
		if !object.Match(file[to:min(len(file), to+20)]) {
			t.Errorf("no object is at %d", to)
		}
	}
	packed := 0
	for _, part := range bytes.Split(file, []byte("stream\n"))[1:] {
		r, err := zlib.NewReader(bytes.NewReader(part))
		if err != nil {
			continue
		}
		if _, err := io.Copy(io.Discard, r); err != nil {
			t.Errorf("a stream does not unpack: %v", err)
		}
		packed++
	}
	if packed < len(Pages(sample(100))) {
		t.Errorf("only %d streams unpack", packed)
	}
}

// outside runs a program of the system on a file, if it is there.
func outside(t *testing.T, name string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		t.Skip(name + " is not installed")
	}
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", name, err, out)
	}
	return string(out)
}

func onDisk(t *testing.T, doc Document) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "a.pdf")
	if err := os.WriteFile(path, written(t, doc), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestQpdfFindsNoFault(t *testing.T) {
	if out := outside(t, "qpdf", "--check", onDisk(t, sample(100))); !strings.Contains(out, "No syntax or stream encoding errors found") {
		t.Error(out)
	}
}

func TestTextCanBeTakenOut(t *testing.T) {
	doc := sample(100)
	doc.Draft = "DRAFT. To be reviewed."
	text := outside(t, "pdftotext", "-layout", onDisk(t, doc), "-")
	want := append(strings.Fields(signs), "The cooling of pot 2 has no readings: nobody can say that it met the limit.", "page 1 of", "70 °F by 2 h", "DRAFT. To be reviewed.", "None was entered.", "2026-12-01 10:42", "1/3")
	for _, x := range want {
		if !strings.Contains(text, x) {
			t.Errorf("%q cannot be taken out of the file", x)
		}
	}
}

func BenchmarkFolderOf2000Rows(b *testing.B) {
	doc := sample(2000)
	for b.Loop() {
		if err := Write(io.Discard, doc); err != nil {
			b.Fatal(err)
		}
	}
}

// The heading of a figure stands with it, on a page of their own if the figure is as tall as one; no page but the last is without a word.
func TestHeadingStaysWithItsFigure(t *testing.T) {
	for _, tall := range []float64{100, 700, 1000, 5000} {
		figure := draw.Picture{Width: 300, Height: tall, Draw: func(c draw.Canvas) {
			c.Text(draw.Point{X: 5, Y: tall - 5}, "its foot", draw.Type{Size: 16, Tone: draw.Ink})
		}}
		doc := Document{Blocks: []Block{Paragraph{Text: strings.Repeat("word ", 900)}, Heading{Level: 1, Text: "Flow"}, Figure{Picture: figure, Caption: "below"}}}
		for i, p := range look(doc) {
			if n := p.count("Flow"); n != p.count("its foot") || n != p.count("below") {
				t.Errorf("tall %v, page %d has %d headings and %d figures", tall, i+1, n, p.count("its foot"))
			}
		}
	}
}

// A draft has its words on every page, all of them.
func TestDraftOnEveryPage(t *testing.T) {
	doc := sample(150)
	doc.Draft = "DRAFT. To be reviewed by a qualified person and by the authority before it is used. Your local code and a licensed professional decide."
	for i, p := range look(doc) {
		var words []string
		for _, x := range p.texts {
			if x.Bold && x.Anchor == draw.Middle && x.Size == smallSize {
				words = append(words, x.text)
			}
		}
		if got := strings.Join(words, " "); got != doc.Draft || p.count("DRAFT") != 1 {
			t.Errorf("page %d is marked %q", i+1, got)
		}
	}
}
