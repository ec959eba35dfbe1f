package tables

import (
	"bytes"
	"encoding/csv"
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func texts(s Sheet) [][]string {
	var rows [][]string
	for _, row := range s.Rows {
		var cells []string
		for _, c := range row {
			cells = append(cells, c.Text)
		}
		rows = append(rows, cells)
	}
	return rows
}

func equal(a, b [][]string) bool { return slices.EqualFunc(a, b, slices.Equal[[]string]) }

// The rules of RFC 4180, section 2, by their numbers; the examples are its own.
func TestTheRulesOfRFC4180(t *testing.T) {
	three := [][]string{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}
	for _, c := range []struct {
		rule, text string
		want       [][]string
	}{
		{"1: a record on each line", "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", three},
		{"2: the last may have no line break", "aaa,bbb,ccc\r\nzzz,yyy,xxx", three},
		{"3: a header is a line as any other", "field_name,field_name,field_name\r\naaa,bbb,ccc\r\n", [][]string{{"field_name", "field_name", "field_name"}, {"aaa", "bbb", "ccc"}}},
		{"4: spaces belong to the field", "aaa, bbb ,ccc\r\n", [][]string{{"aaa", " bbb ", "ccc"}}},
		{"5: a field may stand in quotation marks", "\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", three},
		{"6: a line break within them", "\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", [][]string{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{"7: a mark within them is doubled", "\"aaa\",\"b\"\"bb\",\"ccc\"", [][]string{{"aaa", `b"bb`, "ccc"}}},
		{"beyond it: LF alone, a byte order mark, empty lines at the end", "\ufeffa,b\nc,d\n\n\n", [][]string{{"a", "b"}, {"c", "d"}}},
		{"a quoted nothing is a row", "a\r\n\"\"\r\n", [][]string{{"a"}, {""}}},
	} {
		got, err := ReadCSV([]byte(c.text), ',')
		if err != nil || !equal(texts(got), c.want) {
			t.Errorf("%s: %q, %v", c.rule, texts(got), err)
		}
	}
}

func TestMistakesInCSVNameTheirPlace(t *testing.T) {
	for _, c := range []struct{ text, where, says string }{
		{"a,b\r\n1,x\"y\r\n", "row 2, column B", "within a field"},          // rule 5
		{"a,b\r\n\"x\"y,1\r\n", "row 2, column A", "after its closing"},     // rule 7
		{"a,b\r\n1,\"never\r\nends,2\r\n", "row 2, column B", "never ends"}, // rule 6
		{"a,b\r\n1,2,3\r\n", "row 2", "has 3 fields, and the header has 2"}, // rule 4
		{"a,b\r\n\"1\r\n1\",2\r\n3\r\n", "row 3", "has 1 fields"},           // a row is not a line
		{"a,b\r1,2\r", "row 1, column B", "carriage return"},                // rule 1
		{"a,b\r\nJalape\xf1o,2\r\n", "row 2", "is not UTF-8"},               // one byte for ñ
		{"\xff\xfea\x00", "", "UTF-16"},                                     // as some spreadsheets call Unicode text
		{"PK\x03\x04", "", "is a workbook"},                                 // renamed
		{"a,b\r\n1,\x00\r\n", "row 2", "zero byte"},                         //
		{strings.Repeat("x", mostBytes+1), "", "more than 16 MB"},           //
	} {
		_, err := ReadCSV([]byte(c.text), ',')
		m, ok := errors.AsType[*Mistake](err)
		if !ok || m.Where() != c.where || !strings.Contains(m.Error(), c.says) || m.Fix == "" {
			t.Errorf("%.30q: %v", c.text, err)
		}
	}
}

func TestWhatStandsBetweenTheColumns(t *testing.T) {
	for text, want := range map[string]byte{"a,b\n": ',', "a;b\n1,5;2\n": ';', "a\tb\n": '\t', "\"a,b\";c\n": ';', "a\n1,5\n": ','} {
		sheet, err := ReadCSV([]byte(text), 0)
		d, q := delimiterOf([]byte(text))
		if q != nil || d != want || err != nil && text != "a\n1,5\n" {
			t.Errorf("%q: %q, %v, %v", text, d, sheet, err)
		}
	}
	_, err := ReadCSV([]byte("name;town, state\n"), 0)
	q, ok := errors.AsType[*Question](err)
	if !ok || q.Key != AskDelimiter || len(q.Choices) != 2 || !strings.Contains(q.Error(), "a comma and a semicolon") {
		t.Errorf("both: %v", err)
	}
	if sheet, err := ReadCSV([]byte("name;town, state\n"), (Settings{AskDelimiter: "semicolon"}).Delimiter()); err != nil || len(sheet.Rows[0]) != 2 {
		t.Errorf("said: %v, %v", sheet, err)
	}
}

// A text that begins as a formula does is written so that no spreadsheet runs it, and read back as it was. The characters are those that
// OWASP names under CSV injection (from memory).
func TestGuardAgainstFormulas(t *testing.T) {
	for text, want := range map[string]string{
		`=HYPERLINK("http://x")`: `'=HYPERLINK("http://x")`, "+1": "'+1", "-1": "'-1", "@sum": "'@sum", "\tx": "'\tx", "\rx": "'\rx", "\nx": "'\nx", "＝1": "'＝1",
		"'=1": "''=1", "''=1": "'''=1", "'": "'", "''": "''", "'t Hooft": "'t Hooft", "a=b": "a=b", "": "", " =1": " =1",
	} {
		if got := guard(text); got != want || unguard(got) != text {
			t.Errorf("%q is written %q and read %q", text, got, unguard(got))
		}
	}
	table := Table{Name: "x", Columns: []Column{{Name: "=name"}, {Name: "owed", Kind: Decimal}}, Rows: [][]string{{"-1+1", "-12.50"}}}
	out, err := table.CSV()
	if want := "'=name,owed\r\n'-1+1,-12.50\r\n"; err != nil || string(out) != want {
		t.Errorf("%q, %v", out, err)
	}
}

var anyText = rapid.OneOf(rapid.String(), rapid.StringOfN(rapid.SampledFrom([]rune("'=+-@\t\r\n\",;ab ＝\u00a0")), 0, 6, -1))

// What is written reads back as it was; and another reader, encoding/csv, reads the same fields, but for the guard and for line breaks, of
// which it makes LF.
func TestWrittenAndReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		table := Table{Name: "t", Columns: []Column{{Name: "a"}, {Name: "mass", Unit: "kg", Kind: Decimal}, {Name: "on", Kind: Day}}[:rapid.IntRange(1, 3).Draw(t, "columns")]}
		for range rapid.IntRange(0, 5).Draw(t, "rows") {
			row := []string{strings.ToValidUTF8(strings.ReplaceAll(anyText.Draw(t, "text"), "\x00", ""), ""), rapid.SampledFrom([]string{"", "0", "-0.5", "12.250"}).Draw(t, "mass"), rapid.SampledFrom([]string{"", "2028-02-29"}).Draw(t, "day")}
			table.Rows = append(table.Rows, row[:len(table.Columns)])
		}
		out, err := table.CSV()
		if err != nil {
			t.Fatal(err)
		}
		back, err := Table{Name: "t", Columns: table.Columns}.Fill(out)
		if err != nil || !equal(back.Rows, table.Rows) {
			t.Fatalf("%q reads as %q, %v", out, back.Rows, err)
		}
		r := csv.NewReader(bytes.NewReader(out))
		other, err := r.ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		for i, row := range table.Rows {
			for k, cell := range row {
				if table.Columns[k].Kind == Text {
					cell = guard(cell)
				}
				if want := strings.ReplaceAll(cell, "\r\n", "\n"); other[i+1][k] != want {
					t.Fatalf("another reader has %q, want %q", other[i+1][k], want)
				}
			}
		}
	})
}

