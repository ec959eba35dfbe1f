package app

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"strings"
	"time"
)

// CSV is a day as it was received, a line for each reading, by the clock on the wall of a place.
func (d ReadingDay) CSV(place *time.Location) []byte {
	var text bytes.Buffer
	out := csv.NewWriter(&text)
	out.Write([]string{"time", "temperature °C", "received", "flags", "line", "counts"})
	for _, x := range d.Readings {
		temp := ""
		if x.TempC != nil {
			temp = strconv.FormatFloat(*x.TempC, 'f', 3, 64)
		}
		out.Write([]string{time.UnixMilli(int64(x.At)).In(place).Format(time.RFC3339), temp, asText(x.Raw), strings.Join(x.Flags, " "), strconv.Itoa(x.Line), strconv.FormatBool(x.Count)})
	}
	out.Flush() // into memory it cannot fail
	return text.Bytes()
}

// asText keeps a spreadsheet from taking what a probe sent for a formula.
func asText(text string) string {
	if text != "" && strings.ContainsAny(text[:1], "=+-@\t\r") {
		if _, err := strconv.ParseFloat(text, 64); err != nil {
			return "'" + text
		}
	}
	return text
}
