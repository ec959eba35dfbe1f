package app

import (
	"bytes"
	"database/sql"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/history"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// clients post at the same time, as twenty tablets do.
const clients = 20

// busy is records with three years in them, and what is posted next: another year.
type busy struct {
	r     *Records
	h     *history.History
	past  []record.Entry
	next  atomic.Int64
	posts []Said
	mends []Said // corrections of what happened in the three years
}

// keepBusy takes three years in. The year after them is not corrected here, since posts overtake one another.
func keepBusy(b *testing.B, address string) *busy {
	b.Helper()
	more := history.ThreeYears
	more.Runs += 160
	y, err := told(more)
	if err != nil {
		b.Fatal(err)
	}
	x := &busy{h: y.h, r: openRecords(b, address, time.Now)}
	begins := slices.IndexFunc(y.h.Entries, func(e record.Entry) bool {
		return e.Kind == record.Opened{}.Kind() && strings.Contains(string(e.Body), y.h.Runs[history.ThreeYears.Runs])
	})
	x.past = y.h.Entries[:begins]
	var past bytes.Buffer
	for i, line := range bytes.SplitAfter(y.lines, []byte("\n")) {
		if i < begins {
			past.Write(line)
		}
	}
	if _, err := x.r.Import(b.Context(), &past); err != nil {
		b.Fatal(err)
	}
	there := map[record.ID]bool{}
	for i, e := range y.h.Entries {
		switch {
		case i < begins:
			there[e.ID] = true
		case e.Kind == record.Invoiced{}.Kind(): // these are issued, not entered
		case e.Corrects == record.ID{}:
			x.posts = append(x.posts, saidOf(b, e))
		case there[e.Corrects]:
			x.mends = append(x.mends, saidOf(b, e))
		}
	}
	x.look(b, "stock", rand.New(rand.NewPCG(1, 1))) // the first look folds all of it
	return x
}

// post posts the next entry.
func (x *busy) post(b *testing.B) {
	i := int(x.next.Add(1)) - 1
	if i >= len(x.posts) {
		b.Errorf("there are %d entries to post: ask for fewer with -benchtime", len(x.posts))
		return
	}
	x.enter(b, x.posts[i])
}

func (x *busy) enter(b *testing.B, s Said) {
	if _, err := x.r.Enter(b.Context(), s); err != nil {
		b.Error(err)
	}
}

// look works out what a page shows.
func (x *busy) look(b *testing.B, page string, random *rand.Rand) {
	err := x.r.Lots(b.Context(), func(s *lots.State, _ finding.List) error {
		packs := x.h.Packs[random.IntN(len(x.h.Packs)/2)]
		switch page {
		case "stock":
			s.Stock()
		case "lot":
			if _, err := s.Backward(packs.Lot); err != nil {
				return err
			}
			if _, err := s.Forward(packs.Lot); err != nil {
				return err
			}
			_, err := s.Balance(packs.Lot)
			return err
		case "recall":
			_, err := s.Recall(x.h.Bulk[random.IntN(len(x.h.Bulk)/2)].Lot)
			return err
		}
		return nil
	})
	if err != nil {
		b.Error(err)
	}
}

// times are how long something took, again and again.
type times struct {
	mu  sync.Mutex
	all []time.Duration
}

func (t *times) since(begin time.Time) {
	took := time.Since(begin)
	t.mu.Lock()
	defer t.mu.Unlock()
	t.all = append(t.all, took)
}

// report gives the time that half, 19 of 20 and 99 of 100 took at most.
func (t *times) report(b *testing.B, name string) {
	slices.Sort(t.all)
	for _, p := range []int{50, 95, 99} {
		if n := len(t.all); n > 0 {
			b.ReportMetric(float64(t.all[min(n-1, n*p/100)])/float64(time.Millisecond), fmt.Sprintf("%s-p%d-ms", name, p))
		}
	}
}

// Twenty clients post one entry at a time into three years of records, each as soon as the one before is acknowledged.
func BenchmarkPosting(b *testing.B) {
	for _, database := range databases {
		b.Run(database.name, func(b *testing.B) {
			x := keepBusy(b, database.address(b))
			b.Run("clients=20", func(b *testing.B) {
				var took times
				var left atomic.Int64
				left.Store(int64(b.N))
				var group sync.WaitGroup
				for range clients {
					group.Go(func() {
						for left.Add(-1) >= 0 {
							begin := time.Now()
							x.post(b)
							took.since(begin)
						}
					})
				}
				group.Wait()
				b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "entries/s")
				took.report(b, "post")
			})
		})
	}
}

