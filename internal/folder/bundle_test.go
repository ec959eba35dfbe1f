package folder

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"encoding/csv"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"kettlefrost/internal/critical"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/pdf"
)

func zipped(t testing.TB, c *chain, b Bundle) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := b.WriteZIP(&out, c.all, wallClock); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func unzipped(t testing.TB, file []byte) map[string][]byte {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(file), int64(len(file)))
	if err != nil {
		t.Fatal(err)
	}
	parts := map[string][]byte{}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		if parts[f.Name], err = io.ReadAll(r); err != nil {
			t.Fatal(err)
		}
	}
	return parts
}

// verify holds a bundle against itself by what its README says, with nothing of this project: netstrings, SHA-256 and JSON.
func verify(parts map[string][]byte) error {
	sum := func(b []byte) string { s := sha256.Sum256(b); return hex.EncodeToString(s[:]) }
	var seal struct {
		About, Contents, Readings string
		Whole                     bool
		Chain                     struct {
			Seq  int
			Hash string
		}
	}
	var contents struct {
		Readings struct{ SHA256 string }
		Entries  []struct {
			Seq  int
			Hash string
		}
	}
	if err := json.Unmarshal(parts["seal.json"], &seal); err != nil {
		return err
	}
	if err := json.Unmarshal(parts["contents.json"], &contents); err != nil {
		return err
	}
	if sum(parts["contents.json"]) != seal.Contents {
		return fmt.Errorf("contents.json has another hash")
	}
	if r := sum(parts["readings.csv"]); r != seal.Readings || r != contents.Readings.SHA256 {
		return fmt.Errorf("readings.csv has another hash")
	}
	net := func(s string) string { return strconv.Itoa(len(s)) + ":" + s + "," }
	hashes, last, lastSeq := map[int]string{}, strings.Repeat("0", 64), 0
	for line := range bytes.Lines(parts["entries.jsonl"]) {
		var e struct {
			Seq                                               int
			ID, Kind, Who, Device, Site, Corrects, Prev, Hash string
			Happened                                          int64 `json:"happened_ms"`
			Entered                                           int64 `json:"entered_ms"`
			Body                                              json.RawMessage
		}
		if err := json.Unmarshal(line, &e); err != nil {
			return err
		}
		text := net("kettlefrost entry 1") + net(strconv.Itoa(e.Seq)) + net(e.ID) + net(e.Kind) + net(strconv.FormatInt(e.Happened, 10)) + net(strconv.FormatInt(e.Entered, 10)) + net(e.Who) + net(e.Device) +
			net(e.Site) + net(e.Corrects) + net(string(e.Body)) + net(e.Prev)
		if sum([]byte(text)) != e.Hash {
			return fmt.Errorf("entry %d has another hash", e.Seq)
		}
		if seal.Whole && (e.Seq != lastSeq+1 || e.Prev != last) {
			return fmt.Errorf("entry %d does not follow", e.Seq)
		}
		hashes[e.Seq], last, lastSeq = e.Hash, e.Hash, e.Seq
	}
	if seal.Whole && (lastSeq != seal.Chain.Seq || last != seal.Chain.Hash) {
		return fmt.Errorf("the chain ends elsewhere")
	}
	for _, e := range contents.Entries {
		if hashes[e.Seq] != e.Hash {
			return fmt.Errorf("entry %d is not there", e.Seq)
		}
	}
	return nil
}

func TestBundleVerifiesWithoutTheProgram(t *testing.T) {
	c := tuesday(t)
	for _, whole := range []bool{true, false} {
		parts := unzipped(t, zipped(t, c, sealed(t, c, material(t, c, "P-1"), whole)))
		for _, name := range []string{"README.txt", "folder.pdf", "contents.json", "seal.json", "readings.csv", "entries.jsonl", "verify.py"} {
			if len(parts[name]) == 0 || name != "README.txt" && !bytes.Contains(parts["README.txt"], []byte(name)) {
				t.Errorf("%s is missing, or README.txt does not name it", name)
			}
		}
		if err := verify(parts); err != nil {
			t.Errorf("whole %v: %v", whole, err)
		}
		if n := bytes.Count(parts["entries.jsonl"], []byte("\n")); (n == len(c.all)) != whole {
			t.Errorf("whole %v: %d of %d entries", whole, n, len(c.all))
		}
	}
}

