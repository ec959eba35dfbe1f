package labelmaker

import (
	"bytes"
	"fmt"
	"io"
	"testing"

	"kettlefrost/internal/barcode"
)

// lotOf are labels of one product that differ by their serial number.
func lotOf(tb testing.TB, n int, s Stock) []Label {
	tb.Helper()
	c := soup(tb)
	c.Panel = oneColumn()
	contents := make([]Content, n)
	for i := range contents {
		gs1, err := barcode.EncodeGS1(barcode.Elements{{AI: "01", Value: "09521234543213"}, {AI: "15", Value: "270531"}, {AI: "21", Value: fmt.Sprintf("%06d", i+1)}})
		if err != nil {
			tb.Fatal(err)
		}
		qr, err := barcode.EncodeQR(fmt.Sprintf("https://kitchen.example/01/09521234543213/21/%06d", i+1), barcode.Medium)
		if err != nil {
			tb.Fatal(err)
		}
		contents[i] = c
		contents[i].Bars, contents[i].Square = &gs1, &qr
	}
	labels, found := LayAll(contents, s, US(20))
	if labels == nil {
		tb.Fatal(found)
	}
	return labels
}

// 500 distinct labels with everything on them, bar code and QR code too: made, laid out and written as one PDF.
func BenchmarkFiveHundredLabels(b *testing.B) {
	s := stockOf(b, "4 x 6 in")
	var size int
	for b.Loop() {
		var out bytes.Buffer
		if err := PDF(&out, Job{Title: "lot", Labels: lotOf(b, 500, s), Stock: s}); err != nil {
			b.Fatal(err)
		}
		size = out.Len()
	}
	b.ReportMetric(float64(size), "bytes")
}

func BenchmarkLay(b *testing.B) {
	c, s := soup(b), stockOf(b, "4 x 6 in")
	c.Panel = oneColumn()
	for b.Loop() {
		if l, found := Lay(c, s, US(20)); l.Empty() {
			b.Fatal(found)
		}
	}
}

// What is shown while somebody types: laid out, checked, and a picture of it.
func BenchmarkPreview(b *testing.B) {
	c, s := soup(b), stockOf(b, "4 x 6 in")
	c.Panel = oneColumn()
	for _, as := range []struct {
		name string
		make func(Label) error
	}{
		{"svg", func(l Label) error { SVG(l.Picture(), "label"); return nil }},
		{"png at 203", func(l Label) error { return PNG(io.Discard, l.Picture(), 203) }},
		{"check", func(l Label) error { Check(l); return nil }},
	} {
		b.Run(as.name, func(b *testing.B) {
			for b.Loop() {
				l, _ := Lay(c, s, US(20))
				if err := as.make(l); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// A sheet of thirty, as a picture.
func BenchmarkPreviewOfASheet(b *testing.B) {
	s := stockOf(b, "letter, 30 of 2.625 x 1 in")
	c := Content{Name: "Red Lentil Soup", Lot: Fact{"Lot", "L-0917"}, Dates: []Fact{{"Best before", "2027-05-31"}}}
	for b.Loop() {
		var labels []Label
		for range s.Per() {
			l, _ := Lay(c, s, US(4))
			labels = append(labels, l)
		}
		pages, err := Pages(Job{Labels: labels, Stock: s})
		if err != nil {
			b.Fatal(err)
		}
		if err := PNG(io.Discard, pages[0], 100); err != nil {
			b.Fatal(err)
		}
	}
}

// A label on which not everything fits: every way out is tried.
func BenchmarkStopped(b *testing.B) {
	c := soup(b)
	s := stockOf(b, "4 x 3 in")
	for b.Loop() {
		if l, _ := Lay(c, s, US(20)); !l.Empty() {
			b.Fatal("it fits")
		}
	}
}
