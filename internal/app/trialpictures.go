package app

import (
	"context"
	"crypto/sha256"
	"net/http"
	"path"
	"strings"

	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
)

// MostPicture is the size of the largest picture that is kept, in bytes.
const MostPicture = store.MostPicture

// PictureError says why a picture was not taken in.
type PictureError struct{ Problem, Fix string }

func (e *PictureError) Error() string { return "picture: " + e.Problem + ": " + e.Fix }

// PictureSent is a picture as it came.
type PictureSent struct {
	About   string // what it shows, as entries have it
	File    string
	Caption string
	Data    []byte
}

// EnterPicture keeps a picture as it came and enters its hash. What it is coded as is read off its bytes (the WHATWG rules of sniffing), whatever its
// name says. Errors are *PictureError and as of Enter.
func (r *Records) EnterPicture(ctx context.Context, said Said, p PictureSent) (record.Pictured, error) {
	kind := record.PictureType(http.DetectContentType(p.Data))
	switch {
	case len(p.Data) == 0:
		return record.Pictured{}, &PictureError{"nothing came", "choose a picture"}
	case len(p.Data) > MostPicture:
		return record.Pictured{}, &PictureError{"it is larger than 8 MB", "set the camera to smaller pictures"}
	case kind != record.JPEG && kind != record.PNG && kind != record.WebP:
		return record.Pictured{}, &PictureError{"it is neither JPEG, PNG nor WebP", "take it with the camera of the tablet, or save it as one of those"}
	}
	b := record.Pictured{About: p.About, File: pictureFile(p.File, kind), Hash: sha256.Sum256(p.Data), Type: kind, Bytes: int64(len(p.Data)), Caption: record.Text(p.Caption)}
	said.Body = b
	e, err := said.entry()
	if err != nil {
		return b, err
	}
	if err := r.people.allow(ctx, []record.Entry{e}); err != nil { // before anything is kept
		return b, err
	}
	if err := r.store.KeepPicture(ctx, store.Picture{Hash: b.Hash, Type: string(kind), Data: p.Data}); err != nil {
		return b, err
	}
	_, err = r.Enter(ctx, said)
	return b, err
}

// pictureFile is the name of a file without the folders before it, as far as it is one.
func pictureFile(name string, kind record.PictureType) string {
	name = path.Base(strings.ReplaceAll(name, `\`, "/"))
	if name == "." || name == "/" || name == "" {
		name = "picture." + strings.TrimPrefix(string(kind), "image/")
	}
	if len(name) > 100 {
		name = strings.ToValidUTF8(name[len(name)-100:], "")
	}
	return name
}

// HasPicture says whether an entry of a picture stands.
func (r *Records) HasPicture(ctx context.Context, hash record.Hash) (bool, error) {
	state, _, err := r.trialsNow(ctx)
	return err == nil && state.HasPicture(hash), err
}

// Picture is a picture of which an entry stands; false when none does, or it is not here.
func (r *Records) Picture(ctx context.Context, hash record.Hash) (store.Picture, bool, error) {
	if has, err := r.HasPicture(ctx, hash); err != nil || !has {
		return store.Picture{}, false, err
	}
	return r.store.Picture(ctx, hash)
}
