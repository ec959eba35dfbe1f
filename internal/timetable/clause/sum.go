package clause

// term is a Term; from or to below 0 stands for 0.
type term struct{ from, to, min, weight int32 }

// sum is a Sum with what each term costs at least as things stand.
type sum struct {
	terms []term
	least []int64
	total int32
	most  int64
}

func newSum(given Sum) sum {
	s := sum{total: int32(given.Total), most: int64(given.Most), least: make([]int64, len(given.Terms))}
	for _, t := range given.Terms {
		s.terms = append(s.terms, term{int32(t.From), int32(t.To), int32(t.Min), int32(t.Weight)})
	}
	return s
}

// lowest and highest are the least and greatest value of a variable, 0 for none.
func (s *Search) lowest(x int32) int32 {
	if x < 0 {
		return 0
	}
	return s.at[2*x]
}

func (s *Search) highest(x int32) int32 {
	if x < 0 {
		return 0
	}
	return -s.at[2*x+1]
}

// weigh raises the total to what the terms cost at least, and keeps each term within what is left of it.
func (s *Search) weigh(m *sum) bool {
	all := int64(0)
	for k, t := range m.terms {
		m.least[k] = int64(t.weight) * int64(max(0, s.lowest(t.to)-s.highest(t.from)-t.min))
		all += m.least[k]
	}
	most := m.most
	if m.total >= 0 {
		most = int64(s.highest(m.total))
		if all > int64(s.lowest(m.total)) {
			from := s.costs(m, -1, all-min(all, most+1))
			if !s.conclude(2*m.total, int32(min(all, most+1)), byReasons, from, int32(len(s.why))-from) {
				return false
			}
		}
	} else if all > most {
		from := s.costs(m, -1, all-most-1)
		s.clash = append(s.clash[:0], s.why[from:]...)
		return false
	}
	for k, t := range m.terms {
		if t.weight > 0 && !s.keepWithin(m, k, t, all, most) {
			return false
		}
	}
	return true
}

// keepWithin pushes the two ends of a term together so far that the sum stays within most.
func (s *Search) keepWithin(m *sum, k int, t term, all, most int64) bool {
	left := most - (all - m.least[k])
	room := int32(min(left/int64(t.weight), 1<<30-1)) + t.min // how far to may come after from
	spare := int64(t.weight)*(left/int64(t.weight)+1) - left - 1
	limit := func() int32 {
		from := s.costs(m, k, spare)
		if m.total >= 0 {
			s.why = s.because(s.why, 2*m.total+1, -s.highest(m.total))
		}
		return from
	}
	if t.to >= 0 && -(s.highest(t.from)+room) > s.at[2*t.to+1] {
		from := limit()
		if t.from >= 0 {
			s.why = s.because(s.why, 2*t.from+1, s.at[2*t.from+1])
		}
		if !s.conclude(2*t.to+1, -(s.highest(t.from) + room), byReasons, from, int32(len(s.why))-from) {
			return false
		}
	}
	if t.from >= 0 && s.lowest(t.to)-room > s.at[2*t.from] {
		from := limit()
		if t.to >= 0 {
			s.why = s.because(s.why, 2*t.to, s.at[2*t.to])
		}
		return s.conclude(2*t.from, s.lowest(t.to)-room, byReasons, from, int32(len(s.why))-from)
	}
	return true
}

// costs writes down why the terms other than skip cost what they do at least, less up to spare, which leaves terms out. It returns where.
func (s *Search) costs(m *sum, skip int, spare int64) (from int32) {
	from = int32(len(s.why))
	for k, t := range m.terms {
		if k == skip || m.least[k] == 0 {
			continue
		}
		if m.least[k] <= spare {
			spare -= m.least[k]
			continue
		}
		if t.to >= 0 {
			s.why = s.because(s.why, 2*t.to, s.at[2*t.to])
		}
		if t.from >= 0 {
			s.why = s.because(s.why, 2*t.from+1, s.at[2*t.from+1])
		}
	}
	return from
}
