package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"strconv"
	"strings"
	"time"

	"github.com/pressly/goose/v3"
	"github.com/pressly/goose/v3/lock"
)

// versionTable says which steps were done. It is named after us, so that another program in the same database can have its own.
const versionTable = "kettlefrost_version"

type migrator func(ctx context.Context, db *sql.DB, steps fs.FS) error

func migrateSQLite(ctx context.Context, db *sql.DB, steps fs.FS) error {
	return runSteps(ctx, goose.DialectSQLite3, db, steps)
}

// migratePostgres holds a lock of the session, so that of several servers that start at once one does it and the others wait.
func migratePostgres(ctx context.Context, db *sql.DB, steps fs.FS) error {
	locker, err := lock.NewPostgresSessionLocker(lock.WithLockTimeout(1, 60), lock.WithUnlockTimeout(1, 10))
	if err != nil {
		return err
	}
	return runSteps(ctx, goose.DialectPostgres, db, steps, goose.WithSessionLocker(locker))
}

func runSteps(ctx context.Context, dialect goose.Dialect, db *sql.DB, steps fs.FS, options ...goose.ProviderOption) error {
	options = append(options, goose.WithTableName(versionTable), goose.WithDisableGlobalRegistry(true))
	provider, err := goose.NewProvider(dialect, db, steps, options...)
	if err != nil {
		return err
	}
	_, err = provider.Up(ctx)
	return err
}

// Where there is no lock that all heed, two may start on the same step and one of them fails; the step is then there, or can be tried again.
const (
	stepTries = 5
	stepPause = 200 * time.Millisecond
)

// bringUpToDate does the steps that are missing, each whole or not at all.
func (s *Store) bringUpToDate(ctx context.Context) error {
	want, err := lastStep(s.dialect.migrations)
	if err != nil {
		return s.fail("read its own steps", err)
	}
	for try := 1; ; try++ {
		have, err := s.version(ctx, s.write)
		switch {
		case err != nil:
			return s.fail("read which version its tables have", err)
		case have > want:
			return s.refuseNewer(ctx, s.write)
		case have == want:
			return nil
		}
		if err = s.dialect.migrate(ctx, s.write, s.dialect.migrations); err == nil {
			continue
		}
		code := codeOf(err)
		if code == Locked || code == ReadOnly || code == Full || code == Unreachable {
			return s.fail("bring its tables up to date", err)
		}
		if try == stepTries {
			return s.halfway(ctx, want, err)
		}
		select {
		case <-time.After(stepPause):
		case <-ctx.Done():
			return ctx.Err()
		}
	}
}

func (s *Store) halfway(ctx context.Context, want int64, cause error) error {
	have, err := s.version(ctx, s.write)
	if err != nil {
		return s.fail("read which version its tables have", errors.Join(cause, err))
	}
	return s.trouble(Halfway, fmt.Sprintf("its tables stand at step %d of %d and step %d cannot be done", have, want, have+1), cause)
}

// refuseNewer is an error when the tables are ahead of this program.
func (s *Store) refuseNewer(ctx context.Context, db *sql.DB) error {
	want, err := lastStep(s.dialect.migrations)
	if err != nil {
		return s.fail("read its own steps", err)
	}
	have, err := s.version(ctx, db)
	if err != nil {
		return s.fail("read which version its tables have", err)
	}
	if have > want {
		return s.trouble(Newer, fmt.Sprintf("its tables have version %d, and this program knows none after %d", have, want), nil)
	}
	return nil
}

// version is the last step that was done; 0 when none was.
func (s *Store) version(ctx context.Context, db *sql.DB) (int64, error) {
	var tables int
	if err := db.QueryRowContext(ctx, s.dialect.hasTable, versionTable).Scan(&tables); err != nil || tables == 0 {
		return 0, err
	}
	var version sql.NullInt64
	err := db.QueryRowContext(ctx, `select max(version_id) from `+versionTable).Scan(&version)
	return version.Int64, err
}

// lastStep is the number at the front of the last file.
func lastStep(steps fs.FS) (int64, error) {
	names, err := fs.Glob(steps, "*.sql")
	if err != nil || len(names) == 0 {
		return 0, errors.Join(err, errors.New("there is no step"))
	}
	number, _, _ := strings.Cut(path.Base(names[len(names)-1]), "_")
	return strconv.ParseInt(number, 10, 64)
}
