package heatcase

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

// maxFileBytes is far more than any case needs.
const maxFileBytes = 64 << 10

// File is a case read from a file: one key of Fields a line, "pan: 2 in".
type File struct {
	Case   Case
	At     map[string]finding.Position // where each key stands
	name   string
	groups map[string]string // group of fields: the key that was given
	found  finding.List
}

// Read reads a case from the text of a YAML file; name is only said in what is found. A case with findings is not to be used. Whether a
// case without them makes sense is for Check to say; Locate then finds the lines.
func Read(name string, text []byte) (File, finding.List) {
	f := File{Case: Case{Units: unit.US}, At: map[string]finding.Position{}, name: name, groups: map[string]string{}}
	root, err := tree(text)
	if err != nil {
		f.syntax(err)
		return f, f.found
	}
	if root != nil {
		f.keys(root)
	}
	return f, f.found
}

// Locate puts the places of a file's keys into findings about its case.
func (f File) Locate(found finding.List) finding.List {
	located := make(finding.List, len(found))
	for i, x := range found {
		if at, ok := f.At[x.Path]; ok {
			x.At = &at
		}
		located[i] = x
	}
	return located
}

func (f *File) stop(key string, at *finding.Position, message, fix string) {
	f.found = append(f.found, finding.Finding{Code: CodeFile, Severity: finding.Stop, Where: "the case", Path: key, At: at, Message: message, Fix: fix})
}

func (f *File) syntax(err error) {
	at := finding.Position{File: f.name}
	message := err.Error()
	if load, ok := errors.AsType[*yaml.LoadError](err); ok {
		at.Line, at.Column, message = load.Mark.Line, load.Mark.Column, load.Message
	}
	f.stop("", &at, "it cannot be read: "+message, "write one key and its value on each line, such as pan: 2 in")
}

// tree is the only document of a text; nil when it has comments only.
func tree(text []byte) (root *yaml.Node, err error) {
	switch {
	case len(text) > maxFileBytes:
		return nil, fmt.Errorf("it is larger than the %d kB of a case", maxFileBytes>>10)
	case !utf8.Valid(text):
		return nil, errors.New("it is not text in UTF-8")
	}
	defer func() { // the library reports some of its mistakes by panics
		if p := recover(); p != nil {
			root, err = nil, fmt.Errorf("it is not YAML: %v", p)
		}
	}()
	loader, err := yaml.NewLoader(bytes.NewReader(text))
	if err != nil {
		return nil, err
	}
	var document, second yaml.Node
	switch err := loader.Load(&document); {
	case errors.Is(err, io.EOF):
		return nil, nil
	case err != nil:
		return nil, err
	}
	if err := loader.Load(&second); !errors.Is(err, io.EOF) {
		if err != nil {
			return nil, err
		}
		return nil, fmt.Errorf("a second document begins at line %d", second.Line)
	}
	if len(document.Content) == 0 {
		return nil, nil
	}
	return document.Content[0], nil
}

// mostFound is how many mistakes of a file are said at once.
const mostFound = 20

func (f *File) keys(root *yaml.Node) {
	if root.Kind != yaml.MappingNode {
		f.stop("", f.place(root), "there are no keys in it", "write one key and its value on each line, such as pan: 2 in")
		return
	}
	for i := 0; i+1 < len(root.Content) && len(f.found) < mostFound; i += 2 {
		f.key(root.Content[i], root.Content[i+1])
	}
}

func (f *File) place(n *yaml.Node) *finding.Position {
	return &finding.Position{File: f.name, Line: n.Line, Column: n.Column}
}

// key reads one key with its value.
func (f *File) key(k, v *yaml.Node) {
	field, known := fieldOf(k.Value)
	earlier, taken := f.At[k.Value]
	switch {
	case k.Kind != yaml.ScalarNode || !known:
		f.stop(k.Value, f.place(k), "there is no key "+quoted(k.Value), nearKey(k.Value))
		return
	case taken:
		f.stop(k.Value, f.place(k), fmt.Sprintf("%s stands at %s already", k.Value, earlier), "keep one of them")
		return
	}
	f.At[k.Value] = *f.place(v)
	example := "write it like " + field.Key + ": " + field.Example
	switch {
	case v.Kind != yaml.ScalarNode || v.Anchor != "" || v.Style&yaml.TaggedStyle != 0:
		f.stop(field.Key, f.place(v), field.Key+" is not a single value", example)
		return
	case strings.TrimSpace(v.Value) == "":
		f.stop(field.Key, f.place(k), field.Key+" has nothing after it", example+", or leave the key out")
		return
	case field.Group != "" && f.groups[field.Group] != "":
		f.stop(field.Key, f.place(k), fmt.Sprintf("it has a %s already: %s", field.Group, f.groups[field.Group]), "keep one of them")
		return
	}
	if field.Group != "" {
		f.groups[field.Group] = field.Key
	}
	if err := f.Case.Set(field.Key, v.Value); err != nil {
		f.stop(field.Key, f.place(v), field.Key+": "+err.Error(), example)
	}
}
