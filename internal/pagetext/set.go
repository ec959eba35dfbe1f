package pagetext

import (
	"fmt"
	"io/fs"
	"path"
	"slices"
	"text/template/parse"
)

// Message is text of a template that people read.
type Message struct{ File, English string }

// Messages are all messages of the templates that match the patterns, each once for each file, sorted.
func Messages(from fs.FS, patterns ...string) ([]Message, error) {
	trees := map[string]*parse.Tree{}
	var names []string
	bodies := map[string][]*parse.Tree{} // of one name: each page has a "content"
	for _, pattern := range patterns {
		files, err := fs.Glob(from, pattern)
		if err != nil {
			return nil, err
		}
		for _, file := range files {
			source, err := fs.ReadFile(from, file)
			if err != nil {
				return nil, err
			}
			t := parse.New(path.Base(file))
			t.Mode = parse.SkipFuncCheck
			set := map[string]*parse.Tree{}
			if _, err := t.Parse(string(source), "", "", set); err != nil {
				return nil, err
			}
			for name, x := range set {
				names = append(names, name)
				trees[name] = x
				bodies[name] = append(bodies[name], x)
			}
		}
	}
	slices.Sort(names)
	var all []Message
	shown := map[string]string{}
	for name, x := range trees {
		shown[name] = x.Root.String()
	}
	r := Rewriter{Parsed: func(name string) string { return shown[name] }, Words: func(file, english string) (string, bool) {
		all = append(all, Message{file, english})
		return "", false
	}}
	for _, name := range slices.Compact(names) {
		for _, x := range bodies[name] {
			if err := r.Rewrite(x); err != nil {
				return nil, fmt.Errorf("template %s: %w", name, err)
			}
		}
	}
	slices.SortFunc(all, func(a, b Message) int { return cmpMessages(a, b) })
	return slices.Compact(all), nil
}

func cmpMessages(a, b Message) int {
	switch {
	case a.File != b.File && a.File < b.File, a.File == b.File && a.English < b.English:
		return -1
	case a == b:
		return 0
	}
	return 1
}
