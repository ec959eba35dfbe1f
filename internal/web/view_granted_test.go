package web

import (
	"strings"
	"testing"

	"kettlefrost/internal/netcontents"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// Twelve of a lot of 150: NIST Handbook 133, table 2-1, has a factor of 0.635 (from memory). The squares of the deviations add up to
// 64.9167 g², so that the standard deviation is 2.4293 g and the limit 0.635 times that, 1.54 g.
func TestWhatTheAverageIsGranted(t *testing.T) {
	var nets []unit.Mass
	for _, g := range []float64{459, 457, 462, 455, 460, 458, 461, 456, 459, 463, 457, 460} {
		nets = append(nets, unit.MassKg(g/1000))
	}
	for _, c := range []struct {
		rules   netcontents.Rules
		lot     int
		weighed int
		want    string
	}{
		{netcontents.Handbook133, 150, 12, "Sample correction factor|0.635|of the rules, for a lot of this size; Sample error limit|1.5 g|so much may the average be short: the factor times the sample's scatter"},
		{netcontents.OwnCheck, 150, 12, "Sample correction factor|none|a check of one's own takes no benefit of the doubt; Sample error limit|0.0 g|the average must reach the label; an inspector's factor is 0.635, which lets it be short by 1.5 g"},
		{netcontents.OwnCheck, 150, 11, ""},      // another number was weighed than the rules take
		{netcontents.Directive76211, 90, 12, ""}, // the reference test begins at 100
		{0, 150, 12, ""},
	} {
		x := fillingSays{plan.LotWeights{Units: unit.US, Lot: c.lot, Label: unit.Pound, Nets: nets[:c.weighed], Net: plan.NetContents{Rules: c.rules.String()}}, reader{units: unit.US}, scale{unit.Gram}}
		var rows []string
		for _, r := range x.granted() {
			rows = append(rows, r.Name+"|"+r.Value+"|"+r.Says)
		}
		if got := strings.Join(rows, "; "); got != c.want {
			t.Errorf("%s, %d of %d:\ngot  %s\nwant %s", c.rules, c.weighed, c.lot, got, c.want)
		}
	}
}

// What the page adds is of the lot that the plan judged: the average and the limit lead to the plan's own verdict.
func TestGrantedAgreesWithTheVerdict(t *testing.T) {
	h := demoKitchen(t)
	for query, want := range map[string]string{"": "● passes", "?tare=11,11&gross=462,460,465,458,463,461,464,459,462,466,460,463&lot=150": "■ fails"} {
		page := get(h, "/filling/ale-cheddar-lb"+query).Body.String()
		inOrder(t, page, want, "that is its error", "Sample correction factor", "none", "the average must reach the label", "factor is 0.635")
	}
}
