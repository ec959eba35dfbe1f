package bookfile_test

import (
	"reflect"
	"testing"
	"testing/fstest"

	"pgregory.net/rapid"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/kitchen/kitchentest"
)

// A request that is written is read back, alone and as a run of the book.
func TestWrittenRequestsAreReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for _, want := range kitchentest.Book(t).Runs {
			text, err := bookfile.WriteRequest(want)
			if err != nil {
				t.Fatal(err)
			}
			got, found := bookfile.ReadRequest("r.yaml", text)
			if want.Name == "" {
				want.Name = got.Name
			}
			if len(found) > 0 || !reflect.DeepEqual(got, bare(want)) {
				t.Errorf("%s\nread back as %+v, want %+v (%v)", text, got, bare(want), found)
			}
		}
	})
}

// bare is a request without the empty lists and tables that a file does not tell from none.
func bare(r kitchen.Request) kitchen.Request {
	files, err := bookfile.Write(kitchen.Book{Runs: map[string]kitchen.Request{"r": r}})
	if err != nil {
		panic(err)
	}
	return bookfile.Read(fstest.MapFS{"runs.yaml": {Data: files["runs.yaml"]}}).Book.Runs["r"]
}

func TestWriteRun(t *testing.T) {
	run := kitchen.Request{Name: "next", Day: "2026-12-14", Want: []kitchen.Want{{Pack: "dal-lb", Count: 24}}, Orders: map[kitchen.PackID]int{"dal-lb": 6}}
	text, err := bookfile.WriteRun("next-2026-12-14", run)
	if err != nil {
		t.Fatal(err)
	}
	want := "runs:\n  next-2026-12-14:\n    name: next\n    day: '2026-12-14'\n    want:\n    - {pack: dal-lb, count: 24}\n    orders: {dal-lb: 6}\n"
	if string(text) != want {
		t.Errorf("got\n%s\nwant\n%s", text, want)
	}
}
