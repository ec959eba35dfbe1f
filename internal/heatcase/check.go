package heatcase

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
	"kettlefrost/internal/spelling"
	"kettlefrost/internal/unit"
)

// Limits of what is computed, wide enough for a small kitchen.
const (
	thinnestM, thickestM = 0.001, 0.6 // flat layers
	smallestM, largestM  = 0.01, 2    // pots and bricks
	mostBags             = 50
	coldestFoodC         = heat.LowestPropertyC
	hottestFoodC         = 120
	coldestMediumC       = -60
	hottestMediumC       = 150
	weakestFilm          = 0.5
	strongestFilm        = 20000
	heaviestPiece        = 500 * unit.Kilogram
	// leastGapK is how far a target must lie from the medium: nearer, the time says nothing any more.
	leastGapK = 0.1
)

// checker gathers what is wrong in a case.
type checker struct {
	c     Case
	found finding.List
}

// Check says everything that is wrong in a case, after WithDefaults; Path is the key. Nothing found means that Answer can compute it.
func (c Case) Check() finding.List {
	k := checker{c: c.WithDefaults()}
	if !slices.Contains(Processes(), c.Process) {
		k.stop("process", quoted(string(c.Process))+" is not known", "say cool, freeze, thaw or reheat")
		return k.found
	}
	k.shape()
	k.surroundings()
	k.vessel()
	if len(k.found) == 0 { // the way from start to target is judged in surroundings that make sense
		k.food()
	}
	return k.found
}

// A CaseError is a case that cannot be answered as it stands.
type CaseError struct{ Found finding.List }

func (e *CaseError) Error() string {
	var texts []string
	for _, f := range e.Found {
		texts = append(texts, f.Path+": "+f.Message)
	}
	return strings.Join(texts, "; ")
}

func (k *checker) stop(key, message, fix string) {
	k.found = append(k.found, finding.Finding{Code: CodeCase, Severity: finding.Stop, Where: "the case", Path: key, Message: message, Fix: fix})
}

func (k *checker) length(key, what string, l unit.Length, low, high float64) {
	if heat.InRange(what, "m", l.M(), low, high) != nil {
		k.stop(key, fmt.Sprintf("%s of %s cannot be computed", what, l), fmt.Sprintf("give %s to %s", unit.LengthM(low), unit.LengthM(high)))
	}
}

func (k *checker) shape() {
	s := k.c.Shape
	switch {
	case s.Kind == "":
		k.stop("shape", "it is not said what shape it has", `give one, such as a pan of "2 in", a bag of "1 in" or a pot of "22 in x 23 in"`)
	case s.flat():
		k.length(string(s.Kind), "a thickness", s.Thickness, thinnestM, thickestM)
	case s.Kind == Pot:
		k.length("pot", "a diameter", s.Diameter, smallestM, largestM)
		k.length("pot", "a depth", s.Depth, smallestM, largestM)
	case s.Kind == Brick:
		for _, l := range []unit.Length{s.Length, s.Width, s.Height} {
			k.length("brick", "a side", l, smallestM, largestM)
		}
	default:
		k.stop("shape", quoted(string(s.Kind))+" is no known shape", "take pan, bag, slab, pot or brick")
	}
	switch {
	case s.Stack < 0 || s.Stack > mostBags:
		k.stop("stack", fmt.Sprintf("%d bags cannot be computed", s.Stack), fmt.Sprintf("give 1 to %d", mostBags))
	case s.Stack > 1 && s.Kind != Bag:
		k.stop("stack", "only bags lie on each other", "leave it out, or give the thickness of one bag")
	case s.Stack <= 1 && s.Touching:
		k.stop("touching", "there is no stack", "say how many bags lie on each other")
	}
	if k.c.Piece < 0 || k.c.Piece > heaviestPiece {
		k.stop("piece", k.c.Piece.String()+" is no piece", "give what one bag or pan holds, up to "+heaviestPiece.String())
	}
	if k.c.Piece > 0 && !s.flat() {
		k.stop("piece", "what it holds follows from its size", "leave it out")
	}
}

