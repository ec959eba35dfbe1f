package web

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"mime"
	"net/http"
	"path"
)

//go:embed static
var static embed.FS

// showStatic serves the style sheets, the script and the icon. A browser asks again each time and is told when nothing changed.
func showStatic(w http.ResponseWriter, r *http.Request) {
	if showStyles(w, r) {
		return
	}
	name := r.PathValue("file")
	data, err := static.ReadFile("static/" + name)
	if err != nil {
		http.NotFound(w, r)
		return
	}
	sum := sha256.Sum256(data)
	tag := `"` + hex.EncodeToString(sum[:12]) + `"`
	w.Header().Set("ETag", tag)
	w.Header().Set("Cache-Control", "no-cache")
	if r.Header.Get("If-None-Match") == tag {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	w.Header().Set("Content-Type", mime.TypeByExtension(path.Ext(name)))
	w.Write(data)
}
