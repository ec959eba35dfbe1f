package pdf

import (
	"bytes"
	"fmt"
	"testing"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/unit"
)

// signs are the characters that the program prints beside those of a keyboard.
const signs = "° ½ ¼ ¾ ≤ ≥ − × … – — ± µ ² ³ · • → ← “ ” ‘ ’ é ñ ü ß œ ł Ł Ø α Δ Ж £ € № □ √ Ш ŝ č Ċ Ĩ \\ ( )"

// sample has every kind of block, and more of some than a page holds.
func sample(rows int) Document {
	doc := Document{Title: "Folder of lot R-1201-3", Subject: "Records of safety", Head: "Small Kitchen, Burlington VT", Foot: "chain 412 · 5f3a…", MadeMs: 1_796_083_200_000}
	chart := draw.Curves{Title: "Cooling", Units: unit.US, Width: 760,
		Lines:  []draw.Line{{Name: "middle of the pot", Points: []draw.At{{TimeS: 0, TempC: 80}, {TimeS: 3600, TempC: 40}, {TimeS: 7200, TempC: 20}, {TimeS: 14400, TempC: 4}}}, {Name: "water", Kind: draw.Medium, Points: []draw.At{{TimeS: 0, TempC: 10}, {TimeS: 14400, TempC: 1}}}},
		Limits: []draw.Limit{{TempC: 21.1, ByS: 7200}, {TempC: 5, ByS: 21600}}}.Picture()
	table := Table{Name: "Readings", Columns: []Column{{Name: "time"}, {Name: "temperature", Figure: true}, {Name: "what is odd"}}}
	for i := range rows {
		note := ""
		if i%7 == 3 {
			note = "out of order: it came after a later one, and stands here by its own clock; it was kept as it was received"
		}
		table.Rows = append(table.Rows, Row{Cells: []string{fmt.Sprintf("2026-12-01 %02d:%02d", 10+i/60, i%60), fmt.Sprintf("%d.%d °F", 150-i, i%10), note}, Strong: i%11 == 5})
	}
	doc.Blocks = []Block{
		Title{"Lot R-1201-3", "Beef stew, 40 packs of 2 lb, made on 2026-12-01"}, Contents{"Contents"},
		Heading{Level: 1, Text: "What is missing"}, Paragraph{"The cooling of pot 2 has no readings: nobody can say that it met the limit.", Loud},
		List{"cooking temperature of load 3", "who checked thermometer T-2 after it fell"},
		Heading{Level: 1, Text: "Cooling"}, Facts{{"Rule", "FDA Food Code 3-501.14(A): 135 to 70 °F within 2 h, and to 41 °F within 6 h in all"}, {"Verdict", "these readings meet this rule"}, {"Margin", "24 min"}},
		Figure{chart, "Lines as read; the limits as ticks."},
		Heading{Level: 2, Text: "Readings"}, table, Table{Name: "Corrective actions", Columns: []Column{{Name: "when"}}, None: "None was entered."},
		Heading{Level: 1, Text: "Signs"}, Paragraph{signs, Plain}, Paragraph{"中 and a bell \a and ⅓", Quiet},
		Heading{Level: 1, Text: "Signatures"}, Signatures{{As: "made by"}, {"verified by", "Ann", "2026-12-02 09:10", "has read all of it"}},
	}
	return doc
}

func written(t testing.TB, doc Document) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := Write(&out, doc); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}
