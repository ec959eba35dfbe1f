package folder

import (
	_ "embed"
	"fmt"
	"strings"
)

// verifier is a program that holds a bundle against itself, for whoever has Python and not this program.
//
//go:embed verify.py
var verifier string

// readme says what the files of a bundle are and how to verify them.
func (b Bundle) readme() string {
	var t strings.Builder
	fmt.Fprintf(&t, `Safety records of %s
About: %s

folder.pdf      All of it for people, what is missing first.
contents.json   The same for programs: JSON, UTF-8. Its shape is published as kettlefrost.folder/1. Times are milliseconds since 1970-01-01 00:00
                UTC, temperatures degrees Celsius, masses grams.
readings.csv    Every reading behind the critical records, as CSV (RFC 4180, UTF-8). Times are UTC. Odd readings are in it, and say so. A text that
                a spreadsheet would take for a formula has an apostrophe in front.
entries.jsonl   What people and devices entered, one JSON object a line, each with its hash and the hash of the entry before it.
seal.json       The hashes, the end of the chain, and who signed. Its shape is published as kettlefrost.folder-seal/1.
verify.py       Does what stands below, with Python 3 and nothing else: python3 verify.py

How to verify it without the program that made it

1. The SHA-256 of contents.json must be %s
   Signatures are on this number. It must be the one that is printed at the foot of folder.pdf (its first digits).
2. The SHA-256 of readings.csv must be %s
   It stands in contents.json too, so that a signature covers the readings.
3. The hash of every line of entries.jsonl is the SHA-256 of twelve netstrings, one after another. A netstring is the number of bytes in decimal,
   a colon, the bytes and a comma. They are: the text "kettlefrost entry 1"; seq in decimal; id; kind; happened_ms and entered_ms in decimal; who;
   device; site; corrects; the bytes of body exactly as they stand in the line; prev. The result must be the line's own hash.
`, b.Kitchen.Name, b.Asked, b.Seal.Contents, b.Seal.Readings)
	if b.Seal.Whole {
		fmt.Fprintf(&t, `4. entries.jsonl holds all entries of the records: seq counts from 1 without a gap, prev of each line is the hash of the line before it (64 zeros in
   the first), and the last hash is that of seal.json: entry %d, %s
   Then nothing was changed, taken out or put in since these hashes were made. What this cannot show is that the last entries were cut off, or that
   everything was made again: for that, compare the last hash with one that was written down elsewhere before.
`, b.Seal.Chain.Seq, b.Seal.Chain.Hash)
	} else {
		fmt.Fprintf(&t, `4. entries.jsonl holds only the entries that this folder rests on: each can be verified by itself (step 3), and that two that follow each other belong
   together. That no entry was left out can be shown only with the whole chain: ask for the bundle with all entries. Its last is entry %d, %s
`, b.Seal.Chain.Seq, b.Seal.Chain.Hash)
	}
	fmt.Fprintf(&t, `5. Every entry that contents.json lists under entries must be in entries.jsonl with the same seq and hash.
6. A signature is an entry of the kind "signed" whose about is
   %s
   and whose hash is that of step 1. Who made that entry stands in it.

%s
`, b.Seal.About, sentence(b.Seal.Chain.Says()))
	return t.String()
}
