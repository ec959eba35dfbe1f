package folder

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"fmt"

	"kettlefrost/internal/record"
)

// SealSchema names the shape of a Seal.
const SealSchema = "kettlefrost.folder-seal/1"

// Seal is what ties the contents of a folder to the records, and who has signed them.
type Seal struct {
	Schema     string            `json:"schema"`
	About      string            `json:"about"`
	Contents   record.Hash       `json:"contents"` // SHA-256 of contents.json: this is what is signed
	Readings   string            `json:"readings"` // SHA-256 of readings.csv, which stands in contents.json too
	Chain      Chain             `json:"chain"`
	Whole      bool              `json:"whole"` // entries.jsonl holds the chain from its first entry to its last; otherwise only what the folder rests on
	Signatures []FolderSignature `json:"signatures"`
}

// Chain is the records that the folder was made from.
type Chain struct {
	record.Head
	Verified bool           `json:"verified"` // every entry was held against the chain as the folder was made
	Problem  string         `json:"problem,omitempty"`
	Entered  record.Instant `json:"entered_ms"` // of the last entry
}

// Says is the chain in words.
func (c Chain) Says() string {
	if !c.Verified {
		return fmt.Sprintf("THE CHAIN IS BROKEN after entry %d: %s", c.Seq, c.Problem)
	}
	return fmt.Sprintf("chain of %s, each held against the one before it: none was changed, taken out or put in since. The last hash is %s", entriesIn(c.Seq), c.Hash)
}

// FolderSignature is somebody who signed a folder about the same lots.
type FolderSignature struct {
	Entry record.ID      `json:"entry"`
	Seq   uint64         `json:"seq"`
	At    record.Instant `json:"at_ms"`
	Who   string         `json:"who"`
	As    string         `json:"as"`
	Hash  record.Hash    `json:"hash"`
	Text  string         `json:"text,omitempty"`
	Holds bool           `json:"holds"` // it is on these very contents
}

// Says is a signature in words.
func (s FolderSignature) Says(at func(record.Instant) string) string {
	says := fmt.Sprintf("%s by %s, as %s", at(s.At), s.Who, s.As)
	if s.Text != "" {
		says += ": " + s.Text
	}
	if s.Holds {
		return says + " (on these contents)"
	}
	return says + " (on other contents, " + s.Hash.String()[:16] + "…: of another time; or something was entered or corrected since, or the book or the program was changed)"
}

// Bundle is a folder with its seal, ready to be written.
type Bundle struct {
	Contents
	Seal Seal
	json []byte
}

// Sealed ties a folder to the records that it was made from. Chain are all entries of them, in their order, of which signatures are taken.
func (c Contents) Sealed(chain []record.Entry, state Chain, whole bool) (Bundle, error) {
	text, err := c.JSON()
	if err != nil {
		return Bundle{}, err
	}
	b := Bundle{Contents: c, json: text, Seal: Seal{Schema: SealSchema, About: c.About, Contents: sha256.Sum256(text), Readings: c.Readings.SHA256, Chain: state, Whole: whole, Signatures: []FolderSignature{}}}
	var standing record.Standing
	var signed []record.Entry
	for _, e := range chain {
		standing.Add(e) // what cannot be added stands by itself
		if e.Kind == (record.Signed{}).Kind() && e.Corrects == (record.ID{}) {
			signed = append(signed, e)
		}
	}
	for _, e := range signed {
		holds, _, ok := standing.Of(e.ID)
		if !ok || holds == nil {
			continue
		}
		body, err := record.Decode(e.Kind, holds.Body)
		if s, is := body.(record.Signed); err == nil && is && s.About == c.About {
			b.Seal.Signatures = append(b.Seal.Signatures, FolderSignature{e.ID, e.Seq, e.Happened, e.Who, string(s.As), s.Hash, string(s.Text), s.Hash == b.Seal.Contents})
		}
	}
	return b, nil
}

// JSON is contents.json: the same bytes for the same contents.
func (c Contents) JSON() ([]byte, error) { return indented(c) }

func indented(v any) ([]byte, error) {
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	err := e.Encode(v)
	return out.Bytes(), err
}

func entriesIn(n uint64) string {
	if n == 1 {
		return "1 entry"
	}
	return fmt.Sprintf("%d entries", n)
}
