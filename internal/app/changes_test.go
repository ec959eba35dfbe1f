package app

import (
	"strings"
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

func TestChangesInWords(t *testing.T) {
	book := kitchen.Book{People: map[kitchen.PersonID]kitchen.Person{"sam": {Name: "Sam"}}, Equipment: map[kitchen.EquipmentID]kitchen.Equipment{"burner": {Name: "burner of the range"}}}
	got := strings.Join(Told(book, []plan.Task{{Key: "soup/boil/2", Label: "Boil the soup."}}, kitchen.Changes{Now: 680, Late: []kitchen.Late{{Task: "soup/boil/2", By: 25 * unit.Minute}, {Task: "soup", By: -10 * unit.Minute}}, Gone: []kitchen.Gone{{Person: "sam", From: 690}},
		Out: []kitchen.Outage{{Equipment: "burner", Count: 2, From: 690, Until: 1500}}}), "; ")
	if want := "“Boil the soup” (soup/boil/2) is 25 min late; soup is 10 min early; Sam is not here from 11:30 on; 2 × burner of the range cannot be used from 11:30 to 01:00+1"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}
