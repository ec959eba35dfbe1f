package learned

import (
	"cmp"
	"encoding/json"
	"maps"
	"slices"

	"kettlefrost/internal/record"
)

// Told is what people have said of figures and runs, folded from their entries. The zero Told is that nobody has said anything.
type Told struct {
	learned map[string][]Said            // by figure, as they happened
	leftOut map[string]map[string]LeftBy // by figure and run
}

// LeftBy is why a run does not count for a figure, and the entry that says so.
type LeftBy struct {
	Entry record.Entry
	Why   string
}

// Heeds says whether entries of a kind change what was told.
func Heeds(k record.Kind) bool {
	return k == record.Learned{}.Kind() || k == record.LeftOut{}.Kind()
}

// Take takes an entry in. Entries come in the order in which they happened, and only those that stand.
func (t *Told) Take(e record.Entry) error {
	if !Heeds(e.Kind) {
		return nil
	}
	body, err := record.Decode(e.Kind, e.Body)
	if err != nil {
		return err
	}
	switch b := body.(type) {
	case record.Learned:
		if t.learned == nil {
			t.learned = map[string][]Said{}
		}
		t.learned[b.Figure] = append(t.learned[b.Figure], Said{e, b})
	case record.LeftOut:
		if t.leftOut == nil {
			t.leftOut = map[string]map[string]LeftBy{}
		}
		if t.leftOut[b.Figure] == nil {
			t.leftOut[b.Figure] = map[string]LeftBy{}
		}
		t.leftOut[b.Figure][b.Run] = LeftBy{e, b.Why}
	}
	return nil
}

// Copy is a state of its own that is the same.
func (t *Told) Copy() *Told {
	c := &Told{learned: maps.Clone(t.learned), leftOut: map[string]map[string]LeftBy{}}
	for figure, runs := range t.leftOut {
		c.leftOut[figure] = maps.Clone(runs)
	}
	return c
}

// Left is why a run was left out of a figure, and false when it was not.
func (t Told) Left(figure, run string) (LeftBy, bool) {
	x, ok := t.leftOut[figure][run]
	return x, ok
}

// Of is what was said of a figure, the last first.
func (t Told) Of(figure string) []Said {
	said := slices.Clone(t.learned[figure])
	slices.Reverse(said)
	return said
}

// Figures are the keys of all figures of which something was accepted or refused.
func (t Told) Figures() []string { return slices.Sorted(maps.Keys(t.learned)) }

// Grounds is what an accepted figure rests on: kept with the entry, so that later runs go on from it. Value is the figure before rounding
// in its own unit; SD as in learning.Prior.
type Grounds struct {
	Value  float64 `json:"value"`
	Runs   int     `json:"runs"`
	Worth  float64 `json:"worth_runs"`
	Weight float64 `json:"weight"`
	Low    float64 `json:"low"`
	High   float64 `json:"high"`
	Cover  float64 `json:"cover"`
	SD     float64 `json:"sd,omitzero"`
	SDRuns float64 `json:"sd_runs,omitzero"`
}

// grounds is what the figure would rest on when it is accepted.
func (f Figure) grounds() Grounds {
	if f.scatters() {
		s := f.Scatter
		return Grounds{Value: s.After, Runs: s.Runs, Worth: s.Worth, Weight: s.Weight, Low: s.True.Low, High: s.True.High, Cover: s.Cover}
	}
	p := f.Proposal
	return Grounds{Value: p.After, Runs: p.Runs, Worth: p.Worth, Weight: p.Weight, Low: p.True.Low, High: p.True.High, Cover: p.Cover, SD: p.SDAfter, SDRuns: f.Prior.SDRuns + float64(p.Runs)}
}

// Entry is what is entered when the figure is accepted or refused.
func (f Figure) Entry(word record.LearnedWord) (record.Learned, error) {
	text, err := json.Marshal(f.grounds())
	return record.Learned{Figure: f.Key, Before: cmp.Or(f.Before, none), After: f.After, Runs: f.Runs(), Outcome: word, Text: record.Text(text)}, err
}

// grounds are what an entry was based on; false when it does not say.
func groundsOf(b record.Learned) (g Grounds, ok bool) {
	return g, b.Text != "" && json.Unmarshal([]byte(b.Text), &g) == nil
}
