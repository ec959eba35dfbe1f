package record

import "kettlefrost/internal/unit"

// TrialLaid lays out a trial in the freezer: variants of one dish, opened week by week, measured and tasted blind. Codes and orders follow
// from it and its seed.
type TrialLaid struct {
	Trial    string    `json:"trial"` // its name for good: ale-cheddar-gum-2026-12
	Dish     string    `json:"dish"`
	Pack     string    `json:"pack,omitzero"`
	Asks     Text      `json:"asks"` // what it is to settle
	Variants []Variant `json:"variants"`
	Figures  []Figured `json:"figures"`
	Tasters  []string  `json:"tasters"`
	Weeks    []Week    `json:"weeks"` // after freezing, in which packs are opened
	Packs    int64     `json:"packs"` // of each variant in each of those weeks
	Seed     int64     `json:"seed"`
	Note     Text      `json:"note,omitzero"`
}

// Variant is a dish made otherwise.
type Variant struct {
	Name   string `json:"name"`
	Change Text   `json:"change"` // against the book: 25 g of citrate in place of 20
	Base   bool   `json:"base,omitzero"`
}

// Week is how many weeks something has been in the freezer; 0 is the day it went in.
type Week int64

// Decimal is a number to a thousandth.
type Decimal int64

// Figured is something that is measured or scored.
type Figured struct {
	Figure  string   `json:"figure"` // separation, drip, texture, flavour, or a word of one's own
	Unit    string   `json:"unit"`   // share, g or points
	Better  Better   `json:"better"`
	Matters Decimal  `json:"matters"`        // the smallest difference that matters
	Bound   *Decimal `json:"bound,omitzero"` // beyond it a pack is no longer good
}

// Better is which way a figure is better.
type Better string

// Ways in which a figure is better.
const (
	LowIsBetter  Better = "low"
	HighIsBetter Better = "high"
)

func (Better) choices() []string { return []string{string(LowIsBetter), string(HighIsBetter)} }

// TrialMade is the batch of a variant, packed and put into the freezer.
type TrialMade struct {
	Trial   string    `json:"trial"`
	Variant string    `json:"variant"`
	Mass    unit.Mass `json:"mass_g"` // of the batch
	Packs   int64     `json:"packs"`
	Each    unit.Mass `json:"each_g"`
	Lot     Lot       `json:"lot,omitzero"`
	Place   Place     `json:"place,omitzero"`
	Frozen  Day       `json:"frozen"`
	Note    Text      `json:"note,omitzero"`
}

// TrialOpened is a pack of a trial, thawed and measured.
type TrialOpened struct {
	Trial      string      `json:"trial"`
	Variant    string      `json:"variant"`
	Week       Week        `json:"week"`
	Number     int64       `json:"number"` // which pack of that week, from 1
	Whole      unit.Mass   `json:"whole_g"`
	Drip       *Decimal    `json:"drip_g,omitzero"` // 0 is none; left out when nobody weighed
	Separation *unit.Share `json:"separation,omitzero"`
	Note       Text        `json:"note,omitzero"`
}

// TrialScored is what a taster said of a code.
type TrialScored struct {
	Trial  string  `json:"trial"`
	Week   Week    `json:"week"`
	Taster string  `json:"taster"`
	Code   string  `json:"code"`
	Scores []Score `json:"scores"`
	Note   Text    `json:"note,omitzero"`
}

// Score is points for one figure.
type Score struct {
	Figure string  `json:"figure"`
	Points Decimal `json:"points"`
}

// TrialClosed ends a trial.
type TrialClosed struct {
	Trial   string `json:"trial"`
	Adopted string `json:"adopted,omitzero"` // the variant that the dish is made by from now on
	Why     Text   `json:"why"`
}

// Pictured is a picture; it is kept beside the entries, and its hash ties it to them.
type Pictured struct {
	About   string      `json:"about"`
	File    string      `json:"file"`
	Hash    Hash        `json:"hash"` // SHA-256 of the file as it came
	Type    PictureType `json:"type"`
	Bytes   int64       `json:"bytes"`
	Caption Text        `json:"caption,omitzero"`
}

// PictureType is what a picture is coded as.
type PictureType string

// Types of pictures.
const (
	JPEG PictureType = "image/jpeg"
	PNG  PictureType = "image/png"
	WebP PictureType = "image/webp"
)

func (PictureType) choices() []string { return []string{string(JPEG), string(PNG), string(WebP)} }

// SetAside is packs that are not sold but opened one day, to see how they have kept.
type SetAside struct {
	Run     string  `json:"run,omitzero"`
	Pack    string  `json:"pack"`
	Lot     Lot     `json:"lot"`
	Numbers Numbers `json:"numbers"`
	Open    []Day   `json:"open"`
	Place   Place   `json:"place,omitzero"`
	Why     Text    `json:"why,omitzero"`
}

