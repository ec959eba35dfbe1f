package workbook

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	"kettlefrost/internal/tables"
)

// plainReader reads an XLSX file by the parts of ECMA-376 that matter here, with archive/zip and encoding/xml alone.
type plainReader struct {
	t     testing.TB
	parts map[string][]byte
}

func unzip(t testing.TB, data []byte) plainReader {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	r := plainReader{t, map[string][]byte{}}
	for _, f := range z.File {
		in, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		if r.parts[f.Name], err = io.ReadAll(in); err != nil {
			t.Fatal(err)
		}
		in.Close()
	}
	return r
}

func (r plainReader) parse(part string, into any) {
	r.t.Helper()
	if err := xml.Unmarshal(r.parts[part], into); err != nil {
		r.t.Fatalf("%s: %v", part, err)
	}
}

// plainCell is the type of a cell and what stands in it.
type plainCell struct{ kind, text, format string }

func (r plainReader) sheets() (names []string, cells map[string][][]plainCell) {
	var book struct {
		Sheets []struct {
			Name string `xml:"name,attr"`
			ID   string `xml:"http://schemas.openxmlformats.org/officeDocument/2006/relationships id,attr"`
		} `xml:"sheets>sheet"`
	}
	r.parse("xl/workbook.xml", &book)
	var links struct {
		Links []struct {
			ID     string `xml:"Id,attr"`
			Target string `xml:"Target,attr"`
		} `xml:"Relationship"`
	}
	r.parse("xl/_rels/workbook.xml.rels", &links)
	var styles struct {
		Formats []struct {
			ID   int    `xml:"numFmtId,attr"`
			Code string `xml:"formatCode,attr"`
		} `xml:"numFmts>numFmt"`
		Cells []struct {
			Format int `xml:"numFmtId,attr"`
		} `xml:"cellXfs>xf"`
	}
	r.parse("xl/styles.xml", &styles)
	cells = map[string][][]plainCell{}
	for _, s := range book.Sheets {
		target := ""
		for _, l := range links.Links {
			if l.ID == s.ID {
				target = "xl/" + strings.TrimPrefix(l.Target, "/xl/")
			}
		}
		var sheet struct {
			Rows []struct {
				Cells []struct {
					At     string `xml:"r,attr"`
					Type   string `xml:"t,attr"`
					Style  int    `xml:"s,attr"`
					Value  string `xml:"v"`
					Inline string `xml:"is>t"`
					Run    string `xml:"f"`
				} `xml:"c"`
			} `xml:"sheetData>row"`
		}
		r.parse(target, &sheet)
		names = append(names, s.Name)
		var rows [][]plainCell
		for _, row := range sheet.Rows {
			var line []plainCell
			for _, c := range row.Cells {
				if c.Run != "" {
					r.t.Errorf("%s %s has a formula", s.Name, c.At)
				}
				column := 0
				for _, l := range strings.TrimRight(c.At, "0123456789") {
					column = column*26 + int(l-'A') + 1
				}
				for len(line) < column-1 {
					line = append(line, plainCell{})
				}
				cell := plainCell{kind: c.Type, text: c.Value}
				if c.Type == "inlineStr" {
					cell.text = unescape(c.Inline)
				}
				format := styles.Cells[c.Style].Format
				for _, f := range styles.Formats {
					if f.ID == format {
						cell.format = f.Code
					}
				}
				line = append(line, cell)
			}
			rows = append(rows, line)
		}
		cells[s.Name] = rows
	}
	return names, cells
}

var escape = regexp.MustCompile(`_x([0-9A-Fa-f]{4})_`)

// unescape reads the type ST_Xstring of ECMA-376 part 1, 22.9.2.19.
func unescape(s string) string {
	return escape.ReplaceAllStringFunc(s, func(x string) string {
		n, err := strconv.ParseUint(x[2:6], 16, 16)
		if err != nil {
			return x
		}
		return string(rune(n))
	})
}

var all = []tables.Column{{Name: "name"}, {Name: "count", Kind: tables.Whole}, {Name: "mass", Unit: "kg", Kind: tables.Decimal}, {Name: "due", Kind: tables.Day}, {Name: "at", Kind: tables.Time}, {Name: "held", Kind: tables.YesNo}}

