package web

import (
	"fmt"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/papers"
	"kettlefrost/internal/plan"
)

// partCards are the parts of a run, each with what stands there in one line.
func partCards(d runDay, rd reader, query url.Values) []partCard {
	p := d.plan
	says := map[string]string{
		"findings": "The checks found nothing to report.",
		"buy":      buyInShort(p, rd),
		"day":      dayInShort(p.Timetable),
		"next":     "What everybody does now and next, in large type",
		"cook":     times(len(p.Dishes), "dish", "dishes") + ", " + times(stepsOf(p), "step", "steps"),
		"chill":    chillInShort(p.Chill),
		"seal":     sealInShort(p),
		"freeze":   freezeInShort(p.Freeze, rd),
		"cards":    times(len(p.Cards), "card", "cards") + notYet(len(p.Cards), func(i int) bool { return len(p.Cards[i].Missing) > 0 }),
		"labels":   times(len(p.Labels), "text", "texts") + notYet(len(p.Labels), func(i int) bool { return p.Labels[i].Withheld }),
		"papers":   times(len(papers.Sheets()), "sheet", "sheets") + " as PDF, in three languages",
		"money":    costOf(p.Summary, rd) + " for all packs",
	}
	if all := viewFindings(p.Findings); all.Tally != "" {
		says["findings"] = all.Tally
	}
	var cards []partCard
	for _, x := range parts[1:] {
		c := partCard{link: link{x.title, partURL(runPath(d.name), x.key, query)}, Says: says[x.key]}
		c.count(p.Findings, place(x.key))
		cards = append(cards, c)
	}
	return cards
}

// count puts on a card how many stops and cautions wait there.
func (c *partCard) count(list finding.List, at place) {
	stops, cautions := 0, 0
	for _, f := range list {
		switch {
		case placeOf(f) != at || at == atFindings:
		case f.Severity == finding.Stop:
			stops++
		case f.Severity == finding.Caution:
			cautions++
		}
	}
	var words []string
	for _, s := range []struct {
		n        int
		severity finding.Severity
	}{{cautions, finding.Caution}, {stops, finding.Stop}} {
		if s.n > 0 {
			words = append([]string{times(s.n, s.severity.String(), s.severity.String()+"s")}, words...)
			c.Class, c.Sign = s.severity.String(), signs[s.severity]
		}
	}
	c.Grave = strings.Join(words, ", ")
}

func buyInShort(p plan.Plan, rd reader) string {
	lines, first := 0, ""
	for _, l := range p.Buy.Lines {
		if len(l.Packs) > 0 {
			lines++
		}
	}
	if lines == 0 {
		return "Nothing to buy."
	}
	for _, o := range p.Buy.Orders {
		if o.OrderBy != "" && (first == "" || o.OrderBy < first) {
			first = o.OrderBy
		}
	}
	if first != "" {
		first = "; the first order by " + first
	}
	return times(lines, "thing", "things") + ", " + rd.money(p.Buy.Total) + first
}

func dayInShort(t plan.Timetable) string {
	if len(t.Tasks) == 0 {
		return "There is no timetable."
	}
	people := 0
	for _, row := range t.Rows {
		if row.Person {
			people++
		}
	}
	return fmt.Sprintf("%s to %s, %s, %s", t.Start, t.End, times(people, "person", "people"), times(len(t.Tasks), "task", "tasks"))
}

func stepsOf(p plan.Plan) int {
	n := 0
	for _, d := range p.Dishes {
		n += len(d.Steps)
	}
	return n
}

// chillInShort is the ways that were chosen, each once.
func chillInShort(things []plan.Chill) string {
	if len(things) == 0 {
		return "Nothing hot has to be chilled."
	}
	var ways []string
	none := 0
	for _, c := range things {
		if c.Chosen < 0 {
			none++
		} else if name := c.Options[c.Chosen].Name; !slices.Contains(ways, name) {
			ways = append(ways, name)
		}
	}
	if none > 0 {
		ways = append(ways, fmt.Sprintf("no way fast enough for %d", none))
	}
	return times(len(things), "hot thing", "hot things") + ": " + strings.Join(ways, "; ")
}

func sealInShort(p plan.Plan) string {
	kinds := 0
	for _, f := range p.Fill {
		if f.Count > 0 {
			kinds++
		}
	}
	if kinds == 0 {
		return "Nothing is filled."
	}
	text := fmt.Sprintf("%s of %s", times(p.Summary.Packs, "pack", "packs"), times(kinds, "kind", "kinds"))
	for _, t := range p.Timetable.Tasks { // by start
		if t.Kind == plan.Filling {
			return text + ", from " + t.Start.String()
		}
	}
	return text
}

func freezeInShort(f plan.Freeze, rd reader) string {
	text := rd.fig(f.Load).First
	switch s := f.Schedule; {
	case s.Left > 0:
		return text + "; " + times(s.Left, "pack finds", "packs find") + " no place"
	case s.Last > 0:
		return text + "; the last core is frozen after " + rd.span(s.Last)
	}
	return text
}

// notYet is how many of so many must not be printed.
func notYet(count int, withheld func(int) bool) string {
	n := 0
	for i := range count {
		if withheld(i) {
			n++
		}
	}
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("; %d must not be printed yet", n)
}
