package nextrun

import (
	"kettlefrost/internal/finding"
	"kettlefrost/internal/forecast"
)

// Schema names the shape of a View.
const Schema = "kettlefrost.next-run/1"

// View is a proposal for programs.
type View struct {
	Schema string `json:"schema"`
	Proposal
	Packs []RowView `json:"packs"` // every pack of the book, those to be made first
}

// RowView is one pack for programs.
type RowView struct {
	Row
	Forecast *ForecastView `json:"forecast,omitempty"` // nothing when too little is known
}

// ForecastView is what will probably be sold from today on, orders that are known left aside.
type ForecastView struct {
	Method   string   `json:"method"`
	Setting  string   `json:"setting,omitempty"` // of the method
	Expected float64  `json:"expected"`          // packs until the last day
	Low      float64  `json:"low"`
	High     float64  `json:"high"`
	Cover    float64  `json:"cover"` // how often it should be from low to high, of one
	Past     int      `json:"past_weeks"`
	Measured int      `json:"measured_weeks"` // of those: the method was held against them
	RMSE     float64  `json:"rmse"`           // root mean square error of a week, in packs
	MAE      float64  `json:"mae"`            // mean error of a week without its sign, in packs
	Bias     float64  `json:"bias"`           // mean of forecast less sold; above 0 it says too much
	Doubts   []string `json:"doubts"`
}

// View is a proposal for programs.
func (p Proposal) View() View {
	v := View{Schema: Schema, Proposal: p, Packs: []RowView{}}
	v.Runs, v.Findings = append([]Counted{}, p.Runs...), append(finding.List{}, p.Findings...)
	for _, r := range p.Rows {
		r.Sold = append([]float64{}, r.Sold...)
		v.Packs = append(v.Packs, RowView{r, viewForecast(r.Forecast)})
	}
	return v
}

func viewForecast(f *forecast.Forecast) *ForecastView {
	if f == nil {
		return nil
	}
	v := &ForecastView{Method: f.Method.String(), Setting: f.Setting.String(), Expected: f.Total, Low: f.Range.Low, High: f.Range.High, Cover: f.Range.Cover, Past: f.Past,
		Measured: f.Error.Origins, RMSE: f.Error.RMSE, MAE: f.Error.MAE, Bias: f.Error.Bias, Doubts: []string{}}
	for _, d := range f.Doubts {
		v.Doubts = append(v.Doubts, d.String())
	}
	return v
}
