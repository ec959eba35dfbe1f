package sheet

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"strings"

	"kettlefrost/internal/lots"
)

// CallsCSV is whom a recall has to tell, a row for each stretch of packs (RFC 4180).
func CallsCSV(r lots.Report, clock Clock) []byte {
	rows := [][]string{{"customer", "name", "phone", "mail", "address", "lot", "what", "numbers", "packs", "mass_g", "best_before", "left", "order", "taken_to", "taken_by", "doubted"}}
	for _, c := range r.Calls {
		for _, x := range c.Items {
			rows = append(rows, []string{c.Customer, c.Name, c.Phone, c.Mail, c.Address, string(x.Lot), x.What, x.Numbers, strconv.FormatInt(x.Packs, 10), gramsCSV(x.Mass), string(x.BestBefore),
				clock(x.At), x.Order, x.Address, x.TakenBy, strconv.FormatBool(x.Doubted)})
		}
	}
	return recordsCSV(rows)
}

// RuleCSV is one table of the traceability rule (RFC 4180), with what is missing in the last column.
func RuleCSV(t lots.RuleTable) []byte {
	var head []string
	for _, x := range t.Head {
		head = append(head, x.Key)
	}
	rows := [][]string{append(head, "missing", "entry")}
	for _, r := range t.Rows {
		var row []string
		for _, x := range t.Head {
			row = append(row, r.Values[x.Key])
		}
		rows = append(rows, append(row, strings.Join(r.Missing, " "), r.Entry))
	}
	return recordsCSV(rows)
}

// recordsCSV writes rows of whatever people typed. Lines within a field end as the rows do, so that the file reads back as it was.
func recordsCSV(rows [][]string) []byte {
	var buffer bytes.Buffer
	out := csv.NewWriter(&buffer)
	out.UseCRLF = true
	for _, row := range rows {
		for i := range row {
			row[i] = harmless(row[i])
		}
	}
	if err := out.WriteAll(rows); err != nil {
		panic(err) // a buffer takes everything
	}
	return buffer.Bytes()
}
