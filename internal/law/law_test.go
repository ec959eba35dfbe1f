// Package law holds the project to the direction of its imports. The table is policy: when it is in the way, think before changing it.
package law

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// imports is what each package may import of ours. The order of the lines is the order of the layers: a package uses those above it.
var imports = map[string]string{
	// words
	"internal/unit":       "",
	"internal/finding":    "",
	"internal/spelling":   "",
	"internal/language":   "",
	"internal/phrasebook": "",
	"internal/pagetext":   "",
	"internal/allergen":   "internal/spelling",
	// engines that know no kitchen
	"internal/loads":               "",
	"internal/massflow":            "internal/loads",
	"internal/timetable":           "internal/timetable/clause",
	"internal/timetable/clause":    "",
	"internal/timetable/check":     "internal/timetable",
	"internal/timetable/psplib":    "internal/timetable",
	"internal/heat":                "",
	"internal/heat/heattest":       "",
	"internal/series":              "internal/heat",
	"internal/vessel":              "internal/heat internal/unit",
	"internal/calibration":         "internal/heat internal/vessel",
	"internal/medium":              "",
	"internal/conduction":          "internal/heat internal/vessel",
	"internal/freezing":            "internal/heat internal/medium internal/conduction internal/unit",
	"internal/coolrule":            "internal/heat internal/unit",
	"internal/lethality":           "",
	"internal/storagelife":         "",
	"internal/growth":              "",
	"internal/coollog":             "internal/coolrule",
	"internal/cooling":             "internal/heat internal/series internal/vessel internal/medium internal/conduction internal/coolrule internal/unit",
	"internal/coolforecast":        "internal/heat internal/cooling internal/coolrule internal/coollog",
	"internal/reheating":           "internal/heat internal/medium internal/conduction internal/unit internal/language",
	"internal/fill":                "internal/unit",
	"internal/purchase":            "internal/unit",
	"internal/costing":             "internal/unit",
	"internal/pricing":             "internal/unit internal/costing",
	"internal/productmix":          "internal/unit internal/fill",
	"internal/scatter":             "internal/unit",
	"internal/controlchart":        "",
	"internal/netcontents":         "internal/unit",
	"internal/freezepoint":         "internal/sourced internal/heat",
	"internal/dosing":              "internal/sourced internal/unit internal/finding",
	"internal/stability":           "internal/sourced internal/finding",
	"internal/statement":           "internal/unit internal/allergen",
	"internal/netdeclare":          "internal/unit internal/sourced internal/finding",
	"internal/labelrule":           "internal/unit internal/finding internal/sourced internal/allergen internal/statement",
	"internal/trace":               "internal/unit",
	"internal/allocation":          "",
	"internal/invoice":             "internal/unit",
	"internal/forecast":            "",
	"internal/homemeasure":         "internal/sourced internal/unit",
	"internal/keeping":             "internal/sourced",
	"internal/learning":            "",
	"internal/preview":             "",
	"internal/tastetrial":          "",
	"internal/record":              "internal/unit",
	"internal/trials":              "internal/unit internal/finding internal/record internal/tastetrial",
	"internal/tables":              "internal/unit",
	"internal/people":              "internal/finding internal/record",
	"internal/lots":                "internal/unit internal/finding internal/record internal/trace",
	"internal/find":                "internal/spelling internal/barcode",
	"internal/help":                "internal/find",
	"internal/retained":            "internal/unit internal/finding internal/record internal/lots",
	"internal/orders":              "internal/unit internal/finding internal/spelling internal/record internal/lots internal/allocation",
	"internal/ledger":              "internal/unit internal/finding internal/record internal/invoice internal/kitchen",
	"internal/nextrun":             "internal/finding internal/kitchen internal/forecast",
	"internal/history":             "internal/unit internal/record",
	"internal/history/historytest": "internal/unit internal/finding internal/record internal/trace internal/lots internal/history",
	"internal/coldstore":           "internal/unit internal/finding internal/record internal/lots",
	"internal/thermometers":        "internal/unit internal/finding internal/record",
	"internal/coldwatch":           "internal/unit internal/finding internal/record internal/lots internal/coldstore internal/storagelife internal/thermometers",
	"internal/loggerfile":          "",
	"internal/foodcode":            "internal/sourced",
	"internal/haccp":               "internal/unit internal/foodcode",
	"internal/foodtable":           "internal/unit internal/finding internal/spelling",
	"internal/nutrition":           "internal/unit internal/sourced internal/foodtable",
	"internal/heatcase":            "internal/unit internal/finding internal/spelling internal/heat internal/series internal/vessel internal/calibration internal/medium internal/conduction internal/freezing internal/coolrule internal/foodtable",
	"internal/caution":             "",
	"internal/sourced":             "",
	"internal/barcode":             "internal/sourced internal/unit",
	"internal/kitchen":             "internal/unit internal/finding internal/spelling internal/language internal/barcode internal/allergen internal/medium internal/invoice internal/foodcode internal/coolrule",
	"internal/kitchen/kitchentest": "internal/kitchen internal/unit",
	"internal/hazardplan":          "internal/finding internal/record internal/haccp",
	// the book as files, the plan as one value
	"internal/bookfile":  "internal/unit internal/finding internal/spelling internal/kitchen",
	"internal/bookform":  "internal/unit internal/finding internal/spelling internal/allergen internal/medium internal/foodcode internal/kitchen internal/bookfile",
	"internal/dishgraph": "internal/unit internal/kitchen",
	"internal/hazards":   "internal/unit internal/finding internal/kitchen internal/foodtable internal/foodcode internal/coolrule internal/haccp",
	"internal/plan": "internal/unit internal/caution internal/finding internal/kitchen internal/foodtable internal/loads internal/massflow internal/timetable internal/timetable/check " +
		"internal/heat internal/vessel internal/medium internal/conduction internal/freezing internal/coolrule internal/cooling internal/reheating internal/fill internal/purchase internal/costing internal/pricing internal/productmix internal/scatter internal/controlchart internal/netcontents internal/statement",
	"internal/composition": "internal/kitchen internal/foodtable internal/nutrition",
	"internal/homecard":    "internal/language internal/statement internal/composition internal/sourced internal/unit internal/finding internal/heat internal/reheating internal/kitchen internal/foodtable internal/homemeasure internal/nutrition internal/plan",
	"internal/formula":     "internal/unit internal/finding internal/kitchen internal/foodtable internal/plan internal/stability internal/dosing internal/freezepoint internal/storagelife",
	"internal/dispersal":   "internal/unit internal/finding internal/kitchen internal/foodtable internal/plan internal/stability internal/dosing internal/formula",
	// what people see
	"internal/roster":            "internal/unit internal/kitchen internal/plan",
	"internal/board":             "internal/unit internal/finding internal/record internal/kitchen internal/plan internal/roster",
	"internal/learned":           "internal/unit internal/kitchen internal/plan internal/board internal/record internal/learning internal/netcontents internal/vessel",
	"internal/learned/truth":     "internal/unit internal/kitchen internal/plan internal/record internal/foodtable internal/history",
	"internal/critical":          "internal/unit internal/record internal/lots internal/coollog internal/coolrule internal/lethality internal/growth internal/foodcode internal/haccp internal/thermometers internal/plan",
	"internal/sheet":             "internal/trials internal/formula internal/dosing internal/coldwatch internal/thermometers internal/caution internal/ledger internal/nextrun internal/orders internal/coldstore internal/record internal/lots internal/trace internal/unit internal/finding internal/kitchen internal/plan internal/roster internal/haccp internal/hazardplan internal/hazards",
	"internal/draw":              "internal/coldstore internal/lots internal/unit internal/plan internal/roster internal/haccp",
	"internal/pdf":               "internal/draw internal/language",
	"internal/labelmaker":        "internal/barcode internal/draw internal/finding internal/netdeclare internal/nutrition internal/sourced internal/unit",
	"internal/packlabel":         "internal/composition internal/barcode internal/draw internal/finding internal/foodtable internal/kitchen internal/labelmaker internal/labelrule internal/language internal/netdeclare internal/nutrition internal/plan internal/reheating internal/statement internal/unit",
	"internal/papers":            "internal/unit internal/finding internal/caution internal/coolrule internal/reheating internal/plan internal/draw internal/pdf internal/language",
	"internal/folder":            "internal/unit internal/finding internal/record internal/lots internal/critical internal/thermometers internal/coldwatch internal/foodcode internal/haccp internal/hazardplan internal/tables internal/draw internal/pdf",
	"internal/draftdish":         "internal/sourced internal/unit internal/finding internal/vessel internal/stability internal/kitchen internal/foodtable internal/homemeasure internal/formula",
	"internal/firstdish":         "internal/unit internal/kitchen internal/foodtable internal/draftdish internal/dishgraph",
	"internal/homepaper":         "internal/homecard internal/language internal/pdf internal/unit",
	"internal/calendar":          "internal/unit internal/plan internal/roster internal/draw",
	"internal/heatcase/heatshow": "internal/heatcase internal/draw internal/reheating internal/unit",
	"demo":                       "",
	"schema":                     "",
	// use cases and edges
	"internal/workbook":       "internal/tables",
	"internal/store/pgserver": "",
	"internal/store":          "internal/people internal/record",
	"internal/app":            "internal/help internal/find internal/barcode internal/packlabel internal/labelmaker internal/labelrule internal/netdeclare internal/nutrition internal/draw internal/draftdish internal/dispersal internal/formula internal/dosing internal/storagelife internal/homecard internal/learned internal/papers internal/language internal/pdf internal/trials internal/tastetrial internal/retained internal/keeping internal/folder internal/coolforecast internal/cooling internal/coollog internal/coolrule internal/critical internal/coldwatch internal/thermometers internal/board internal/orders internal/ledger internal/nextrun internal/invoice internal/coldstore internal/people internal/record internal/store internal/lots internal/finding internal/spelling internal/unit internal/kitchen internal/foodtable internal/bookfile internal/plan internal/tables internal/workbook internal/foodcode internal/hazards internal/loggerfile internal/haccp internal/hazardplan",
	"internal/web":            "internal/help internal/bookform internal/dishgraph internal/find internal/packlabel internal/labelmaker internal/labelrule internal/preview internal/firstdish internal/draftdish internal/dispersal internal/bookfile internal/formula internal/dosing internal/homecard internal/homepaper internal/learned internal/papers internal/language internal/phrasebook internal/pagetext internal/trials internal/tastetrial internal/retained internal/keeping internal/folder internal/pdf internal/coolforecast internal/critical internal/caution internal/coldwatch internal/thermometers internal/board internal/ledger internal/nextrun internal/invoice internal/orders internal/coldstore internal/people internal/record internal/lots internal/trace internal/app internal/reheating internal/netcontents internal/heatcase internal/heatcase/heatshow internal/medium internal/unit internal/finding internal/spelling internal/kitchen internal/foodtable internal/plan internal/roster internal/calendar internal/draw internal/sheet internal/tables internal/haccp internal/hazardplan internal/hazards internal/foodcode internal/coolrule",
	"internal/cli":            "internal/find internal/packlabel internal/dosing internal/labelmaker internal/labelrule internal/nutrition internal/draftdish internal/dispersal internal/formula internal/homecard internal/homepaper internal/pdf internal/learned internal/papers internal/language internal/trials internal/retained internal/keeping internal/folder internal/critical internal/coldwatch internal/thermometers internal/board internal/ledger internal/nextrun internal/invoice internal/orders internal/coldstore internal/people internal/record internal/lots internal/app internal/reheating internal/heatcase internal/heatcase/heatshow internal/medium internal/draw internal/web internal/roster internal/calendar internal/sheet internal/unit internal/finding internal/spelling internal/kitchen internal/foodtable internal/bookfile internal/plan demo schema internal/tables internal/haccp internal/hazardplan internal/hazards",
	"cmd/kettlefrost":         "internal/cli",
	"cmd/psplib":              "internal/timetable internal/timetable/check internal/timetable/psplib",
}

