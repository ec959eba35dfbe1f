package web

import (
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
	tree "text/template/parse"
)

// componentFiles hold the parts that pages of several areas are made of. Each of their templates stands on the page of how everything looks.
var componentFiles = []string{"parts", "components", "board", "cooling", "choices", "keys", "run"}

// unshown are templates of those files that show nothing by themselves, or that the page has anyway.
var unshown = map[string]string{"kept": "hidden fields", "plainpicture": "as picture, without a narrow twin", "keysheet": "every page has it", "boardwords": "what scripts say"}

// invoked are the templates that a template uses, and those that they use.
func invoked(t *testing.T, name string, into map[string]bool) {
	x := componentsTemplate.t.Lookup(name)
	if x == nil || x.Tree == nil || into[name] {
		return
	}
	into[name] = true
	var walk func(n tree.Node)
	walk = func(n tree.Node) {
		switch n := n.(type) {
		case *tree.ListNode:
			if n != nil {
				for _, x := range n.Nodes {
					walk(x)
				}
			}
		case *tree.IfNode:
			walk(n.List)
			walk(n.ElseList)
		case *tree.RangeNode:
			walk(n.List)
			walk(n.ElseList)
		case *tree.WithNode:
			walk(n.List)
			walk(n.ElseList)
		case *tree.TemplateNode:
			invoked(t, n.Name, into)
		}
	}
	walk(x.Tree.Root)
}

func TestTheLookPageShowsEveryComponent(t *testing.T) {
	shown := map[string]bool{}
	invoked(t, "content", shown)
	count := 0
	for _, file := range componentFiles {
		data, err := fs.ReadFile(templates, path.Join("templates/shared", file+".html"))
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range regexp.MustCompile(`\{\{define "([^"]+)"`).FindAllStringSubmatch(string(data), -1) {
			count++
			if !shown[m[1]] && unshown[m[1]] == "" {
				t.Errorf("%s of %s.html does not stand on the page of how everything looks", m[1], file)
			}
		}
	}
	if count < 20 {
		t.Errorf("only %d components were found", count)
	}
}

// Each state of a component is on the page, and every look is one link away.
func TestTheLookPageShowsEveryState(t *testing.T) {
	h := demoKitchen(t)
	page := get(h, componentsPath).Body.String()
	for _, want := range []string{`class="finding stop"`, `class="finding caution"`, `class="finding note"`, `class="tally stop"`, `class="jobs do"`, `class="jobs next"`, `class="jobs wait"`, `class="jobs way"`, `class="job due"`, "waits for:", "3 min over", "20 min later",
		`class="load yes"`, `class="load stop"`, `aria-invalid="true"`, "read as 2 lb 3 oz", " disabled", "Take it back", "goes first", "past its day", "popover", `class="quiet"`, "<svg", "sw-caution-ground"} {
		if !strings.Contains(page, want) {
			t.Errorf("no %s", want)
		}
	}
	for _, look := range []string{"light", "dark", "light.high", "dark.high", "larger", "largest"} {
		if !strings.Contains(page, componentsPath+"?look="+look+`"`) {
			t.Errorf("no link to %s", look)
		}
	}
	if page := get(h, componentsPath+"?look=dark.high").Body.String(); !strings.Contains(page, stylesFor(deviceLook{Scheme: darkLook, High: true})) {
		t.Error("the link to dark and high contrast does not show it")
	}
	if w := post(h, componentsPath, nil); w.Code != 303 || w.Header().Get("Location") != componentsPath {
		t.Errorf("what is pressed there answers %d", w.Code)
	}
	rendered(t, "look", componentsTemplate)
	rendered(t, "device", deviceTemplate)
	rendered(t, "keys", keysTemplate)
}

// Every colour of the tokens has its swatch.
func TestEveryColourIsShown(t *testing.T) {
	page := get(demoKitchen(t), componentsPath).Body.String()
	css, _ := static.ReadFile("static/look.css")
	for name := range themes(t)["light"] {
		if !strings.Contains(page, "sw-"+name+`"`) || !slices.Contains(strings.Fields(string(css)), ".sw-"+name) {
			t.Errorf("--%s is not shown", name)
		}
	}
}
