// Package store keeps the journal of entries in a database: in a SQLite file of its own, or on a PostgreSQL server that several sites
// share. Both run the same SQL texts and are held to the same suite of tests; only the table definitions differ, in migrations.
//
// An entry is sealed onto the chain when it is taken in, and never changed. What Append has returned is there after the process is
// killed at any moment, and after a power cut as well, as far as the disk keeps what it says it has written (SQLite with
// synchronous=FULL, PostgreSQL with synchronous_commit, both the defaults). What a cut takes is what was not yet answered.
//
// An entry is taken in once: sent again with the same ID it is answered with what is stored, so whoever got no answer sends it again.
// Errors that come from the database are *Error with the place and what to do.
package store