func (k *checker) surroundings() {
	c := k.c
	for _, s := range []struct {
		key string
		Surroundings
		closable bool
	}{{"in", c.Around, false}, {"below", c.Below, true}, {"above", c.Above, true}} {
		k.medium(s.key, s.Medium, s.closable)
		at, film := s.key+"-at", s.key+"-film"
		if s.key == "in" {
			at, film = "at", "film"
		}
		if s.At != nil && heat.InRange(at, "°C", s.At.C(), coldestMediumC, hottestMediumC) != nil {
			k.stop(at, s.At.String()+" is nothing that food stands in", fmt.Sprintf("give %d to %d °C", coldestMediumC, hottestMediumC))
		}
		k.film(film, s.Film)
		if s.Medium == Closed && (s.At != nil || s.Film != nil) {
			k.stop(s.key, "a closed side has neither a temperature nor a coefficient", "leave those out")
		}
	}
	if len(k.found) == 0 && len(c.met()) == 0 {
		k.stop("below", "both sides are closed, so nothing passes", "open one")
	}
	if !slices.Contains(packages, string(c.Package)) {
		k.stop("package", quoted(string(c.Package))+" is not known", "take "+strings.Join(packages, ", "))
	}
}

func (k *checker) medium(key, id string, closable bool) {
	_, known := medium.Find(id)
	switch {
	case id == "" && key != "in", id == Closed && closable:
	case !known || id == insideThin || id == insideThick:
		k.stop(key, quoted(id)+" is nothing that food stands in", nearMedium(id))
	}
}

func nearMedium(id string) string {
	ids := mediumIDs()
	if near := spelling.Nearest(id, ids); near != "" {
		return "did you mean " + near + "?"
	}
	return "take " + strings.Join(ids, ", ")
}

func (k *checker) film(key string, f *unit.Film) {
	if f != nil && heat.InRange(key, "W/(m²·K)", float64(*f), weakestFilm, strongestFilm) != nil {
		k.stop(key, f.String()+" is no surface coefficient of a kitchen", fmt.Sprintf("give %g to %d W/m2K", weakestFilm, strongestFilm))
	}
}

func (k *checker) vessel() {
	c := k.c
	stirred := c.Stir != Unstirred
	if !slices.Contains(stirrings, string(c.Stir)) {
		k.stop("stir", quoted(string(c.Stir))+" is not known", "take "+strings.Join(stirrings, ", "))
		return
	}
	k.film("u", c.U)
	switch {
	case stirred && c.Shape.Kind != Pot:
		k.stop("stir", "only a pot can be stirred", "give a pot, or leave stirring out")
	case stirred && (c.Process == Freeze || c.Process == Thaw):
		k.stop("stir", "a pot that freezes or thaws cannot be stirred all the time", "leave stirring out")
	case c.U != nil && !stirred:
		k.stop("u", "an overall coefficient is that of a stirred pot", "say how it is stirred, or give film for the medium")
	case stirred && (c.Below.Medium != "" || c.Above.Medium != "" || c.Below.At != nil || c.Above.At != nil || c.Below.Film != nil || c.Above.Film != nil):
		k.stop("stir", "a stirred pot is computed in one medium", "leave out what is below and above it")
	}
	if c.Open && c.Shape.Kind == Bag {
		k.stop("open", "a bag has no lid", "leave it out")
	}
	if c.Open && c.Package != NoPackage {
		k.stop("open", "what is open has no package around it", "leave one of them out")
	}
}

// resolved is the food, if it is one that can be computed.
func (k *checker) resolved() (resolved, bool) {
	r, err := k.c.Food.resolve()
	if err != nil {
		e := asFoodError(err)
		k.stop(e.key, e.what, e.fix)
		return r, false
	}
	if heat.InRange("freezing point", "°C", r.freezesC, heat.LowestFreezingPointC, heat.HighestFreezingPointC) != nil {
		k.stop("freezes-at", fmt.Sprintf("a freezing point of %.3g °C cannot be computed", r.freezesC), fmt.Sprintf("give %d to %g °C", heat.LowestFreezingPointC, heat.HighestFreezingPointC))
		return r, false
	}
	return r, true
}

