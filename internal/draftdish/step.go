package draftdish

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/unit"
)

// Step is a step as it was read, with what was assumed of it.
type Step struct {
	Number  int      `json:"number"`
	ID      string   `json:"id"`
	Text    string   `json:"text"` // of the recipe
	Does    string   `json:"does"`
	In      string   `json:"in,omitempty"` // pot, pan, oven, blender or table; "" goes on where it is
	Minutes int      `json:"minutes,omitempty"`
	HeatF   int      `json:"heat_f,omitempty"`
	Lines   []int    `json:"lines"` // numbers of the lines that go in
	From    []int    `json:"from"`  // numbers of the steps that it takes from
	Assumed []string `json:"assumed"`
	How     string   `json:"how,omitempty"`

	sentence sentence
	uses     []mention
	stays    bool
	oven     *unit.Temp
	heat     *unit.Temp
	time     unit.Span
	open     bool
	after    []*Step
}

// readMethod makes steps of the sentences.
func (d *drafter) readMethod() {
	var oven *unit.Temp
	for _, text := range sentencesOf(d.recipe.Method) {
		s := read(text)
		last := d.last()
		switch {
		case s.acts && s.verb.does == preheats:
			oven = s.temp
			continue
		case s.acts && s.verb.does == leaves:
			d.left = append(d.left, text)
			continue
		case !s.acts && last == nil:
			d.left = append(d.left, text)
			continue
		case !s.acts, len(d.steps) >= mostSteps:
			last.sentence.aside = last.sentence.aside || s.aside
			last.How = strings.TrimSpace(last.How + " " + text)
			continue
		}
		x := &Step{Number: len(d.steps) + 1, Text: text, Does: string(s.verb.does), sentence: s, In: s.verb.family, Lines: []int{}, From: []int{}, Assumed: []string{}}
		if s.verb.does == bakes {
			x.oven = oven
			if s.temp != nil {
				x.oven = s.temp
			}
		}
		d.steps = append(d.steps, x)
	}
	if len(d.steps) == 0 { // a method without a verb: all of it in one pot
		s := sentence{text: strings.TrimSpace(d.recipe.Method), verb: verb{word: "cook", does: heats, family: "pot", heatF: 200, minutes: 10}}
		d.steps = append(d.steps, &Step{Number: 1, Text: clipped(s.text), Does: string(heats), In: "pot", sentence: s, Lines: []int{}, From: []int{}, Assumed: []string{"no verb of the method is known: all of it is one step"}})
	}
}

func (d *drafter) last() *Step {
	if len(d.steps) == 0 {
		return nil
	}
	return d.steps[len(d.steps)-1]
}

const longestDo = 220

func clipped(text string) string {
	if len(text) <= longestDo {
		return text
	}
	cut := text[:longestDo]
	for !strings.HasSuffix(cut, " ") && len(cut) > 1 {
		cut = cut[:len(cut)-1]
	}
	return strings.TrimSpace(cut) + " …"
}

// placeLines says which line goes into which step: as the sentences say; what none of them names is asked, and goes into the step that was
// answered or the last that cooks.
func (d *drafter) placeLines() {
	used, named := map[*Line]bool{}, map[*Line]bool{}
	for _, x := range d.steps {
		for l := range d.spokenOf(singulars(x.sentence.words)) {
			named[l] = true
		}
	}
	for _, x := range d.steps {
		for _, m := range d.mentions(x.sentence, used, named) {
			if used[m.line] && !m.rest && m.share == 0 && d.taken(m.line) {
				continue // it is only spoken of again
			}
			x.uses = append(x.uses, m)
			used[m.line] = true
		}
	}
	d.settleShares()
	for _, l := range d.lines {
		if l.Problem != "" {
			continue
		}
		d.askWhere(l)
	}
	for _, x := range d.steps {
		for _, m := range x.uses {
			m.line.Steps = append(m.line.Steps, x.Number)
			if !slices.Contains(x.Lines, m.line.Number) {
				x.Lines = append(x.Lines, m.line.Number)
			}
		}
	}
}

// taken says whether all of a line is used up by the steps so far.
func (d *drafter) taken(l *Line) bool {
	var sum unit.Share
	for _, x := range d.steps {
		for _, m := range x.uses {
			if m.line == l {
				if m.share == 0 {
					return true
				}
				sum += m.share
			}
		}
	}
	return sum >= unit.Whole
}

// settleShares gives each mention of a line its share: what the sentences say, and the rest to the last.
func (d *drafter) settleShares() {
	for _, l := range d.lines {
		var at []*mention
		for _, x := range d.steps {
			for k := range x.uses {
				if x.uses[k].line == l {
					at = append(at, &x.uses[k])
				}
			}
		}
		left := unit.Whole
		for k, m := range at {
			switch {
			case k == len(at)-1:
				m.share = left
			case m.share == 0 || m.share >= left:
				m.share = left / 2
			}
			left -= m.share
		}
	}
}

// askWhere asks where a line goes in that no sentence names.
func (d *drafter) askWhere(l *Line) {
	at := d.stepsOf(l)
	key := fmt.Sprintf("where-%d", l.Number)
	if len(at) > 0 && d.asks.given[key] == "" || l.Out && d.asks.given[key] == "" {
		return
	}
	meant := d.cooking()
	q := Ask{Key: key, About: l.Text, Kind: AskWhere, Question: fmt.Sprintf("Into which step does the %s go?", l.Name), Assumed: fmt.Sprintf("step %d: %s", meant.Number, clipped(meant.Text))}
	for _, x := range d.steps {
		q.Options = append(q.Options, Option{itoa(x.Number), fmt.Sprintf("%d: %s", x.Number, clipped(x.Text))})
	}
	i, answer := d.asks.put(q)
	if answer != "" {
		n := slices.IndexFunc(d.steps, func(x *Step) bool { return itoa(x.Number) == answer })
		if n < 0 {
			d.asks.refuse(i, fmt.Sprintf("there is no step %q", answer))
		} else {
			for _, x := range d.steps {
				x.uses = slices.DeleteFunc(x.uses, func(m mention) bool { return m.line == l })
			}
			d.steps[n].uses = append(d.steps[n].uses, mention{line: l, share: unit.Whole})
			return
		}
	}
	if len(at) == 0 && !l.Out {
		meant.uses = append(meant.uses, mention{line: l, share: unit.Whole})
		meant.Assumed = append(meant.Assumed, l.Name+" goes in here: no sentence names it")
	}
}

func (d *drafter) stepsOf(l *Line) []*Step {
	var all []*Step
	for _, x := range d.steps {
		if slices.ContainsFunc(x.uses, func(m mention) bool { return m.line == l }) {
			all = append(all, x)
		}
	}
	return all
}

// cooking is the last step that heats, or the last there is.
func (d *drafter) cooking() *Step {
	for _, x := range slices.Backward(d.steps) {
		if slices.Contains([]string{string(simmers), string(heats), string(boils), string(bakes), string(reduces)}, x.Does) {
			return x
		}
	}
	return d.last()
}
