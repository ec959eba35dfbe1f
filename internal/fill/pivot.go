package fill

// entering is the column that promises the most, or, against going round in circles, the first that promises anything (Bland).
func (r *relaxation) entering(z []float64, first bool) int {
	best, most := -1, 1e-9
	for c := range r.cols {
		if z[c] > most {
			best, most = c, z[c]
			if first {
				break
			}
		}
	}
	return best
}

// enter raises the variable of column c as far as it goes.
func (r *relaxation) enter(c int) {
	row, least, atUpper := -1, r.upper[r.non[c]], false
	for i, v := range r.basic {
		a, b := r.tab[i][c], r.tab[i][r.cols]
		switch {
		case a > 1e-11 && b/a < least:
			row, least, atUpper = i, max(0, b/a), false
		case a < -1e-11 && (r.upper[v]-b)/-a < least:
			row, least, atUpper = i, max(0, (r.upper[v]-b)/-a), true
		}
	}
	if row < 0 {
		r.flip(c)
		return
	}
	if atUpper {
		v := r.basic[row]
		r.flipped[v] = !r.flipped[v]
		for k := range r.cols {
			r.tab[row][k] = -r.tab[row][k]
		}
		r.tab[row][r.cols] = r.upper[v] - r.tab[row][r.cols]
	}
	r.pivot(row, c)
}

// flip takes the variable of column c to its other end.
func (r *relaxation) flip(c int) {
	u := r.upper[r.non[c]]
	for _, rows := range [2][][]float64{r.tab, r.goalRow} {
		for _, row := range rows {
			row[r.cols] -= row[c] * u
			row[c] = -row[c]
		}
	}
	r.flipped[r.non[c]] = !r.flipped[r.non[c]]
}

func (r *relaxation) pivot(row, c int) {
	pr := r.tab[row]
	inv := 1 / pr[c]
	for k := range pr {
		pr[k] *= inv
	}
	pr[c] = inv
	for _, rows := range [2][][]float64{r.tab, r.goalRow} {
		for _, ir := range rows {
			f := ir[c]
			if f == 0 || &ir[0] == &pr[0] {
				continue
			}
			for k, p := range pr {
				ir[k] -= f * p
			}
			ir[c] = -f * inv
		}
	}
	r.basic[row], r.non[c] = r.non[c], r.basic[row]
}
