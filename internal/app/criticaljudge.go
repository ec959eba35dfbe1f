package app

import (
	"context"
	"crypto/sha256"
	"maps"
	"slices"
	"sync"
	"time"

	"kettlefrost/internal/critical"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/hazardplan"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

// judging keeps the critical records of a kitchen judged, and its lots held by them. A run is judged again when something is entered of it, when
// a probe that was in its food sends more, when a thermometer that it was measured with is checked, and when the book changes; what was judged is
// kept until then.
type judging struct {
	records *Records
	house   *App

	mu       sync.Mutex // held while it is judged, never while somebody holds that of the records
	book     judgedBook
	looked   time.Time     // when the book and the probes were last looked at
	patience time.Duration // they are not looked at again for so long
	probes   time.Time     // when those of runs long past were

	// The rest is under the lock of the records.
	keeper *criticalKeeper // nil as long as nothing is judged
	runs   map[string]judgedRun
	goods  map[record.Lot]judgedGoods
	all    critical.Judgement
	turn   int // grows whenever a verdict changes
	held   heldBy
}

// judgedBook is the book by which it is judged.
type judgedBook struct {
	sum  [sha256.Size]byte
	book kitchen.Book
	work workMemo
	set  critical.Setting

	products map[string]haccp.Product // of each pack
	versions *hazardplan.State        // of hazard plans, as they stand
	points   map[string][]haccp.Point // of versions that were in force, by pack and number
}

// judgedRun is a run that was judged.
type judgedRun struct {
	day      string
	began    record.Instant
	open     bool // nobody has closed it
	judged   bool // it is of a day from which lots are judged
	verdicts []critical.Verdict
	spans    []judgedSpan
	with     map[string]bool // the thermometers that it was measured with
	fresh    bool            // more may come of it
}

// judgedSpan is a probe in food for a time, with what had been read when it was judged.
type judgedSpan struct {
	probe        string
	from, before record.Instant
	mark         [2]int64
}

type judgedGoods struct {
	verdict critical.Verdict
	needed  bool
}

// heldBy is what the holds that are in the lots were made of.
type heldBy struct{ lots, verdicts int }

// judgeBy has the records of a kitchen judged by its book.
func (r *Records) judgeBy(house *App) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.judging = &judging{records: r, house: house, patience: lookAgain}
}

// lookAgain is how long what is outside the records is not looked at again: the files of the book, and what probes have sent.
const (
	lookAgain  = time.Second
	lookBehind = 10 * time.Minute // of runs long past, whose readings come by an entry of their file
)

// bring has everything judged that must be. Nobody may hold the lock of the records.
func (j *judging) bring(ctx context.Context) error {
	j.mu.Lock()
	defer j.mu.Unlock()
	if time.Since(j.looked) >= j.patience {
		if err := j.lookAtBook(); err != nil {
			return err
		}
		if err := j.lookAtProbes(ctx); err != nil {
			return err
		}
		j.looked = time.Now()
	}
	return j.judgeDue(ctx)
}

// due takes out what has to be judged, as it stands.
func (j *judging) due() (runs []critical.Production, gone []string, goods []critical.Delivery, none []record.Lot) {
	j.records.mu.Lock()
	defer j.records.mu.Unlock()
	if j.keeper == nil {
		return nil, nil, nil, nil
	}
	for run := range j.keeper.dirty {
		if p, ok := j.keeper.state.Run(run); ok {
			runs = append(runs, p)
		} else {
			gone = append(gone, run)
		}
	}
	for lot := range j.keeper.goods {
		if d, ok := j.keeper.state.Delivery(lot); ok {
			goods = append(goods, d)
		} else {
			none = append(none, lot)
		}
	}
	clear(j.keeper.dirty)
	clear(j.keeper.goods)
	return runs, gone, goods, none
}

// lookAtBook takes the book as it is now; where it judges nothing any more, nothing is held by it.
func (j *judging) lookAtBook() error {
	book, found := j.house.written()
	sum := j.house.writtenSum()
	unreadable := found.Worst() >= finding.Stop && !book.Safety.Given()
	if j.book.sum == sum && sum != ([sha256.Size]byte{}) || unreadable && j.keeper != nil { // a slip in the book frees nothing
		return nil
	}
	j.records.mu.Lock()
	defer j.records.mu.Unlock()
	j.book = judgedBook{sum: sum, book: unstocked(book), work: workMemo{}, products: map[string]haccp.Product{}, points: map[string][]haccp.Point{}}
	switch {
	case !book.Safety.Given() && j.keeper == nil:
	case !book.Safety.Given():
		j.records.keepers = slices.DeleteFunc(j.records.keepers, func(k keeper) bool { return k == keeper(j.keeper) })
		j.keeper, j.runs, j.goods, j.all = nil, nil, nil, critical.Judgement{}
		j.turn++
	default:
		j.again()
	}
	return nil
}

