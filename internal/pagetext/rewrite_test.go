package pagetext_test

import (
	"bytes"
	"html/template"
	"strings"
	"testing"

	"kettlefrost/internal/pagetext"
)

// shown is a template after it was put into another language, with what its data write. What an action writes is marked by the function that
// it was handed to.
func shown(t *testing.T, page string, said map[string]string, data any) (string, error) {
	t.Helper()
	set := template.New("page.html").Funcs(template.FuncMap{
		pagetext.Said:  func(v any) any { return mark(v, "s:") },
		pagetext.Named: func(v any) any { return mark(v, "n:") },
	})
	template.Must(set.Parse(page))
	parsed := map[string]string{}
	for _, x := range set.Templates() {
		parsed[x.Name()] = x.Tree.Root.String()
	}
	r := pagetext.Rewriter{Lang: "es", Parsed: func(name string) string { return parsed[name] }, Words: func(_, m string) (string, bool) { s, ok := said[m]; return s, ok }}
	for _, x := range set.Templates() {
		if err := r.Rewrite(x.Tree); err != nil {
			return "", err
		}
	}
	var out bytes.Buffer
	if err := set.Execute(&out, data); err != nil {
		t.Fatal(err)
	}
	return out.String(), nil
}

func mark(v any, by string) any {
	if s, is := v.(string); is {
		return by + s
	}
	return v
}

func TestRewrite(t *testing.T) {
	data := map[string]any{"N": 3, "X": "x<y", "Name": "leek", "Note": "hers", "On": true, "URL": "/a", "All": []string{"p"}}
	for _, c := range []struct{ name, page, want string }{
		{"a text and the space around it", "<p> One lot\n</p>", "<p> Un lote </p>"},
		{"an order that changes", `<p>{{.N}} of {{.X}}</p>`, `<p>s:x&lt;y: 3</p>`},
		{"tags within a sentence", `<p>Start with <b>this</b>, then <a href="{{.URL}}">{{.X}}</a>.</p>`, `<p><a href="/a">s:x&lt;y</a> después de <b>esto</b>.</p>`},
		{"a sentence around code", `<p>Type <code>run {{.X}}</code> to begin</p>`, `<p>Para empezar, escriba <code>run x&lt;y</code></p>`},
		{"what is read in attributes", `<a title="One lot" href="One lot" class="One lot" aria-label="{{.N}} of {{.X}}">…</a>`, `<a title="Un lote" href="One lot" class="One lot" aria-label="s:x&lt;y: 3">…</a>`},
		{"quotes in an attribute", `<a title="Say it">…</a>`, `<a title="&#34;Diga&#34; &#39;eso&#39; &lt;b&gt;">…</a>`},
		{"a translation is no markup", `<p>Say it</p>`, `<p>"Diga" 'eso' &lt;b&gt;</p>`},
		{"branches are messages of their own", `<p>{{if .On}}One lot{{else}}Say it{{end}}</p>`, `<p>Un lote</p>`},
		{"a branch as a part", `<p>{{.N}} {{if eq .N 1}}note{{else}}notes{{end}}: good</p>`, `<p>bueno: 3 notas</p>`},
		{"text that is no text", `<script>One lot</script><textarea>One lot</textarea><pre>One lot</pre><p translate="no">One lot</p><p lang="en">One lot <b>One lot</b></p><!-- One lot --><p>One lot</p>`,
			`<script>One lot</script><textarea>One lot</textarea><pre>One lot</pre><p translate="no">One lot</p><p lang="en">One lot <b>One lot</b></p><p>Un lote</p>`},
		{"the value of a button, but of no field", `<input type="submit" value="One lot"><input value="One lot">`, `<input type="submit" value="Un lote"><input value="One lot">`},
		{"the page's language", `<html lang="en"><p>One lot</p></html>`, `<html lang="es"><p>Un lote</p></html>`},
		{"who wrote what", `<p>{{.Name}}, {{.Note}}, {{.X}}</p>{{range .All}}<p>{{.}}</p>{{end}}{{with .Note}}<p>{{.}}</p>{{end}}`, `<p>n:leek, hers, s:x&lt;y</p><p>s:p</p><p>hers</p>`},
		{"what is not known", `<p>Never <b>heard</b> of</p>`, `<p>Never <b>heard</b> of</p>`},
		{"an attribute within a branch", `<a{{if .On}} title="One lot"{{end}} href="{{.URL}}">One lot</a>`, `<a title="Un lote" href="/a">Un lote</a>`},
		{"signs before a sentence", `<p><span>▲</span> One lot</p>`, `<p><span>▲</span> Un lote</p>`},
		{"what is called", `{{define "part"}}<b>One lot</b>{{end}}<p>Say it</p>{{template "part" .}}`, `<p>"Diga" 'eso' &lt;b&gt;</p><b>Un lote</b>`},
		{"entities", `<p>One&nbsp;&amp; two</p>`, "<p>Uno\u00a0&amp; dos</p>"},
		{"two buttons are two messages", `<p><a class="button" href="a">One lot</a> <a class="button" href="b">Say it</a></p>`, `<p><a class="button" href="a">Un lote</a> <a class="button" href="b">"Diga" 'eso' &lt;b&gt;</a></p>`},
	} {
		said := map[string]string{"One lot": "Un lote", "{1} of {2}": "{2}: {1}", "Start with <1>this</1>, then <2>{1}</2>.": "<2>{1}</2> después de <1>esto</1>.", "Type {1} to begin": "Para empezar, escriba {1}",
			"Say it": `"Diga" 'eso' <b>`, "{1} {2}: good": "bueno: {1} {2}", "note": "nota", "notes": "notas", "One\u00a0& two": "Uno\u00a0& dos"}
		got, err := shown(t, c.page, said, data)
		if err != nil || got != c.want {
			t.Errorf("%s:\n got %s (%v)\nwant %s", c.name, got, err, c.want)
		}
	}
}

func TestATranslationThatDoesNotFit(t *testing.T) {
	for message, said := range map[string]string{"{1} of {2}": "{1}", "a {1}": "a {1} {1}", "<1>a</1> b <2>c</2>": "<1>a <2>b</1></2> c", "<1>a</1> b": "a b", "{1}": "{2}"} {
		if err := pagetext.Fits(message, said); err == nil {
			t.Errorf("%q is taken for %q", said, message)
		}
	}
	if _, err := shown(t, "<p>{{.N}} of {{.X}}</p>", map[string]string{"{1} of {2}": "{1} de"}, nil); err == nil || !strings.Contains(err.Error(), "page") {
		t.Errorf("a translation without a part of its sentence gives %v", err)
	}
	if err := pagetext.Fits("<1>a</1> b <2>c</2>", "<2>c <1>a</1></2> b"); err != nil {
		t.Error(err)
	}
}
