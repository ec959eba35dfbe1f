package app

import (
	"cmp"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/critical"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/folder"
	"kettlefrost/internal/hazards"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// FolderAsk is which lots an inspector's folder is about, and how it is written.
type FolderAsk struct {
	lots.Ask
	Words string                                // what was asked, when the Ask's own words do not say it all
	AsOf  record.Instant                        // what was entered and read until then; 0 is until the last entry
	Only  bool                                  // the bundle holds only the entries that the folder rests on, not the whole chain
	Says  func(record.Body, unit.System) string // an entry in words
	Zone  *time.Location                        // of the clock on the wall
}

// folderClock writes times as they stand in every folder, wherever it is made: words are a part of what is signed.
func folderClock(zone *time.Location) folder.Clock {
	wall := func(at record.Instant) time.Time { return time.UnixMilli(int64(at)).In(zone) }
	return folder.Clock{Wall: wall, Time: func(at record.Instant) string { return wall(at).Format("2 Jan 2006 15:04") }, Hour: func(at record.Instant) string { return wall(at).Format("15:04") }}
}

// DaysInWords is what was asked with its days, which an Ask has as times alone. A day that was not given is "".
func DaysInWords(a lots.Ask, from, until string) string {
	words := a.Words()
	if a.From, a.Before = 0, 0; a.Empty() {
		words = "all lots"
	}
	for _, x := range [...]struct{ lead, day string }{{" from ", from}, {" until ", until}} {
		if x.day != "" {
			words += x.lead + x.day
		}
	}
	return words
}

// InspectorFolder is a folder with what it takes to write it.
type InspectorFolder struct {
	folder.Bundle
	Chain []record.Entry
	Clock folder.Clock
}

// NoLotError says that no lot is what was asked for.
type NoLotError struct{ Asked string }

func (e *NoLotError) Error() string {
	return fmt.Sprintf("no lot is %s: ask for less, or look at what the records have", e.Asked)
}

// Folder puts an inspector's folder together. It is made of all entries as they are sealed, each held against the chain. Errors are *NoLotError,
// *lots.CodeError and *lots.UnknownError for what cannot be meant, and *store.Error.
func (r *Records) Folder(ctx context.Context, book kitchen.Book, ask FolderAsk) (InspectorFolder, error) {
	if err := r.named(ctx, ask); err != nil {
		return InspectorFolder{}, err
	}
	chain, state, err := r.chain(ctx)
	if err != nil {
		return InspectorFolder{}, err
	}
	clock := folderClock(ask.Zone)
	m := folder.Material{Asked: cmp.Or(ask.Words, ask.Ask.Words()), Kitchen: kitchenOf(book), Clock: clock.Time}
	m.Day = func(at record.Instant) record.Day { return record.Day(clock.Wall(at).Format(time.DateOnly)) }
	m.Says = func(b record.Body) string { return ask.Says(b, book.Kitchen.Units) }
	m.About, m.AsOf = aboutFolder(m.Asked), ask.AsOf
	if m.AsOf == 0 && len(chain) > 0 {
		m.AsOf = chain[len(chain)-1].Entered
	}
	if err := r.gather(ctx, book, ask, untilThen(chain, m.AsOf), &m); err != nil {
		return InspectorFolder{}, err
	}
	if err := ctx.Err(); err != nil {
		return InspectorFolder{}, err
	}
	tellJob(ctx, "Writing the folder", 0, 0)
	contents, err := folder.Make(m)
	if err != nil {
		return InspectorFolder{}, err
	}
	b, err := contents.Sealed(chain, state, !ask.Only)
	return InspectorFolder{b, chain, clock}, err
}

// named refuses codes that no entry names before every entry is held against the chain, which takes long. As of an earlier time it cannot tell: what
// was there then may have been taken back since. Errors are as of Folder.
func (r *Records) named(ctx context.Context, ask FolderAsk) error {
	var unknown error
	err := r.Lots(ctx, func(state *lots.State, _ finding.List) error {
		_, unknown = state.Find(ask.Ask)
		return nil
	})
	if err != nil || unknown == nil {
		return err
	}
	if last, err := r.LastEntered(ctx); err != nil || ask.AsOf != 0 && ask.AsOf < last {
		return err
	}
	return unknown
}

// mostAbout is how much of what was asked stands in the name of what is signed, in bytes.
const mostAbout = 120

// aboutFolder is what a signature on a folder is about. What is too long for a name is told apart by its hash.
func aboutFolder(asked string) string {
	if len(asked) <= mostAbout {
		return "folder: " + asked
	}
	return fmt.Sprintf("folder: %s… (%.16x)", strings.ToValidUTF8(asked[:mostAbout], ""), sha256.Sum256([]byte(asked)))
}

// LastEntered is when the last entry was taken in, which is as of when a folder is that nobody asked an earlier one of; 0 before the first.
func (r *Records) LastEntered(ctx context.Context) (at record.Instant, err error) {
	head, err := r.store.Head(ctx)
	if err != nil || head.Seq == 0 {
		return 0, err
	}
	for e, err := range r.store.Read(ctx, head.Seq) {
		if err != nil {
			return 0, err
		}
		at = e.Entered
	}
	return at, nil
}

// tellEntries is after how many entries it is told how far the chain is checked.
const tellEntries = 1000

// chain is every entry, and how the chain stands. What comes after a break is kept, and the break is told.
func (r *Records) chain(ctx context.Context) (all []record.Entry, state folder.Chain, err error) {
	var v record.Verifier
	state.Verified = true
	head, err := r.store.Head(ctx)
	if err != nil {
		return nil, state, err
	}
	for e, err := range r.store.Read(ctx, 1) {
		if err != nil {
			return nil, state, err
		}
		if e.Seq%tellEntries == 0 {
			tellJob(ctx, fmt.Sprintf("Checking the chain of entries: %d of %d", e.Seq, head.Seq), int(e.Seq), int(head.Seq))
		}
		if state.Verified {
			if err := v.Next(e); err != nil {
				state.Verified, state.Problem = false, err.Error()
			}
		}
		all = append(all, e)
		state.Entered = e.Entered
	}
	state.Head = v.Head
	return all, state, nil
}

// untilThen are the entries that were taken in until a time.
func untilThen(chain []record.Entry, asOf record.Instant) []record.Entry {
	n := len(chain)
	for n > 0 && chain[n-1].Entered > asOf {
		n--
	}
	return chain[:n]
}

func kitchenOf(book kitchen.Book) folder.Kitchen {
	k := folder.Kitchen{Name: book.Kitchen.Name, Place: book.Kitchen.Place, Jurisdiction: book.Safety.Jurisdiction, Approval: book.Kitchen.VacuumApproval, Units: book.Kitchen.Units}
	if k.Jurisdiction != "" {
		k.JudgedFrom = book.Safety.From
	}
	return k
}

// gather fills in what others say of the lots.
func (r *Records) gather(ctx context.Context, book kitchen.Book, ask FolderAsk, chain []record.Entry, m *folder.Material) error {
	tellJob(ctx, "Gathering the lots, their records and what was read", 0, 0)
	var judged critical.Judgement
	now := false // the states are as of these entries
	err := r.Lots(ctx, func(state *lots.State, found finding.List) error {
		m.State, m.Fits, now = state.Copy(), found, len(chain) > 0 && chain[len(chain)-1].Seq == r.seen
		if r.judging != nil {
			judged = r.judging.all
		}
		return nil
	})
	if err != nil {
		return err
	}
	if !now {
		m.State, m.Fits = foldedUntil(chain, judged)
	}
	meant, err := m.State.Find(ask.Ask)
	if err != nil {
		return err
	}
	runs := ask.runs(chain)
	if len(meant.Lots) == 0 && len(runs) == 0 {
		return &NoLotError{m.Asked}
	}
	m.Reach = folder.Of(chain, m.State, meant.Lots, runs, m.AsOf)
	m.Fits = lots.About(m.Fits, slices.Concat(m.Reach.Asked, m.Reach.Behind)...)
	if book.Safety.Given() {
		m.Rules = hazards.Rules(book)
		r.judgedOf(book, judged, m)
	}
	if m.Bench, _, err = r.Bench(ctx, book); err != nil {
		return err
	}
	return r.seenCold(ctx, book, m)
}

// runs are the runs that were asked for as a whole: one by its name, or those opened within some days. What was cooked and cooled in them is shown
// even when no lot came of it.
func (a FolderAsk) runs(chain []record.Entry) (names []string) {
	if rest := a.Ask; len(rest.Codes) > 0 || rest.Supplier != "" || rest.SupplierLot != "" || rest.What != "" || rest.Sort != "" {
		return nil
	}
	var standing record.Standing
	for _, e := range chain {
		standing.Add(e)
	}
	for e := range standing.All() {
		b, err := record.Decode(e.Kind, e.Body)
		opened, ok := b.(record.Opened)
		if err != nil || !ok || a.Run != "" && !strings.EqualFold(opened.Run, a.Run) || e.Happened < a.From || a.Before != 0 && e.Happened >= a.Before {
			continue
		}
		names = append(names, opened.Run)
	}
	return names
}

// foldedUntil is the lots as they were by some entries, held by critical records as they are judged now.
func foldedUntil(chain []record.Entry, judged critical.Judgement) (*lots.State, finding.List) {
	var standing record.Standing
	for _, e := range chain {
		standing.Add(e) // what cannot be added changes nothing, and stands among what does not fit
	}
	state, found := lots.Of(standing.All())
	state.Keep(critical.Holds(state, judged))
	return state, found
}

// judgedOf takes the critical records of the runs and goods, and says which runs are not judged.
func (r *Records) judgedOf(book kitchen.Book, judged critical.Judgement, m *folder.Material) {
	for _, run := range m.Reach.Runs {
		all, known := judged.Runs[run]
		m.Judged = append(m.Judged, all...)
		if !known {
			says := "No critical record of it is judged: it was before " + cmp.Or(book.Safety.From, "the day from which lots are judged") + ", or nobody knows what was made in it."
			m.NotJudged = append(m.NotJudged, folder.Missing{Code: folder.RunNotJudged, Grave: true, Where: "run " + run, Says: says, Fix: "judge its lots by hand, and write down who decided"})
		}
	}
	for _, lot := range slices.Concat(m.Reach.Asked, m.Reach.Behind) {
		if v, ok := judged.Goods[lot]; ok {
			m.Judged = append(m.Judged, v)
		}
	}
}

// seenCold looks at what was read in the places that the lots lay in, over the time when any of them did.
func (r *Records) seenCold(ctx context.Context, book kitchen.Book, m *folder.Material) error {
	deeds := &coldwatch.Deeds{}
	err := look(ctx, r, r.deeds, func(d *coldwatch.Deeds, _ finding.List) error {
		deeds = d.Copy()
		return nil
	})
	if err != nil {
		return err
	}
	m.Answered = func(s coldwatch.Seen, x coldwatch.Stretch) bool { return deeds.Answered(s.Watch, x) }
	lay, err := layIn(m.State, m.Reach.Asked, m.AsOf)
	if err != nil {
		return err
	}
	watches := watchesOf(book, m.Bench)
	m.Watched = func(p record.Place) bool {
		return slices.ContainsFunc(watches, func(w coldwatch.Watch) bool { return folder.Outermost(w.Place) == p })
	}
	for _, w := range watches {
		span, there := lay[folder.Outermost(w.Place)]
		if !there || span.Ms() == 0 {
			continue
		}
		seen, readings, err := r.watchedRead(ctx, w, span.From, span.Until)
		if err != nil {
			return err
		}
		m.Cold = append(m.Cold, folder.ColdLog{Seen: seen, Days: folder.ColdDays(readings, m.Day)})
	}
	return nil
}

// layIn is when any of some lots lay in a place, by the outermost: from the first to the last of it.
func layIn(state *lots.State, asked []record.Lot, until record.Instant) (map[record.Place]coldwatch.Span, error) {
	lay := map[record.Place]coldwatch.Span{}
	for _, id := range asked {
		l := state.Lot(id)
		if l == nil {
			continue
		}
		stays, err := coldwatch.StaysOf(l, coldwatch.Span{Until: until})
		if err != nil {
			return nil, err
		}
		for _, s := range stays {
			place := folder.Outermost(s.Place)
			span, known := lay[place]
			if !known || s.From < span.From {
				span.From = s.From
			}
			span.Until = max(span.Until, s.Until)
			lay[place] = span
		}
	}
	return lay, nil
}

// Signature is what somebody enters who signs a folder as it was shown, by the hash of its contents. It is a *ChangedFolderError when that is not
// the hash of this one.
func (f InspectorFolder) Signature(shown record.Hash, as record.SignedAs, text string) (record.Signed, error) {
	if f.Seal.Contents != shown {
		return record.Signed{}, &ChangedFolderError{shown, f.Seal.Contents}
	}
	words := "as of " + time.UnixMilli(int64(f.AsOf)).UTC().Format("2006-01-02T15:04:05.000Z")
	if text != "" {
		words += ". " + text
	}
	return record.Signed{About: f.About, Hash: shown, As: as, Text: record.Text(words)}, nil
}

// ChangedFolderError says that a folder is not any more what somebody wants to sign.
type ChangedFolderError struct{ Shown, Now record.Hash }

func (e *ChangedFolderError) Error() string {
	return "something that this folder rests on was entered, read or corrected since it was shown: look at it again, and sign what you have read"
}

// IsNoLot says whether an error is that nothing was found for what was asked.
func IsNoLot(err error) bool {
	none := (*NoLotError)(nil)
	return errors.As(err, &none)
}
