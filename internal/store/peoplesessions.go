package store

import (
	"context"
	"database/sql"
	"errors"

	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
)

// BeginSession signs a device in, with who did it acting on it. It is shown when it began who acts.
func (s *Store) BeginSession(ctx context.Context, hash string, x people.Session) error {
	err := s.together(ctx, func(tx *sql.Tx) error {
		const insert = `insert into session (token, id, device, opened_by, began_ms, seen_ms, acting, shown, shown_ms) values ($1, $2, $3, $4, $5, $6, $7, $8, $5)`
		if _, err := tx.ExecContext(ctx, insert, hash, x.ID, x.Device, x.Opened, int64(x.Began), int64(x.Seen), x.Acting, string(x.By)); err != nil {
			return err
		}
		return join(ctx, tx, x.ID, x.Acting, x.Began)
	})
	return s.fail("sign in", err)
}

// join writes down that a person signed in on a device.
func join(ctx context.Context, q querier, session, person string, at record.Instant) error {
	_, err := q.ExecContext(ctx, `insert into session_person (session, person, since_ms) values ($1, $2, $3) on conflict do nothing`, session, person, int64(at))
	return err
}

const sessionColumns = `select id, device, opened_by, began_ms, seen_ms, acting, shown, shown_ms from session`

func scanSession(scan func(...any) error) (x people.Session, err error) {
	err = scan(&x.ID, &x.Device, &x.Opened, &x.Began, &x.Seen, &x.Acting, &x.By, &x.Shown)
	return x, err
}

// Session is the device with the token of that hash; found is false when there is none.
func (s *Store) Session(ctx context.Context, hash string) (x people.Session, found bool, err error) {
	x, err = scanSession(s.read.QueryRowContext(ctx, sessionColumns+` where token = $1`, hash).Scan)
	if errors.Is(err, sql.ErrNoRows) {
		return x, false, nil
	}
	if err == nil {
		x.Persons, err = s.joined(ctx, x.ID)
	}
	return x, err == nil, s.fail("look who is signed in", err)
}

// joined is who signed in on a device, in order.
func (s *Store) joined(ctx context.Context, session string) ([]string, error) {
	var all []string
	err := s.rows(ctx, s.read, `select person from session_person where session = $1 order by since_ms, person`, []any{session}, func(scan func(...any) error) error {
		var p string
		err := scan(&p)
		all = append(all, p)
		return err
	})
	return all, err
}

// Sessions are all devices that are signed in, those that have ended meanwhile among them.
func (s *Store) Sessions(ctx context.Context) ([]people.Session, error) {
	var all []people.Session
	err := s.rows(ctx, s.read, sessionColumns, nil, func(scan func(...any) error) error {
		x, err := scanSession(scan)
		all = append(all, x)
		return err
	})
	for i := range all {
		if err == nil {
			all[i].Persons, err = s.joined(ctx, all[i].ID)
		}
	}
	people.SortSessions(all)
	return all, s.fail("look who is signed in", err)
}

// SessionSeen says when a device was last used.
func (s *Store) SessionSeen(ctx context.Context, id string, at record.Instant) error {
	_, err := s.write.ExecContext(ctx, `update session set seen_ms = $2 where id = $1`, id, int64(at))
	return s.fail("write down that a device was used", err)
}

// ActOn has another person act on a device. It is false when the device is not signed in any more.
func (s *Store) ActOn(ctx context.Context, id, person string, by people.How, at record.Instant) (bool, error) {
	there := false
	err := s.together(ctx, func(tx *sql.Tx) error {
		done, err := tx.ExecContext(ctx, `update session set acting = $2, shown = $3, shown_ms = $4, seen_ms = $4 where id = $1`, id, person, string(by), int64(at))
		if err != nil {
			return err
		}
		n, err := done.RowsAffected()
		if there = n == 1; err != nil || !there {
			return err
		}
		return join(ctx, tx, id, person, at)
	})
	return there && err == nil, s.fail("change who acts", err)
}

// EndSession signs a device out, and says whether it was signed in.
func (s *Store) EndSession(ctx context.Context, id string) (bool, error) {
	var n int64
	err := s.together(ctx, func(tx *sql.Tx) error {
		done, err := tx.ExecContext(ctx, `delete from session where id = $1`, id)
		if err != nil {
			return err
		}
		if n, err = done.RowsAffected(); err != nil {
			return err
		}
		_, err = tx.ExecContext(ctx, `delete from session_person where session = $1`, id)
		return err
	})
	return n > 0, s.fail("sign out", err)
}

// EndSessionsOf signs a person out everywhere: the devices that the person signed in with the password are signed out, and on those of others
// the person acts no more. It says on how many devices the person had signed in.
func (s *Store) EndSessionsOf(ctx context.Context, person string) (int, error) {
	n := 0
	err := s.together(ctx, func(tx *sql.Tx) error {
		if err := tx.QueryRowContext(ctx, `select count(*) from session_person where person = $1`, person).Scan(&n); err != nil {
			return err
		}
		for _, step := range []string{
			`delete from session_person where person = $1 or session in (select id from session where opened_by = $1)`,
			`delete from session where opened_by = $1`,
			`update session set acting = '', shown = '' where acting = $1`,
		} {
			if _, err := tx.ExecContext(ctx, step, person); err != nil {
				return err
			}
		}
		return nil
	})
	return n, s.fail("sign out", err)
}

// EndOldSessions signs out the devices that began or were last used before.
func (s *Store) EndOldSessions(ctx context.Context, began, seen record.Instant) error {
	err := s.together(ctx, func(tx *sql.Tx) error {
		if _, err := tx.ExecContext(ctx, `delete from session where began_ms <= $1 or seen_ms <= $2`, int64(began), int64(seen)); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, `delete from session_person where session not in (select id from session)`)
		return err
	})
	return s.fail("sign out", err)
}