func written(t testing.TB, most int, all ...tables.Table) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := write(&out, all, most); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// The file says what the tables say, as another reader sees it: texts as texts whatever they begin with, numbers as numbers, days as days.
func TestWhatIsInTheFile(t *testing.T) {
	data := written(t, mostRows, tables.Table{Name: "lots", Columns: all, Rows: [][]string{
		{"=1+1", "12", "0.5", "2026-12-01", "2026-12-01T14:05:00.250Z", "yes"},
		{" <Zoë> & \"Bo\"\r\n_x0041_ ", "-3", "12345678901234.5678", "", "", "no"},
	}}, tables.Table{Name: "stock", Columns: all[:1]})
	names, cells := unzip(t, data).sheets()
	if !slices.Equal(names, []string{"lots", "stock"}) {
		t.Errorf("sheets %v", names)
	}
	lots := cells["lots"]
	if got := lots[0]; got[2].text != "mass (kg)" || len(got) != 6 || len(cells["stock"]) != 1 {
		t.Errorf("header %v", got)
	}
	if got := lots[1][0]; got.kind != "inlineStr" || got.text != "=1+1" {
		t.Errorf("a text that looks like a formula: %v", got)
	}
	if got := lots[2][0].text; strings.ReplaceAll(got, "\n", "") != strings.ReplaceAll(" <Zoë> & \"Bo\"\r\n_x0041_ ", "\n", "") {
		t.Errorf("an odd text: %q", got)
	}
	if got := lots[1][1:3]; got[0] != (plainCell{"", "12", ""}) && got[0] != (plainCell{"n", "12", ""}) || got[1].text != "0.5" {
		t.Errorf("numbers: %v", got)
	}
	if got := lots[2][2]; got.kind != "inlineStr" || got.text != "12345678901234.5678" {
		t.Errorf("more figures than a spreadsheet keeps: %v", got)
	}
	// 2026-12-01 is 46357 days after 1899-12-30, counted by the calendar.
	days := time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC).Sub(time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)).Hours() / 24
	if got := lots[1][3]; got.text != fmt.Sprint(days) || got.format != "yyyy-mm-dd" || days != 46357 {
		t.Errorf("a day: %v", got)
	}
	at, err := strconv.ParseFloat(lots[1][4].text, 64)
	if want := 46357 + (14*3600+5*60+0.25)/86400; err != nil || math.Abs(at-want) > 1e-9 {
		t.Errorf("a time: %v", lots[1][4])
	}
}

func sheetTexts(s tables.Sheet) [][]string {
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

// What is written reads back as it was: as the texts of its kind, and so that a form may read it.
func TestWrittenAndReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringOfN(rapid.SampledFrom([]rune("=+-'@,;\"<&>_x0041 \n\tabÄ🌶")), 0, 12, -1)
		var rows [][]string
		for range rapid.IntRange(0, 4).Draw(t, "rows") {
			rows = append(rows, []string{word.Draw(t, "text"), rapid.SampledFrom([]string{"", "0", "-7", "123456789012345"}).Draw(t, "whole"), rapid.StringMatching(`-?[1-9][0-9]{0,5}\.[0-9]{0,7}[1-9]`).Draw(t, "decimal"),
				rapid.SampledFrom([]string{"", "1901-01-01", "2028-02-29", "2199-12-31"}).Draw(t, "day"), "", rapid.SampledFrom([]string{"", "yes", "no"}).Draw(t, "held")})
		}
		var out bytes.Buffer
		if err := Write(&out, []tables.Table{{Name: "t", Columns: all, Rows: rows}}); err != nil {
			t.Fatal(err)
		}
		sheet, err := Sheet(out.Bytes(), "t")
		if err != nil {
			t.Fatal(err)
		}
		got := sheetTexts(sheet)[1:]
		for i, row := range rows {
			for k, want := range row {
				text := ""
				if k < len(got[i]) {
					text = got[i][k]
				}
				if text != want {
					t.Fatalf("row %d, column %d: %q reads as %q", i, k, want, text)
				}
			}
		}
	})
}

