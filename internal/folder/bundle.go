package folder

import (
	"archive/zip"
	"bufio"
	"io"
	"slices"
	"time"

	"kettlefrost/internal/pdf"
	"kettlefrost/internal/record"
)

// WritePDF writes the folder for paper. The same folder gives the same bytes.
func (b Bundle) WritePDF(w io.Writer, clock Clock) error { return pdf.Write(w, b.Document(clock)) }

// WriteZIP writes the bundle: the same files as README.txt names. Chain are all entries of the records, in their order; the bundle holds all of
// them, or only those that the folder rests on, as its seal says. The same folder of the same records gives the same bytes.
func (b Bundle) WriteZIP(w io.Writer, chain []record.Entry, clock Clock) error {
	z := zip.NewWriter(w)
	made := time.UnixMilli(int64(b.AsOf)).UTC()
	seal, err := indented(b.Seal)
	if err != nil {
		return err
	}
	for _, f := range []struct {
		name  string
		write func(io.Writer) error
	}{
		{"README.txt", text(b.readme())}, {"folder.pdf", func(w io.Writer) error { return b.WritePDF(w, clock) }}, {"contents.json", text(string(b.json))}, {"seal.json", text(string(seal))},
		{"readings.csv", text(string(b.csv))}, {"entries.jsonl", func(w io.Writer) error { return b.lines(w, chain) }}, {"verify.py", text(verifier)},
	} {
		part, err := z.CreateHeader(&zip.FileHeader{Name: f.name, Method: zip.Deflate, Modified: made})
		if err != nil {
			return err
		}
		if err := f.write(part); err != nil {
			return err
		}
	}
	return z.Close()
}

func text(s string) func(io.Writer) error {
	return func(w io.Writer) error { _, err := io.WriteString(w, s); return err }
}

// lines writes the entries as they are exported, one a line.
func (b Bundle) lines(w io.Writer, chain []record.Entry) error {
	out := bufio.NewWriter(w)
	for _, e := range chain {
		if !b.Seal.Whole && !b.restsOn(e) {
			continue
		}
		line, err := e.Line()
		if err != nil {
			return err
		}
		out.Write(line) // the error stays until Flush
		out.WriteByte('\n')
	}
	return out.Flush()
}

// restsOn says whether an entry is one of those that the folder rests on, or a signature on it.
func (b Bundle) restsOn(e record.Entry) bool {
	_, listed := slices.BinarySearchFunc(b.Entries, e.Seq, func(x Entry, seq uint64) int { return int(x.Seq) - int(seq) })
	return listed || slices.ContainsFunc(b.Seal.Signatures, func(s FolderSignature) bool { return s.Seq == e.Seq })
}
