package packlabel

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/language"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/reheating"
	"kettlefrost/internal/unit"
)

// content is all that stands on the label, in a language.
func (m *maker) content(in language.Speaker) labelmaker.Content {
	c := labelmaker.Content{Identity: m.out.Name, Keep: m.keep(in), Panel: m.facts(in), Ingredients: m.listed(in), Contains: m.contains(in), Firm: m.firm(in)}
	if m.out.Net.Text != "" {
		c.Net = []string{m.netSaid(in)}
	}
	c.Heating, c.Cautions = m.heating(in)
	if day := m.bestBefore(); day != "" {
		c.Dates = append(c.Dates, labelmaker.Fact{Name: in.Say("Best before"), Is: unbroken(in.Day(day))})
	}
	if m.Lot.Packed != "" && m.us() {
		c.Dates = append(c.Dates, labelmaker.Fact{Name: in.Say("Packed"), Is: unbroken(in.Day(m.Lot.Packed))})
	}
	if m.Lot.Code != "" {
		c.Lot = labelmaker.Fact{Name: in.Say("Lot"), Is: m.Lot.Code}
		if !m.us() && !strings.HasPrefix(m.Lot.Code, "L") {
			c.Lot.Name = "L" // Directive 2011/91/EU, from memory: the letter before the code
		}
	}
	return c
}

// keep is how it is kept.
func (m *maker) keep(in language.Speaker) string {
	if m.us() {
		return in.Say("Keep frozen")
	}
	return in.Say("Keep frozen, at −18 °C or colder") // Directive 89/108/EEC, from memory: the temperature at which it is kept
}

const noBreak = "\u00a0"

// unbroken stands on one line.
func unbroken(text string) string { return strings.ReplaceAll(text, " ", noBreak) }

// firm is who answers for the food, and where.
func (m *maker) firm(in language.Speaker) []string {
	labels := m.Book.Kitchen.Labels
	name := cmp.Or(labels.Firm, m.Book.Kitchen.Name)
	if name == "" {
		return nil
	}
	switch labels.Role {
	case kitchen.PackedFor:
		name = in.Say("Packed for %s", name)
	case kitchen.DistributedBy:
		name = in.Say("Distributed by %s", name)
	default:
		name = in.Say("Made by %s", name)
	}
	return append([]string{name}, noEmpty(cmp.Or(labels.Address, m.Book.Kitchen.Place))...)
}

func noEmpty(texts ...string) []string {
	var all []string
	for _, t := range texts {
		if strings.TrimSpace(t) != "" {
			all = append(all, t)
		}
	}
	return all
}

// card is the heating card of the run that may be printed.
func (m *maker) card() (plan.Card, bool) {
	for _, c := range m.Plan.Cards {
		if c.Pack == string(m.Pack) {
			return c, len(c.Missing) == 0
		}
	}
	return plan.Card{}, false
}

// heating is how the customer heats it, by the card of the run alone, and what to take care of.
func (m *maker) heating(in language.Speaker) (heating, cautions []string) {
	card, may := m.card()
	if !may {
		cautions = []string{in.Say("Thaw in the refrigerator, never on the counter."), in.Say("Heat until %s throughout; check with a thermometer in the middle.", in.Measure(m.hot())), in.Say("Once thawed, do not freeze again.")}
		if slices.ContainsFunc(m.inside.Held, func(h plan.Held) bool { return plan.Fish(m.Book.Ingredients[h.Of]) }) {
			cautions = slices.Insert(cautions, 0, in.Say("Fish: open the bag before you thaw it."))
		}
		return nil, cautions
	}
	for _, l := range card.Said {
		text := strings.ReplaceAll(l.In(in, m.units()), " °", noBreak+"°")
		switch {
		case l.Code == reheating.KeepFrozen: // it stands large on the label
		case l.Section == reheating.Steps, l.Section == reheating.Check:
			heating = append(heating, text)
		case l.Section == reheating.Caution:
			cautions = append(cautions, text)
		}
	}
	return heating, cautions
}

// units are those that customers read first.
func (m *maker) units() unit.System {
	if m.us() {
		return unit.US
	}
	return unit.Metric
}

// hot is how hot it must be before it is eaten: 165 °F, FDA Food Code 3-403.11 (from memory).
func (m *maker) hot() string {
	if m.us() {
		return "165 °F (74 °C)"
	}
	return "74 °C (165 °F)"
}