// damages are what somebody could change in a bundle, each by a text of a file and what is put in its place.
var damages = []struct{ file, was, is string }{
	{"contents.json", `"outcome": "fail"`, `"outcome": "pass"`}, {"readings.csv", ",63,", ",4,"}, {"entries.jsonl", `"mass_g":"5000"`, `"mass_g":"6000"`}, {"entries.jsonl", `"who":"Bea"`, `"who":"Cat"`}, {"seal.json", `"seq": 24`, `"seq": 23`},
}

func TestDamagedBundlesAreFound(t *testing.T) {
	c := tuesday(t)
	file := zipped(t, c, sealed(t, c, material(t, c, "P-1"), true))
	for _, d := range damages {
		parts := unzipped(t, file)
		changed := strings.Replace(string(parts[d.file]), d.was, d.is, 1)
		if changed == string(parts[d.file]) {
			t.Errorf("%s has no %s", d.file, d.was)
		}
		parts[d.file] = []byte(changed)
		if verify(parts) == nil {
			t.Errorf("%s with %s for %s verifies", d.file, d.is, d.was)
		}
		if out, err := python(t, parts); err == nil {
			t.Errorf("verify.py lets %s with %s for %s through: %s", d.file, d.is, d.was, out)
		}
	}
	parts := unzipped(t, file)
	lines := bytes.SplitAfter(parts["entries.jsonl"], []byte("\n"))
	parts["entries.jsonl"] = bytes.Join(append(lines[:6:6], lines[7:]...), nil)
	if verify(parts) == nil {
		t.Error("a bundle without one entry verifies")
	}
}

