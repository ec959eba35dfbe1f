package bookform

import (
	"strings"

	"kettlefrost/internal/finding"
)

// ID is a name for the control in a page: letters, digits and hyphens alone.
func (f Field) ID() string { return "f" + idText(f.Name) }

// ID is a name for the row in a page.
func (r Row) ID() string { return "r" + idText(r.Name) }

func idText(name string) string {
	return strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-' {
			return r
		}
		return '_'
	}, name)
}

// Place puts findings beside the fields that they are about, opens what these stand in, and returns the others.
func (f *Form) Place(found finding.List) (others finding.List) {
	all := map[string]*Field{}
	for i := range f.Groups {
		byPath(f.Groups[i].Fields, all)
	}
	for _, x := range found {
		at := nearest(x.Path, f.Path, all)
		if at == nil {
			others = append(others, x)
			continue
		}
		at.Found = append(at.Found, x)
	}
	for i := range f.Groups {
		f.Groups[i].Open = opened(f.Groups[i].Fields) || f.Groups[i].Open
	}
	return others
}

func byPath(fields []Field, all map[string]*Field) {
	for i := range fields {
		x := &fields[i]
		if _, there := all[x.Path]; !there {
			all[x.Path] = x
		}
		byPath(x.Fields, all)
		for j := range x.Rows {
			byPath(x.Rows[j].Fields, all)
		}
	}
}

// nearest is the field of a path, or of the smallest larger thing around it within the form.
func nearest(path, form string, all map[string]*Field) *Field {
	for len(path) > len(form) {
		if at := all[path]; at != nil {
			return at
		}
		path = path[:max(strings.LastIndexByte(path, '.'), strings.LastIndexByte(path, '['), 0)]
	}
	return nil
}

// opened opens the groups in which something stands out, and says whether there is any.
func opened(fields []Field) bool {
	any := false
	for i := range fields {
		x := &fields[i]
		inner := opened(x.Fields)
		for j := range x.Rows {
			inner = opened(x.Rows[j].Fields) || inner
		}
		x.Open = x.Open || inner
		any = any || inner || x.Problem != "" || len(x.Found) > 0
	}
	return any
}

// Without leaves out the fields that somebody may not see. What is not in a form stays as it is in the book.
func (f Form) Without(hidden func(Field) bool) Form {
	groups := f.Groups
	f.Groups = nil
	for _, g := range groups {
		g.Fields = without(g.Fields, hidden)
		f.Groups = append(f.Groups, g)
	}
	return f
}

func without(fields []Field, hidden func(Field) bool) []Field {
	var all []Field
	for _, x := range fields {
		if hidden(x) {
			continue
		}
		x.Fields = without(x.Fields, hidden)
		rows := x.Rows
		x.Rows = nil
		for _, r := range rows {
			r.Fields = without(r.Fields, hidden)
			x.Rows = append(x.Rows, r)
		}
		all = append(all, x)
	}
	return all
}

// Each goes through the fields of a form, to say more beside them.
func (f *Form) Each(do func(*Field)) {
	for i := range f.Groups {
		eachOf(f.Groups[i].Fields, do)
	}
}

func eachOf(fields []Field, do func(*Field)) {
	for i := range fields {
		do(&fields[i])
		eachOf(fields[i].Fields, do)
		for j := range fields[i].Rows {
			eachOf(fields[i].Rows[j].Fields, do)
		}
	}
}
