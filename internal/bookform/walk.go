package bookform

import (
	"net/url"
	"reflect"
	"slices"
	"strings"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
)

// walker goes through the types of the nouns: it makes fields and reads what was typed into them.
type walker struct {
	book     kitchen.Book
	house    House
	at       bookfile.Standing
	typed    url.Values
	texts    map[string]written // what was typed, by its path
	moved    map[string]bool    // lists whose rows are not those of the book any more
	problems []Problem
}

// written is a single value that was typed: made tidy, and as the book would write it by itself.
type written struct{ tidy, usual string }

// value is the field of a key, and what it now holds. there says that the book has what the key stands in.
func (w *walker) value(k bookfile.Key, was reflect.Value, there bool, name, path, label string) walked {
	refs := w.choices(k, path)
	f := Field{Name: name, Path: path, Label: label, Help: sentence(k.Desc), Kind: kindOf(k, refs != nil), Required: k.Required, One: oneOf(k.Name)}
	if f.Help == f.Label {
		f.Help = ""
	}
	t := plain(k.Type)
	switch {
	case f.Kind == Group:
		return w.group(k, f, was, there)
	case f.Kind == Rows && t.Kind() == reflect.Map:
		return w.table(k, f, was)
	case f.Kind == Rows:
		return w.list(k, f, was)
	case f.Kind == Many || f.Kind == Answer || f.Kind == Lines || f.Kind == Words:
		return w.several(k, f, was, refs)
	}
	return w.one(k, f, was, there, refs)
}

func (w *walker) group(k bookfile.Key, f Field, was reflect.Value, there bool) walked {
	t := plain(k.Type)
	old := was
	if old.Kind() == reflect.Pointer {
		there = there && !old.IsNil()
		old = old.Elem()
	}
	if !old.IsValid() {
		old = reflect.Zero(t)
	}
	now := reflect.New(t).Elem()
	now.Set(old)
	before := len(w.problems)
	optional := f.Name != "" && !k.Required
	for _, key := range bookfile.Keys(t) {
		inner := w.value(key, old.Field(key.Index), there && (!optional || !bookfile.Blank(old)), f.Name+"."+key.Name, kitchen.PathTo(f.Path, key.Name), labelOf(t, key.Name))
		now.Field(key.Index).Set(inner.now)
		f.Fields = append(f.Fields, inner.Field)
		f.Open = f.Open || inner.Open || inner.Typed != "" && inner.Kind != YesNo || inner.Typed == "true" || len(inner.Picked) > 0
	}
	if optional && !f.Open { // nothing in it: what must be given within it need not be
		w.problems = w.problems[:before]
		clearProblems(f.Fields)
		now = reflect.Zero(t)
	}
	if k.Type.Kind() != reflect.Pointer {
		return walked{f, now}
	}
	if !f.Open {
		return walked{f, reflect.Zero(k.Type)}
	}
	one := reflect.New(t)
	one.Elem().Set(now)
	return walked{f, one}
}

// one is a field of a single value.
func (w *walker) one(k bookfile.Key, f Field, was reflect.Value, there bool, refs []Choice) walked {
	given := there || !bookfile.Blank(was)
	if given && (k.Required || !bookfile.Blank(was)) {
		f.Value = shown(was, w.house)
	}
	f.Typed, f.Suggest, f.Example = f.Value, w.suggest(k), w.example(plain(k.Type), f.Kind)
	texts, sent := w.typed[f.Name]
	now := was
	if sent && len(texts) > 0 {
		f.Typed = texts[len(texts)-1]
		now = w.read(k, &f, was, refs)
	}
	f.Choices = offered(refs, f.Typed, k.Required && f.Typed != "")
	return walked{f, now}
}

// read takes what was typed into a field.
func (w *walker) read(k bookfile.Key, f *Field, was reflect.Value, refs []Choice) reflect.Value {
	if strings.TrimSpace(f.Typed) == "" || f.Kind == YesNo && f.Typed != "true" && f.Typed != "on" {
		if k.Required && f.Kind != YesNo {
			w.wrong(f, missing(k, *f))
		}
		return reflect.Zero(k.Type)
	}
	if f.Typed == f.Value { // nothing was typed: nothing changes, whatever the book may say
		return was
	}
	got, err := scalar(k, plain(k.Type), f.Typed, w.house)
	if err == nil && refs != nil && !slices.ContainsFunc(refs, func(c Choice) bool { return c.Value == got.tidy }) {
		err = notThere(*f, refs)
	}
	if err != nil {
		w.wrong(f, sentence(err.Error()))
		return was
	}
	f.Read, w.texts[f.Path] = sentence(got.says), written{got.tidy, usual(got)}
	if k.Type.Kind() == reflect.Pointer {
		one := reflect.New(plain(k.Type))
		one.Elem().Set(got.value)
		return one
	}
	return got.value
}

func (w *walker) wrong(f *Field, text string) {
	f.Problem = text
	w.problems = append(w.problems, Problem{f.Name, f.Path, f.Label, text})
}
