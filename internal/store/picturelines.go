package store

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"iter"

	"kettlefrost/internal/record"
)

// Pictures stand in a backup of lines behind the entries, each on a line of its own, so that one file holds all of a kitchen. They are no entries
// and have no place in the chain: their hashes stand in it.
type pictureLine struct {
	Hash record.Hash `json:"picture"`
	Type string      `json:"type"`
	Data []byte      `json:"data"`
}

// pictureStart is how the line of a picture begins, and no entry does.
var pictureStart = []byte(`{"picture":`)

func (p Picture) line() ([]byte, error) {
	line, err := json.Marshal(pictureLine(p))
	return append(line, '\n'), err
}

// readPicture reads a line of a picture, and checks that it is the one that was hashed.
func readPicture(line []byte) (Picture, error) {
	var x pictureLine
	d := json.NewDecoder(bytes.NewReader(line))
	d.DisallowUnknownFields()
	if err := d.Decode(&x); err != nil {
		return Picture{}, err
	}
	p := Picture(x)
	return p, p.check()
}

// writePictures writes pictures as lines.
func writePictures(w io.Writer, all iter.Seq2[Picture, error]) error {
	for p, err := range all {
		if err != nil {
			return err
		}
		line, err := p.line()
		if err != nil {
			return err
		}
		if _, err := w.Write(line); err != nil {
			return err
		}
	}
	return nil
}

// pictures are those of the copy. A copy from before pictures were kept has none. The error is the last thing that it gives.
func (c *Copy) pictures(ctx context.Context) iter.Seq2[Picture, error] {
	if c.store != nil {
		return func(yield func(Picture, error) bool) {
			tables := 0
			if err := c.store.read.QueryRowContext(ctx, c.store.dialect.hasTable, "picture").Scan(&tables); err != nil {
				yield(Picture{}, notRead(c.Path, err))
				return
			}
			if tables > 0 {
				c.store.pictures(ctx)(yield)
			}
		}
	}
	return func(yield func(Picture, error) bool) {
		r, err := c.lines()
		if err != nil {
			yield(Picture{}, notRead(c.Path, err))
			return
		}
		defer r.Close()
		more := true
		for _, err := range readAllLines(r, func(p Picture) error { more = more && yield(p, nil); return nil }) {
			if !more {
				return
			}
			if err != nil {
				yield(Picture{}, err)
				return
			}
		}
	}
}
