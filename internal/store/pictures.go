package store

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"errors"
	"fmt"
	"iter"

	"kettlefrost/internal/record"
)

// MostPicture is the size of the largest picture that is kept, in bytes.
const MostPicture = 8 << 20

// Picture is a picture as it came. It is kept beside the entries, and its hash ties it to the one that tells of it.
type Picture struct {
	Hash record.Hash // SHA-256 of Data
	Type string      // image/jpeg
	Data []byte
}

// check refuses what cannot be kept.
func (p Picture) check() error {
	wrong := func(path, problem, fix string) error {
		return &record.FieldError{Kind: record.Pictured{}.Kind(), Path: path, Problem: problem, Fix: fix}
	}
	switch {
	case len(p.Data) == 0:
		return wrong("bytes", "are none", "choose a picture")
	case len(p.Data) > MostPicture:
		return wrong("bytes", fmt.Sprintf("are %d, more than %d", len(p.Data), MostPicture), "take it smaller")
	case p.Type == "" || len(p.Type) > longestName:
		return wrong("type", "is missing, or too long", "say what it is coded as")
	case sha256.Sum256(p.Data) != p.Hash:
		return wrong("hash", "is not that of the picture", "hash the bytes that are sent")
	}
	return nil
}

// KeepPicture keeps a picture, once. Errors are *Error, and *record.FieldError for what makes no sense.
func (s *Store) KeepPicture(ctx context.Context, p Picture) error {
	if err := p.check(); err != nil {
		return err
	}
	if s.isClosed() {
		return s.trouble(Closed, "is closed", nil)
	}
	return s.fail("keep a picture", s.together(ctx, func(tx *sql.Tx) error { return s.putPicture(ctx, tx, p) }))
}

func (s *Store) putPicture(ctx context.Context, q querier, p Picture) error {
	const put = `insert into picture (hash, type, kept_ms, data) values ($1, $2, $3, $4) on conflict (hash) do nothing`
	_, err := q.ExecContext(ctx, put, p.Hash.String(), p.Type, int64(s.now()), p.Data)
	return err
}

// Picture is the picture of a hash, and false when it is not here. One whose bytes are not those that were hashed is an *Error.
func (s *Store) Picture(ctx context.Context, hash record.Hash) (p Picture, there bool, err error) {
	p.Hash = hash
	err = s.read.QueryRowContext(ctx, `select type, data from picture where hash = $1`, hash.String()).Scan(&p.Type, &p.Data)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return Picture{}, false, nil
	case err != nil:
		return Picture{}, false, s.fail("read a picture", err)
	case sha256.Sum256(p.Data) != hash:
		return Picture{}, false, &Error{Code: Damaged, Place: s.place + ", picture " + hash.String(), Problem: "its bytes are not those that were taken in", Fix: fixes[Damaged]}
	}
	return p, true, nil
}

// Pictures are all that are kept, by their hashes. The error is the last thing that it gives.
func (s *Store) Pictures(ctx context.Context) iter.Seq2[Picture, error] {
	return func(yield func(Picture, error) bool) {
		var hashes []string
		err := s.rows(ctx, s.read, `select hash from picture order by hash`, nil, func(scan func(...any) error) error {
			var hash string
			err := scan(&hash)
			hashes = append(hashes, hash)
			return err
		})
		if err != nil {
			yield(Picture{}, s.fail("list the pictures", err))
			return
		}
		for _, text := range hashes { // one at a time: there may be gigabytes
			hash, err := record.ParseHash(text)
			if err != nil {
				yield(Picture{}, &Error{Code: Damaged, Place: s.place, Problem: "a picture is kept under " + text + ", which is no hash", Fix: fixes[Damaged], Err: err})
				return
			}
			p, there, err := s.Picture(ctx, hash)
			if !there && err == nil {
				continue
			}
			if !yield(p, err) || err != nil {
				return
			}
		}
	}
}
