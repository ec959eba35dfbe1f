package labelmaker

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/oned"
	"github.com/makiuchi-d/gozxing/qrcode"

	"kettlefrost/internal/barcode"
	"kettlefrost/internal/draw"
)

// cut is the part of a picture in a box of points.
func cut(img *image.Gray, box draw.Box, dpi int) image.Image {
	scale := float64(dpi) / 72
	return img.SubImage(image.Rect(int(box.X*scale), int(box.Y*scale), int(math.Ceil((box.X+box.W)*scale)), int(math.Ceil((box.Y+box.H)*scale))))
}

// decode reads a symbol in a picture with another library.
func decode(t *testing.T, img image.Image, reader gozxing.Reader) string {
	t.Helper()
	bitmap, err := gozxing.NewBinaryBitmapFromImage(img)
	if err != nil {
		t.Fatal(err)
	}
	for _, hints := range []map[gozxing.DecodeHintType]any{{gozxing.DecodeHintType_TRY_HARDER: true}, {gozxing.DecodeHintType_PURE_BARCODE: true}} {
		if result, err := reader.Decode(bitmap, hints); err == nil {
			return result.GetText()
		}
	}
	return "nothing"
}

// Every symbol is read back from the picture of its label by another library, at the dots of label printers, within its own room alone: upright, and
// turned on a label that is narrower than its bars are long.
func TestSymbolsAreReadFromTheLabel(t *testing.T) {
	for _, sample := range samples(t) {
		for _, dpi := range []int{203, 300, 600} {
			sample.stock.DPI = dpi
			l := laid(t, sample.content, sample.stock, sample.rules)
			img, err := Raster(l.Picture(), dpi)
			if err != nil {
				t.Fatal(err)
			}
			symbols := 0
			for _, symbol := range []*barcode.Symbol{sample.content.Bars, sample.content.Square} {
				if symbol != nil {
					symbols++
				}
			}
			if len(l.Zones) != symbols {
				t.Fatalf("%s: %d zones of %d symbols", sample.name, len(l.Zones), symbols)
			}
			for _, z := range l.Zones {
				var reader gozxing.Reader = qrcode.NewQRCodeReader()
				symbol := sample.content.Square
				if z.Element == Bars {
					reader, symbol = oned.NewCode128Reader(), sample.content.Bars
				}
				if got := decode(t, cut(img, z.Box, dpi), reader); got != symbol.Data {
					t.Errorf("%s, %d dots to the inch: the %v is read as %q", sample.name, dpi, z.Element, got)
				}
			}
		}
	}
}

// On a narrow label the bars are turned, and their text with them; nothing else is.
func TestBarsAreTurnedOnANarrowLabel(t *testing.T) {
	for _, sample := range samples(t) {
		l := laid(t, sample.content, sample.stock, sample.rules)
		for _, m := range l.Marks {
			if m.Turned != (sample.name == "narrow" && m.Element == BarText) {
				t.Errorf("%s: %q of %v is turned: %v", sample.name, m.Text, m.Element, m.Turned)
			}
		}
		for _, f := range Check(l) {
			t.Errorf("%s: %v", sample.name, f)
		}
	}
}

// The same from the PDF as another program renders it, read by a third.
func TestSymbolsAreReadFromThePDF(t *testing.T) {
	tool(t, "zbarimg")
	for _, sample := range samples(t) {
		if sample.content.Bars == nil {
			continue
		}
		file := printed(t, Job{Labels: []Label{laid(t, sample.content, sample.stock, sample.rules)}, Stock: sample.stock})
		picture := strings.TrimSuffix(file, ".pdf")
		ran(t, "pdftoppm", "-png", "-r", "203", "-singlefile", file, picture)
		got := ran(t, "zbarimg", "--quiet", "--raw", picture+".png")
		for _, symbol := range []*barcode.Symbol{sample.content.Bars, sample.content.Square} {
			if symbol != nil && !strings.Contains(got, symbol.Data) {
				t.Errorf("%s: %q is not among what is read: %q", sample.name, symbol.Data, got)
			}
		}
	}
}

// Bars are whole dots of the printer, on its grid: no pixel is grey.
func TestModulesAreWholeDots(t *testing.T) {
	for _, sample := range samples(t) {
		for _, dpi := range []int{203, 300} {
			sample.stock.DPI = dpi
			for _, m := range laid(t, sample.content, sample.stock, sample.rules).Marks {
				edges := []float64{m.X, m.X + m.W}
				if sample.name == "narrow" {
					edges = []float64{m.Y, m.Y + m.H}
				}
				if m.Element != Bars && m.Element != Square {
					continue
				}
				for _, x := range edges {
					if dots := x * float64(dpi) / 72; math.Abs(dots-math.Round(dots)) > 1e-6 {
						t.Fatalf("%s, %d dots to the inch: a bar edge at %.4f dots", sample.name, dpi, dots)
					}
				}
			}
		}
	}
}

