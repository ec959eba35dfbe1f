package app

import (
	"context"
	"crypto/rand"
	"encoding/binary"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/tastetrial"
	"kettlefrost/internal/trials"
)

func followTrials(r *Records) *follower[*trials.State] {
	return follow(r, fold[*trials.State]{empty: func() *trials.State { return &trials.State{} }, take: (*trials.State).Take, heeds: trials.Heeds, late: (*trials.State).Commutes})
}

// trialsNow is a copy of what is entered of trials.
func (r *Records) trialsNow(ctx context.Context) (state *trials.State, found finding.List, err error) {
	err = lookAt(ctx, r, r.trials, func(s *trials.State, unread finding.List) error {
		state, found = s.Copy(), slices.Clone(unread)
		return nil
	})
	return state, found, err
}

// Trials are all that were laid out, the latest first, to be kept, and what does not fit any of them.
func (r *Records) Trials(ctx context.Context) ([]trials.Trial, finding.List, error) {
	state, found, err := r.trialsNow(ctx)
	if err != nil {
		return nil, nil, err
	}
	all, strays := state.All()
	return all, append(found, strays...), nil
}

// Trial is the trial of a name, to be kept; false when nobody laid it out.
func (r *Records) Trial(ctx context.Context, name string) (t trials.Trial, known bool, err error) {
	state, _, err := r.trialsNow(ctx)
	if err != nil {
		return t, false, err
	}
	t, known = state.Trial(name)
	return t, known, nil
}

// TrialsDue are the packs of trials that are to be opened on a day, or were to be before.
func (r *Records) TrialsDue(ctx context.Context, today record.Day) ([]trials.Opening, error) {
	all, _, err := r.Trials(ctx)
	return trials.Due(all, today), err
}

// TrialSupports is for how many weeks trials have shown a dish to keep as it is made now, the latest first; with what is published, if anything
// is. A pack of "" takes trials of every pack.
func (r *Records) TrialSupports(ctx context.Context, dish, pack string, published *tastetrial.Published) ([]trials.Support, error) {
	all, _, err := r.Trials(ctx)
	return trials.Supports(all, dish, pack, published), err
}

// TrialError says why a trial was not laid out, all of it.
type TrialError struct{ Problems []trials.Problem }

func (e *TrialError) Error() string {
	texts := make([]string, len(e.Problems))
	for i, p := range e.Problems {
		texts[i] = p.Error()
	}
	return strings.Join(texts, "; ")
}

// LayTrial enters a trial. One without a name gets one from its dish and day; one without a seed, one drawn at random. It returns what was entered. Errors
// are *TrialError and as of Enter.
func (r *Records) LayTrial(ctx context.Context, said Said, b record.TrialLaid) (record.TrialLaid, error) {
	r.laying.Lock() // no two get one name
	defer r.laying.Unlock()
	if e, there, err := r.Taken(ctx, said.ID); err != nil {
		return b, err
	} else if there { // sent twice
		if body, err := record.Decode(e.Kind, e.Body); err == nil {
			if laid, is := body.(record.TrialLaid); is {
				return laid, nil
			}
		}
	}
	state, _, err := r.trialsNow(ctx)
	if err != nil {
		return b, err
	}
	problems := trials.Check(b)
	if b.Trial == "" {
		b.Trial = freeName(b.Dish+"-"+said.At.Format("2006-01"), state.Names())
	} else if slices.Contains(state.Names(), b.Trial) {
		problems = append(problems, trials.Problem{Field: "trial", Problem: "is the name of another trial", Fix: "give it one of its own"})
	}
	if b.Trial == "new" { // it is the page on which trials are laid out
		problems = append(problems, trials.Problem{Field: "trial", Problem: "is taken", Fix: "give it another name"})
	}
	if slug := slugOf(b.Trial); slug != b.Trial {
		problems = append(problems, trials.Problem{Field: "trial", Problem: "is not written as names are", Fix: "write " + slug})
	}
	if len(problems) > 0 {
		return b, &TrialError{problems}
	}
	if b.Seed == 0 {
		b.Seed = drawnSeed()
	}
	said.Body = b
	_, err = r.Enter(ctx, said)
	return b, err
}

// drawnSeed is a number that nobody knows before: from 1 to a billion, so that it can be read out.
func drawnSeed() int64 {
	var bits [8]byte
	rand.Read(bits[:]) // never fails (crypto/rand)
	return int64(binary.BigEndian.Uint64(bits[:])%1_000_000_000) + 1
}

// freeName is a name that is not taken, with a number behind it if it must be.
func freeName(name string, taken []string) string {
	name = slugOf(name)
	for n, try := 2, name; ; n++ {
		if !slices.Contains(taken, try) {
			return try
		}
		try = fmt.Sprintf("%s-%d", name, n)
	}
}

// slugOf is a text in lower-case letters, digits and single hyphens.
func slugOf(text string) string {
	var b strings.Builder
	gap := false
	for _, c := range strings.ToLower(text) {
		switch {
		case c >= 'a' && c <= 'z' || c >= '0' && c <= '9':
			if gap && b.Len() > 0 {
				b.WriteByte('-')
			}
			b.WriteRune(c)
			gap = false
		default:
			gap = true
		}
	}
	if b.Len() == 0 {
		return "trial"
	}
	return b.String()
}

// TrialsReport is how all trials stand on a day.
func (r *Records) TrialsReport(ctx context.Context, today record.Day) (trials.ListReport, error) {
	all, found, err := r.Trials(ctx)
	report := trials.ListReport{Schema: trials.ListSchema, Day: today, Trials: []trials.ListRow{}, Misfits: found}
	for _, t := range all {
		report.Trials = append(report.Trials, t.Row(today))
	}
	return report, err
}
