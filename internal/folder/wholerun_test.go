package folder

import (
	"bytes"
	"testing"

	"kettlefrost/internal/record"
)

// A run that was asked for as a whole is shown with all that was cooked, cooled and done in it, also when no lot came of it: an inspector who asks for
// a day's cooling logs gets that of the pot that was thrown away.
func TestARunWithoutLots(t *testing.T) {
	c := &chain{t: t}
	for _, e := range tuesday(t).all {
		switch e.Kind {
		case record.Made{}.Kind(), record.Packed{}.Kind(), record.Held{}.Kind(), record.HandedOver{}.Kind():
		default:
			b, err := record.Decode(e.Kind, e.Body)
			if err != nil {
				t.Fatal(err)
			}
			if e.Corrects == (record.ID{}) {
				c.say(e.Happened, e.Who, b)
			}
		}
	}
	m := materialOf(t, c, nil, []string{"tue"})
	got := made(t, m)
	if len(got.Records) != 3 {
		t.Errorf("%d critical records: %+v", len(got.Records), got.Records)
	}
	read := 0
	for _, g := range m.Reach.Groups {
		if g.First.Kind == (record.Measured{}).Kind() {
			read++
		}
	}
	if read != 2 { // that of the chest is of no lot
		t.Errorf("%d temperatures, want 2", read)
	}
	if without := made(t, materialOf(t, c, nil, nil)); len(without.Records) != 0 {
		t.Errorf("nothing was asked for, and there are %+v", without.Records)
	}
	var paper bytes.Buffer
	if err := sealed(t, c, m, true).WritePDF(&paper, wallClock); err != nil || paper.Len() == 0 {
		t.Errorf("%d bytes, %v", paper.Len(), err)
	}
}
