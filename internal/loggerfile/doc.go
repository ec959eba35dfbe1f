// Package loggerfile reads what temperature loggers write: CSV with columns in any order, in °C or °F, with clocks of any zone. Everything
// that stands in a file is kept as it was received; what is odd about a reading is flagged, never dropped and never put right.
//
// What a file does not say (the unit, the order of day and month, the zone of its clock) is asked for, not guessed.
package loggerfile

import (
	"fmt"
	"strings"
	"time"
)

// Flag is what is odd about a reading. The codes are stable, for programs.
type Flag string

const (
	OutOfOrder Flag = "out-of-order"    // earlier than a reading before it in the file
	Twice      Flag = "twice"           // another reading has the same time
	Future     Flag = "future"          // after the file was received
	NoNumber   Flag = "no-number"       // text where a temperature should be; there is no value
	NoTime     Flag = "no-time"         // a time that cannot be read; it stands nowhere in time
	Impossible Flag = "impossible"      // colder or hotter than any food or freezer
	Jump       Flag = "jump"            // so far from the one before, so fast, that the unit may have changed: 38 °F to 100 °F
	AfterGap   Flag = "after-gap"       // long after the one before it: a battery, or a logger that was off
	TwoHours   Flag = "repeated-hour"   // the clock was put back, and the file does not say which of the two hours it is: taken in the order of the file
	NoSuchHour Flag = "skipped-hour"    // the clock was put forward over this time, so the logger's clock was not: taken as the offset before
	TimeBack   Flag = "clock-went-back" // the clock went back more than an hour between two lines
	NoUnit     Flag = "no-unit"         // a number alone, and nobody said of which unit: there is no value
)

// Reading is one line of one channel.
type Reading struct {
	Line  int // of the file, from 1
	At    time.Time
	TempC float64
	Raw   string // what stood in the cell
	RawAt string // what stood for its time
	Flags []Flag
}

// Valued says whether there is a temperature at a time.
func (r Reading) Valued() bool { return !r.is(NoNumber) && !r.is(NoTime) && !r.is(NoUnit) }

func (r Reading) is(f Flag) bool {
	for _, x := range r.Flags {
		if x == f {
			return true
		}
	}
	return false
}

// Channel is what one probe of a logger wrote, in the order of the file.
type Channel struct {
	Name     string // as the head of its column says
	Unit     Unit
	Readings []Reading
	TypicalS float64 // between two readings, the median
}

// File is a logger's file.
type File struct {
	Channels []Channel
	Skipped  []int               // lines that hold no reading: empty, or words of the logger before its table
	Open     map[Question]string // what the file itself does not say, with a cell that leaves it open; the options answered it
}

// Unit of a temperature.
type Unit string

const (
	Celsius    Unit = "C"
	Fahrenheit Unit = "F"
)

// Options answer what a file may leave open.
type Options struct {
	Zone     *time.Location // of the logger's clock, where times have no offset
	Unit     Unit           // where neither head nor cell says it
	DayFirst *bool          // 03/04 is the 3rd of April; needed only where the file does not show it
	Received time.Time      // zero: nothing is flagged as in the future

	Progress func(done, of int) // lines that are read, now and then; may be nil
}

// Question is something that a file does not say.
type Question string

const (
	WhichUnit  Question = "unit"
	WhichZone  Question = "zone"
	WhichOrder Question = "day-first"
)

// AskError is a file that can be read once its questions are answered.
type AskError struct {
	Questions []Question
	Example   map[Question]string // a cell that leaves it open
}

func (e *AskError) Error() string {
	var words []string
	for _, q := range e.Questions {
		words = append(words, map[Question]string{WhichUnit: "whether its temperatures are °C or °F", WhichZone: "in which time zone its clock ran", WhichOrder: "whether 03/04 is the 3rd of April or the 4th of March"}[q])
	}
	return "loggerfile: the file does not say " + strings.Join(words, ", nor ") + ": say it with the file"
}

// FormatError is a file that is not a logger's table.
type FormatError struct {
	Line    int // 0: none in particular
	Problem string
	Fix     string
}

func (e *FormatError) Error() string {
	if e.Line == 0 {
		return fmt.Sprintf("loggerfile: %s: %s", e.Problem, e.Fix)
	}
	return fmt.Sprintf("loggerfile: line %d: %s: %s", e.Line, e.Problem, e.Fix)
}
