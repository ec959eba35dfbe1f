package store

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"io/fs"
	"iter"
	"path"
	"strings"

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

// picturesFolder is where the pictures of an export are, each a file under its hash.
const picturesFolder = "pictures"

// pictureEndings are those of the files of pictures, by what they are coded as.
var pictureEndings = map[string]string{string(record.JPEG): ".jpg", string(record.PNG): ".png", string(record.WebP): ".webp"}

// FileName is what the file of a picture is called in an export: pictures/<hash>.jpg.
func (p Picture) FileName() string {
	return path.Join(picturesFolder, p.Hash.String()+pictureEndings[p.Type])
}

// pictureFiles are the pictures of an export, which is a folder or a ZIP file.
func pictureFiles(export fs.FS) iter.Seq2[Picture, error] {
	return func(yield func(Picture, error) bool) {
		for kind, ending := range pictureEndings {
			names, err := fs.Glob(export, picturesFolder+"/*"+ending)
			if err != nil {
				yield(Picture{}, err)
				return
			}
			for _, name := range names {
				p, err := pictureFile(export, name, kind)
				if !yield(p, err) || err != nil {
					return
				}
			}
		}
	}
}

// pictureFile reads one, and checks that it is the one that was hashed.
func pictureFile(export fs.FS, name, kind string) (Picture, error) {
	data, err := fs.ReadFile(export, name)
	if err != nil {
		return Picture{}, err
	}
	hash, err := record.ParseHash(strings.TrimSuffix(path.Base(name), path.Ext(name)))
	if err != nil {
		return Picture{}, err
	}
	p := Picture{Hash: hash, Type: kind, Data: data}
	return p, p.check()
}

// pictures are those of the copy. A copy from before pictures were kept has none. The error is the last thing that it gives.
func (c *Copy) pictures(ctx context.Context) iter.Seq2[Picture, error] {
	if c.store != nil {
		return c.picturesKept(ctx)
	}
	return func(yield func(Picture, error) bool) {
		if !c.picturesOfLines(yield) || c.files == nil {
			return
		}
		files, end, err := c.files()
		if err != nil {
			yield(Picture{}, notRead(c.Path, err))
			return
		}
		defer end()
		for p, err := range pictureFiles(files) {
			if err != nil {
				err = notRead(c.Path, err)
			}
			if !yield(p, err) {
				return
			}
		}
	}
}

// picturesKept are those of a SQLite file.
func (c *Copy) picturesKept(ctx context.Context) iter.Seq2[Picture, error] {
	return func(yield func(Picture, error) bool) {
		tables := 0
		if err := c.store.read.QueryRowContext(ctx, c.store.dialect.hasTable, "picture").Scan(&tables); err != nil {
			yield(Picture{}, notRead(c.Path, err))
			return
		}
		if tables > 0 {
			c.store.Pictures(ctx)(yield)
		}
	}
}

// picturesOfLines are those that stand among the lines; false when nobody wants more, or something is wrong.
func (c *Copy) picturesOfLines(yield func(Picture, error) bool) bool {
	r, err := c.lines()
	if err != nil {
		yield(Picture{}, notRead(c.Path, err))
		return false
	}
	defer r.Close()
	more := true
	for _, err := range readAllLines(r, func(p Picture) error { more = more && yield(p, nil); return nil }) {
		if err != nil && more {
			yield(Picture{}, err)
			return false
		}
		if !more {
			return false
		}
	}
	return more
}
