package web

import (
	"bytes"
	"fmt"
	"html/template"
	"reflect"
	"strings"
	"testing"
)

// Every page can be shown with nothing in it, and with everything in it; then every text of its struct stands on the page, and
// stands there as text. Variants are pages whose parts exclude each other.
func TestPagesEmptyAndFull(t *testing.T) {
	rendered(t, "home", homeTemplate)
	rendered(t, "glance", glanceTemplate, func(p *glancePage) { p.Glance, p.Form.Wrong = nil, false }, func(p *glancePage) { p.Glance = inShort(p.Glance); p.Glance.Next.At = "" }, func(p *glancePage) { p.Keep.Made = false })
	rendered(t, "findings", findingsTemplate)
	rendered(t, "cook", cookTemplate)
	rendered(t, "chill", chillTemplate)
	rendered(t, "freeze", freezeTemplate)
	rendered(t, "cards", cardsTemplate)
	rendered(t, "labels", labelsTemplate)
	rendered(t, "day", dayTemplate, func(p *dayPage) { p.Moves, p.AsPlanned = nil, false }, func(p *dayPage) { p.Moves, p.Day.People = nil, nil })
	rendered(t, "sheet", sheetTemplate)
	rendered(t, "next", nextTemplate, func(p *nextPage) { p.Next.At = "" })
	rendered(t, "shopping", shoppingTemplate)
	rendered(t, "seal", sealTemplate)
	rendered(t, "money", moneyTemplate)
	rendered(t, "week", weekTemplate)
	rendered(t, "book", bookTemplate)
	rendered(t, "foods", foodsTemplate)
	rendered(t, "fillings", fillingsTemplate)
	rendered(t, "filling", fillingTemplate)
	rendered(t, "stock", stockTemplate, func(p *stockPage) { p.None = false })
	rendered(t, "lot", lotTemplate, func(p *lotPage) { p.None = false }, func(p *lotPage) { p.None, p.Misread = false, "" }, func(p *lotPage) { p.None, p.Unknown, p.Misread = false, "", "" })
	rendered(t, "recall", recallTemplate, recallVariants...)
	rendered(t, "drills", drillsTemplate, func(p *drillsPage) { p.None = false })
	rendered(t, "recallreport", recallReportTemplate)
	rendered(t, "rule", ruleTemplate, func(p *rulePage) { p.None = false })
	rendered(t, "cool", coolTemplate)
	rendered(t, "form", formTemplate)
	rendered(t, "orders", ordersTemplate, func(p *ordersPage) { p.None = false })
	rendered(t, "order", orderTemplate)
	rendered(t, "orderform", orderFormTemplate, func(p *orderFormPage) { p.OneOff = false })
	rendered(t, "orderstanding", standingTemplate)
	rendered(t, "orderslip", slipTemplate)
	rendered(t, "orderroute", deliveriesTemplate)
	rendered(t, "pick", pickTemplate)
	rendered(t, "customers", customersTemplate)
	rendered(t, "customer", customerTemplate)
	rendered(t, "missing", missingTemplate)
	rendered(t, "refused", refusedTemplate)
	rendered(t, "homecard", homeCardTemplate)
	rendered(t, "draftdish", draftTemplate, func(p *draftPage) { s := *p.Shown; s.Kept = false; p.Shown = &s }, func(p *draftPage) { s := *p.Shown; s.Savable = false; p.Shown = &s }, func(p *draftPage) { p.Shown = nil })
	rendered(t, "find", findTemplate)
	rendered(t, "who", whoTemplate)
	rendered(t, "keeprun", keptRunTemplate, func(p *keptRunPage) { p.Files = nil }, func(p *keptRunPage) { p.Files, p.Form.Made = nil, false }, func(p *keptRunPage) { p.Demo = false })
	rendered(t, "start", startTemplate, func(p *startPage) { p.None = false }, func(p *startPage) { p.None, p.Own = false, "" }, func(p *startPage) { p.None, p.Own, p.Kept = false, "", false }, func(p *startPage) { p.Check.Found = findingsView{} })
}

// inShort is a copy that can be changed.
func inShort(v *glanceView) *glanceView {
	c := *v
	return &c
}

// unseen are fields that choose how something is shown rather than being shown.
var unseen = map[string]bool{"ID": true, "Class": true, "Here": true, "Worst": true, "Night": true, "Narrow": true, "NarrowDim": true, "Inline": true, "Alt": true} // srcset takes addresses only, so no marks

func rendered[T any](t *testing.T, name string, p page[T], variants ...func(*T)) {
	t.Run(name, func(t *testing.T) {
		var empty T
		if err := p.t.ExecuteTemplate(&bytes.Buffer{}, "page", empty); err != nil {
			t.Errorf("empty: %v", err)
		}
		var full T
		f := &filler{}
		f.fill(reflect.ValueOf(&full).Elem(), "")
		var out bytes.Buffer
		if err := p.t.ExecuteTemplate(&out, "page", full); err != nil {
			t.Fatalf("full: %v", err)
		}
		for _, change := range variants {
			other := full
			change(&other)
			if err := p.t.ExecuteTemplate(&out, "page", other); err != nil {
				t.Fatalf("a variant: %v", err)
			}
		}
		sameElsewhere(t, p, full)
		page := out.String()
		if strings.Contains(page, "<evil") {
			t.Error("a text became markup")
		}
		for _, mark := range f.marks {
			if !strings.Contains(page, mark.text) && !strings.Contains(page, strings.ToLower(mark.text)) {
				t.Errorf("%s is not on the page", mark.path)
			}
		}
	})
}

// filler puts a different mark into every text of a struct, true into every condition and two entries into every list.
type filler struct {
	marks []struct{ path, text string }
}

func (f *filler) fill(v reflect.Value, path string) {
	switch v.Kind() {
	case reflect.String:
		text := fmt.Sprintf("mark%dx", len(f.marks))
		if v.Type() == reflect.TypeFor[template.HTML]() {
			v.SetString("<svg>" + text + "</svg>")
		} else {
			v.SetString(text + `<evil a="b">`)
		}
		if name := path[strings.LastIndexByte(path, '.')+1:]; !unseen[name] {
			f.marks = append(f.marks, struct{ path, text string }{path, text})
		}
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Int:
		v.SetInt(7)
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		for i := range 2 {
			f.fill(v.Index(i), path)
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		f.fill(v.Elem(), path)
	case reflect.Struct:
		for i := range v.NumField() {
			if !v.Type().Field(i).Anonymous && !v.Type().Field(i).IsExported() {
				continue
			}
			if v.Type().Field(i).Anonymous { // an embedded struct of ours: its fields can be set through their promotion
				f.fill(reflect.NewAt(v.Field(i).Type(), v.Field(i).Addr().UnsafePointer()).Elem(), path)
				continue
			}
			f.fill(v.Field(i), path+"."+v.Type().Field(i).Name)
		}
	}
}
