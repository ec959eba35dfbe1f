package app

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/loggerfile"
	"kettlefrost/internal/record"
)

// LogFile is the file of a logger as it came.
type LogFile struct {
	Name string
	Data []byte
}

// Hash is what ties the file to the chain.
func (f LogFile) Hash() record.Hash { return record.Hash(sha256.Sum256(f.Data)) }

// LogAnswers say what a file may leave open. What is empty was not answered.
type LogAnswers struct {
	Unit   string            // c, f
	Zone   string            // kitchen, an offset such as -05:00, or the name of a zone such as America/New_York
	Order  string            // dmy, mdy
	Probes map[string]string // which probe a column is, by its name
}

// LogReading is a file that was read, and what it would enter.
type LogReading struct {
	Schema    string        `json:"schema"` // kettlefrost.log-file/1
	File      string        `json:"file"`
	Hash      record.Hash   `json:"hash"`
	Batch     record.ID     `json:"batch"`
	Questions []LogQuestion `json:"questions,omitempty"` // with an answer or without
	Channels  []LogChannel  `json:"channels,omitempty"`
	Skipped   []int         `json:"skipped,omitempty"` // lines that hold no reading
	Done      []LogDone     `json:"done,omitempty"`    // when this very file was taken in before
	Problem   string        `json:"problem,omitzero"`  // it cannot be read as a logger's file
	Entered   record.ID     `json:"entered,omitzero"`  // the entry, once it is taken in

	read     loggerfile.File
	answers  LogAnswers
	received time.Time
}

// LogFileSchema is what a logger's file that was read says it is.
const LogFileSchema = "kettlefrost.log-file/1"

// LogChannel is one column of temperatures.
type LogChannel struct {
	Column   string         `json:"column"`
	Probe    string         `json:"probe,omitzero"`
	Unit     string         `json:"unit"`
	Readings int            `json:"readings"`
	Valued   int            `json:"valued"` // with a temperature and a time
	Flagged  int            `json:"flagged"`
	From     record.Instant `json:"from_ms,omitzero"`
	To       record.Instant `json:"to_ms,omitzero"`
	LowC     float64        `json:"low_c"`
	HighC    float64        `json:"high_c"`
	TypicalS float64        `json:"typical_s"`
	Flags    []LogFlag      `json:"flags,omitempty"`

	nth int // of the file's channels
}

// LogFlag is how often something is odd, and where.
type LogFlag struct {
	Flag  string `json:"flag"`
	Says  string `json:"says"`
	Count int    `json:"count"`
	Lines []int  `json:"lines"` // the first of them
}

// LogDone is when a file was taken in, and by whom.
type LogDone struct {
	Entry record.ID      `json:"entry"`
	Batch record.ID      `json:"batch"`
	Who   string         `json:"who"`
	At    record.Instant `json:"at_ms"`
}

// flagLines are so many lines told of each flag.
const flagLines = 12

// ReadLog reads a file as far as it is answered, and says what it leaves open. Nothing is taken in. The error is that of the records; what is
// wrong with the file is in the reading.
func (r *Records) ReadLog(ctx context.Context, book kitchen.Book, f LogFile, a LogAnswers, now time.Time, progress func(done, of int)) (*LogReading, error) {
	x := &LogReading{Schema: LogFileSchema, File: f.Name, Hash: f.Hash(), answers: a, received: now}
	opt := loggerfile.Options{Received: now.Add(clockSlack), Progress: progress, Unit: map[string]loggerfile.Unit{"c": loggerfile.Celsius, "f": loggerfile.Fahrenheit}[a.Unit]}
	zone, badZone := zoneOf(a.Zone, now.Location())
	if a.Zone != "" && badZone == "" {
		opt.Zone = zone
	}
	if a.Order != "" {
		dayFirst := a.Order == "dmy"
		opt.DayFirst = &dayFirst
	}
	var err error
	x.read, err = loggerfile.Read(f.Data, opt)
	if bad, is := errors.AsType[*loggerfile.FormatError](err); is {
		x.Problem = capital(strings.TrimPrefix(bad.Error(), "loggerfile: ")) + "."
		return x, nil
	}
	x.ask(now, badZone)
	x.askProbes(book)
	if err == nil {
		x.Skipped = x.read.Skipped
		x.summarize()
		x.doubtZone()
	}
	x.Batch = x.batchID()
	return x, r.logsBefore(ctx, x)
}

// Ready tells whether all is answered that has to be.
func (x *LogReading) Ready() bool {
	return x.Problem == "" && len(x.Channels) > 0 && !slices.ContainsFunc(x.Questions, func(q LogQuestion) bool { return q.Answer == "" || q.Problem != "" })
}

// Release lets go of the readings, of which there may be many, once they are taken in. What is said of them stays.
func (x *LogReading) Release() { x.read = loggerfile.File{} }

// summarize is what each column holds.
func (x *LogReading) summarize() {
	for i, c := range x.read.Channels {
		v := LogChannel{Column: columnName(x.read.Channels, i), Unit: string(c.Unit), Readings: len(c.Readings), TypicalS: c.TypicalS}
		if v.Probe = x.probeOf(v.Column); v.Probe == LogNoProbe {
			continue
		}
		v.nth = i
		at := map[loggerfile.Flag]int{}
		for _, one := range c.Readings {
			v.add(one, at)
		}
		x.Channels = append(x.Channels, v)
	}
}

func (v *LogChannel) add(x loggerfile.Reading, at map[loggerfile.Flag]int) {
	if len(x.Flags) > 0 {
		v.Flagged++
	}
	for _, f := range x.Flags {
		n, there := at[f]
		if !there {
			n = len(v.Flags)
			at[f] = n
			v.Flags = append(v.Flags, LogFlag{Flag: string(f), Says: FlagWords(string(f))})
		}
		if v.Flags[n].Count++; len(v.Flags[n].Lines) < flagLines {
			v.Flags[n].Lines = append(v.Flags[n].Lines, x.Line)
		}
	}
	if !x.Valued() {
		return
	}
	ms := record.Instant(x.At.UnixMilli())
	if v.Valued == 0 {
		v.From, v.To, v.LowC, v.HighC = ms, ms, x.TempC, x.TempC
	}
	v.From, v.To, v.LowC, v.HighC = min(v.From, ms), max(v.To, ms), min(v.LowC, x.TempC), max(v.HighC, x.TempC)
	v.Valued++
}

func (x *LogReading) probeOf(column string) string {
	for _, q := range x.Questions {
		if q.Key == LogProbe && q.Of == column {
			return q.Answer
		}
	}
	return ""
}

// batchID is that of the file with its answers: the same file with the same answers is taken in once.
func (x *LogReading) batchID() record.ID {
	sum := sha256.New()
	fmt.Fprintf(sum, "kettlefrost log\x00%s\x00", x.Hash)
	for _, q := range x.Questions {
		fmt.Fprintf(sum, "%s\x00%s\x00%s\x00", q.Key, q.Of, q.Answer)
	}
	return record.ID(sum.Sum(nil)[:16])
}