// A thousand entries a second by twenty clients, while four tablets look at the stock, at lots and at recalls again and again. Times are counted
// from when an entry was to be posted, so that one that waits for its turn counts as waiting. Some entries are late. In the second round
// an entry of long ago is corrected every second.
func BenchmarkThousandASecond(b *testing.B) {
	for _, database := range databases {
		b.Run(database.name, func(b *testing.B) {
			x := keepBusy(b, database.address(b))
			for _, round := range []struct {
				name  string
				mends int
			}{{"posting", 0}, {"correcting", 1}} {
				b.Run(round.name, func(b *testing.B) { x.thousandASecond(b, round.mends) })
			}
		})
	}
}

func (x *busy) thousandASecond(b *testing.B, mendsASecond int) {
	pages := []string{"stock", "lot", "recall", "stock"}
	looks := make([]times, len(pages))
	var posts times
	done := make(chan struct{})
	var looking, posting sync.WaitGroup
	for i, page := range pages {
		random := rand.New(rand.NewPCG(uint64(i), 2))
		looking.Go(func() {
			every(done, 100*time.Millisecond, func() {
				begin := time.Now()
				x.look(b, page, random)
				looks[i].since(begin)
			})
		})
	}
	if mendsASecond > 0 {
		looking.Go(func() {
			every(done, time.Second/time.Duration(mendsASecond), func() {
				if len(x.mends) > 0 {
					x.enter(b, x.mends[0])
					x.mends = x.mends[1:]
				}
			})
		})
	}
	begin := time.Now()
	for c := range clients {
		posting.Go(func() {
			for i := c; i < b.N; i += clients {
				turn := begin.Add(time.Duration(i) * time.Millisecond)
				time.Sleep(time.Until(turn))
				x.post(b)
				posts.since(turn)
			}
		})
	}
	posting.Wait()
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "entries/s")
	close(done)
	looking.Wait()
	posts.report(b, "post")
	for i, page := range pages[:3] {
		looks[i].report(b, page)
	}
}

// every does something again and again until it is done.
func every(done <-chan struct{}, pause time.Duration, do func()) {
	for {
		select {
		case <-done:
			return
		case <-time.After(pause):
			do()
		}
	}
}

// The least that it could take: the same bytes, written by one connection with the same durability and without a chain, as many to a transaction as
// there are clients.
func BenchmarkPostingBareRows(b *testing.B) {
	y, err := told(half)
	if err != nil {
		b.Fatal(err)
	}
	for _, database := range databases {
		b.Run(database.name, func(b *testing.B) {
			driver, address := "sqlite", "file:"+database.address(b)+"?_txlock=immediate&_pragma=journal_mode(WAL)&_pragma=synchronous(FULL)"
			if database.name == "postgres" {
				driver, address = "pgx", database.address(b)
			}
			db, err := sql.Open(driver, address)
			if err != nil {
				b.Fatal(err)
			}
			defer db.Close()
			db.SetMaxOpenConns(1)
			if _, err := db.Exec(`create table entry (seq bigint primary key, id text unique, kind text, happened bigint, entered bigint, who text, device text, site text, corrects text, body text, prev text, hash text)`); err != nil {
				b.Fatal(err)
			}
			if _, err := db.Exec(`create index entry_kind on entry (kind, seq)`); err != nil {
				b.Fatal(err)
			}
			values := "values "
			for i := range clients {
				values += "("
				for c := range 12 {
					values += fmt.Sprintf("$%d,", i*12+c+1)
				}
				values = values[:len(values)-1] + "),"
			}
			insert := "insert into entry " + values[:len(values)-1]
			sealed, err := y.h.Sealed()
			if err != nil {
				b.Fatal(err)
			}
			n := 0
			for b.Loop() {
				var args []any
				for range clients {
					e := sealed[n%len(sealed)]
					args = append(args, n+1, fmt.Sprintf("%s%d", e.ID, n/len(sealed)), string(e.Kind), int64(e.Happened), int64(e.Entered), e.Who, e.Device, e.Site, e.Corrects.String(), string(e.Body), e.Prev.String(), e.Hash.String())
					n++
				}
				tx, err := db.Begin()
				if err != nil {
					b.Fatal(err)
				}
				if _, err := tx.Exec(insert, args...); err != nil {
					b.Fatal(err)
				}
				if err := tx.Commit(); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(n)/b.Elapsed().Seconds(), "entries/s")
		})
	}
}
