package folder

import (
	"crypto/sha256"
	"encoding/hex"
	"strconv"
	"strings"
	"time"

	"kettlefrost/internal/tables"
)

// ReadingsTable is what was read for the critical records, in their order: each reading as it was judged, odd ones too.
func ReadingsTable(records []Record) tables.Table {
	t := tables.Table{Name: "readings", About: "a temperature that was read for a critical record", Columns: []tables.Column{{Name: "record"}, {Name: "where"}, {Name: "instrument"}, {Name: "time", Kind: tables.Time},
		{Name: "time ms", Kind: tables.Whole}, {Name: "temperature", Unit: "°C", Kind: tables.Decimal}, {Name: "odd"}, {Name: "typed by"}, {Name: "entry"}, {Name: "withdrawn", Kind: tables.YesNo}}}
	text := func(s string) string { return strings.ToValidUTF8(s, "\uFFFD") }
	for _, r := range records {
		for _, l := range r.logs {
			for _, x := range l.Readings {
				t.Rows = append(t.Rows, []string{text(r.Point), text(l.Where), text(x.Instrument), time.UnixMilli(int64(x.At)).UTC().Format("2006-01-02T15:04:05.000Z"), strconv.FormatInt(int64(x.At), 10),
					strconv.FormatFloat(x.TempC+0, 'f', -1, 64), text(x.Flags), text(x.Who), x.Entry, map[bool]string{true: "yes", false: "no"}[x.Unusable]})
			}
		}
	}
	return t
}

// readings are the file of them, and that in short. The error is *tables.CellError.
func (c *Contents) readings() ([]byte, error) {
	t := ReadingsTable(c.Records)
	file, err := t.CSV()
	if err != nil {
		return nil, err
	}
	sum := sha256.Sum256(file)
	c.Readings = Readings{len(t.Rows), hex.EncodeToString(sum[:])}
	return file, nil
}
