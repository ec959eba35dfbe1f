package store

import (
	"cmp"
	"context"
	"database/sql"
	"fmt"
	"hash/fnv"
	"iter"
	"maps"
	"slices"
	"sync"

	"kettlefrost/internal/record"
)

// Reading is what one probe read at one time, as it was received. Readings are kept beside the entries, since there are thousands of them to one
// of those, and like them they are only ever added: the same time twice is two readings.
type Reading struct {
	Probe  string
	At     record.Instant // by the probe's clock
	MilliC int64          // thousandths of a degree Celsius
	Valued bool           // there is a temperature
	Raw    string         // what was received
	Flags  string         // what is odd about it, in the words of whoever read it
	Line   int            // of its batch

	File record.ID // the batch of the file that it stood in, set when it is read back; none for what a probe posted
}

// Batch is readings that came together: a file, or what a probe posted. One that comes again under the same ID is taken in once.
type Batch struct {
	ID          record.ID
	Name        string // of the file; "" for a probe
	Who, Device string
	Readings    []Reading
}

// mostOfABatch are more readings than a file of a year holds.
const mostOfABatch = 6_000_000

// readingsWriter lets batches that come while one is being written be written together: many probes post each second.
type readingsWriter struct {
	mu      sync.Mutex // held while writing
	waiting sync.Mutex // held while the queue is looked at
	queue   []*waitingBatch
}

type waitingBatch struct {
	batch Batch
	done  chan error
}

// TakeReadings takes in a batch, all of it or nothing. Errors are *Error, *record.FieldError for what makes no sense.
func (s *Store) TakeReadings(ctx context.Context, b Batch) error {
	if err := b.check(); err != nil {
		return err
	}
	w := &waitingBatch{b, make(chan error, 1)}
	s.readings.waiting.Lock()
	s.readings.queue = append(s.readings.queue, w)
	s.readings.waiting.Unlock()

	s.readings.mu.Lock()
	s.writeReadings(ctx)
	s.readings.mu.Unlock()
	return <-w.done // whoever held the lock before may have written it
}

// writeReadings writes what waits. What cannot be written together is written one by one, so that each hears of its own trouble.
func (s *Store) writeReadings(ctx context.Context) {
	s.readings.waiting.Lock()
	group := s.readings.queue
	s.readings.queue = nil
	s.readings.waiting.Unlock()
	if len(group) == 0 {
		return
	}
	ctx = context.WithoutCancel(ctx) // the others of the group did not end
	if err := s.takeBatches(ctx, group); err == nil || len(group) == 1 {
		for _, w := range group {
			w.done <- err
		}
		return
	}
	for _, w := range group {
		w.done <- s.takeBatches(ctx, []*waitingBatch{w})
	}
}

func (s *Store) takeBatches(ctx context.Context, group []*waitingBatch) error {
	if s.isClosed() {
		return s.trouble(Closed, "is closed", nil)
	}
	return s.fail("take in readings", s.together(ctx, func(tx *sql.Tx) error {
		probes := map[string]int64{}
		for _, w := range group {
			if err := s.takeBatch(ctx, tx, w.batch, probes); err != nil {
				return err
			}
		}
		return nil
	}))
}

// takeBatch keeps what a batch brings, unless it is there.
func (s *Store) takeBatch(ctx context.Context, tx *sql.Tx, b Batch, probes map[string]int64) error {
	batch, fresh, err := b.number(ctx, tx, int64(s.now()))
	if err != nil || !fresh {
		return err
	}
	const put = `insert into reading_piece (probe, from_ms, batch, part, to_ms, data) values ($1, $2, $3, $4, $5, $6) on conflict (probe, from_ms, batch, part) do nothing`
	stmt, err := tx.PrepareContext(ctx, put)
	if err != nil {
		return err
	}
	defer stmt.Close()
	part := b.firstPart()
	for name, readings := range b.byProbe() {
		probe, err := probeNo(ctx, tx, name, probes)
		if err != nil {
			return err
		}
		for _, p := range pieces(readings) {
			data, err := p.packed()
			if err != nil {
				return err
			}
			if _, err := stmt.ExecContext(ctx, probe, int64(p.from), batch, part, int64(p.to), data); err != nil {
				return err
			}
			part++
		}
	}
	return nil
}

// posted tells whether a batch is what a probe posted: there are millions of those, so that all of one sender share a row.
func (b Batch) posted() bool { return b.Name == "" }

// number is the number of a batch, or of who posted it. Of a batch that is there already nothing is fresh; of what is posted each piece tells.
func (b Batch) number(ctx context.Context, tx *sql.Tx, now int64) (no int64, fresh bool, err error) {
	id := b.ID.String()
	if b.posted() {
		id = "posted by " + b.Who + "\n" + b.Device
	}
	const put = `insert into reading_batch (id, name, who, device, received_ms) values ($1, $2, $3, $4, $5) on conflict (id) do nothing`
	done, err := tx.ExecContext(ctx, put, id, b.Name, b.Who, b.Device, now)
	if err != nil {
		return 0, false, err
	}
	added, err := done.RowsAffected()
	if err != nil {
		return 0, false, err
	}
	err = tx.QueryRowContext(ctx, `select no from reading_batch where id = $1`, id).Scan(&no)
	return no, added > 0 || b.posted(), err
}