func TestCellsOfTheirKind(t *testing.T) {
	for kind, c := range map[Kind]struct{ good, bad []string }{
		Whole:   {[]string{"0", "-12", "1200000"}, []string{"-0", "007", "1.0", "1,2", "+1", "1e3", "-"}},
		Decimal: {[]string{"0", "12.50", "-0.5", "0.000000001"}, []string{".5", "5.", "-0.0", "1.2.3", "1,5", "00.5", "NaN"}},
		Day:     {[]string{"2026-12-01", "2028-02-29"}, []string{"2026-02-29", "2026-13-01", "2026-1-1", "01.12.2026", "2026-12-32"}},
		Time:    {[]string{"2026-12-01T14:05:00.000Z"}, []string{"2026-12-01T24:00:00.000Z", "2026-12-01T14:05:00Z", "2026-12-01 14:05:00.000Z", "2026-12-01T14:60:00.000Z"}},
		YesNo:   {[]string{"yes", "no"}, []string{"true", "Yes"}},
		Text:    {[]string{"=1", "é"}, []string{"\xff"}},
	} {
		for _, cell := range append(c.good, c.bad...) {
			err := Table{Name: "t", Columns: []Column{{Name: "c", Unit: "kg", Kind: kind}}, Rows: [][]string{{cell}}}.Check()
			wrong, is := errors.AsType[*CellError](err)
			if bad := slices.Contains(c.bad, cell); bad != is || is && (wrong.Row != 1 || wrong.Column != "c (kg)") {
				t.Errorf("%s in a column that wants %s: %v", cell, wants[kind], err)
			}
		}
	}
	if _, err := (Table{Name: "t", Columns: []Column{{Name: "a"}}, Rows: [][]string{{"a", "b"}}}).CSV(); err == nil {
		t.Error("a row with more cells than columns is written")
	}
	if _, err := (Table{Name: "t", Columns: []Column{{Name: "a"}}}).Fill([]byte("b\r\n")); err == nil || !strings.Contains(err.Error(), "row 1, column A") {
		t.Errorf("another header: %v", err)
	}
}

