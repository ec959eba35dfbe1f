package sheet

import (
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// The sheets of some demo runs, so that a change in how real plans read is seen. Their figures are checked where they are computed.
func TestDemoSheets(t *testing.T) {
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	book := bookfile.Read(demo.Book()).Book
	for run, units := range map[string]unit.System{"tuesday": unit.US, "small-friday": unit.US, "kettle": unit.Metric} {
		p := plan.Make(t.Context(), book, foods, book.Runs[run])
		golden(t, run+"-"+units.String()+".txt", Text(p, units))
	}
}
