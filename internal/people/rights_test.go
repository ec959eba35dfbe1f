package people

import (
	"errors"
	"slices"
	"testing"

	"kettlefrost/internal/record"
)

// The table of role and kind, written out: o owner, c cook, p packer, k the key of an instrument.
var mayEnter = map[record.Kind]string{
	"started": "ocp", "finished": "ocp", "skipped": "ocp", "weighed": "ocpk", "measured": "ocpk", "check-weighed": "ocpk", "used": "ocp", "made": "ocp", "wasted": "ocp",
	"packed": "ocp", "moved": "ocp", "counted": "ocp", "picked": "ocp", "handed-over": "ocp", "noted": "ocp", "voided": "ocp",
	"opened": "oc", "closed": "oc", "changed": "oc", "received": "oc", "written-off": "oc", "held": "oc", "drilled": "oc", "routed": "oc",
	"released": "o", "returned": "oc", "customer": "oc", "ordered": "oc", "cancelled": "oc", "invoiced": "o", "credited": "o", "paid": "o", "booked": "o", "person": "o",
	"watched": "ocp", "acted": "ocp", "calibrated": "oc", "logged": "oc", "hazard-plan": "oc", "signed": "oc", "plan-reviewed": "o",
	"trial-opened": "ocp", "trial-scored": "ocp", "tasted": "ocp", "pictured": "ocp", "set-aside": "ocp", "labelled": "ocp",
	"trial-laid": "oc", "trial-made": "oc", "trial-closed": "oc", "learned": "oc", "left-out": "oc",
	"not-known-yet": "o",
}

var letters = map[Role]string{record.Owner: "o", record.Cook: "c", record.Packer: "p", record.Inspector: "i", "": "-", "chef": "-"}

func TestWhoMayEnterWhat(t *testing.T) {
	for kind, who := range mayEnter {
		for role, letter := range letters {
			want := slices.Contains([]byte(who), letter[0])
			if got := MayEnter(role, kind); got != want {
				t.Errorf("%q may enter %s: %v, want %v", role, kind, got, want)
			}
		}
		if got, want := KeyMayEnter(kind), slices.Contains([]byte(who), 'k'); got != want {
			t.Errorf("a key may enter %s: %v, want %v", kind, got, want)
		}
	}
	for _, k := range record.Kinds() {
		if _, ok := mayEnter[k]; !ok {
			t.Errorf("nobody has decided who may enter %s", k)
		}
	}
}

func TestWhoMaySeeWhat(t *testing.T) {
	for area, who := range map[Area]string{Kitchen: "ocpi", Money: "oci", Office: "oci", Managing: "o", "not known yet": "o"} {
		for role, letter := range letters {
			if got, want := MaySee(role, area), slices.Contains([]byte(who), letter[0]); got != want {
				t.Errorf("%q may see %s: %v, want %v", role, area, got, want)
			}
		}
	}
}

func staff() *Staff {
	return &Staff{byID: map[string]Person{
		"ada": {Person: "ada", Name: "Ada", Role: record.Owner, Since: "2026-01-01"}, "cleo": {Person: "cleo", Name: "Cleo", Role: record.Cook, Since: "2026-01-01"},
		"pat": {Person: "pat", Name: "Pat", Role: record.Packer, Since: "2026-01-01"}, "ina": {Person: "ina", Name: "Ina", Role: record.Inspector, Since: "2026-01-01"},
		"old": {Person: "old", Name: "Old", Role: record.Cook, Since: "2026-01-01", Left: "2026-03-01"},
	}}
}

