package web

import (
	"crypto/sha256"
	"encoding/hex"
	"sync"
)

// uploads keep the files that were sent a moment ago, so that one can be looked at, mended and then entered without being sent again. They are
// in memory only, the last few, and are found by what is in them.
type uploads struct {
	mu   sync.Mutex
	all  map[string]upload
	last []string // the latest last
}

// upload is a file that was sent.
type upload struct {
	name string
	data []byte
}

const (
	mostUploads = 8
	mostSheet   = 17 << 20 // more than is read of a sheet, with what a form puts around it
)

func newUploads() *uploads { return &uploads{all: map[string]upload{}} }

// keep keeps a file and gives what it is found by.
func (u *uploads) keep(f upload) string {
	sum := sha256.Sum256(append([]byte(f.name+"\x00"), f.data...))
	key := hex.EncodeToString(sum[:16])
	u.mu.Lock()
	defer u.mu.Unlock()
	if _, there := u.all[key]; !there {
		u.all[key] = f
		u.last = append(u.last, key)
	}
	for len(u.last) > mostUploads {
		delete(u.all, u.last[0])
		u.last = u.last[1:]
	}
	return key
}

func (u *uploads) find(key string) (upload, bool) {
	u.mu.Lock()
	defer u.mu.Unlock()
	f, ok := u.all[key]
	return f, ok
}
