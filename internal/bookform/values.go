package bookform

import "net/url"

// Values are what a browser sends of a form as it stands.
func (f Form) Values() url.Values {
	v := url.Values{}
	for _, g := range f.Groups {
		put(v, g.Fields)
	}
	return v
}

func put(v url.Values, fields []Field) {
	for _, f := range fields {
		switch f.Kind {
		case Group:
			put(v, f.Fields)
		case Rows:
			v.Add(f.Name, "")
			for _, r := range f.Rows {
				v.Add(r.Name+wasMark, r.Was)
				if r.Key != nil {
					v.Add(r.Key.Name, r.Key.Typed)
				}
				put(v, r.Fields)
			}
		case Many, Answer:
			v.Add(f.Name, "")
			for _, c := range f.Choices {
				if c.Chosen {
					v.Add(f.Name, c.Value)
				}
			}
			if f.Kind == Answer {
				v.Add(f.Name, f.Typed)
			}
		default:
			v.Add(f.Name, f.Typed)
		}
	}
}

// Problems are all fields of a form in which something is wrong, in its order.
func (f Form) Problems() (all []Field) {
	for _, g := range f.Groups {
		each(g.Fields, func(x Field) {
			if x.Problem != "" {
				all = append(all, x)
			}
		})
	}
	return all
}

// All are the fields of a form, those within others after them.
func (f Form) All() (all []Field) {
	for _, g := range f.Groups {
		each(g.Fields, func(x Field) { all = append(all, x) })
	}
	return all
}

// Field is the field of a form that has a control of some name.
func (f Form) Field(name string) (found Field, ok bool) {
	for _, g := range f.Groups {
		each(g.Fields, func(x Field) {
			if x.Name == name {
				found, ok = x, true
			}
		})
	}
	return found, ok
}

func each(fields []Field, do func(Field)) {
	for _, f := range fields {
		do(f)
		each(f.Fields, do)
		for _, r := range f.Rows {
			if r.Key != nil {
				do(*r.Key)
			}
			each(r.Fields, do)
		}
	}
}
