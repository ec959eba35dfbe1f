package store

import (
	"context"
	"database/sql"
	"fmt"
	"strings"
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
	Line   int            // of its batch: of two with the same batch, probe, time and line one is kept
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

func (s *Store) takeBatch(ctx context.Context, tx *sql.Tx, b Batch, probes map[string]int64) error {
	const put = `insert into reading_batch (id, name, who, device, received_ms) values ($1, $2, $3, $4, $5) on conflict (id) do nothing`
	if _, err := tx.ExecContext(ctx, put, b.ID.String(), b.Name, b.Who, b.Device, int64(s.now())); err != nil {
		return err
	}
	var batch int64
	if err := tx.QueryRowContext(ctx, `select no from reading_batch where id = $1`, b.ID.String()).Scan(&batch); err != nil {
		return err
	}
	var many *sql.Stmt // for as many as go in at once
	if len(b.Readings) >= rowsAtOnce {
		var err error
		if many, err = tx.PrepareContext(ctx, insertReadings(rowsAtOnce)); err != nil {
			return err
		}
		defer many.Close()
	}
	for from := 0; from < len(b.Readings); from += rowsAtOnce {
		some := b.Readings[from:min(from+rowsAtOnce, len(b.Readings))]
		args, err := valuesOf(ctx, tx, batch, some, probes)
		if err != nil {
			return err
		}
		if len(some) == rowsAtOnce {
			_, err = many.ExecContext(ctx, args...)
		} else {
			_, err = tx.ExecContext(ctx, insertReadings(len(some)), args...)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// rowsAtOnce go in by one statement, each with seven values: both databases take as many.
const rowsAtOnce = 500

// insertReadings is a statement for so many rows.
func insertReadings(rows int) string {
	var text strings.Builder
	text.WriteString(`insert into reading (probe, at_ms, batch, line, temp_mc, raw, flags) values `)
	for i := range rows {
		if i > 0 {
			text.WriteString(", ")
		}
		n := 7 * i
		fmt.Fprintf(&text, "($%d, $%d, $%d, $%d, $%d, $%d, $%d)", n+1, n+2, n+3, n+4, n+5, n+6, n+7)
	}
	text.WriteString(` on conflict (probe, at_ms, batch, line) do nothing`)
	return text.String()
}

func valuesOf(ctx context.Context, tx *sql.Tx, batch int64, readings []Reading, probes map[string]int64) ([]any, error) {
	args := make([]any, 0, 7*len(readings))
	for _, r := range readings {
		probe, err := probeNo(ctx, tx, r.Probe, probes)
		if err != nil {
			return nil, err
		}
		args = append(args, probe, int64(r.At), batch, r.Line, sql.NullInt64{Int64: r.MilliC, Valid: r.Valued}, r.Raw, r.Flags)
	}
	return args, nil
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

// Readings are those of a probe from one time to before another, in the order of their times; of one time, in the order in which they came.
func (s *Store) Readings(ctx context.Context, probe string, from, before record.Instant) ([]Reading, error) {
	const query = `select r.at_ms, r.temp_mc, r.raw, r.flags, r.line from reading r join probe p on p.no = r.probe
		where p.name = $1 and r.at_ms >= $2 and r.at_ms < $3 order by r.at_ms, r.batch, r.line`
	var all []Reading
	err := s.rows(ctx, s.read, query, []any{probe, int64(from), int64(before)}, func(scan func(...any) error) error {
		r := Reading{Probe: probe}
		var temp sql.NullInt64
		err := scan(&r.At, &temp, &r.Raw, &r.Flags, &r.Line)
		r.MilliC, r.Valued = temp.Int64, temp.Valid
		all = append(all, r)
		return err
	})
	return all, s.fail("read readings", err)
}

// ProbeSpan is a probe with its first and last reading.
type ProbeSpan struct {
	Name        string
	First, Last record.Instant
}

// Probes are all that ever sent a reading, by name.
func (s *Store) Probes(ctx context.Context) ([]ProbeSpan, error) {
	const query = `select name, coalesce((select min(at_ms) from reading where probe = no), 0), coalesce((select max(at_ms) from reading where probe = no), 0) from probe order by name`
	var all []ProbeSpan
	err := s.rows(ctx, s.read, query, nil, func(scan func(...any) error) error {
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
