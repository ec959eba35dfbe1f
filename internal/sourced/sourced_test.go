package sourced

import (
	"slices"
	"strconv"
	"strings"
	"testing"
)

func number(r Row) (int, error) { return strconv.Atoi(r["n"]) }

func TestRead(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []int
		says       string
	}{
		{"rows", "n,source\n3,a table\n4,\"a book, page 2\"\n", []int{3, 4}, ""},
		{"columns in another order", "source,n\na table,3\n", []int{3}, ""},
		{"no rows", "n,source\n", nil, ""},
		{"no source", "n,source\n3,a table\n4,\n", nil, "line 3"},
		{"no column of sources", "n\n3\n", nil, "no source"},
		{"no number", "n,source\nx,a table\n", nil, "line 2"},
		{"a row too long", "n,source\n3,a table,more\n", nil, "fields"},
		{"nothing", "", nil, "empty"},
	} {
		got, err := readAll(c.text, number)
		if c.says == "" && (err != nil || !slices.Equal(got, c.want)) {
			t.Errorf("%s: %v, %v", c.name, got, err)
		}
		if c.says != "" && (err == nil || !strings.Contains(err.Error(), c.says)) {
			t.Errorf("%s: %v, want it to say %q", c.name, err, c.says)
		}
	}
}

func TestAMistakeStopsTheProgram(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("it went on")
		}
	}()
	MustRead("n,source\nx,a table\n", number)
}
