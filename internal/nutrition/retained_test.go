package nutrition_test

import (
	"testing"

	"kettlefrost/internal/nutrition"
)

func TestRetentionRows(t *testing.T) {
	if n := len(nutrition.Retentions()); n != 270 { // counted in USDA's release 6
		t.Errorf("%d rows", n)
	}
	found := nutrition.FindRetained("simmrd 1.5")
	if len(found) != 1 || found[0].Code != "5007" || found[0].AlcoholPct.Or(0) != 20 {
		t.Errorf("%+v", found)
	}
	if len(nutrition.FindRetained("chicken braised on the moon")) != 0 {
		t.Error("found what is not there")
	}
}