func (k *checker) food() {
	r, ok := k.resolved()
	if !ok {
		return
	}
	k.way(r)
	if len(k.found) > 0 {
		return
	}
	if _, err := k.c.constants(r); err != nil {
		k.stop("food", "its properties are not those of a food: "+plainRange(err), "check its composition")
	}
}

// way checks start and target against each other, the freezing point and the media.
func (k *checker) way(r resolved) {
	from, to := k.c.From.C(), k.c.To.C()
	for _, t := range []struct {
		key string
		c   float64
	}{{"from", from}, {"to", to}} {
		if heat.InRange(t.key, "°C", t.c, coldestFoodC, hottestFoodC) != nil {
			k.stop(t.key, fmt.Sprintf("%.4g °C is beyond what is known of foods", t.c), fmt.Sprintf("give %d to %d °C", coldestFoodC, hottestFoodC))
			return
		}
	}
	freezing := k.temp(r.freezesC)
	switch p := k.c.Process; {
	case p.chills() && to >= from:
		k.stop("to", k.temp(to)+" is not colder than the start, "+k.temp(from), "give a colder target, or say reheat")
	case !p.chills() && to <= from:
		k.stop("to", k.temp(to)+" is not warmer than the start, "+k.temp(from), "give a warmer target, or say cool")
	case p == Cool && to <= r.freezesC:
		k.stop("to", "it begins to freeze at "+freezing, "give a target above that, or say freeze")
	case p == Freeze && (from < r.freezesC || to >= r.freezesC):
		k.stop("to", "freezing goes from above "+freezing+", where it begins to freeze, to below", "give such a start and target, or say cool")
	case p == Thaw && from >= r.freezesC:
		k.stop("from", "it is not frozen at "+k.temp(from), "give a start below "+freezing+", or say reheat")
	case k.c.Stir != Unstirred && from <= r.freezesC:
		k.stop("stir", "what is frozen cannot be stirred", "leave stirring out")
	default:
		k.reach(from, to)
	}
}

// reach wants media that pull the food towards its target: one of them past it, none of them the other way.
func (k *checker) reach(from, to float64) {
	chills := k.c.Process.chills()
	beyond := false
	for _, s := range k.c.met() {
		gap := to - s.tempC
		if !chills {
			gap = -gap
		}
		beyond = beyond || gap >= leastGapK
		if chills && s.tempC >= from || !chills && s.tempC <= from {
			k.stop(s.key(k.c), fmt.Sprintf("%s is at %s, which takes food at %s the wrong way", s.medium.Name, k.temp(s.tempC), k.temp(from)), "give another medium or its real temperature")
			return
		}
	}
	if beyond {
		return
	}
	s := k.c.met()[0]
	side, other := "colder", "warmer"
	if !chills {
		side, other = other, side
	}
	k.stop(s.key(k.c), fmt.Sprintf("%s is at %s, which is not %s than the target, %s: the core ends there and never gets to it", s.medium.Name, k.temp(s.tempC), side, k.temp(to)),
		fmt.Sprintf("give a %s medium, or a %s target", side, other))
}

// temp is a temperature to a tenth of a degree, as the reader has it: whole degrees would hide what is compared.
func (k *checker) temp(c float64) string {
	if k.c.Units == unit.US {
		return fmt.Sprintf("%.1f °F", unit.TempC(c).F())
	}
	return fmt.Sprintf("%.1f °C", c)
}

// key is where the temperature of a side is said.
func (s side) key(c Case) string {
	switch {
	case s.name == "below" && (c.Below.Medium != "" || c.Below.At != nil):
		return "below-at"
	case s.name == "above" && (c.Above.Medium != "" || c.Above.At != nil):
		return "above-at"
	}
	return "at"
}

// plainRange is an error of the heat engines, without more digits than anybody reads.
func plainRange(err error) string {
	if e, ok := errors.AsType[*heat.RangeError](err); ok {
		return fmt.Sprintf("%s of %.4g %s, known from %.4g to %.4g", e.What, e.Value, e.Unit, e.Low, e.High)
	}
	return err.Error()
}
