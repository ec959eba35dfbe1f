package record

import (
	"reflect"
	"slices"
	"strings"
)

// structCodec is a JSON object. A field with omitzero in its tag is optional and left out when it is empty; every other must be there.
type structCodec struct {
	fields []field
	agrees bool
}

type field struct {
	name     string
	optional bool
	codec    codec
}

// agreeing is a struct whose fields have rules with one another.
type agreeing interface{ agree(c *checker) }

func structOf(t reflect.Type) structCodec {
	s := structCodec{agrees: t.Implements(reflect.TypeFor[agreeing]())}
	for i := range t.NumField() {
		f := t.Field(i)
		name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name == "" {
			panic("record: no name in JSON for " + t.String() + "." + f.Name)
		}
		s.fields = append(s.fields, field{name, options == "omitzero", codecOf(f.Type)})
	}
	return s
}

// empty says whether an optional field is left out.
func empty(v reflect.Value) bool {
	return v.IsZero() || v.Kind() == reflect.Slice && v.Len() == 0
}

func (s structCodec) write(dst []byte, v reflect.Value) []byte {
	open := len(dst)
	for i, f := range s.fields {
		if f.optional && empty(v.Field(i)) {
			continue
		}
		dst = append(dst, ',', '"')
		dst = append(dst, f.name...)
		dst = append(dst, '"', ':')
		dst = f.codec.write(dst, v.Field(i))
	}
	if len(dst) == open {
		dst = append(dst, ',')
	}
	dst[open] = '{'
	return append(dst, '}')
}

func (s structCodec) read(r *reader, v reflect.Value) error {
	seen := make([]bool, len(s.fields))
	err := r.items('{', '}', "an object in curly brackets", func(int) error {
		name, err := r.text("the name of a field in quotation marks")
		if err != nil {
			return err
		}
		r.enter(name, 0)
		defer r.leave()
		i := slices.IndexFunc(s.fields, func(f field) bool { return f.name == name })
		switch {
		case i < 0:
			return r.fail("is no field here", "leave it out; the fields are "+s.names())
		case seen[i]:
			return r.fail("stands there twice", "write it once")
		case !r.accept(':'):
			return r.expected("a colon")
		}
		seen[i] = true
		return s.fields[i].codec.read(r, v.Field(i))
	})
	if err != nil {
		return err
	}
	for i, f := range s.fields {
		if !f.optional && !seen[i] {
			r.enter(f.name, 0)
			defer r.leave()
			return r.fail("is missing", "add it")
		}
	}
	return nil
}

func (s structCodec) names() string {
	var names []string
	for _, f := range s.fields {
		names = append(names, f.name)
	}
	return strings.Join(names, ", ")
}

func (s structCodec) check(c *checker, v reflect.Value) {
	for i, f := range s.fields {
		if f.optional && empty(v.Field(i)) {
			continue
		}
		c.enter(f.name, 0)
		f.codec.check(c, v.Field(i))
		c.leave()
	}
	if s.agrees {
		v.Interface().(agreeing).agree(c)
	}
}

// listCodec is a JSON array.
type listCodec struct{ of codec }

func (l listCodec) write(dst []byte, v reflect.Value) []byte {
	dst = append(dst, '[')
	for i := range v.Len() {
		if i > 0 {
			dst = append(dst, ',')
		}
		dst = l.of.write(dst, v.Index(i))
	}
	return append(dst, ']')
}

func (l listCodec) read(r *reader, v reflect.Value) error {
	return r.items('[', ']', "a list in square brackets", func(i int) error {
		r.enter("", i)
		defer r.leave()
		item := reflect.New(v.Type().Elem()).Elem()
		if err := l.of.read(r, item); err != nil {
			return err
		}
		v.Set(reflect.Append(v, item))
		return nil
	})
}

func (l listCodec) check(c *checker, v reflect.Value) {
	if v.Len() == 0 {
		c.wrong("is empty", "write at least one")
	}
	for i := range v.Len() {
		c.enter("", i)
		l.of.check(c, v.Index(i))
		c.leave()
	}
}

// pointerCodec is a value that may be missing where zero means something: 0 °C.
type pointerCodec struct{ to codec }

func (p pointerCodec) write(dst []byte, v reflect.Value) []byte { return p.to.write(dst, v.Elem()) }

func (p pointerCodec) read(r *reader, v reflect.Value) error {
	v.Set(reflect.New(v.Type().Elem()))
	return p.to.read(r, v.Elem())
}

func (p pointerCodec) check(c *checker, v reflect.Value) { p.to.check(c, v.Elem()) }
