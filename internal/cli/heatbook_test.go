package cli

import (
	"io/fs"
	"testing"
	"testing/fstest"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/heatcase/heatshow"
	"kettlefrost/internal/unit"
)

// What heat calibrate prints for the book is read by a book as it stands, whatever the food is called.
func TestCalibratedLinesAreReadByABook(t *testing.T) {
	c := heatcase.Example(heatcase.Cool)
	c.Name = "soup: \"hot\" # no. 1\n- é"
	k, err := c.Calibrate(5*unit.Hour + 40*unit.Minute)
	if err != nil {
		t.Fatal(err)
	}
	book := fstest.MapFS{"media.yaml": {Data: []byte(heatshow.BookLines(k))}}
	err = fs.WalkDir(demo.Book(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(demo.Book(), name)
		book[name] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	a, err := app.New(book, nil)
	if err != nil {
		t.Fatal(err)
	}
	read, found := a.Book()
	if found.Worst() == finding.Stop {
		t.Errorf("%s\nis read with %v", heatshow.BookLines(k), found)
	}
	m := read.Media["walk-in-fan"]
	for _, x := range []struct {
		is   unit.Film
		want float64
	}{{m.Low, k.LowW}, {m.Usual, k.UsualW}, {m.High, k.HighW}} {
		if r := float64(x.is) / x.want; !(r > 0.995 && r < 1.005) {
			t.Errorf("read as %s, want %.4g W/m²K", x.is, x.want)
		}
	}
}
