package web

import (
	"bytes"
	"compress/flate"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/dishgraph"
	"kettlefrost/internal/kitchen"
)

// Keys of the address of a dish.
const (
	dishChanges = "d"     // what is changed and not saved
	dishScale   = "scale" // what is reckoned for: "", or a vessel to be filled
	dishStep    = "step"  // the step that is open
)

// dishDraft is what is changed and not saved. It lives in the address: it can be gone back from, loaded again, and opened on another device,
// and needs no place of its own.
type dishDraft struct {
	base    string // mark of the dish as it was when this began
	changes []bookfile.Change
}

// mostDraft is more than a draft comes to when it is spelt out, in bytes.
const mostDraft = 256 << 10

// spelt is a draft as it is packed.
type spelt struct {
	Base    string            `json:"b"`
	Changes []bookfile.Change `json:"c"`
}

// text is a draft for an address; "" for one without changes.
func (d dishDraft) text() string {
	if len(d.changes) == 0 {
		return ""
	}
	x := spelt{Base: d.base}
	for _, c := range d.changes {
		if c.Do != bookfile.DoDelete {
			text, err := bookfile.Text(c.Value)
			if err != nil {
				return ""
			}
			c.Value = text
		}
		x.Changes = append(x.Changes, c)
	}
	plain, err := json.Marshal(x)
	if err != nil {
		return ""
	}
	var packed bytes.Buffer
	z, _ := flate.NewWriter(&packed, flate.BestCompression) // the level is one that there is
	z.Write(plain)
	z.Close()
	return base64.RawURLEncoding.EncodeToString(packed.Bytes())
}

var errDraft = errors.New("this is no draft of a dish")

// readDishDraft reads a draft from an address.
func readDishDraft(text string) (dishDraft, error) {
	if text == "" {
		return dishDraft{}, nil
	}
	packed, err := base64.RawURLEncoding.DecodeString(text)
	if err != nil {
		return dishDraft{}, errDraft
	}
	plain, err := io.ReadAll(io.LimitReader(flate.NewReader(bytes.NewReader(packed)), mostDraft))
	var x spelt
	if err != nil || json.Unmarshal(plain, &x) != nil {
		return dishDraft{}, errDraft
	}
	return dishDraft{base: x.Base, changes: x.Changes}, nil
}

// dishMark is one word for a dish and its packs as they are in a book.
func dishMark(b kitchen.Book, id kitchen.DishID) string {
	sum := sha256.New()
	text, _ := bookfile.Text(b.Dishes[id]) // a dish that cannot be written is none to come back to
	fmt.Fprintln(sum, text)
	for _, p := range dishgraph.PacksOf(b, id) {
		fmt.Fprintln(sum, p, b.Packs[p].Fill)
	}
	return hex.EncodeToString(sum.Sum(nil)[:6])
}
