package haccp

import (
	"slices"
	"strings"
)

func (c *comparison) points(was, now Plan) {
	pairs(was.Points, now.Points, func(x Point) string { return x.Key }, func(old, is *Point) {
		switch {
		case old == nil:
			c.basis("control point at "+is.Step, "is new: %s", is.Limit.Text)
		case is == nil:
			c.basis("control point at "+old.Step, "is gone: %s", old.Limit.Text)
		default:
			c.point(*old, *is)
		}
	})
}

func (c *comparison) point(old, is Point) {
	where := "control point at " + is.Step
	if !slices.Equal(old.Limit.Figures, is.Limit.Figures) || old.Limit.Text != is.Limit.Text {
		c.basis(where, "limit: %s; was %s", is.Limit.Text, old.Limit.Text)
	} else if old.Limit.Reason != is.Limit.Reason {
		c.words(where, "another reason for its limit: %s", said(is.Limit.Reason))
	}
	if old.Watch != is.Watch {
		c.words(where, "watched: %s, %s, %s, by %s", is.Watch.What, is.Watch.How, is.Watch.Often, is.Watch.Who)
	}
	for _, x := range []struct {
		name    string
		old, is []string
	}{{"when it is missed", old.Corrective, is.Corrective}, {"verified", old.Verify, is.Verify}, {"written down", old.Records, is.Records}} {
		if !slices.Equal(x.old, x.is) {
			c.words(where, "%s: %s", x.name, strings.Join(x.is, "; "))
		}
	}
}

func (c *comparison) hazards(was, now Plan) {
	pairs(was.Hazards, now.Hazards, func(h Hazard) string { return h.Key }, func(old, is *Hazard) {
		switch {
		case old == nil && is.Added:
			c.words("hazard at "+is.Step, "added: %s", is.What)
		case is == nil && old.Added:
			c.words("hazard at "+old.Step, "taken out: %s", old.What)
		case old == nil || is == nil: // told with the ingredient or step that brought it
		case old.Significant != is.Significant:
			c.words("hazard at "+is.Step, "%s counts as %s now: %s", is.What, map[bool]string{true: "significant", false: "not significant"}[is.Significant], said(is.Reason))
		case old.Reason != is.Reason:
			c.words("hazard at "+is.Step, "%s: another reason: %s", is.What, said(is.Reason))
		}
	})
}

func (c *comparison) rest(was, now Plan) {
	pairs(was.Programmes, now.Programmes, func(p Programme) string { return p.Name }, func(old, is *Programme) {
		switch {
		case old == nil:
			c.words("programme "+is.Name, "is new: %s", is.What)
		case is == nil:
			c.words("programme "+old.Name, "is gone")
		case *old != *is:
			c.words("programme "+is.Name, "%s, %s, by %s", is.What, is.Often, is.Who)
		}
	})
	if !slices.Equal(was.Training, now.Training) {
		c.words("training", "is another")
	}
	if !slices.Equal(was.Team, now.Team) {
		c.words("team", "%s", said(strings.Join(now.Team, ", ")))
	}
	if was.Walked != now.Walked {
		c.words("flow", "held against the work: %s", said(now.Walked))
	}
	if was.Life != now.Life {
		c.words("shelf life", "%s", said(now.Life))
	}
	if was.Intended != now.Intended {
		c.words("intended use", "%s", now.Intended)
	}
}
