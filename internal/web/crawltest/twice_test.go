package crawltest

import (
	"net/http"
	"net/url"
	"slices"
	"strings"
)

// plausible is what somebody would type into an empty field, by its name.
var plausible = map[string]string{
	"who": "Nora", "why": "a spill", "note": "all well", "text": "it hums", "name": "Zelda", "count": "1", "mass": "2 lb", "net": "2 lb", "gross": "2 lb", "temp": "165", "f": "165", "amount": "$5.00", "by": "cash",
	"day": "2026-12-01", "due": "2026-12-02", "number": "1", "code": "P-1117-1#5", "lot": "R-carrot", "numbers": "1", "read": "32.5", "supplier": "farm", "place": "chest-1", "person": "zelda", "caption": "after a week",
	"taken-by": "Jo", "address": "1 Mill Lane", "phone": "555-0101",
}

// twice sends every form two times as it was shown, as a wet finger does: the second time nothing is entered, and it is answered like the first.
func (c *crawl) twice() {
	entered := 0
	var not []string
	for _, f := range c.forms() {
		now, there := c.again(f)
		if !there {
			continue
		}
		values := filled(now)
		before := c.entries()
		first := c.k.send(c.t, now, values)
		after := c.entries()
		if first.status != http.StatusSeeOther || after == before {
			not = append(not, f.String()+": "+shortly(first))
			continue
		}
		entered++
		second := c.k.send(c.t, now, values)
		if again := c.entries(); again != after {
			c.t.Errorf("%v: sent twice, and entered %d more the second time", f, again-after)
		}
		if second.status != http.StatusSeeOther || pathOf(second.to) != pathOf(first.to) {
			c.t.Errorf("%v: sent twice, the second time it answers %d and leads to %q, want %q: %.200s", f, second.status, second.to, first.to, mainWords(second))
		}
	}
	c.t.Logf("%d forms entered something; the others: %s", entered, strings.Join(not, "\n\t"))
	if entered < 20 {
		c.t.Errorf("only %d forms entered anything: the rest is not tried", entered)
	}
}

func shortly(a answer) string {
	says := mainWords(a)
	if a.to != "" {
		says = "leads to " + a.to
	}
	return says[:min(len(says), 160)]
}

// filled is what the form sends once somebody has filled in what was empty, and chosen where nothing is chosen.
func filled(f form) url.Values {
	values := f.with("")
	for _, name := range f.typed {
		for i, text := range values[name] {
			if text == "" {
				values[name][i] = plausible[strings.TrimRight(name, "-.0123456789")]
			}
		}
	}
	for name, choices := range f.choices {
		if i := slices.IndexFunc(choices, func(x string) bool { return x != "" }); i >= 0 && values.Get(name) == "" {
			values.Set(name, choices[i])
		}
	}
	return values
}

// entries is how many entries there are.
func (c *crawl) entries() uint64 {
	c.t.Helper()
	head, err := c.k.records.Verify(c.t.Context())
	if err != nil {
		c.t.Fatal(err)
	}
	return head.Seq
}
