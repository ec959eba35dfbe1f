package keeping

import (
	_ "embed"
	"fmt"
	"slices"
	"strconv"

	"kettlefrost/internal/sourced"
)

// Class is a food of the published table: soups-stews.
type Class string

// Published is for how long something published lets a food be kept at 0 °F (-18 °C) at its best. The charts are for household freezers and
// packaging; a vacuum bag may do better, and no public source was found that says by how much.
type Published struct {
	Class     Class  `json:"class"`
	Name      string `json:"name"`
	MonthsLow int    `json:"months_low"`
	Months    int    `json:"months_high"`
	Weeks     int    `json:"weeks_low"` // whole ones within the months
	WeeksHigh int    `json:"weeks_high"`
	Memory    bool   `json:"from_memory,omitempty"` // it is shown, and never counts
	Note      string `json:"note,omitempty"`
	Source    string `json:"source"`
}

// daysOfMonth is the mean month of the Gregorian calendar, 365.2425/12 days.
const daysOfMonth = 30.436875

//go:embed data/published.csv
var publishedText string

var published = sourced.MustRead(publishedText, func(r sourced.Row) (Published, error) {
	low, err := strconv.Atoi(r["months_low"])
	if err != nil {
		return Published{}, err
	}
	high, err := strconv.Atoi(r["months_high"])
	if err != nil || low < 1 || high < low {
		return Published{}, fmt.Errorf("months from %s to %s", r["months_low"], r["months_high"])
	}
	status := r["status"]
	if status != "read" && status != "memory" {
		return Published{}, fmt.Errorf("its status is %q", status)
	}
	return Published{Class: Class(r["class"]), Name: r["name"], MonthsLow: low, Months: high, Weeks: weeksIn(low), WeeksHigh: weeksIn(high), Memory: status == "memory", Note: r["note"], Source: r["source"]}, nil
})

// weeksIn are the whole weeks within so many months.
func weeksIn(months int) int { return int(float64(months) * daysOfMonth / 7) }

// Table is all that is published.
func Table() []Published { return slices.Clone(published) }

// Of is what is published of a class; false when nothing is.
func Of(c Class) (Published, bool) {
	i := slices.IndexFunc(published, func(p Published) bool { return p.Class == c })
	if i < 0 {
		return Published{}, false
	}
	return published[i], true
}

// MonthsText is the months in words: 2 to 3 months.
func (p Published) MonthsText() string {
	if p.MonthsLow == p.Months {
		if p.Months == 1 {
			return "1 month"
		}
		return fmt.Sprintf("%d months", p.Months)
	}
	return fmt.Sprintf("%d to %d months", p.MonthsLow, p.Months)
}

// shortest is the published figure of the classes that a food fits which ends first; false when nothing that counts is published of any.
func shortest(classes []Class) (least Published, ok bool) {
	for _, c := range classes {
		p, there := Of(c)
		if there && !p.Memory && (!ok || p.Weeks < least.Weeks || p.Weeks == least.Weeks && p.WeeksHigh < least.WeeksHigh) {
			least, ok = p, true
		}
	}
	return least, ok
}