// Tasted is a pack that was opened to see how it has kept.
type Tasted struct {
	Lot        Lot         `json:"lot"`
	Numbers    Numbers     `json:"numbers,omitzero"`
	Pack       string      `json:"pack"`
	Whole      unit.Mass   `json:"whole_g,omitzero"`
	Drip       *Decimal    `json:"drip_g,omitzero"`
	Separation *unit.Share `json:"separation,omitzero"`
	Scores     []Score     `json:"scores,omitzero"`
	Verdict    Verdict     `json:"verdict"`
	Note       Text        `json:"note,omitzero"`
}

// Verdict is how a pack has kept. It is about how it eats, never about whether it is safe.
type Verdict string

// Verdicts on a pack.
const (
	StillGood Verdict = "good"
	Fading    Verdict = "fading"
	Bad       Verdict = "bad"
)

func (Verdict) choices() []string { return []string{string(StillGood), string(Fading), string(Bad)} }

// Learned is the cook's word on a figure that runs propose to change.
type Learned struct {
	Figure  string      `json:"figure"` // as the program names it: ale-cheddar/base/evaporation
	Before  string      `json:"before"` // as the book writes it
	After   string      `json:"after"`
	Runs    []string    `json:"runs"`
	Outcome LearnedWord `json:"outcome"`
	Text    Text        `json:"text,omitzero"` // the proposal, as JSON
}

// LearnedWord is what became of a proposal.
type LearnedWord string

// What becomes of a proposal.
const (
	TakenOver LearnedWord = "accepted"
	Refused   LearnedWord = "refused"
)

func (LearnedWord) choices() []string { return []string{string(TakenOver), string(Refused)} }

// Labelled is labels that were printed: how many of which, so that none goes missing unseen.
type Labelled struct {
	Run     string `json:"run,omitzero"`
	Pack    string `json:"pack"`
	Lot     Lot    `json:"lot"`
	Count   int64  `json:"count"`
	Reprint bool   `json:"reprint,omitzero"`
	Why     Text   `json:"why,omitzero"`
	Label   Hash   `json:"label"` // SHA-256 of what one label says and how it looks
	In      string `json:"language,omitzero"`
	Stock   string `json:"stock,omitzero"`
}

// LeftOut is a run that is not to count for a figure.
type LeftOut struct {
	Figure string `json:"figure"`
	Run    string `json:"run"`
	Why    string `json:"why"`
}

func (TrialLaid) Kind() Kind   { return "trial-laid" }
func (TrialMade) Kind() Kind   { return "trial-made" }
func (TrialOpened) Kind() Kind { return "trial-opened" }
func (TrialScored) Kind() Kind { return "trial-scored" }
func (TrialClosed) Kind() Kind { return "trial-closed" }
func (Pictured) Kind() Kind    { return "pictured" }
func (SetAside) Kind() Kind    { return "set-aside" }
func (Tasted) Kind() Kind      { return "tasted" }
func (Learned) Kind() Kind     { return "learned" }
func (LeftOut) Kind() Kind     { return "left-out" }
func (Labelled) Kind() Kind    { return "labelled" }

func (t TrialLaid) agree(c *checker) {
	if len(t.Variants) < 2 {
		c.at("variants", "are fewer than two", "name the dish as it is and at least one other way")
	}
	bases, names := 0, map[string]bool{}
	for _, v := range t.Variants {
		if v.Base {
			bases++
		}
		if names[v.Name] {
			c.at("variants", "have one name twice: "+v.Name, "give each its own name")
		}
		names[v.Name] = true
	}
	if bases > 1 {
		c.at("variants", "have more than one base", "mark the one that is as the book has it")
	}
	for i, w := range t.Weeks {
		if i > 0 && w <= t.Weeks[i-1] {
			c.at("weeks", "are not in order", "write each later than the one before")
			return
		}
	}
}

func (x TrialOpened) agree(c *checker) {
	c.atLeastOne(given{"drip_g", x.Drip != nil}, given{"separation", x.Separation != nil}, given{"note", x.Note != ""})
	c.drip(x.Drip, x.Whole)
}

func (x Labelled) agree(c *checker) {
	c.needs(given{"reprint", x.Reprint}, given{"why", x.Why != ""})
}

func (x Tasted) agree(c *checker) {
	c.needs(given{"drip_g", x.Drip != nil}, given{"whole_g", x.Whole != 0})
	c.drip(x.Drip, x.Whole)
}

// drip is part of the pack that it ran out of.
func (c *checker) drip(g *Decimal, whole unit.Mass) {
	switch {
	case g == nil:
	case *g < 0:
		c.at("drip_g", "is below zero", "write 0 when nothing ran out")
	case whole < unit.Mass(*g)*(unit.Gram/1000):
		c.at("drip_g", "is more than the whole pack", "weigh what ran out again")
	}
}