// again has everything judged anew. It needs the lock of the records.
func (j *judging) again() {
	if j.keeper == nil {
		j.keeper = &criticalKeeper{dirty: map[string]bool{}, goods: map[record.Lot]bool{}, judged: j}
		for e := range j.records.standing.All() {
			j.keeper.state.Put(e)
		}
		j.records.keepers = append(j.records.keepers, j.keeper)
	}
	j.runs, j.goods = map[string]judgedRun{}, map[record.Lot]judgedGoods{}
	for _, run := range j.keeper.state.Runs() {
		j.keeper.dirty[run] = true
	}
	for d := range j.keeper.state.Goods() {
		j.keeper.goods[d.Lot] = true
	}
}

// lookAtProbes finds runs of whose probes more was read since they were judged.
func (j *judging) lookAtProbes(ctx context.Context) error {
	past := time.Since(j.probes) >= lookBehind
	if past {
		j.probes = time.Now()
	}
	j.records.mu.RLock()
	runs := maps.Clone(j.runs)
	j.records.mu.RUnlock()
	for name, run := range runs {
		if !run.fresh && !past {
			continue
		}
		for _, s := range run.spans {
			mark, err := j.records.readingsMark(ctx, s.probe, s.from, s.before)
			if err != nil {
				return err
			}
			if mark != s.mark {
				j.records.mu.Lock()
				j.keeper.dirty[name] = true
				j.records.mu.Unlock()
				break
			}
		}
	}
	return nil
}

func (j *judging) judgeDue(ctx context.Context) error {
	runs, gone, goods, none := j.due()
	if len(runs)+len(gone)+len(goods)+len(none) == 0 {
		return nil
	}
	newRuns, newGoods := map[string]judgedRun{}, map[record.Lot]judgedGoods{}
	err := j.prepare(ctx)
	for i := 0; err == nil && i < len(runs); i++ {
		newRuns[runs[i].Name], err = j.judge(ctx, runs[i])
	}
	for i := 0; err == nil && i < len(goods); i++ {
		newGoods[goods[i].Lot] = j.judgeGoods(goods[i])
	}
	j.records.mu.Lock()
	defer j.records.mu.Unlock()
	if err != nil { // all of it once more, when it is asked for again
		for _, p := range runs {
			j.keeper.dirty[p.Name] = true
		}
		for _, d := range goods {
			j.keeper.goods[d.Lot] = true
		}
		return err
	}
	maps.Copy(j.runs, newRuns)
	maps.Copy(j.goods, newGoods)
	for _, run := range gone {
		delete(j.runs, run)
	}
	for _, lot := range none {
		delete(j.goods, lot)
	}
	j.publish()
	return nil
}

// publish shows what was judged. It needs the lock of the records.
func (j *judging) publish() {
	all := critical.Judgement{Runs: map[string][]critical.Verdict{}, Goods: map[record.Lot]critical.Verdict{}, Plans: j.book.set.Plans}
	for name, run := range j.runs {
		if len(run.verdicts) > 0 {
			all.Runs[name] = run.verdicts
		}
	}
	for lot, g := range j.goods {
		if g.needed {
			all.Goods[lot] = g.verdict
		}
	}
	j.all = all
	j.turn++
}

// settled says whether everything that was read is judged, and the lots hold what follows from it. It needs the lock of the records, to read.
func (j *judging) settled() bool {
	if j.keeper == nil {
		return j.held.verdicts == j.turn
	}
	return j.ready() && j.held == heldBy{j.records.lots.turn, j.turn}
}

// ready says whether the lots and what holds them are as of all that was read.
func (j *judging) ready() bool {
	return j.records.lots.stale == nil && (j.keeper == nil || len(j.keeper.dirty)+len(j.keeper.goods) == 0)
}

// hold puts the holds that follow from critical records into the lots, if nothing has come in meanwhile.
func (j *judging) hold() {
	j.records.mu.Lock()
	defer j.records.mu.Unlock()
	if j.ready() {
		state := j.records.lots.state
		state.Keep(critical.Holds(state, j.all))
		j.held = heldBy{j.records.lots.turn, j.turn}
	}
}