// firstPart is the number of a batch's first piece: what is posted twice must find itself.
func (b Batch) firstPart() int64 {
	if !b.posted() {
		return 0
	}
	hash := fnv.New64a()
	hash.Write(b.ID[:])
	return int64(hash.Sum64() >> 2) // room to count up from
}

// byProbe is the readings of a batch, probe by probe, each in their order.
func (b Batch) byProbe() iter.Seq2[string, []Reading] {
	of := map[string][]Reading{}
	for _, r := range b.Readings {
		of[r.Probe] = append(of[r.Probe], r)
	}
	return func(yield func(string, []Reading) bool) {
		for _, probe := range slices.Sorted(maps.Keys(of)) {
			if !yield(probe, of[probe]) {
				return
			}
		}
	}
}

// probeNo is the number of a probe, which gets one when it is first named.
func probeNo(ctx context.Context, tx *sql.Tx, name string, known map[string]int64) (int64, error) {
	if no, ok := known[name]; ok {
		return no, nil
	}
	if _, err := tx.ExecContext(ctx, `insert into probe (name) values ($1) on conflict (name) do nothing`, name); err != nil {
		return 0, err
	}
	var no int64
	err := tx.QueryRowContext(ctx, `select no from probe where name = $1`, name).Scan(&no)
	known[name] = no
	return no, err
}

// Readings are those of a probe from one time to before another, in the order of their times, and of their lines at one time.
func (s *Store) Readings(ctx context.Context, probe string, from, before record.Instant) ([]Reading, error) {
	const query = `select r.data, b.name, b.id from reading_piece r join probe p on p.no = r.probe join reading_batch b on b.no = r.batch
		where p.name = $1 and r.from_ms > $2 and r.from_ms < $3 and r.to_ms >= $4 order by r.batch, r.part`
	var all []Reading
	err := s.rows(ctx, s.read, query, []any{probe, int64(from) - longestPiece, int64(before), int64(from)}, func(scan func(...any) error) error {
		var data []byte
		var name, id string
		if err := scan(&data, &name, &id); err != nil {
			return err
		}
		var file record.ID
		if name != "" {
			var err error
			if file, err = record.ParseID(id); err != nil {
				return err
			}
		}
		readings, err := unpacked(probe, data)
		for _, r := range readings {
			if r.At >= from && r.At < before {
				r.File = file
				all = append(all, r)
			}
		}
		return err
	})
	slices.SortStableFunc(all, func(a, b Reading) int { return cmp.Or(cmp.Compare(a.At, b.At), cmp.Compare(a.Line, b.Line)) })
	return all, s.fail("read readings", err)
}

// ProbeSpan is a probe with its first and last reading.
type ProbeSpan struct {
	Name        string
	First, Last record.Instant
}

// Probes are all that ever sent a reading, by name.
func (s *Store) Probes(ctx context.Context) ([]ProbeSpan, error) {
	const query = `select name, coalesce((select min(from_ms) from reading_piece where probe = no), 0),
		coalesce((select max(to_ms) from reading_piece where probe = no and from_ms > (select max(from_ms) from reading_piece where probe = no) - $1), 0)
		from probe order by name`
	var all []ProbeSpan
	err := s.rows(ctx, s.read, query, []any{longestPiece}, func(scan func(...any) error) error {
		var p ProbeSpan
		err := scan(&p.Name, &p.First, &p.Last)
		all = append(all, p)
		return err
	})
	return all, s.fail("read the probes", err)
}

// check refuses what cannot be kept: nothing of a batch is taken then.
func (b Batch) check() error {
	wrong := func(path, problem, fix string) error {
		return &record.FieldError{Kind: "reading", Path: path, Problem: problem, Fix: fix}
	}
	switch {
	case b.ID == record.ID{}:
		return wrong("id", "is missing", "draw 128 bits at random")
	case b.Who == "" && b.Device == "":
		return wrong("who", "is empty, and so is device", "say who or what stands for the readings")
	case len(b.Readings) > mostOfABatch:
		return wrong("readings", fmt.Sprintf("are %d", len(b.Readings)), "send them in several batches")
	}
	for i, r := range b.Readings {
		at := func(field string) string { return fmt.Sprintf("readings[%d].%s", i, field) }
		switch {
		case r.Probe == "" || len(r.Probe) > longestName:
			return wrong(at("probe"), "is missing, or too long", "name the probe as it is named in the kitchen")
		case len(r.Raw) > longestName || len(r.Flags) > longestName:
			return wrong(at("raw"), "is too long", "send the cell alone")
		case r.At < 0:
			return wrong(at("at"), "is before 1970", "set the clock of the probe")
		}
	}
	return nil
}

// longestName is more than any name of a probe has, in bytes.
const longestName = 200