// Whatever a file holds, it is refused with a place or a fix, or its rows are those of another reader, wherever that reads it.
func FuzzReadCSV(f *testing.F) {
	for _, seed := range []string{"a,b\r\n1,2\r\n", "\"a\"\"b\",\"c\r\nd\"\n", "a\n\"\"\n\n", "\ufeffa;b", "'=a,''", "\"", "a\"b", "a\r"} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		sheet, err := ReadCSV(data, ',')
		if m, ok := errors.AsType[*Mistake](err); err != nil && (!ok || m.Fix == "" || m.Problem == "") {
			t.Fatalf("%T %v", err, err)
		}
		if err != nil || len(sheet.Rows) == 0 {
			return
		}
		var table Table
		for range sheet.Rows[0] {
			table.Columns = append(table.Columns, Column{Name: "x"})
		}
		for _, row := range texts(sheet) {
			if len(row) == len(table.Columns) {
				table.Rows = append(table.Rows, row)
			}
		}
		out, err := table.CSV()
		if err != nil {
			t.Fatal(err)
		}
		if back, err := table.Fill(out); err != nil || !equal(back.Rows, table.Rows) {
			t.Fatalf("%q is written %q and read %q (%v)", table.Rows, out, back.Rows, err)
		}
		other, err := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(data, []byte("\ufeff")))).ReadAll()
		if err != nil {
			return
		}
		var mine [][]string
		for i, row := range sheet.Rows {
			if len(row) == 1 && row[0].Text == "" && len(sheet.Rows[0]) > 1 {
				continue // an empty line, which the other passes over
			}
			var cells []string
			for _, c := range texts(Sheet{Rows: sheet.Rows[i : i+1]})[0] {
				cells = append(cells, strings.ReplaceAll(c, "\r\n", "\n"))
			}
			mine = append(mine, cells)
		}
		for _, row := range other {
			for k := range row {
				row[k] = unguard(row[k])
			}
		}
		if len(sheet.Rows[0]) > 1 && !equal(mine, other) {
			t.Fatalf("%q: %q, and another reader has %q", data, mine, other)
		}
	})
}
