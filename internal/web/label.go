package web

import (
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/labelrule"
	"kettlefrost/internal/language"
	"kettlefrost/internal/record"
)

// Addresses of the labels of packs.
const (
	packLabelsPath = "/labels"
	packLabelPath  = "/labels/pack"
	labelPNGPath   = "/labels/pack.png"
	labelPDFPath   = "/labels/print.pdf"
)

// Fields of their addresses and forms, as *coldstore.Refusal names them.
const (
	labelLot     = "lot"
	labelStock   = "stock"
	labelTongue  = "language"
	labelRules   = "rules"
	labelRun     = "run"
	labelStaff   = "staff"
	labelYearly  = "yearly"
	labelWithout = "without"
	labelCount   = "count"
	labelWhy     = "why"
	labelStart   = "start"
	labelSkip    = "skip"
)

// labelKeys are those that say which label is meant.
var labelKeys = []string{packKey, labelLot, labelRun, labelTongue, labelStock, labelRules, labelStaff, labelYearly, labelWithout}

func (s *server) labelRoutes(mux *http.ServeMux) {
	s.labels = app.NewLabels(s.house, s.records, s.boards)
	mux.HandleFunc("GET "+packLabelsPath, s.showPackLabels)
	mux.HandleFunc("GET "+packLabelsPath+".json", s.showPackLabelsJSON)
	mux.HandleFunc("GET "+packLabelPath, s.showPackLabel)
	mux.HandleFunc("POST "+packLabelPath, s.entering(s.printLabels))
	mux.HandleFunc("GET "+packLabelPath+".json", s.showPackLabelJSON)
	mux.HandleFunc("GET "+labelPNGPath, s.showLabelPNG)
	mux.HandleFunc("GET "+labelPDFPath, s.showLabelPDF)
}

// labelTyped is which label is asked for, as typed, with what of it cannot be read.
func labelTyped(get func(string) string) (app.LabelAsk, *fieldProblem) {
	ask := app.LabelAsk{Pack: kitchen.PackID(tidy(get(packKey))), Lot: record.Lot(tidy(get(labelLot))), Run: tidy(get(labelRun)), Stock: tidy(get(labelStock)), Regime: kitchen.LabelRegime(strings.ToLower(tidy(get(labelRules))))}
	if text := tidy(get(labelTongue)); text != "" {
		in, err := language.Parse(text)
		if err != nil {
			return ask, &fieldProblem{labelTongue, sentence(err)}
		}
		ask.Language = in
	}
	small, bad := businessTyped(get)
	ask.Business, ask.WithoutPanel = small, tidy(get(labelWithout)) != ""
	return ask, bad
}

// fieldProblem is what is wrong with a field.
type fieldProblem struct{ Key, Says string }

// businessTyped is how small the business is, by which the panel may be left out.
func businessTyped(get func(string) string) (b labelrule.Business, bad *fieldProblem) {
	if text := tidy(get(labelStaff)); text != "" {
		n, err := strconv.ParseFloat(text, 64)
		if err != nil || !(n >= 0 && n < 1e6) {
			return b, &fieldProblem{labelStaff, fmt.Sprintf("%q is no number of people: write 3, or 2.5 for part-time work.", text)}
		}
		b.Staff = n
	}
	if text := tidy(get(labelYearly)); text != "" {
		n, err := strconv.Atoi(strings.ReplaceAll(text, ",", ""))
		if err != nil || n < 0 {
			return b, &fieldProblem{labelYearly, fmt.Sprintf("%q is no number of packs: write 5000.", text)}
		}
		b.YearlyUnits = n
	}
	return b, nil
}

// labelURL is the address of something of a label that is asked for by a query, with some of it otherwise.
func labelURL(path string, query url.Values, pairs ...string) string {
	q := url.Values{}
	for _, key := range append([]string{"units"}, labelKeys...) {
		if text := tidy(query.Get(key)); text != "" {
			q.Set(key, text)
		}
	}
	for i := 0; i+1 < len(pairs); i += 2 {
		if pairs[i+1] == "" {
			q.Del(pairs[i])
		} else {
			q.Set(pairs[i], pairs[i+1])
		}
	}
	return path + queryOf(q)
}
