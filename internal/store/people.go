package store

import (
	"context"
	"database/sql"
	"errors"
	"time"

	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
)

// What is needed to know people again is kept beside the chain and is in no export: hashes of passwords and PINs, devices that are signed in,
// wrong tries, keys of instruments. It can be lost without loss: passwords and PINs are then set anew.

// Kept are the hashes of somebody's secrets; "" is none.
type Kept struct{ Password, PIN string }

// Secrets are the hashes of a person's secrets.
func (s *Store) Secrets(ctx context.Context, person string) (Kept, error) {
	var k Kept
	err := s.read.QueryRowContext(ctx, `select password, pin from secret where person = $1`, person).Scan(&k.Password, &k.PIN)
	if errors.Is(err, sql.ErrNoRows) {
		err = nil
	}
	return k, s.fail("read who may sign in", err)
}

// AllSecrets are the hashes of everybody who has any, by person.
func (s *Store) AllSecrets(ctx context.Context) (map[string]Kept, error) {
	all := map[string]Kept{}
	err := s.rows(ctx, s.read, `select person, password, pin from secret`, nil, func(scan func(...any) error) error {
		var person string
		var k Kept
		err := scan(&person, &k.Password, &k.PIN)
		all[person] = k
		return err
	})
	return all, s.fail("read who may sign in", err)
}

// KeepPassword keeps the hash of a person's password in place of the one before; "" takes it away.
func (s *Store) KeepPassword(ctx context.Context, person, hash string) error {
	const upsert = `insert into secret (person, password, pin) values ($1, $2, '') on conflict (person) do update set password = excluded.password`
	_, err := s.write.ExecContext(ctx, upsert, person, hash)
	return s.fail("keep a password", err)
}

// KeepPIN keeps the hash of a person's PIN in place of the one before; "" takes it away.
func (s *Store) KeepPIN(ctx context.Context, person, hash string) error {
	const upsert = `insert into secret (person, password, pin) values ($1, '', $2) on conflict (person) do update set pin = excluded.pin`
	_, err := s.write.ExecContext(ctx, upsert, person, hash)
	return s.fail("keep a PIN", err)
}

// ForgetSecrets takes a person's password and PIN away.
func (s *Store) ForgetSecrets(ctx context.Context, person string) error {
	_, err := s.write.ExecContext(ctx, `delete from secret where person = $1`, person)
	return s.fail("forget a password", err)
}

// rows runs a query and gives each row.
func (s *Store) rows(ctx context.Context, q querier, query string, args []any, each func(scan func(...any) error) error) error {
	rows, err := q.QueryContext(ctx, query, args...)
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		if err := each(rows.Scan); err != nil {
			return err
		}
	}
	return rows.Err()
}

// together does something in one transaction of which all comes true or nothing, again when another was faster.
func (s *Store) together(ctx context.Context, work func(tx *sql.Tx) error) error {
	deadline, pause := time.Now().Add(patience), firstPause
	for {
		err := s.once(ctx, work)
		if err == nil || codeOf(err) != serialise || time.Now().After(deadline) {
			return err
		}
		select {
		case <-time.After(pause):
		case <-ctx.Done():
			return ctx.Err()
		}
		pause = min(pause*2, lastPause)
	}
}

func (s *Store) once(ctx context.Context, work func(tx *sql.Tx) error) error {
	tx, err := s.write.BeginTx(ctx, &sql.TxOptions{Isolation: sql.LevelSerializable})
	if err != nil {
		return err
	}
	defer tx.Rollback() // after a commit it does nothing
	if err := work(tx); err != nil {
		return err
	}
	return tx.Commit()
}