// Sheets as others make them: their own formats of days and numbers, a formula with its result, digits that are a text.
func TestSheetsOfOthers(t *testing.T) {
	f := excelize.NewFile()
	set := func(at string, value any, format int, custom string) {
		t.Helper()
		style := &excelize.Style{NumFmt: format}
		if custom != "" {
			style.CustomNumFmt = &custom
		}
		id, err := f.NewStyle(style)
		if err := errors.Join(err, f.SetCellValue("Sheet1", at, value), f.SetCellStyle("Sheet1", at, at, id)); err != nil {
			t.Fatal(err)
		}
	}
	for i, c := range []struct {
		value  any
		format int
		custom string
		want   tables.Cell
	}{
		{46357.0, 14, "", tables.Cell{Text: "2026-12-01", Exact: true}},
		{46357.0, 0, `[$-409]d" of "mmm yyyy`, tables.Cell{Text: "2026-12-01", Exact: true}},
		{46357.5, 22, "", tables.Cell{Text: "2026-12-01T12:00:00.000", Exact: true}},
		{0.5, 20, "", tables.Cell{Text: "0.5", Exact: true}},
		{0.1 + 0.2, 0, "", tables.Cell{Text: "0.3", Exact: true}},
		{1e21, 0, "", tables.Cell{Text: "1000000000000000000000", Exact: true}},
		{1234.5, 4, "", tables.Cell{Text: "1234.5", Exact: true}},
		{12.5, 0, `0.0" day kg"`, tables.Cell{Text: "12.5", Exact: true}},
		{"007", 49, "", tables.Cell{Text: "007"}},
		{"'=1", 0, "", tables.Cell{Text: "'=1"}},
		{"12,5", 0, "", tables.Cell{Text: "12,5"}},
	} {
		at := fmt.Sprintf("A%d", i+1)
		set(at, c.value, c.format, c.custom)
		var out bytes.Buffer
		if err := f.Write(&out); err != nil {
			t.Fatal(err)
		}
		sheet, err := Sheet(out.Bytes(), "")
		if err != nil {
			t.Fatal(err)
		}
		if got := sheet.Rows[i][0]; got != c.want {
			t.Errorf("%v with format %d %s: %+v, want %+v", c.value, c.format, c.custom, got, c.want)
		}
	}
	if _, err := f.NewSheet("Prices"); err != nil {
		t.Fatal(err)
	}
	if err := f.SetCellValue("Prices", "B3", "x"); err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := f.Write(&out); err != nil {
		t.Fatal(err)
	}
	_, err := Sheet(out.Bytes(), "")
	if q, ok := errors.AsType[*tables.Question](err); !ok || q.Key != AskSheet || len(q.Choices) != 2 {
		t.Errorf("two sheets: %v", err)
	}
	if sheet, err := Sheet(out.Bytes(), "Prices"); err != nil || len(sheet.Rows) != 3 || sheet.Rows[2][1].Text != "x" {
		t.Errorf("a sheet by its name: %v, %v", sheet, err)
	}
	for name, data := range map[string][]byte{"no workbook": []byte("PK\x03\x04 nothing"), "half of one": out.Bytes()[:out.Len()/2], "empty": nil} {
		if _, err := Sheet(data, ""); !isMistake(err) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := Sheet(out.Bytes(), "Price"); !isMistake(err) || !strings.Contains(err.Error(), "no sheet") {
		t.Errorf("a sheet that is not there: %v", err)
	}
}

func isMistake(err error) bool {
	m, ok := errors.AsType[*tables.Mistake](err)
	return ok && m.Fix != ""
}

// What a sheet cannot hold goes on in another, or is cut and says so.
func TestLimitsOfASheet(t *testing.T) {
	long := strings.Repeat("🌶", 20_000)
	data := written(t, 3, tables.Table{Name: "temperatures of the walk-in and all", Columns: all[:1], Rows: [][]string{{"a"}, {"b"}, {"c"}, {"d"}, {long}}})
	names, cells := unzip(t, data).sheets()
	if want := []string{"temperatures of the walk-in and", "temperatures of the walk-in a 2", "temperatures of the walk-in a 3"}; !slices.Equal(names, want) {
		t.Fatalf("sheets %q", names)
	}
	if got := cells[names[1]]; len(got) != 3 || got[0][0].text != "name" || got[2][0].text != "d" {
		t.Errorf("second part: %v", got)
	}
	got := cells[names[2]][1][0].text
	if !strings.HasSuffix(got, cut) || strings.Count(got, "🌶") != (mostUnits-len([]rune(cut)))/2 {
		t.Errorf("a long text has %d characters and ends in %q", len([]rune(got)), got[len(got)-60:])
	}
	if err := Write(io.Discard, []tables.Table{{Name: "t", Columns: all[1:2], Rows: [][]string{{"x"}}}}); err == nil {
		t.Error("a cell of another kind is written")
	}
}

// Whatever is said to be a workbook, it is read or refused with what to do.
func FuzzSheets(f *testing.F) {
	data := written(f, mostRows, tables.Table{Name: "lots", Columns: all, Rows: [][]string{{"a", "1", "2.5", "2026-12-01", "", "no"}}})
	f.Add(data)
	f.Add(data[:len(data)/2])
	f.Fuzz(func(t *testing.T, data []byte) {
		if _, err := Sheets(data); err != nil && !isMistake(err) {
			t.Fatalf("%T %v", err, err)
		}
	})
}