// python runs verify.py where the files of a bundle are, if there is a Python; without one it finds fault with everything.
func python(t *testing.T, parts map[string][]byte) (string, error) {
	t.Helper()
	if _, err := exec.LookPath("python3"); err != nil {
		return "", err
	}
	dir := t.TempDir()
	for name, text := range parts {
		if err := os.WriteFile(filepath.Join(dir, name), text, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	cmd := exec.Command("python3", "verify.py")
	cmd.Dir = dir
	out, err := cmd.CombinedOutput()
	return string(out), err
}

func TestVerifierInTheBundle(t *testing.T) {
	if _, err := exec.LookPath("python3"); err != nil {
		t.Skip("python3 is not installed")
	}
	c := tuesday(t)
	for _, whole := range []bool{true, false} {
		out, err := python(t, unzipped(t, zipped(t, c, sealed(t, c, material(t, c, "P-1"), whole))))
		if err != nil || !strings.Contains(out, "are as they were sealed") || strings.Contains(out, "The whole chain is there") != whole {
			t.Errorf("whole %v: %v\n%s", whole, err, out)
		}
	}
}

func TestSameBytesTwice(t *testing.T) {
	for _, asked := range []string{"P-1", "P-2"} {
		c := tuesday(t)
		a := zipped(t, c, sealed(t, c, material(t, c, "P-1"), true))
		d := tuesday(t)
		if !bytes.Equal(a, zipped(t, d, sealed(t, d, material(t, d, "P-1"), true))) {
			t.Errorf("%s: the same records give two bundles", asked)
		}
	}
}

// Readings stand as they were read, odd ones too, and no cell is taken for a formula.
func TestReadingsAsCSV(t *testing.T) {
	c := tuesday(t)
	parts := unzipped(t, zipped(t, c, sealed(t, c, material(t, c, "P-1"), true)))
	rows, err := csv.NewReader(bytes.NewReader(parts["readings.csv"])).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 1+1+37 {
		t.Fatalf("%d rows", len(rows))
	}
	if got := strings.Join(rows[1], "|"); got != "tue/stew/simmer/1/cooking.simmer||T-1|2026-12-01T13:00:00.000Z|1796130000000|94||'=Ann|x|no" {
		t.Errorf("what was typed is %s", got)
	}
	if got := rows[7]; got[5] != "35.72727272727273" || got[6] != "after-gap" {
		t.Errorf("the odd reading is %q", got)
	}
}

// paper is all words of a folder as it is printed, page by page.
type paper struct {
	draw.Canvas
	words []string
}

func (p *paper) Text(_ draw.Point, text string, _ draw.Type) { p.words = append(p.words, text) }
func (p *paper) Rect(draw.Box, draw.Style)                   {}
func (p *paper) Line(_, _ draw.Point, _ draw.Style)          {}
func (p *paper) Polyline([]draw.Point, draw.Style)           {}
func (p *paper) Group(_ string, in func(draw.Canvas))        { in(p) }

func printed(b Bundle) (pages []string) {
	for _, page := range pdf.Pages(b.Document(wallClock)) {
		var p paper
		page.Draw(&p)
		pages = append(pages, strings.Join(p.words, " "))
	}
	return pages
}

// The first page has what is missing, and every page the hash of the contents and the end of the chain.
func TestPaper(t *testing.T) {
	c := tuesday(t)
	b := sealed(t, c, material(t, c, "P-1"), true)
	pages := printed(b)
	for _, want := range []string{"4 matters on which nobody has decided", "Chill the stew", "It does not say that food is safe", "US-VT"} {
		if !strings.Contains(pages[0], want) {
			t.Errorf("page 1 has no %q", want)
		}
	}
	all := strings.Join(pages, " ")
	for _, want := range []string{"DOES NOT MEET THE RULE", "10 min", "more-ice", "it was stirred, not thrown away", `mass_g: "50000" → "5000"`, "a torn bag", "no. 3-10 at chest-1/shelf 2", "handed over to 1 customer", "labels read", "35.6 °F", "P-7 counts as right to 2 °F", b.Seal.Contents.String()} {
		if !strings.Contains(all, want) {
			t.Errorf("nowhere is %q", want)
		}
	}
	for i, page := range pages {
		if !strings.Contains(page, b.Seal.Contents.String()[:16]) || !strings.Contains(page, fmt.Sprintf("page %d of %d", i+1, len(pages))) {
			t.Errorf("page %d has no hash, or no number", i+1)
		}
	}
	for _, never := range []string{"porridge", " is safe.", "are safe"} {
		if strings.Contains(all, never) {
			t.Errorf("it says %q", never)
		}
	}
}

// A year of 600 coolings, each read every minute for six hours, with their charts: as PDF and as a bundle.
func BenchmarkYearOfCoolings(b *testing.B) {
	c := tuesday(b)
	m := material(b, c, "P-1")
	v := cooled()
	v.Logs[0].Readings = nil
	for i := range 360 {
		v.Logs[0].Readings = append(v.Logs[0].Readings, critical.Reading{At: clock(1, 10+i), TempC: 3 + 60/(1+float64(i)/60), Instrument: "P-7"})
	}
	m.Judged = nil
	for i := range 600 {
		x := v
		x.Point = fmt.Sprintf("tue/stew/stew-chill/%d/cooling", i+1)
		m.Judged = append(m.Judged, x)
	}
	head := c.all[len(c.all)-1]
	for b.Loop() {
		contents, err := Make(m)
		if err != nil {
			b.Fatal(err)
		}
		f, err := contents.Sealed(c.all, Chain{Head: head.Head(), Verified: true}, true)
		if err != nil {
			b.Fatal(err)
		}
		if err := f.WriteZIP(io.Discard, c.all, wallClock); err != nil {
			b.Fatal(err)
		}
	}
}
