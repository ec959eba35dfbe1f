package web

import (
	"fmt"
	"html/template"
	"net/url"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// recallView is an answer to what contains some lots.
type recallView struct {
	Words   string // what was asked
	Meant   []lotLink
	Named   []string // single packs that were asked for, and where they are
	Unsure  []lotLink
	Both    string // address of the recall with those that cannot be ruled out
	Share   string
	Counts  string
	Told    string // only when it is not what was found
	Open    string // in bulk
	Verdict verdictView
	Trouble []string
	Calls   []callView
	Here    []stayRow
	Gone    []lostRow
	Bulk    []bulkRow
	Pots    []bulkRow
	Lots    []reachedRow
	More    []string // what is left out of long lists, and where it stands
	Picture pictureView
	Links   []choiceLink // the same as paper and as files
}

// lotLink leads to a lot.
type lotLink struct{ URL, Lot, What string }

// verdictView is how something came out, in a word with a sign.
type verdictView struct{ Class, Sign, Word, Says string }

// callView is somebody who has to be told.
type callView struct {
	Name, Phone, Mail, Address string
	Dial                       template.URL // of digits alone
	First, Packs               string
	Mass                       figure
	Items                      []callRow
	More                       string // items that are left out
}

// callRow is packs that left the house together.
type callRow struct {
	URL, Lot, What, Numbers, Count string
	Mass                           figure
	BestBefore, Left, Order        string
	Address, TakenBy               string
	Doubted                        bool
}

// stayRow is what is on hand of a lot at a place.
type stayRow struct {
	URL, Lot, What, Place, Count, Numbers string
	Mass                                  figure
	Held                                  string
	Free                                  bool
}

type lostRow struct {
	URL, Lot, Numbers, Count, State string
	Mass                            figure
}

type bulkRow struct {
	URL, Lot, What                         string
	Came, OnHand, Used, Waste, Unaccounted figure
}

// reachedRow is a lot that a trace leads to.
type reachedRow struct {
	URL, Lot, What        string
	Steps                 string
	Expected, Least, Most figure
}

// recallShower puts a recall into words for one reader.
type recallShower struct {
	rd    reader
	query url.Values
	clock func(record.Instant) string
}

// How much of long lists stands on a page, so that it comes at once on a tablet; paper and files have everything.
const (
	mostItems   = 150 // deliveries, of all customers
	mostLotRows = 60
	mostStays   = 150
)

// shorten leaves out of a screen's lists what nobody reads there.
func (v *recallView) shorten() {
	left := func(what string, rows, most int) {
		if rows > most {
			v.More = append(v.More, fmt.Sprintf("%d more %s are on the printed report and in the files.", rows-most, what))
		}
	}
	each := max(2, mostItems/max(1, len(v.Calls)))
	for i, c := range v.Calls {
		if n := len(c.Items) - each; n > 0 {
			v.Calls[i].Items, v.Calls[i].More = c.Items[:each], times(n, "more delivery is", "more deliveries are")+" on the printed report and in the call list."
		}
	}
	left("things unaccounted for", len(v.Trouble), mostLotRows)
	left("lots that cannot be ruled out", len(v.Unsure), mostLotRows)
	v.Trouble, v.Unsure = atMost(v.Trouble, mostLotRows), atMost(v.Unsure, mostLotRows)
	left("places on hand", len(v.Here), mostStays)
	left("lots that contain it", len(v.Lots), mostLotRows)
	left("lots in bulk", len(v.Bulk), mostLotRows)
	left("pots", len(v.Pots), mostLotRows)
	left("stretches of packs that are gone", len(v.Gone), mostLotRows)
	v.Gone = atMost(v.Gone, mostLotRows)
	left("lots that were asked for", len(v.Meant), mostLotRows)
	v.Here = atMost(v.Here, mostStays)
	v.Lots, v.Bulk, v.Pots, v.Meant = atMost(v.Lots, mostLotRows), atMost(v.Bulk, mostLotRows), atMost(v.Pots, mostLotRows), atMost(v.Meant, mostLotRows)
}

func atMost[T any](rows []T, most int) []T { return rows[:min(len(rows), most)] }

func (x recallShower) view(r lots.Report, words string) *recallView {
	a := r.Account
	v := &recallView{Words: words, Meant: x.links(r.Of), Unsure: x.links(r.Unsure), Share: percent(a.Share), Counts: fmt.Sprintf("%d of %s", a.Found, times(int(a.Made), "pack", "packs")),
		Verdict: recallVerdict(r), Trouble: r.Troubles(x.rd.units), Bulk: x.bulk(r.Bulk), Pots: x.bulk(r.Pots)}
	if a.Told != a.Found {
		v.Told = fmt.Sprintf("The records tell of %d packs in known places, %s of those made. Some are told of twice or were never made: more than 100 %% is a failure too.", a.Told, percent(a.Ratio))
	}
	if a.BulkMass > 0 {
		v.Open = fmt.Sprintf("%s of %s", x.orNone(a.BulkOpen), x.rd.fig(a.BulkMass).First)
	}
	if len(r.Unsure) > 0 {
		v.Both = recallPath + queryOf(url.Values{codeKey: {lotNames(r.Of, r.Unsure)}})
	}
	for _, n := range r.Named {
		v.Named = append(v.Named, x.named(n))
	}
	for _, c := range r.Calls {
		v.Calls = append(v.Calls, x.call(c))
	}
	v.Here = x.stays(r.OnHand)
	for _, g := range r.Gone {
		state := g.State
		if g.NotFound() {
			state = "NOT FOUND"
		}
		v.Gone = append(v.Gone, lostRow{lotURL(lotPath, g.Lot, x.query), string(g.Lot), g.Numbers, fmt.Sprint(g.Packs), state, x.rd.fig(g.Mass)})
	}
	v.Lots = x.reached(r.Lots)
	return v
}

// lotNames are lots as a question names them.
func lotNames(lists ...[]record.Lot) (text string) {
	for _, list := range lists {
		for _, lot := range list {
			text = joined(text, string(lot))
		}
	}
	return text
}

// named is where a pack is that somebody asked for.
func (x recallShower) named(n lots.Named) string {
	text := fmt.Sprintf("No. %s of %s: %s", n.Numbers, n.Lot, n.State)
	if n.Where != "" {
		text += ", " + n.Where
	}
	if n.At != 0 {
		text += ", " + x.clock(n.At)
	}
	return text + "."
}

func (x recallShower) orNone(m unit.Mass) string {
	if m == 0 {
		return "none"
	}
	return x.rd.fig(m).First
}

func percent(share float64) string { return fmt.Sprintf("%.2f %%", 100*share) }

// recallVerdict is whether everything is accounted for. Nothing here says that it is safe.
func recallVerdict(r lots.Report) verdictView {
	a := r.Account
	switch {
	case !a.PacksComplete:
		return verdictView{"stop", "■", "NOT EVERY PACK IS ACCOUNTED FOR", "Look for what is missing, told of twice or never made, before anybody is told that this is all."}
	case len(r.Unsure) > 0:
		return verdictView{"caution", "▲", "SOME LOTS CANNOT BE RULED OUT", "Nobody wrote down the supplier's lot number of them. Find the delivery note, or recall them too."}
	case a.BulkOpen != 0:
		return verdictView{"caution", "▲", "EVERY PACK IS IN A KNOWN PLACE, NOT ALL IN BULK IS", "What is unaccounted in bulk is named below."}
	case a.Made == 0 && len(r.OnHand) == 0:
		return verdictView{"note", "●", "NO PACK AND NOTHING ON HAND CONTAINS ANY OF IT", "By the records."}
	}
	return verdictView{"note", "●", "ALL ACCOUNTED FOR", "By the records: what nobody wrote down is not in them."}
}