// Try counts one more try under each of some names, if allowed does not object to those that there were: its error is returned, and nothing
// is counted. It may set those that count no more to nothing. Of many tries at once each sees those before it.
func (s *Store) Try(ctx context.Context, names []string, now record.Instant, allowed func(before []people.Tries) error) error {
	var denied error
	err := s.together(ctx, func(tx *sql.Tx) error {
		before := make([]people.Tries, len(names))
		for i, name := range names {
			err := tx.QueryRowContext(ctx, `select tries, last_ms from wrong_try where name = $1`, name).Scan(&before[i].Count, &before[i].Last)
			if err != nil && !errors.Is(err, sql.ErrNoRows) {
				return err
			}
		}
		if denied = allowed(before); denied != nil {
			return nil
		}
		for i, name := range names {
			const upsert = `insert into wrong_try (name, tries, last_ms) values ($1, $2, $3)
				on conflict (name) do update set tries = excluded.tries, last_ms = excluded.last_ms`
			if _, err := tx.ExecContext(ctx, upsert, name, before[i].Count+1, int64(now)); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return s.fail("count tries", err)
	}
	return denied
}

// Right forgets the tries under some names, and takes back one under others: the last was right.
func (s *Store) Right(ctx context.Context, forget, takeBack []string) error {
	err := s.together(ctx, func(tx *sql.Tx) error {
		for _, name := range forget {
			if _, err := tx.ExecContext(ctx, `delete from wrong_try where name = $1`, name); err != nil {
				return err
			}
		}
		for _, name := range takeBack {
			if _, err := tx.ExecContext(ctx, `update wrong_try set tries = tries - 1 where name = $1 and tries > 0`, name); err != nil {
				return err
			}
		}
		return nil
	})
	return s.fail("count tries", err)
}

// ForgetTries forgets the tries whose name begins with a prefix and that ended before.
func (s *Store) ForgetTries(ctx context.Context, prefix string, before record.Instant) error {
	_, err := s.write.ExecContext(ctx, `delete from wrong_try where substr(name, 1, length($1)) = $1 and last_ms < $2`, prefix, int64(before))
	return s.fail("forget tries", err)
}

// AddKey keeps the hash of an instrument's key. A name that is taken is an *Error with the code NotEmpty.
func (s *Store) AddKey(ctx context.Context, hash string, k people.Key) error {
	_, err := s.write.ExecContext(ctx, `insert into instrument_key (token, name, made_ms, seen_ms, made_by) values ($1, $2, $3, 0, $4)`, hash, k.Name, int64(k.Made), k.By)
	if err != nil && codeOf(err) == taken {
		return &Error{Code: NotEmpty, Place: s.place, Problem: "an instrument of that name has a key already", Fix: "take its key away first, or give the new one another name"}
	}
	return s.fail("keep a key", err)
}

const keyColumns = `select name, made_ms, seen_ms, made_by from instrument_key`

// Keys are all keys of instruments, by name.
func (s *Store) Keys(ctx context.Context) ([]people.Key, error) {
	var all []people.Key
	err := s.rows(ctx, s.read, keyColumns+` order by name`, nil, func(scan func(...any) error) error {
		var k people.Key
		err := scan(&k.Name, &k.Made, &k.Seen, &k.By)
		all = append(all, k)
		return err
	})
	return all, s.fail("read the keys", err)
}

// KeyOf is the key with a hash; found is false when there is none.
func (s *Store) KeyOf(ctx context.Context, hash string) (k people.Key, found bool, err error) {
	err = s.read.QueryRowContext(ctx, keyColumns+` where token = $1`, hash).Scan(&k.Name, &k.Made, &k.Seen, &k.By)
	if errors.Is(err, sql.ErrNoRows) {
		return k, false, nil
	}
	return k, err == nil, s.fail("read a key", err)
}

// KeySeen says when a key was last used.
func (s *Store) KeySeen(ctx context.Context, name string, at record.Instant) error {
	_, err := s.write.ExecContext(ctx, `update instrument_key set seen_ms = $2 where name = $1`, name, int64(at))
	return s.fail("write down that a key was used", err)
}

// DropKey takes a key away, and says whether there was one.
func (s *Store) DropKey(ctx context.Context, name string) (bool, error) {
	done, err := s.write.ExecContext(ctx, `delete from instrument_key where name = $1`, name)
	if err != nil {
		return false, s.fail("take a key away", err)
	}
	n, err := done.RowsAffected()
	return n > 0, s.fail("take a key away", err)
}
