package app

import (
	"strconv"

	"kettlefrost/internal/tables"
	"kettlefrost/internal/trials"
)

// TrialTable is every value of a trial in a row, for other programs.
func TrialTable(r trials.Results) tables.Table {
	t := tables.Table{Name: "trial", About: "one figure of one pack, or of what one taster was given", Columns: []tables.Column{
		{Name: "trial"}, {Name: "dish"}, {Name: "variant"}, {Name: "change"}, {Name: "week", Kind: tables.Whole}, {Name: "figure"}, {Name: "unit"}, {Name: "value", Kind: tables.Decimal},
		{Name: "taster"}, {Name: "pack", Kind: tables.Whole}, {Name: "entered", Kind: tables.Time}, {Name: "entered by"}, {Name: "entry"}}}
	by := map[string][2]string{} // when and by whom, of entries
	for _, o := range r.Trial.Opened {
		by[o.Entry.String()] = [2]string{moment(o.At), o.Who}
	}
	for _, s := range r.Trial.Scored {
		by[s.Entry.String()] = [2]string{moment(s.At), s.Who}
	}
	b := r.Trial.Laid.Body
	for _, f := range r.Figures {
		for _, x := range f.Seen {
			v := b.Variants[x.Variant]
			taster, pack := "", ""
			if x.Taster >= 0 {
				taster = b.Tasters[x.Taster]
			} else {
				pack = strconv.FormatInt(x.Number, 10)
			}
			entry := x.Entry.String()
			t.Rows = append(t.Rows, []string{r.Trial.Name, b.Dish, v.Name, string(v.Change), strconv.FormatInt(int64(x.Week), 10), f.Figure.Figure, f.Figure.Unit, strconv.FormatFloat(x.Value, 'f', -1, 64), taster, pack, by[entry][0], by[entry][1], entry})
		}
	}
	return t
}
