package kitchen

import (
	"testing"

	"kettlefrost/internal/unit"
)

func TestSafetyIsChecked(t *testing.T) {
	ground := func(f float64, reason, by string) Safety {
		to := unit.TempF(f)
		return Safety{Jurisdiction: "US", Rules: []RuleChange{{Rule: "fda-3-401.11-a-2", Temp: &to, Reason: reason, By: by}}}
	}
	measures := func(id ThermometerID, m Thermometer) func(*Book) {
		return func(b *Book) { b.Thermometers = map[ThermometerID]Thermometer{id: m} }
	}
	safe := func(s Safety) func(*Book) { return func(b *Book) { b.Safety = s } }
	for _, c := range []struct {
		name  string
		write func(*Book)
		code  Code
		path  string
	}{
		{"none", safe(Safety{}), "", ""},
		{"as published", safe(Safety{Jurisdiction: "US-VT", From: "2026-12-01", Cooling: "fda-3-501.14-a"}), "", ""},
		{"stricter needs no reason", safe(ground(160, "", "")), "", ""},
		{"laxer without a reason", safe(ground(150, "", "")), RuleNotHeld, "safety.rules[0]"},
		{"laxer without a name", safe(ground(150, "the authority agreed", "")), RuleNotHeld, "safety.rules[0]"},
		{"laxer with both", safe(ground(150, "the authority agreed", "Ines")), "", ""},
		{"no such rule", safe(Safety{Jurisdiction: "US", Rules: []RuleChange{{Rule: "fda-3-401"}}}), UnknownReference, "safety.rules[0].rule"},
		{"no such cooling rule", safe(Safety{Jurisdiction: "US", Cooling: "quick"}), UnknownReference, "safety.cooling"},
		{"no date", safe(Safety{Jurisdiction: "US", From: "soon"}), BadDate, "safety.from"},
		{"rules of nowhere", safe(Safety{Cooling: "fda-3-501.14-a"}), EmptyText, "safety.jurisdiction"},
		{"a probe in a freezer", measures("p", Thermometer{Name: "p", At: "first", Accuracy: unit.TempDiffF(1)}), "", ""},
		{"a probe in no place", measures("p", Thermometer{Name: "p", At: "frist"}), UnknownReference, "thermometers.p.at"},
		{"a thermometer that is broken", measures("p", Thermometer{Name: "p", Accuracy: unit.TempDiffC(6)}), OutOfRange, "thermometers.p.accuracy"},
		{"a name that is none", measures("P 1", Thermometer{Name: "p"}), BadID, "thermometers.P 1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := roomy()
			c.write(&b)
			k := &checker{book: b}
			k.thermometers()
			k.safety()
			switch {
			case c.code == "" && len(k.found) > 0:
				t.Errorf("found %v", k.found)
			case c.code != "" && (len(k.found) != 1 || k.found[0].Code != string(c.code) || k.found[0].Path != c.path):
				t.Errorf("found %+v, want %s at %s", k.found, c.code, c.path)
			}
		})
	}
}
