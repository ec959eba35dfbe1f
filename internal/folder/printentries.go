package folder

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/pdf"
	"kettlefrost/internal/record"
)

func (p *printer) corrections() {
	p.head("Corrections")
	t := pdf.Table{Columns: []pdf.Column{{Name: "entry"}, {Name: "it said"}, {Name: "what changed, from → to"}, {Name: "who, when"}}, None: "No entry that this folder rests on was corrected or taken back."}
	for _, c := range p.Corrections {
		var changed []string
		if c.Back {
			changed = append(changed, "taken back: "+c.Why)
		}
		for _, f := range c.Fields {
			changed = append(changed, fmt.Sprintf("%s: %s → %s", f.Path, cmp.Or(f.Was, "nothing"), cmp.Or(f.Is, "nothing")))
		}
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{fmt.Sprintf("%d, by %d", c.OfSeq, c.BySeq), c.Was, strings.Join(changed, "\n"), lines(c.Who, p.at(c.Entered))}})
	}
	p.add(t)
}

func (p *printer) signatures() {
	p.head("Signatures")
	t := pdf.Table{Name: "On runs and lots, in the records", Columns: []pdf.Column{{Name: "when"}, {Name: "who"}, {Name: "as"}, {Name: "about"}, {Name: "says"}}, None: "None was entered."}
	for _, s := range p.Signatures {
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{p.at(s.At), s.Who, s.As, s.About, lines(s.Text, s.Hash)}})
	}
	p.add(t, pdf.Heading{Level: 2, Text: "On this folder"})
	var all pdf.Signatures
	for _, s := range p.seal.Signatures {
		all = append(all, pdf.Signature{As: s.As, Who: s.Who, When: p.at(s.At), Says: s.Says(p.at)})
	}
	if !slices.ContainsFunc(p.seal.Signatures, func(s FolderSignature) bool { return s.Holds && s.As == string(record.AsVerifier) }) {
		all = append(all, pdf.Signature{As: "verifier, has read all of it"})
	}
	p.add(append(all, pdf.Signature{As: "inspector"}))
}

// mostEntries are printed; more stand in the files alone.
const mostEntries = 300

func (p *printer) entries() {
	p.head("Entries that this folder rests on")
	if len(p.Entries) > mostEntries {
		p.says(fmt.Sprintf("%d entries: too many to be printed. Each stands in contents.json with its hash, and in entries.jsonl as it was sealed.", len(p.Entries)))
		return
	}
	t := pdf.Table{Columns: []pdf.Column{{Name: "no.", Figure: true}, {Name: "happened"}, {Name: "who, with"}, {Name: "says"}, {Name: "hash begins"}}, None: "None."}
	for _, e := range p.Entries {
		says := e.Says
		if !e.Standing && e.Kind != (record.Voided{}).Kind() {
			says += " (does not stand)"
		}
		when := p.at(e.Happened)
		if late := e.Entered - e.Happened; late > hourMs {
			when += "\nentered " + p.at(e.Entered)
		}
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{strconv.FormatUint(e.Seq, 10), when, lines(e.Who, e.Device), says, e.Hash.String()[:12]}})
	}
	p.add(t)
}

const hourMs = 3_600_000

func (p *printer) verify() {
	p.head("How this folder can be verified")
	p.add(pdf.Facts{{Name: "Chain", Is: p.seal.Chain.Says()}, {Name: "Hash of its last entry", Is: p.seal.Chain.Hash.String()}, {Name: "SHA-256 of contents.json", Is: p.seal.Contents.String()}, {Name: "SHA-256 of readings.csv", Is: p.Readings.SHA256}})
	p.says("The bundle that goes with this paper holds contents.json (all of this, for programs), readings.csv, entries.jsonl and README.txt, which says how to verify them without the program that made them. A signature is on the SHA-256 of contents.json.")
}
