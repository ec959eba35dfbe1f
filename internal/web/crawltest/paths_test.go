package crawltest

import (
	"go/ast"
	"net/http"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// elsewhere are the pages that need something to have happened in the kitchen, by the test that looks at them on all screens.
var elsewhere = map[string][]string{
	"TestBillPagesOnScreens":         {"/bills", "/bills/check", "/bills/new", "/bill/{number}", "/bill/{number}/credit", "/customer/{id}/account", "/next-run"},
	"TestTheBoardOnScreens":          {"/board/{run}", "/board/{run}/task"},
	"TestTheBookOnScreens":           {"/book/{section}", "/book/{section}/new", "/book/{section}/{id}", "/book/{section}/{id}/copy", "/book/{section}/{id}/retire", "/book/{section}/{id}/versions", "/book/{section}/{id}/compare", "/book/{section}/versions", "/book/{section}/compare"},
	"TestCoolingOnScreens":           {"/cooling"},
	"TestHeatOnScreens":              {"/heat"},
	"TestWhatRunsHaveShownOnScreens": {"/workshop/learned", "/workshop/learned/figure"},
	"TestALoggersFile":               {"/logs/import/{key}"},
	"TestTheOfficeOnScreens":         {"/office", "/office/sheet/{kind}", "/book/files", "/book/file", "/book/compare"},
	"TestOrderPagesOnScreens": {"/orders", "/orders/new", "/order/{id}", "/order/{id}/change", "/order/{id}/slip", "/customers", "/customers/new",
		"/customer/{id}", "/pick/{day}", "/route/{day}"},
	"TestPagesOfPeopleOnScreens":   {"/people", "/people/{id}", "/sign-in", "/person", "/person/secrets"},
	"TestCriticalRecordsOnScreens": {"/safety", "/safety/run", "/safety/stage"},
	"TestTheWatchOnScreens":        {"/thermometers", "/thermometers/check", "/freezers/watch", "/freezers/watch/excursion", "/freezers/watch/life"},
	"TestTrialsOnScreens":          {"/workshop/trials", "/workshop/trials/new", "/workshop/trials/{trial}", "/workshop/trials/{trial}/sheet", "/workshop/trials/{trial}/made", "/workshop/trials/{trial}/open", "/workshop/trials/{trial}/taste", "/workshop/trials/{trial}/results"},
}

// unseen are routes that no browser has to look at: why.
var unseen = map[string]string{
	"/events":                         "a stream of what was entered, no page",
	"/orders/{id}/bill":               "leads to the form of an invoice",
	"/office/table/{name}":            "a file",
	"/workshop/pictures/{hash}":       "a picture",
	"/workshop/pictures/{hash}/small": "a picture",
	"/run/{name}/masses/{dish}":       "a drawing",
	"/credit/{number}":                "the same page as an invoice's, with another heading",
	"/freezers/watch/lot":             "a form that TestAChestThatGotWarm fills in",
	"/stock/counted":                  "what a count entered; the walk of the stock ends there",
	"/plan":                           "leads to the run that its form describes",
	"/jobs/{id}":                      "how far long work is, which TestLongWorkIsStoppedAndFinished follows",
	"/dish/{id}/do":                   "leads to the dish as it then is",
	"/dish/{id}/plan":                 "a part that is put into the page of the dish",
	"/carried/{token}":                "TestADraftOutlivesALostSession follows it",
	"/hazards/review":                 "the same form as /hazards/edit, of a version",
	"/recall/rule/{event}":            "the same page as /recall/rule, of a test that was made",
}

// Every page is among those that are looked at in a browser, on every screen, or has a test of its own there.
func TestEveryPageIsLookedAt(t *testing.T) {
	routes := readRoutes(t)
	files := parsed(t, "../browsertest/*_test.go")
	looked := map[string]bool{}
	for _, p := range textsIn(variable(t, files, "paths")) {
		if strings.HasPrefix(p, "/") {
			looked[routes.of(http.MethodGet, p)] = true
		}
	}
	tests := functionsIn(files)
	told := map[string]bool{}
	for test, patterns := range elsewhere {
		if !tests[test] {
			t.Errorf("%s is not there, and is said to look at %q", test, patterns)
		}
		for _, pattern := range patterns {
			told["GET "+pattern] = true
		}
	}
	for pattern := range unseen {
		told["GET "+pattern] = true
	}
	for _, pattern := range routes.patterns {
		if isPage(pattern) && !looked[pattern] && !told[pattern] {
			t.Errorf("%s is not among the paths of browsertest, and has no test of its own there", pattern)
		}
	}
	for pattern := range told {
		if !slices.Contains(routes.patterns, pattern) {
			t.Errorf("%s is no route", pattern)
		}
	}
}

// isPage tells whether a route answers with a page, by its pattern: files have a name with an ending, or are drawings.
func isPage(pattern string) bool {
	address, get := strings.CutPrefix(pattern, "GET ")
	last := path.Base(address)
	return get && !strings.Contains(last, ".") && !slices.Contains([]string{"{file}", "{look}", "{of...}", "{name...}"}, last)
}

func variable(t testing.TB, files []*ast.File, name string) ast.Node {
	t.Helper()
	for _, f := range files {
		if o := f.Scope.Lookup(name); o != nil {
			return o.Decl.(*ast.ValueSpec)
		}
	}
	t.Fatalf("there is no %s", name)
	return nil
}

// textsIn are the texts that stand in a piece of code.
func textsIn(n ast.Node) []string {
	var all []string
	ast.Inspect(n, func(n ast.Node) bool {
		if lit, ok := n.(*ast.BasicLit); ok {
			if text, err := strconv.Unquote(lit.Value); err == nil {
				all = append(all, text)
			}
		}
		return true
	})
	return all
}

func functionsIn(files []*ast.File) map[string]bool {
	all := map[string]bool{}
	for _, f := range files {
		for _, d := range f.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok {
				all[fn.Name.Name] = true
			}
		}
	}
	return all
}
