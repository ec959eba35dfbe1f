package app

import (
	"strings"
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

func TestTaskByKey(t *testing.T) {
	keys := []string{"soup/chop/1", "soup/boil/1", "soup/boil/2", "soup/soup-lb/1", ""}
	for _, c := range []struct{ text, key, says string }{
		{"soup/boil/2", "soup/boil/2", ""}, {" soup/chop ", "soup/chop", ""}, {"soup/boil", "soup/boil", ""}, {"soup", "soup", ""},
		{"soup/boil/", "", "did you mean"}, {"soup/bol/1", "", "did you mean soup/boil/1?"},
		{"", "", "is no task"}, {strings.Repeat("x", 90), "", "xxx…"},
	} {
		key, err := Task(keys, c.text)
		if key != c.key || (err == nil) != (c.says == "") || err != nil && !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q is %q, %v; want %q, %q", c.text, key, err, c.key, c.says)
		}
	}
}

func TestDelay(t *testing.T) {
	for text, want := range map[string]unit.Span{"25": 25 * unit.Minute, "25 min": 25 * unit.Minute, " 1 h 30 min": 90 * unit.Minute, "24 h": unit.Day, "0": 0, "-5": 0, "": 0, "20 s": 0, "25 h": 0, "a while": 0, "5 lb": 0} {
		got, err := Delay(text)
		if (err == nil) != (want > 0) || err == nil && got != want {
			t.Errorf("%q is %s, %v; want %s", text, got, err, want)
		}
	}
}

func TestPieces(t *testing.T) {
	for text, want := range map[string]int{"1": 1, " 2 ": 2, "3": 0, "0": 0, "-1": 0, "two": 0, "": 0} {
		if got, err := Pieces(text, 2); got != want || (err == nil) != (want > 0) {
			t.Errorf("%q of 2 is %d, %v; want %d", text, got, err, want)
		}
	}
}

func TestChangesInWords(t *testing.T) {
	book := kitchen.Book{People: map[kitchen.PersonID]kitchen.Person{"sam": {Name: "Sam"}}, Equipment: map[kitchen.EquipmentID]kitchen.Equipment{"burner": {Name: "burner of the range"}}}
	got := strings.Join(Told(book, []plan.Task{{Key: "soup/boil/2", Label: "Boil the soup."}}, kitchen.Changes{Now: 680, Late: []kitchen.Late{{Task: "soup/boil/2", By: 25 * unit.Minute}}, Gone: []kitchen.Gone{{Person: "sam", From: 690}},
		Out: []kitchen.Outage{{Equipment: "burner", Count: 2, From: 690, Until: 1500}}}), "; ")
	if want := "“Boil the soup” (soup/boil/2) is 25 min late; Sam is not here from 11:30 on; 2 × burner of the range cannot be used from 11:30 to 01:00+1"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}
