package bookform

import (
	"reflect"
	"slices"
	"strings"

	"kettlefrost/internal/allergen"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
)

// several is a field of single values without keys of their own: words, lines, several entries of the book, the answer about allergens.
func (w *walker) several(k bookfile.Key, f Field, was reflect.Value, refs []Choice) walked {
	old := valuesOf(was, w.house)
	f.Picked, f.Example = old, w.example(k.Type, f.Kind)
	f.Suggest = append(w.suggest(k), k.Choices...)
	f.Value = strings.Join(old, between(f.Kind))
	f.Typed = f.Value
	now := was
	if texts, sent := w.typed[f.Name]; sent {
		f.Typed = strings.Join(nonEmpty(texts), between(f.Kind))
		if f.Kind == Words || f.Kind == Lines {
			f.Typed = texts[len(texts)-1]
		}
		f.Picked = parted(f.Kind, texts, k.Type)
		if !slices.Equal(f.Picked, old) {
			now = w.listOf(k, &f, inOrderOf(old, f.Picked), refs)
		}
	}
	if f.Kind == Answer {
		w.answer(&f)
	} else {
		f.Choices = picked(refs, f.Picked)
	}
	return walked{f, now}
}

func valuesOf(v reflect.Value, h House) []string {
	if a, ok := v.Interface().(kitchen.Allergens); ok {
		return a.List()
	}
	return listed(v, h)
}

func between(k Kind) string {
	if k == Lines {
		return "\n"
	}
	return ", "
}

func nonEmpty(texts []string) []string {
	return slices.DeleteFunc(slices.Clone(texts), func(s string) bool { return strings.TrimSpace(s) == "" })
}

// parted takes apart what was sent for a list: each control may hold several.
func parted(kind Kind, texts []string, t reflect.Type) (all []string) {
	cut := func(r rune) bool { return r == '\n' || r == ',' || r == ';' }
	if kind == Lines {
		numbers := t.Kind() == reflect.Slice && quantity(t.Elem())
		cut = func(r rune) bool { return r == '\n' || r == ';' && numbers }
	}
	for _, text := range texts {
		for _, part := range strings.FieldsFunc(text, cut) {
			if part = squeezed(part); part != "" && (kind == Lines || !slices.Contains(all, part)) {
				all = append(all, part)
			}
		}
	}
	return all
}

// inOrderOf keeps what was there in its order, and what is new behind it, where the order of the controls says nothing.
func inOrderOf(old, now []string) []string {
	if len(now) == 0 || slices.Equal(old, now) {
		return now
	}
	var all []string
	for _, x := range old {
		if slices.Contains(now, x) && !slices.Contains(all, x) {
			all = append(all, x)
		}
	}
	for _, x := range now {
		if !slices.Contains(all, x) {
			all = append(all, x)
		}
	}
	return all
}

// listOf reads the values of a list.
func (w *walker) listOf(k bookfile.Key, f *Field, inOrder []string, refs []Choice) reflect.Value {
	texts := f.Picked
	if f.Kind == Many || f.Kind == Answer {
		texts = inOrder
	}
	if len(texts) == 0 {
		if k.Required {
			w.wrong(f, missing(k, *f))
		}
		return reflect.Zero(k.Type)
	}
	if f.Kind == Answer {
		return w.answered(f, texts)
	}
	all := reflect.MakeSlice(k.Type, 0, len(texts))
	one := k
	one.Type = k.Type.Elem()
	var tidy []string
	for _, text := range texts {
		got, err := scalar(one, one.Type, text, w.house)
		if err == nil && refs != nil && !slices.ContainsFunc(refs, func(c Choice) bool { return c.Value == got.tidy }) {
			err = notThere(Field{Label: f.Label, Typed: text}, refs)
		}
		if err != nil {
			w.wrong(f, sentence(err.Error()))
			return reflect.Zero(k.Type)
		}
		all, tidy = reflect.Append(all, got.value), append(tidy, got.tidy)
	}
	if !slices.Equal(tidy, texts) {
		f.Read = sentence("read as " + strings.Join(tidy, ", "))
	}
	return all
}

// answered reads the answer about allergens.
func (w *walker) answered(f *Field, texts []string) reflect.Value {
	var a kitchen.Allergens
	if err := a.SetNames(texts); err != nil {
		w.wrong(f, "Either none, or the allergens that are in it: not both.")
		return reflect.ValueOf(kitchen.Allergens{})
	}
	return reflect.ValueOf(a)
}

// answer offers none and the major allergens; those of which a kind must be named are typed.
func (w *walker) answer(f *Field) {
	known := []Choice{{Value: "none", Name: "none: somebody has looked"}}
	for _, m := range allergen.Majors() {
		if m.Example == "" {
			known = append(known, Choice{Value: m.Word, Name: m.Word})
		} else {
			f.Suggest = append(f.Suggest, m.Example)
		}
	}
	f.Choices = picked(known, f.Picked)
	var others []string
	for _, p := range f.Picked {
		if !slices.ContainsFunc(known, func(c Choice) bool { return c.Value == p }) {
			others = append(others, p)
		}
	}
	f.Typed = strings.Join(others, ", ")
}

func picked(from []Choice, values []string) []Choice {
	all := slices.Clone(from)
	for i := range all {
		all[i].Chosen = slices.Contains(values, all[i].Value)
	}
	return all
}
