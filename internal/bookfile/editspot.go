package bookfile

import (
	"maps"
	"slices"

	"go.yaml.in/yaml/v4"

	"kettlefrost/internal/finding"
)

// spot is where something is written: a key of a group or table, or an entry of a list.
type spot struct {
	d      *doc
	holder *yaml.Node // what it stands in; nil for a single value that stands for a list of one
	i      int        // its place in holder.Content: of its key, or of itself in a list
	outer  *spot      // where holder stands; nil for a section
}

func (s *spot) keyed() bool { return s.holder != nil && s.holder.Kind == yaml.MappingNode }

// value is what is written there.
func (s *spot) value() *yaml.Node {
	switch {
	case s.holder == nil:
		return s.outer.value()
	case s.keyed():
		return s.holder.Content[s.i+1]
	default:
		return s.holder.Content[s.i]
	}
}

// at is where it is blamed: its key, or itself in a list.
func (s *spot) at() *yaml.Node {
	if s.keyed() {
		return s.holder.Content[s.i]
	}
	return s.value()
}

// indent is that of what it stands in, in columns.
func (s *spot) indent() int {
	if s.holder == nil {
		return s.outer.indent()
	}
	return s.holder.Column - 1
}

func (s *spot) end() int { return s.d.end(s.value(), s.indent()) }

func (e *editor) placed(err *EditError, s *spot) *EditError {
	err.At = &finding.Position{File: s.d.name, Line: s.at().Line, Column: s.at().Column}
	return err
}

// locate is where steps lead in the text; nil when it is not written.
func (e *editor) locate(steps []step) *spot {
	for _, name := range slices.Sorted(maps.Keys(e.docs)) {
		d := e.docs[name]
		if d.root == nil {
			continue
		}
		if s := keyIn(d, d.root, steps[0].key, nil); s != nil {
			if s = descend(s, steps[1:]); s != nil {
				return s
			}
		}
	}
	return nil
}

func keyIn(d *doc, n *yaml.Node, key string, outer *spot) *spot {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Kind == yaml.MappingNode && n.Content[i].Value == key {
			return &spot{d, n, i, outer}
		}
	}
	return nil
}

func descend(s *spot, steps []step) *spot {
	for _, one := range steps {
		n := s.value()
		switch {
		case one.in != list:
			s = keyIn(s.d, n, one.key, s)
		case n.Kind == yaml.ScalarNode && one.i == 0:
			s = &spot{d: s.d, outer: s}
		case n.Kind == yaml.SequenceNode && one.i < len(n.Content):
			s = &spot{s.d, n, one.i, s}
		default:
			s = nil
		}
		if s == nil {
			return nil
		}
	}
	return s
}