func TestJudge(t *testing.T) {
	on := func(who string, by How, with ...string) Actor {
		return Actor{Person: who, By: by, Sure: by == ByPassword, Device: "tablet", With: append(with, who)}
	}
	said := func(who string, k record.Kind) *record.Entry { return &record.Entry{Who: who, Kind: k} }
	key := Actor{By: ByKey, Device: "probe 1"}
	for _, x := range []struct {
		name  string
		actor Actor
		asked Asked
		good  bool
	}{
		{"a cook receives", on("cleo", ByPIN), Asked{Kind: "received", Who: "cleo", Device: "tablet"}, true},
		{"a packer does not", on("pat", ByPIN), Asked{Kind: "received", Who: "pat", Device: "tablet"}, false},
		{"an inspector enters nothing", on("ina", ByPassword), Asked{Kind: "noted", Who: "ina", Device: "tablet"}, false},
		{"what waited for a cook is sent while a packer acts", on("pat", ByPIN, "cleo"), Asked{Kind: "received", Who: "cleo", Device: "tablet"}, true},
		{"what waited for a packer is judged as a packer's while an owner acts", on("ada", ByPassword, "pat"), Asked{Kind: "released", Who: "pat", Device: "tablet"}, false},
		{"in the name of somebody who never signed in here", on("pat", ByPIN), Asked{Kind: "moved", Who: "cleo", Device: "tablet"}, false},
		{"even an owner speaks for nobody else", on("ada", ByPassword), Asked{Kind: "moved", Who: "cleo", Device: "tablet"}, false},
		{"in the name of nobody", on("ada", ByPassword), Asked{Kind: "moved", Who: "", Device: "tablet"}, false},
		{"in the name of a stranger", on("ada", ByPassword), Asked{Kind: "moved", Who: "<b>eve", Device: "tablet"}, false},
		{"in the name of another device", on("ada", ByPassword), Asked{Kind: "moved", Who: "ada", Device: "office"}, false},
		{"somebody who has left", on("old", ByPassword), Asked{Kind: "moved", Who: "old", Device: "tablet"}, false},
		{"an owner by password changes people", on("ada", ByPassword), Asked{Kind: "person", Who: "ada", Device: "tablet"}, true},
		{"an owner by PIN does not", on("ada", ByPIN), Asked{Kind: "person", Who: "ada", Device: "tablet"}, false},
		{"a packer takes the own entry back", on("pat", ByPIN), Asked{Kind: "voided", Who: "pat", Device: "tablet", Original: said("pat", "moved")}, true},
		{"but not a cook's", on("pat", ByPIN), Asked{Kind: "voided", Who: "pat", Device: "tablet", Original: said("cleo", "moved")}, false},
		{"a cook not a packer's", on("cleo", ByPIN), Asked{Kind: "moved", Who: "cleo", Device: "tablet", Original: said("pat", "moved")}, false},
		{"an owner anybody's", on("ada", ByPIN), Asked{Kind: "voided", Who: "ada", Device: "tablet", Original: said("pat", "moved")}, true},
		{"a cook what a probe told", on("cleo", ByPIN), Asked{Kind: "voided", Who: "cleo", Device: "tablet", Original: said("", "measured")}, true},
		{"a packer not", on("pat", ByPIN), Asked{Kind: "voided", Who: "pat", Device: "tablet", Original: said("", "measured")}, false},
		{"a key measures", key, Asked{Kind: "measured", Device: "probe 1"}, true},
		{"a key does not receive", key, Asked{Kind: "received", Device: "probe 1"}, false},
		{"a key does not speak for people", key, Asked{Kind: "measured", Device: "probe 1", Who: "ada"}, false},
		{"nor for another device", key, Asked{Kind: "measured", Device: "probe 2"}, false},
		{"a key takes nothing back", key, Asked{Kind: "measured", Device: "probe 1", Original: said("", "measured")}, false},
	} {
		err := staff().Judge(x.actor, x.asked, "2026-06-01")
		if (err == nil) != x.good {
			t.Errorf("%s: %v", x.name, err)
		}
		if d := (*DeniedError)(nil); err != nil && (!errors.As(err, &d) || d.Who == "" || d.Problem == "" || d.Fix == "") {
			t.Errorf("%s: %#v does not say who, what and what to do", x.name, err)
		}
	}
}

// An own entry is not put right by somebody who no longer may enter its kind.
func TestADemotedCookKeepsHandsOff(t *testing.T) {
	s := staff()
	err := s.Judge(Actor{Person: "pat", By: ByPIN, Device: "tablet", With: []string{"pat"}},
		Asked{Kind: "voided", Who: "pat", Device: "tablet", Original: &record.Entry{Who: "pat", Kind: "released"}}, "2026-06-01")
	if err == nil {
		t.Error("a packer takes back a release")
	}
}
