package web

import (
	"net/http"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
)

// boardCools is what cools in a production, as its board shows it.
type boardCools struct {
	all   []app.Cooling
	voice app.CoolVoice
	found finding.List // what somebody has to look at now
}

// soonMs is how long before it is due a reading is shown beside the work to do.
const soonMs = 20 * 60 * 1000

// coolOnBoard is what cools in a production. That it cannot be worked out is a finding: the board goes on.
func (s *server) coolOnBoard(r *http.Request, p *app.Production) boardCools {
	all, err := s.boards.Coolings(r.Context(), p)
	b := boardCools{all: all, voice: app.VoiceOf(p)}
	if err != nil {
		b.found = finding.List{{Code: app.CodeCoolUnsaid, Severity: finding.Caution, Where: "run " + p.Run.Name, Path: "runs." + p.Run.Name, Message: "what cools cannot be forecast: " + err.Error(), Fix: "read it every half hour, and look at the records"}}
		return b
	}
	if p.Open {
		b.found = app.CoolingFindings(p.Run.Name, all, b.voice, s.instant())
	}
	return b
}

// coolingLine is a load on the card of its task.
type coolingLine struct{ URL, Class, Sign, Headline, Says, Due string }

// line is what is said on the card of a task that cools; nil for any other.
func (b boardCools) line(p *app.Production, task string, now record.Instant) *coolingLine {
	c, there := app.CoolingOf(b.all, task)
	if !there || c.Over {
		return nil
	}
	v := coolingCardOf(p.Run.Name, c, b.voice, now)
	return &coolingLine{v.URL, v.Class, v.Sign, v.Headline, v.Says, v.Due}
}

// look are the loads that somebody must look at: that must be read soon, or should have been, or will not be in time as they are.
func (b boardCools) look(p *app.Production, now record.Instant) []coolingCard {
	var cards []coolingCard
	for _, c := range b.all {
		if at, _, any := c.Due(now); c.Grave(now) || any && at <= now+soonMs {
			cards = append(cards, coolingCardOf(p.Run.Name, c, b.voice, now))
		}
	}
	return cards
}
