package web

import (
	"net/http"
	"slices"
	"sync"

	"kettlefrost/internal/preview"
	"kettlefrost/internal/record"
)

// previewSide is how many pixels a small picture is wide or high at most: a column of a tablet.
const previewSide = 640

// mostPreviews is how many small pictures are kept in memory: some megabytes.
const mostPreviews = 64

// previews are the small pictures that were shown last. One is made at a time: a large one takes a quarter of a second, and much memory.
type previews struct {
	mu   sync.Mutex
	all  map[record.Hash][]byte
	last []record.Hash // the latest last
}

// of is the small picture of a large one; nil when none can be made.
func (p *previews) of(hash record.Hash, data func() ([]byte, error)) ([]byte, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if small, there := p.all[hash]; there {
		return small, nil
	}
	whole, err := data()
	if err != nil {
		return nil, err
	}
	small, err := preview.Small(whole, previewSide)
	if err != nil {
		small = nil // it is shown as it is
	}
	if p.all == nil {
		p.all = map[record.Hash][]byte{}
	}
	p.all[hash], p.last = small, append(p.last, hash)
	if len(p.last) > mostPreviews {
		delete(p.all, p.last[0])
		p.last = slices.Delete(p.last, 0, 1)
	}
	return small, nil
}

// showSmallPicture serves a small picture, or the picture itself where none can be made.
func (s *server) showSmallPicture(small *previews) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		hash, err := record.ParseHash(r.PathValue("hash"))
		if s.records == nil || err != nil {
			http.NotFound(w, r)
			return
		}
		if has, err := s.records.HasPicture(r.Context(), hash); err == nil && !has {
			http.NotFound(w, r)
			return
		}
		data, err := small.of(hash, func() ([]byte, error) {
			p, _, err := s.records.Picture(r.Context(), hash)
			return p.Data, err
		})
		if err != nil || data == nil {
			s.showPicture(w, r) // which says what is wrong
			return
		}
		writePicture(w, r, hash, string(record.JPEG), data)
	}
}
