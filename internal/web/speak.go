package web

import (
	"html"
	"html/template"
	"net/http"
	"strings"
	"sync"

	"kettlefrost/internal/help"
	"kettlefrost/internal/language"
	"kettlefrost/internal/pagetext"
	"kettlefrost/internal/phrasebook"
)

// translations are a page's template in the languages that pages are not written in, by the language without its place. Each is made when it
// is first asked for, and kept.
type translations map[string]func() (*template.Template, error)

// translate makes the translations of a template that is parsed anew for each: one that was shown cannot be changed any more.
func translate(parsed func() *template.Template) translations {
	all := translations{}
	for _, l := range language.Languages() {
		if base := l.Base(); l.Translated() && all[base] == nil {
			all[base] = sync.OnceValues(func() (*template.Template, error) { return translateOnce(parsed(), l) })
		}
	}
	return all
}

func translateOnce(t *template.Template, l language.Language) (*template.Template, error) {
	words := phrases(l)
	shown := map[string]string{}
	for _, x := range t.Templates() {
		if x.Tree != nil {
			shown[x.Name()] = x.Tree.Root.String()
		}
	}
	r := pagetext.Rewriter{Lang: l.Base(), Parsed: func(name string) string { return shown[name] }, Words: words.message}
	t.Funcs(template.FuncMap{pagetext.Said: words.says(words.said), pagetext.Named: words.says(words.named)})
	for _, x := range t.Templates() {
		if err := r.Rewrite(x.Tree); err != nil {
			return nil, err
		}
	}
	return t, nil
}

// in is a page's template in a language. A translation that cannot be used is a mistake in a catalogue, which a test finds before a cook does;
// a page is then in English rather than not there.
func (p page[T]) in(l language.Language) *template.Template {
	if !l.Translated() || p.translations[l.Base()] == nil {
		return p.t
	}
	t, err := p.translations[l.Base()]()
	if err != nil {
		return p.t
	}
	return t
}

// wording is what is said in one language.
type wording struct {
	templates map[string]string
	help      map[string]string // its texts, which are said as a whole
	book      *phrasebook.Book
}

var wordings sync.Map // by the language without its place

// phrases are what is said in a language, read once.
func phrases(l language.Language) wording {
	once, ok := wordings.Load(l.Base())
	if !ok {
		once, _ = wordings.LoadOrStore(l.Base(), sync.OnceValue(func() wording {
			p := language.PhrasesOf(l)
			said, err := help.Said(l.Base())
			if err != nil {
				panic(err) // built in, and held to its shape by a test
			}
			return wording{p.Templates, said, phrasebook.New(p.Code)}
		}))
	}
	return once.(func() wording)()
}

// said is a text, as the help or the code says it.
func (w wording) said(text string) string {
	if said, ok := w.help[text]; ok {
		return said
	}
	return w.book.Said(text)
}

// named is a text in a field that usually holds a name.
func (w wording) named(text string) string {
	if said, ok := w.help[text]; ok && strings.Contains(text, " ") {
		return said
	}
	return w.book.Named(text)
}

// message is a message of a template file: as that file alone says it, else as all do.
func (w wording) message(file, english string) (string, bool) {
	for _, key := range []string{"[" + file + "] " + english, english} {
		if said := w.templates[key]; said != "" {
			return said, true
		}
	}
	return "", false
}

// says is what a template hands to what an action writes: texts and the texts in drawings are said, all else stays.
func (w wording) says(say func(string) string) func(any) any {
	return func(v any) any {
		switch v := v.(type) {
		case string:
			return say(v)
		case template.HTML:
			return template.HTML(sayDrawing(string(v), w.book.Said))
		}
		return v
	}
}

// sayDrawing says the texts of a drawing, which stand between its tags.
func sayDrawing(svg string, say func(string) string) string {
	var out strings.Builder
	for {
		open := strings.IndexByte(svg, '>')
		if open < 0 {
			break
		}
		out.WriteString(svg[:open+1])
		svg = svg[open+1:]
		shut := strings.IndexByte(svg, '<')
		if shut < 0 {
			break
		}
		if shut < 2 {
			continue
		}
		was := html.UnescapeString(svg[:shut])
		if said := say(was); said != was {
			out.WriteString(html.EscapeString(said))
			svg = svg[shut:]
		}
	}
	out.WriteString(svg)
	return out.String()
}

// says is a text in the language of whoever asks, for answers that are no page.
func (s *server) says(r *http.Request, text string) string {
	l := s.speaks(r)
	if !l.Translated() {
		return text
	}
	return phrases(l).book.Said(text)
}

// drawn says the texts of drawings that a page asks for by their address.
func (s *server) drawn(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasSuffix(r.URL.Path, ".svg") && !strings.HasPrefix(r.URL.Path, "/static/") {
			if l := s.speaks(r); l.Translated() {
				w = drawingWriter{w, phrases(l).book.Said}
			}
		}
		next.ServeHTTP(w, r)
	})
}

// drawingWriter says the texts of a drawing, which is written at once.
type drawingWriter struct {
	http.ResponseWriter
	say func(string) string
}

func (w drawingWriter) Write(data []byte) (int, error) {
	if w.Header().Get("Content-Type") != "image/svg+xml" {
		return w.ResponseWriter.Write(data)
	}
	_, err := w.ResponseWriter.Write([]byte(sayDrawing(string(data), w.say)))
	return len(data), err
}

// Unwrap is the writer below, for what it can do besides.
func (w drawingWriter) Unwrap() http.ResponseWriter { return w.ResponseWriter }
