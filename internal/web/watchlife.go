package web

import (
	"errors"
	"net/http"
	"net/url"
	"strconv"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

const lifePath = "/freezers/watch/life"

// lifePage is all that templates/storagelife.html may show: what storage took of the quality of a lot. The page of the lot takes it in as a part.
type lifePage struct {
	shell
	Lot, LotURL string
	Why         string // why nothing is reckoned
	By          string
	Rows        []lifeRow
}

// lifeRow is packs that lay at the same places at the same times.
type lifeRow struct{ Numbers, Took, Left, Read string }

var lifeTemplate = parse[lifePage]("storagelife")

// lifeURL is where the page of a lot finds what storage took of it; nothing for what does not lie in freezers.
func lifeURL(y lots.Story, query url.Values) string {
	if y.Sort != lots.Packs || y.BestBefore == "" {
		return ""
	}
	return lotURL(lifePath, y.Lot, query)
}

func (s *server) showLife(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	query := r.URL.Query()
	id := record.Lot(tidy(query.Get(codeKey)))
	if s.records == nil || id == "" {
		s.missing(w, r, book, "Look the lot up first.")
		return
	}
	x, err := s.records.Spent(r.Context(), book, id, s.instant())
	if unknown := (*lots.UnknownError)(nil); errors.As(err, &unknown) {
		s.missing(w, r, book, "No entry names that lot.")
		return
	}
	if err != nil {
		s.refuse(w, r, http.StatusInternalServerError, sentence(err))
		return
	}
	v := lifePage{shell: s.inShell(r, book.Kitchen, "Storage of lot "+string(id), "stock"), Lot: string(id), LotURL: lotURL(lotPath, id, query)}
	v.Why, v.By = lifeWhy(x)
	for _, g := range x.Spent {
		v.Rows = append(v.Rows, lifeRowOf(g, x.Life))
	}
	lifeTemplate.show(w, http.StatusOK, v)
}

func lifeWhy(x app.LifeSpent) (why, by string) {
	switch {
	case x.Life.Days <= 0:
		return "Nobody said how long it keeps, so nothing is reckoned.", ""
	case !x.Watched:
		return "By the book no thermometer watches a freezer, so nothing is reckoned.", ""
	case len(x.Spent) == 0:
		return "By the records no packs of it lie, or lay, anywhere.", ""
	}
	return "", strconv.FormatFloat(x.Life.Days, 'f', 0, 64) + " days at 0 °F (-18 °C), " + x.Life.By
}

func lifeRowOf(g coldwatch.Spent, life coldwatch.Life) lifeRow {
	row := lifeRow{Numbers: theirNumbers(g.Numbers.String()), Took: "nothing was read", Read: coldwatch.Length(g.ReadMs) + " read"}
	if g.ReadMs > 0 {
		row.Took = shareWords(g.Used.Share, g.Used.Low, g.Used.High)
		if g.UnreadMs == 0 && g.ElsewhereMs == 0 && g.WarmMs == 0 {
			row.Left = coldwatch.Length(int64(max(0, 1-g.Used.Share) * life.Days * dayMillis))
		}
	}
	if g.UnreadMs > 0 {
		row.Read += ", " + coldwatch.Length(g.UnreadMs) + " not known"
	}
	if g.ElsewhereMs > 0 {
		row.Read += ", " + coldwatch.Length(g.ElsewhereMs) + " where no probe is"
	}
	if g.WarmMs > 0 {
		row.Read += ", " + coldwatch.Length(g.WarmMs) + " above -5 °C (23 °F), which is in no share"
	}
	return row
}