// bestBefore is the day of the lot, or so many weeks after packing as the book says; "" when neither is known.
func (m *maker) bestBefore() string {
	if m.Lot.BestBefore != "" {
		return m.Lot.BestBefore
	}
	if weeks := m.pack.BestBefore.Weeks; weeks > 0 {
		return kitchen.DaysBefore(m.Lot.Packed, -7*weeks)
	}
	return ""
}

// asks is what is missing of words and dates.
func (m *maker) asks() {
	caution := func(code, path, message, fix, source string) {
		m.ask(finding.Finding{Code: code, Severity: finding.Caution, Where: m.where(), Path: path, Message: message, Fix: fix, Source: source})
	}
	if m.pack.Identity == "" {
		caution(CodeIdentity, m.path("statement-of-identity"), "nothing says what the food is for the label; its name stands there: "+m.pack.Name, "write statement-of-identity: the common or usual name, without the weight", "21 U.S.C. 343(i) (read)")
	}
	m.place()
	m.days()
	if m.Lot.Code == "" {
		caution(CodeLot, "", "it has no lot code: a recall could not be held to this lot", "give the code of the lot", "common practice")
	}
	if m.bestBefore() == "" {
		caution(CodeBestBefore, m.path("best-before"), "there is no best-before day: the day of packing, or for how long it keeps, is not known", "write best-before with its source, or give the day of the lot", "no federal rule of the United States; Regulation (EU) 1169/2011, article 24 (quoted)")
	}
	if card, may := m.card(); !may {
		why := "the run has no heating card for it"
		if len(card.Missing) > 0 {
			why = strings.Join(card.Missing, "; ")
		}
		caution(CodeCard, "bags."+string(m.pack.Bag), "no heating instructions stand on it: "+why, "plan the run; ask the bag's maker in writing whether food may be frozen and heated in it, and write reheat", "21 CFR 176.170(c), table 2")
	}
	m.speech()
}

// days stops a label whose days make no sense.
func (m *maker) days() {
	stop := func(message, fix string) {
		m.ask(finding.Finding{Code: CodeBestBefore, Severity: finding.Stop, Where: "lot " + m.Lot.Code, Message: message, Fix: fix})
	}
	best := m.bestBefore()
	for _, day := range []string{m.Lot.Packed, best} {
		if _, is := kitchen.DaysUntil(day, day); day != "" && !is {
			stop(fmt.Sprintf("%q is no day", day), "write it as 2026-12-01")
			return
		}
	}
	if left, are := kitchen.DaysUntil(m.Lot.Packed, best); are && left < 0 {
		stop("it is best before "+best+" and was packed on "+m.Lot.Packed, "correct the days")
	}
}

// place asks for the place of business, without which there is no label.
func (m *maker) place() {
	if m.Book.Kitchen.Labels.Address != "" {
		return
	}
	f := finding.Finding{Code: CodeFirm, Severity: finding.Stop, Where: "firm and place", Path: "kitchen.labels.address", Message: "nothing says where the firm is", Source: "21 U.S.C. 343(e) (read); Regulation (EU) 1169/2011, article 9(1)(h) (quoted)",
		Fix: "write address: street, city, state and ZIP code"}
	if m.Book.Kitchen.Place != "" {
		f.Severity, f.Message, f.Source = finding.Caution, "of the place of business only "+m.Book.Kitchen.Place+" is known", f.Source+"; that the ZIP code is part of it is from memory"
	}
	m.ask(f)
}

// speech is what to know about a label in another language.
func (m *maker) speech() {
	if strings.HasPrefix(string(m.out.Language), "en") {
		return
	}
	f := finding.Finding{Code: CodeLanguage, Severity: finding.Caution, Where: "language", Path: "kitchen.labels.languages",
		Message: "names of foods, ingredients and kinds of allergens stand as the book has them, which is not translated", Fix: "write label and statement-of-identity in the language of the label, in a book of its own, and let a native speaker read it",
		Source: "Regulation (EU) 1169/2011, article 15 (from memory): a language that consumers easily understand"}
	if m.us() {
		f.Message += "; in the United States it goes beside a label in English with all of the same, never in its place"
		f.Source = "21 CFR 101.15(c) (from memory)"
	}
	m.ask(f)
}