// Heights of letters and their contrast, measured in the pixels of the rendered label: as high as the rules ask for, to half a pixel, and black on white.
func TestTypeMeasuredInPixels(t *testing.T) {
	const dpi = 600
	rules := US(20)
	// Texts of letters that are all alike high: x-high, or capitals.
	c := Content{Identity: "XZEHT", Net: []string{"XZ"}, Ingredients: Plain("zxzx"), Dates: []Fact{{"xz", "xz"}}, Contains: Plain("zxz")}
	l := laid(t, c, stockOf(t, "4 x 2 in"), rules)
	img, err := Raster(l.Picture(), dpi)
	if err != nil {
		t.Fatal(err)
	}
	r := newRecorder()
	l.Picture().Draw(r)
	for _, x := range r.seen {
		least := 0.0
		for _, e := range Elements() {
			if e.String() == x.name {
				least = rules.Least[e].LetterMm
			}
		}
		high, ratio := measured(cut(img, draw.Box{X: x.box.X - 1, Y: x.box.Y - 2, W: x.box.W + 2, H: x.box.H + 4}, dpi))
		if mm := float64(high) * 25.4 / dpi; mm < least-0.5*25.4/dpi || mm > 25.4 {
			t.Errorf("%s %q: %d pixels, %.3f mm, at least %.3f", x.name, x.text, high, mm, least)
		}
		if ratio < 20 { // black on white is 21 to 1
			t.Errorf("%s: contrast %.1f to 1", x.name, ratio)
		}
	}
}

// measured is how many rows of pixels have ink, and the contrast of darkest and lightest (WCAG 2.2: relative luminances, each and 0.05).
func measured(img image.Image) (rows int, ratio float64) {
	dark, light := 1.0, 0.0
	box := img.Bounds()
	for y := box.Min.Y; y < box.Max.Y; y++ {
		inked := false
		for x := box.Min.X; x < box.Max.X; x++ {
			v := float64(img.At(x, y).(color.Gray).Y) / 255
			inked = inked || v < 0.5
			linear := math.Pow((v+0.055)/1.055, 2.4)
			dark, light = min(dark, linear), max(light, linear)
		}
		if inked {
			rows++
		}
	}
	return rows, (light + 0.05) / (dark + 0.05)
}

// The picture on the screen is the printed one: its letters are outlines, and it is a document without faults.
func TestSVG(t *testing.T) {
	c := soup(t)
	c.Panel = oneColumn()
	l := laid(t, c, stockOf(t, "4 x 6 in"), US(20))
	svg := SVG(l.Picture(), "l1")
	decoder := xml.NewDecoder(bytes.NewReader(svg))
	ids, used, titles := map[string]bool{}, 0, map[string]bool{}
	var in string
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			in = token.Name.Local
			for _, a := range token.Attr {
				switch {
				case a.Name.Local == "id":
					ids[a.Value] = true
				case a.Name.Local == "href":
					used++
					if !ids[strings.TrimPrefix(a.Value, "#")] {
						t.Fatalf("%s is not defined", a.Value)
					}
				case a.Name.Local == "style":
					t.Errorf("a style: %s", a.Value)
				}
			}
		case xml.CharData:
			if in == "title" {
				titles[string(token)] = true
			}
		}
	}
	letters := 0
	for _, m := range l.Marks {
		letters += len(strings.Join(strings.Fields(strings.ReplaceAll(m.Text, "°", "o")), ""))
	}
	if used != letters {
		t.Errorf("%d letters are drawn of %d", used, letters)
	}
	for _, want := range []string{"statement of identity", "ingredients", "net quantity", "bar code", "QR code"} {
		if !titles[want] {
			t.Errorf("no group %q", want)
		}
	}
	if !strings.Contains(string(svg), "Contains: Milk, Wheat.") || !strings.Contains(string(svg), `viewBox="0 0 288 432"`) {
		t.Error("the description or the size is missing")
	}
}

func TestPNG(t *testing.T) {
	l := laid(t, Content{Name: "soup"}, Roll(50.8, 25.4), US(4))
	var out bytes.Buffer
	if err := PNG(&out, l.Picture(), 203); err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(&out)
	if err != nil || img.Bounds().Dx() != 406 || img.Bounds().Dy() != 203 {
		t.Errorf("%v, %v", img.Bounds(), err)
	}
	for _, dpi := range []int{0, -5, 19, 100000} {
		if err := PNG(io.Discard, l.Picture(), dpi); err == nil {
			t.Errorf("%d dots to the inch", dpi)
		}
	}
}

// A letter may stand at the very edge, or beyond it: the picture holds what lies on it.
func TestRasterAtTheEdge(t *testing.T) {
	p := draw.Picture{Width: 20, Height: 20, Draw: func(c draw.Canvas) {
		for _, at := range []draw.Point{{X: -3, Y: 5}, {X: 18, Y: 21}, {X: 100, Y: 100}, {X: 5, Y: -30}} {
			c.Text(at, "Qg", draw.Type{Size: 12, Tone: draw.Ink})
		}
		c.Rect(draw.Box{X: -5, Y: 18, W: 100, H: 10}, draw.Style{Fill: draw.Ink})
	}}
	img, err := Raster(p, 72)
	if err != nil {
		t.Fatal(err)
	}
	if img.GrayAt(10, 19).Y != 0 || img.GrayAt(0, 3).Y == 255 && img.GrayAt(2, 3).Y == 255 {
		t.Error("what lies on the picture is missing")
	}
}

// Printed on request, to be looked at: KETTLEFROST_LABELS names a folder.
func TestPrintSamples(t *testing.T) {
	folder := os.Getenv("KETTLEFROST_LABELS")
	if folder == "" {
		t.Skip("KETTLEFROST_LABELS names no folder to print into")
	}
	for _, sample := range samples(t) {
		l := laid(t, sample.content, sample.stock, sample.rules)
		var out bytes.Buffer
		if err := PDF(&out, Job{Title: sample.name, Labels: []Label{l}, Stock: sample.stock}); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(folder, sample.name+".pdf"), out.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
	}
}
