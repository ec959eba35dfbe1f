package store

import (
	"context"
	"database/sql/driver"
	"errors"
	"fmt"
	"io"
	"net"
	"strings"

	"github.com/jackc/pgx/v5/pgconn"
	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"

	"kettlefrost/internal/record"
)

// Code is what kind of trouble the store is in.
type Code string

const (
	BadAddress  Code = "bad-address" // what should be opened cannot be found, or not by this user
	Locked      Code = "locked"      // another program holds the database for longer than we wait
	ReadOnly    Code = "read-only"   // it can be read but not written
	Full        Code = "full"        // the disk or the quota is full
	Unreachable Code = "unreachable" // the server or the disk does not answer
	NotAStore   Code = "not-a-store" // the file is something else
	Newer       Code = "newer"       // a later version of this program has changed the tables
	Halfway     Code = "half-way"    // the tables could not be brought up to date; what could not be done whole was not done
	Damaged     Code = "damaged"     // the database holds what this program never wrote
	NotEmpty    Code = "not-empty"   // it holds entries already
	BadFile     Code = "bad-file"    // a file of the book cannot be kept
	Changed     Code = "changed"     // a file of the book was changed by somebody else meanwhile
	Closed      Code = "closed"      // the store was closed
	Contended   Code = "contended"   // too many others wrote at the same moment, for too long
	Failed      Code = "failed"      // anything else that the database says
	taken       Code = "taken"       // a number or an ID is there already: somebody else was faster
	serialise   Code = "serialise"   // two transactions cannot both be true: do it again
)

var fixes = map[Code]string{
	BadAddress:  "give the path of a file in a folder that is there, or a postgres:// address with its user, password and database",
	Locked:      "end the other program that works on the database, then try again",
	ReadOnly:    "let this user write the file and its folder, or use the server's main database",
	Full:        "free space on the disk, then send it again: nothing of it was written",
	Unreachable: "see that the disk and the server are there, then send it again: an entry is never taken in twice",
	NotAStore:   "give the file that kettlefrost made, or a name that is not taken",
	Newer:       "run the newer version of kettlefrost, or restore a backup from before the change",
	Halfway:     "read what the database says, put it right and start again: it goes on from the last whole step",
	Damaged:     "restore the last backup that verifies",
	NotEmpty:    "import into a new store",
	Closed:      "open the store again",
	Contended:   "send it again: an entry is never taken in twice",
	Failed:      "read what the database says; nothing of it was written",
}

// Error is trouble with the store itself.
type Error struct {
	Code    Code
	Place   string // the file or the server, without the password; within it, an entry or a step
	Problem string
	Fix     string
	Err     error // what the database says, if it says something
}

func (e *Error) Error() string {
	text := fmt.Sprintf("store: %s: %s: %s", e.Place, e.Problem, e.Fix)
	if e.Err != nil {
		text += " (" + e.Err.Error() + ")"
	}
	return text
}

func (e *Error) Unwrap() error { return e.Err }

// Is makes errors.Is(err, &Error{Code: Full}) ask for the code alone.
func (e *Error) Is(target error) bool {
	t, ok := target.(*Error)
	return ok && t.Code == e.Code
}

// ConflictError is an entry that came with an ID which a different entry has. The one that is stored stays.
type ConflictError struct {
	Stored, Given record.Entry
	Field         string // the first in which they differ
}

func (e *ConflictError) Error() string {
	return fmt.Sprintf("store: entry %s is there already as number %d with another %s: draw a new ID for a new entry, and name the old one in corrects to put it right",
		e.Given.ID, e.Stored.Seq, e.Field)
}

// fail makes an *Error of what the database says. What is ours already, and the end of a context, stay as they are.
func (s *Store) fail(doing string, err error) error {
	if err == nil {
		return nil
	}
	_, ours := errors.AsType[*Error](err)
	_, changed := errors.AsType[*ChangedError](err)
	if ours || changed || errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return err
	}
	code := codeOf(err)
	switch {
	case s.isClosed():
		code = Closed
	case code == taken, code == serialise:
		code = Contended
	}
	return s.trouble(code, "cannot "+doing, err)
}

func (s *Store) trouble(code Code, problem string, err error) *Error {
	return &Error{Code: code, Place: s.place, Problem: problem, Fix: fixes[code], Err: err}
}

// codeOf is the one place that knows the codes of both databases.
func codeOf(err error) Code {
	if e, ok := errors.AsType[*sqlite.Error](err); ok {
		return sqliteCode(e.Code())
	}
	if e, ok := errors.AsType[*pgconn.PgError](err); ok {
		return postgresCode(e.Code)
	}
	_, isConnect := errors.AsType[*pgconn.ConnectError](err)
	_, isNet := errors.AsType[net.Error](err)
	if isConnect || isNet || errors.Is(err, driver.ErrBadConn) || errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, net.ErrClosed) || pgconn.SafeToRetry(err) {
		return Unreachable
	}
	return Failed
}

// sqliteCode knows the result codes of https://sqlite.org/rescode.html; the lowest byte is the primary code.
func sqliteCode(code int) Code {
	switch code {
	case sqlite3.SQLITE_CONSTRAINT_PRIMARYKEY, sqlite3.SQLITE_CONSTRAINT_UNIQUE, sqlite3.SQLITE_CONSTRAINT_ROWID:
		return taken
	}
	switch code & 0xff {
	case sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED, sqlite3.SQLITE_PROTOCOL:
		return Locked
	case sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM:
		return ReadOnly
	case sqlite3.SQLITE_FULL:
		return Full
	case sqlite3.SQLITE_CANTOPEN:
		return BadAddress
	case sqlite3.SQLITE_NOTADB:
		return NotAStore
	case sqlite3.SQLITE_CORRUPT:
		return Damaged
	case sqlite3.SQLITE_IOERR:
		return Unreachable
	}
	return Failed
}

// postgresCode knows the codes of appendix A of the PostgreSQL manual; the first two characters are the class.
func postgresCode(code string) Code {
	switch code {
	case "23505":
		return taken
	case "40001", "40P01":
		return serialise
	case "55P03":
		return Locked
	case "25006", "42501":
		return ReadOnly
	case "53100", "53200":
		return Full
	case "XX001", "XX002":
		return Damaged
	case "3D000":
		return BadAddress
	}
	switch {
	case strings.HasPrefix(code, "08"), strings.HasPrefix(code, "57P"), strings.HasPrefix(code, "58"), code == "53300":
		return Unreachable
	case strings.HasPrefix(code, "28"):
		return BadAddress
	}
	return Failed
}
