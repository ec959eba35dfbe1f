package labelmaker

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden files again")

// tool is a program of the machine, or the test says that it is not there and is skipped.
func tool(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Skipf("%s is not installed: what it would read is not looked at", name)
	}
	return path
}

func ran(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(tool(t, name), args...).Output()
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return string(out)
}

func printed(t *testing.T, j Job) string {
	t.Helper()
	var out bytes.Buffer
	if err := PDF(&out, j); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "labels.pdf")
	if err := os.WriteFile(file, out.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

func laid(t testing.TB, c Content, s Stock, r Rules) Label {
	t.Helper()
	l, found := Lay(c, s, r)
	if l.Empty() {
		t.Fatal(found)
	}
	return l
}

// The page is the label, to a hundredth of a point, whatever its size; another program measures it.
func TestPageSize(t *testing.T) {
	for _, c := range []struct {
		stock      Stock
		wide, high string // points: inches times 72, millimetres times 72/25.4
	}{
		{Roll(101.6, 152.4), "288", "432"}, {Roll(50.8, 25.4), "144", "72"}, {Roll(100, 50), "283.46", "141.73"}, {Roll(57.15, 31.75), "162", "90"},
		{stockOf(t, "letter, 10 of 4 x 2 in"), "612", "792"}, {stockOf(t, "A4, 8 of 99.1 x 67.7 mm"), "595.28", "841.89"},
	} {
		l := laid(t, Content{Name: "Soup", Lot: Fact{"Lot", "L-1"}}, c.stock, US(4))
		size := regexp.MustCompile(`Page size:\s+([0-9.]+) x ([0-9.]+) pts`).FindStringSubmatch(ran(t, "pdfinfo", printed(t, Job{Labels: []Label{l}, Stock: c.stock})))
		if size == nil || size[1] != c.wide || size[2] != c.high {
			t.Errorf("%s: %v, want %s by %s", c.stock.Name, size, c.wide, c.high)
		}
	}
}

// What another program reads in the PDF is what the label says, in the order of its blocks.
func TestTextOfThePDF(t *testing.T) {
	c, s := soup(t), stockOf(t, "4 x 6 in")
	c.Panel = oneColumn()
	file := printed(t, Job{Title: "soup", Labels: []Label{laid(t, c, s, US(20))}, Stock: s})
	got := ran(t, "pdftotext", "-raw", file, "-")
	golden := filepath.Join("testdata", "soup.txt")
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if strings.Join(strings.Fields(got), " ") != strings.Join(strings.Fields(string(want)), " ") { // how lines end is the reader's own
		t.Errorf("got:\n%s\nwant:\n%s", got, want)
	}
	one := strings.Join(strings.Fields(got), " ")
	for said := range c.texts() {
		if text := strings.Join(strings.Fields(said.text), " "); said.element < PanelTitle && said.element != BarText && !strings.Contains(one, text) {
			t.Errorf("%v: %q is not read", said.element, text)
		}
	}
	fonts := ran(t, "pdffonts", file)
	if n := len(regexp.MustCompile(`yes (yes|no ) yes`).FindAllString(fonts, -1)); n != 2 { // embedded, and with their characters
		t.Errorf("%d faces are embedded with their characters:\n%s", n, fonts)
	}
}

// Letters of other alphabets, accents and fractions come out of the PDF as they went in.
func TestOtherLettersInThePDF(t *testing.T) {
	s := stockOf(t, "4 x 4 in")
	text := "Żurek, Борщ, Φασολάδα, crème brûlée, Straße, ½ cup at 165 °F ± 2, 5 × 3, ≤ 4 °C, “chef’s” — ĺ Ǘ"
	file := printed(t, Job{Labels: []Label{laid(t, Content{Identity: "Soup", Ingredients: []Run{{"Contains ", false}, {text, true}}}, s, Rules{})}, Stock: s})
	if got := strings.Join(strings.Fields(ran(t, "pdftotext", "-raw", file, "-")), " "); got != "Soup Contains "+text {
		t.Errorf("%q", got)
	}
}

func TestSameBytes(t *testing.T) {
	s := stockOf(t, "4 x 6 in")
	job := Job{Title: "lot", Labels: lotOf(t, 3, s), Stock: s, MadeMs: 1_795_000_000_000}
	var one, two bytes.Buffer
	if err := errors.Join(PDF(&one, job), PDF(&two, job)); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(one.Bytes(), two.Bytes()) {
		t.Error("the same job gives other bytes")
	}
}

// On a sheet that was begun, labels stand on the places that are left, each at its corner; the second page begins at the first place.
func TestPlacesOfASheet(t *testing.T) {
	s := stockOf(t, "letter, 10 of 4 x 2 in")
	var labels []Label
	for i := range 9 {
		labels = append(labels, laid(t, Content{Name: fmt.Sprintf("number %d", i+1)}, s, US(4)))
	}
	pages, err := Pages(Job{Labels: labels, Stock: s, Start: 4, Skip: []int{6, 7}})
	if err != nil {
		t.Fatal(err)
	}
	want := [][]int{{4, 5, 8, 9, 10}, {1, 2, 3, 4}}
	if len(pages) != len(want) {
		t.Fatalf("%d pages", len(pages))
	}
	number := 0
	for i, page := range pages {
		r := newRecorder()
		page.Draw(r)
		if len(r.seen) != 2*len(want[i]) && len(r.seen) != len(want[i]) {
			t.Fatalf("page %d: %d texts", i+1, len(r.seen))
		}
		for k, place := range want[i] {
			number++
			x := r.seen[k]
			if x.text != fmt.Sprintf("number %d", number) {
				t.Errorf("page %d, place %d: %q", i+1, place, x.text)
			}
			// 4 in and a gap of 3/16 in across, 2 in down, from 5/32 and 1/2 in.
			left, top := 72*(5./32+float64((place-1)%2)*(4+3./16)), 72*(0.5+2*float64((place-1)/2))
			if x.box.X < left || x.box.Y < top || x.box.X+x.box.W > left+288 || x.box.Y+x.box.H > top+144 {
				t.Errorf("page %d, place %d: %v is not in the label at %.1f, %.1f", i+1, place, x.box, left, top)
			}
		}
	}
}

func TestJobsThatCannotBe(t *testing.T) {
	s := stockOf(t, "letter, 10 of 4 x 2 in")
	l := laid(t, Content{Name: "soup"}, s, US(4))
	for name, j := range map[string]Job{
		"none": {Stock: s}, "not laid out": {Stock: s, Labels: []Label{l, {}}}, "another size": {Stock: Roll(50, 50), Labels: []Label{l}},
		"start": {Stock: s, Labels: []Label{l}, Start: 11}, "skip": {Stock: s, Labels: []Label{l}, Skip: []int{0}},
	} {
		var out bytes.Buffer
		var bad *JobError
		if err := PDF(&out, j); !errors.As(err, &bad) || bad.Fix == "" || out.Len() > 0 {
			t.Errorf("%s: %v, %d bytes", name, err, out.Len())
		}
	}
	if err := PDF(&bytes.Buffer{}, Job{Stock: Roll(1, 1), Labels: []Label{l}}); err == nil {
		t.Error("labels of a millimetre")
	}
	pages, err := Pages(Job{Stock: s, Labels: []Label{l}, Skip: []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}})
	if err != nil || len(pages) != 1 {
		t.Errorf("%d pages, %v", len(pages), err)
	}
}

func TestKey(t *testing.T) {
	s := stockOf(t, "4 x 6 in")
	labels := lotOf(t, 2, s)
	if labels[0].Key() == labels[1].Key() || labels[0].Key() != lotOf(t, 1, s)[0].Key() {
		t.Error("labels are told apart by what they say, and by nothing else")
	}
}