// edges are the packages that may touch the world; everything else is pure. What only tests use may read the file they check against.
var edges = map[string]bool{"internal/app": true, "internal/web": true, "internal/cli": true, "cmd/kettlefrost": true, "cmd/psplib": true, "demo": true, "schema": true,
	"internal/heat/heattest": true, "internal/store": true, "internal/store/pgserver": true, "internal/workbook": true}

// worldly packages of the standard library, each with why a pure package does without.
var worldly = map[string]string{
	"os": "files and processes belong to the edges", "os/exec": "processes belong to the edges", "net": "so does the network", "net/http": "so does the network",
	"database/sql": "stores belong to the edges", "log": "a finding says it", "log/slog": "a finding says it", "time": "what day it is comes in as a value",
	"math/rand": "it has a seed of its own", "unsafe": "no",
}

// dated may use time, to read and write dates; none of them asks what day it is.
var dated = []string{"internal/trials", "internal/language", "internal/pdf", "internal/folder", "internal/loggerfile", "internal/kitchen", "internal/calendar", "internal/history", "internal/draw", "internal/labelmaker"}

// seeded may use math/rand/v2, with a seed that comes in as a value.
var seeded = []string{"internal/timetable", "internal/scatter", "internal/history", "internal/tastetrial", "internal/learned/truth"}

