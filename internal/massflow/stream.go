package massflow

// Stream is some food on its way: for each ingredient what is left of it, component by component, and how much of it was put in.
// The put-in mass is what labels and costs follow: evaporation and residue do not lessen it, and where a step gives several outputs
// it goes with the matter.
type Stream struct {
	Parts []Fractions // kilograms, one row an ingredient
	PutIn []float64   // kilograms of each ingredient as put in
}

func newStream(ingredients int) Stream {
	return Stream{Parts: make([]Fractions, ingredients), PutIn: make([]float64, ingredients)}
}

// Kg is the mass of the stream.
func (s Stream) Kg() float64 {
	total := 0.0
	for _, x := range s.Composition() {
		total += x
	}
	return total
}

// Composition is the kilograms of each component.
func (s Stream) Composition() Fractions {
	var sum Fractions
	for _, row := range s.Parts {
		for c, x := range row {
			sum[c] += x
		}
	}
	return sum
}

func (s Stream) component(c Component) float64 {
	sum := 0.0
	for _, row := range s.Parts {
		sum += row[c]
	}
	return sum
}

// add puts factor times t into s.
func (s Stream) add(t Stream, factor float64) {
	for i := range s.Parts {
		for c := range s.Parts[i] {
			s.Parts[i][c] += factor * t.Parts[i][c]
		}
		s.PutIn[i] += factor * t.PutIn[i]
	}
}

func (s Stream) addIngredient(i int, f Fractions, kg float64) {
	for c, x := range f {
		s.Parts[i][c] += kg * x
	}
	s.PutIn[i] += kg
}

// drop takes up to kg of one component out of s for good and returns what it took. Put-in masses stay.
func (s Stream) drop(c Component, kg float64) float64 {
	have := s.component(c)
	if kg <= 0 || have <= 0 {
		return 0
	}
	kg = min(kg, have)
	keep := 1 - kg/have
	for i := range s.Parts {
		s.Parts[i][c] *= keep
	}
	return kg
}

// shrink takes up to kg of the whole mixture out of s for good and returns what it took. Put-in masses stay.
func (s Stream) shrink(kg float64) float64 {
	have := s.Kg()
	if kg <= 0 || have <= 0 {
		return 0
	}
	kg = min(kg, have)
	for i := range s.Parts {
		for c := range s.Parts[i] {
			s.Parts[i][c] *= 1 - kg/have
		}
	}
	return kg
}

// draw moves up to kg of one component (or of the whole mixture, when part is Mixed) into a stream of its own.
func (s Stream) draw(part Part, kg float64) Stream {
	out := newStream(len(s.Parts))
	have := s.Kg()
	switch part {
	case FromFat:
		have = s.component(Fat)
	case FromWater:
		have = s.component(Water)
	}
	if kg <= 0 || have <= 0 {
		return out
	}
	share := min(1, kg/have)
	for i := range s.Parts {
		before, moved := 0.0, 0.0
		for c := range s.Parts[i] {
			x := s.Parts[i][c]
			before += x
			if part == Mixed || part == FromFat && Component(c) == Fat || part == FromWater && Component(c) == Water {
				out.Parts[i][c] = share * x
				s.Parts[i][c] -= out.Parts[i][c]
				moved += out.Parts[i][c]
			}
		}
		if before > 0 {
			out.PutIn[i] = s.PutIn[i] * moved / before
			s.PutIn[i] -= out.PutIn[i]
		}
	}
	return out
}

// volumeL is the volume of the components side by side.
func (s Stream) volumeL(densityKgL Fractions) float64 {
	v := 0.0
	for c, kg := range s.Composition() {
		if densityKgL[c] > 0 {
			v += kg / densityKgL[c]
		}
	}
	return v
}
