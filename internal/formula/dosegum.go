package formula

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/stability"
	"kettlefrost/internal/unit"
)

// frozenPaste is the use for which the doses of the freezing trials were found.
const frozenPaste = "frozen starch paste"

// ofSauce is what doses of gum are of here: what is published as of the finished food, and works in its liquid part.
const ofSauce dosing.Basis = "of the finished food without what is in pieces"

// gumName is a gum's name in the tables of doses, by what the book says that it is made from.
func gumName(kind string) string {
	if kind == string(stability.LocustBean) {
		return dosing.LocustBean
	}
	return kind
}

// xanthan is the line of xanthan alone, whether or not it is in the pot.
func (p Pot) xanthan(w Want, k float64) ([]Line, error) {
	w.askedUse = true
	lines, err := p.gums(w, k)
	return lines[:min(1, len(lines))], err
}

// gums are the gums in the pot, and first of all xanthan where it would help or was asked for.
func (p Pot) gums(w Want, k float64) ([]Line, error) {
	sauce := unit.MassKg(p.sauceKg() * k)
	if sauce <= 0 {
		return nil, nil
	}
	type gum struct {
		kg   float64
		name string
	}
	have := map[string]gum{}
	var order []string
	if w.askedUse || p.wantsXanthan() {
		order = append(order, dosing.Xanthan)
	}
	for _, x := range p.Parts {
		if x.Component.Role != stability.Gum || x.Component.Inside {
			continue
		}
		kind := gumName(x.GumKind)
		if !slices.Contains(order, kind) {
			order = append(order, kind)
		}
		g := have[kind]
		have[kind] = gum{g.kg + x.PutInKg, x.Name}
	}
	var lines []Line
	for _, kind := range order {
		l := Line{Key: strings.ReplaceAll(kind, " ", "-"), Substance: kind, In: have[kind].name, Now: Amount{Mass: unit.MassKg(have[kind].kg * k)}}
		if kind == "" {
			l.Key, l.Substance, l.Says = "gum", have[kind].name, "which gum it is, is not said: its dose cannot be judged"
			lines = append(lines, l)
			continue
		}
		if err := p.gum(&l, w, sauce); err != nil {
			return lines, err
		}
		lines = append(lines, l)
	}
	return lines, nil
}

// wantsXanthan says whether xanthan would help against something that is found of the pot, or helps against it already.
func (p Pot) wantsXanthan() bool {
	if p.heldByStarch() {
		return true
	}
	r, err := p.Review()
	return err == nil && slices.ContainsFunc(r.Findings, func(f stability.Finding) bool {
		return slices.ContainsFunc(f.Remedies, func(m stability.Remedy) bool { return m.ID == "xanthan" && (!m.Tried || m.After < f.Severity) })
	})
}

// gum is one gum: by the use that the dish is, and by the trials of frozen pastes where starch thickens it too.
func (p Pot) gum(l *Line, w Want, sauce unit.Mass) error {
	uses := []string{w.Use}
	if p.heldByStarch() {
		uses = append(uses, frozenPaste)
	}
	for _, use := range uses {
		d, err := dosing.Gum(l.Substance, use, category(l.Substance, w.Use), sauce)
		if none := (*dosing.NoLevelError)(nil); errors.As(err, &none) {
			continue
		}
		if err != nil {
			return err
		}
		d.Basis = ofSauce
		if use == frozenPaste {
			d.Source = "where starch thickens it and it freezes slowly: " + d.Source
		}
		l.Doses = append(l.Doses, d)
	}
	l.Now.Share = ratio(l.Now.Mass, sauce)
	l.own(w, sauce)
	for _, m := range []unit.Mass{l.Now.Mass, l.ownMass()} {
		found, err := dosing.CheckGum(dosing.Gummed{Gum: l.Substance, Category: category(l.Substance, w.Use), Dose: m, Finished: sauce, PH: p.PH})
		if err != nil {
			return err
		}
		l.Found = append(l.Found, found...)
	}
	if len(l.Doses) == 0 {
		l.Says = fmt.Sprintf("nobody was found who says how much %s goes into a %s: take the maker's, under the maximum", l.Substance, w.Use)
		return nil
	}
	l.Target = Amount{Mass: l.Doses[0].Target, Share: ratio(l.Doses[0].Target, sauce)}
	return nil
}

// category is the category of food by which law limits a gum.
func category(gum, use string) string {
	if gum != dosing.Guar {
		return ""
	}
	return map[string]string{"soup": "soups and soup mixes", "sauce": "gravies and sauces"}[use]
}
