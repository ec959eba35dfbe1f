package web

import (
	"fmt"
	"math"
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/learned"
)

// lessonView puts figures into words.
type lessonView struct {
	x     app.Lessons
	rd    reader
	query url.Values
}

// dishes are those of which there is a figure, by their names; what belongs to none comes last.
func (l lessonView) dishes() []string {
	var all []string
	for _, f := range l.x.Figures {
		if !slices.Contains(all, f.Dish) {
			all = append(all, f.Dish)
		}
	}
	slices.SortFunc(all, func(a, b string) int {
		if (a == "") != (b == "") {
			return len(b) - len(a)
		}
		return strings.Compare(l.dishName(a), l.dishName(b))
	})
	return all
}

func (l lessonView) dishName(id string) string {
	if id == "" {
		return "Ingredients"
	}
	if d, ok := l.x.Book.Dishes[kitchen.DishID(id)]; ok {
		return capital(d.Name)
	}
	return id
}

func (l lessonView) card(f learned.Figure) lessonCard {
	what, of := f.Words(l.x.Book)
	c := lessonCard{Dish: l.dishName(f.Dish), What: capital(what), Of: of, URL: l.url(f.Key), Before: l.before(f), After: l.after(f), True: l.truth(f), From: l.rests(f), matters: math.Abs(f.Mean()-f.Value) / max(1e-9, f.Value)}
	if f.Kind == learned.Spread || f.Kind == learned.Fills {
		c.matters /= 1000
	}
	if n := len(f.Asked); n > 0 {
		if c.Asked = "1 run lies far off and counts: look whether something went wrong"; n > 1 {
			c.Asked = fmt.Sprintf("%d runs lie far off and count: look whether something went wrong", n)
		}
	}
	if len(f.With) > 0 {
		c.Shared = "the same weighings may mean another figure"
	}
	return c
}

func (l lessonView) url(key string) string { return coldURL(lessonPath, l.query, "figure", key) }

func (l lessonView) value(f learned.Figure, x float64) string {
	return together(f.Show(x, l.rd.units))
}

// before is the figure as the book has it; where it has none, as the plan takes it.
func (l lessonView) before(f learned.Figure) string {
	text := l.value(f, f.Value)
	if f.Before == "" {
		text += " (not in the book)"
	}
	return text
}

func (l lessonView) after(f learned.Figure) string {
	if f.State == learned.Waiting {
		return f.Said[0].Body.After
	}
	return l.value(f, f.Rounded)
}

func (l lessonView) truth(f learned.Figure) string {
	low, high, cover := f.True()
	if f.State == learned.TooFew || cover == 0 || low == high {
		return ""
	}
	return fmt.Sprintf("truly between %s and %s, nine times of ten", l.value(f, low), l.value(f, high))
}

// rests is what a proposal rests on, in a few words.
func (l lessonView) rests(f learned.Figure) string {
	n := f.Counted()
	if n == 0 {
		return "no run counts"
	}
	if f.Kind == learned.Fills || f.Kind == learned.Spread {
		if l.ofRuns(f) == nothingYet {
			return "one run scatters about nothing"
		}
		return fmt.Sprintf("%d runs scatter by %s, which weighs %.0f %% against %s", n, l.value(f, f.OfRuns()), 100*f.Weight(), f.Source)
	}
	if n == 1 {
		return fmt.Sprintf("1 run of %s, which weighs %.0f %% against %s", l.value(f, f.OfRuns()), 100*f.Weight(), f.Source)
	}
	return fmt.Sprintf("%d runs of %s, which weigh %.0f %% against %s", n, l.value(f, f.OfRuns()), 100*f.Weight(), f.Source)
}

func (l lessonView) dish(id string) lessonDish {
	d := lessonDish{Name: l.dishName(id)}
	ready := 0
	for _, f := range l.x.Figures {
		if f.Dish != id {
			continue
		}
		what, of := f.Words(l.x.Book)
		if len(f.Seen) == 0 {
			d.Not = append(d.Not, lessonNot{capital(what), of, whyNothing(f), l.url(f.Key)})
			continue
		}
		if f.State == learned.Ready {
			ready++
		}
		d.Seen = append(d.Seen, lessonRow{capital(what), of, l.url(f.Key), l.before(f), numeral(f.Counted()), l.ofRuns(f), l.state(f)})
	}
	d.Tally = manyOf(len(d.Seen), "figure was seen", "figures were seen")
	if ready > 0 {
		d.Tally += fmt.Sprintf(", %d to decide on", ready)
	}
	return d
}

// nothingYet stands where there is no figure.
const nothingYet = "—"

func (l lessonView) ofRuns(f learned.Figure) string {
	if f.Counted() == 0 || f.Kind == learned.Spread && f.Counted() < 2 {
		return nothingYet
	}
	return l.value(f, f.OfRuns())
}

func (l lessonView) state(f learned.Figure) string {
	switch f.State {
	case learned.Ready:
		return "proposed: " + l.after(f)
	case learned.Waiting:
		return "accepted, not in the book’s file yet"
	case learned.TooFew:
		return fmt.Sprintf("too few runs: %d are needed", learned.LeastRuns)
	case learned.NoPlace:
		return "to know, not for the book"
	case learned.Declined:
		return "refused; asked again after the next run"
	}
	if f.Before == "" {
		return "as the table or the burner has it"
	}
	return string(f.State)
}

// whyNothing is why no run says anything of a figure: the same for all, or the last reason of several.
func whyNothing(f learned.Figure) string {
	if f.WhyNot != "" {
		return f.WhyNot
	}
	if n := len(f.Excluded); n > 0 {
		return f.Excluded[n-1].Why
	}
	return "no run has anything to do with it"
}