func TestImportsFollowTheLaw(t *testing.T) {
	seen := map[string]bool{}
	err := fs.WalkDir(os.DirFS("../.."), ".", func(file string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") {
			return err
		}
		pkg := path.Dir(file)
		seen[pkg] = true
		allowed, known := imports[pkg]
		if !known {
			t.Errorf("%s is missing from the law", pkg)
			return nil
		}
		f, err := parser.ParseFile(token.NewFileSet(), path.Join("../..", file), nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, spec := range f.Imports {
			name, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				return err
			}
			checkImport(t, file, pkg, name, strings.Fields(allowed))
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for pkg := range imports {
		if !seen[pkg] {
			t.Errorf("the law names %s, which is not there", pkg)
		}
	}
}

func checkImport(t *testing.T, file, pkg, name string, allowed []string) {
	t.Helper()
	if ours, ok := strings.CutPrefix(name, "kettlefrost/"); ok {
		if !slices.Contains(allowed, ours) {
			t.Errorf("%s imports %s: not by the law", file, ours)
		}
		return
	}
	if name == "time" && slices.Contains(dated, pkg) {
		return
	}
	if why, bad := worldly[name]; bad && !edges[pkg] {
		t.Errorf("%s imports %s: %s", file, name, why)
	}
	if name == "math/rand/v2" && !slices.Contains(seeded, pkg) {
		t.Errorf("%s imports %s: only %v may", file, name, seeded)
	}
}
