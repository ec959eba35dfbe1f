// Package schema carries the published JSON Schemas (draft 2020-12) of what kettlefrost reads and writes. The files are generated
// from the types they describe; tests hold them to those types.
package schema

import (
	"embed"
	"io/fs"
)

//go:embed *.json
var files embed.FS

// Files are the schemas as files: plan.v1.json, day.v1.json, seal.v1.json, week.v1.json, after.v1.json,
// filling.v1.json, heat.v1.json, recall.v1.json, trace.v1.json, stock.v1.json, book.v1.json and request.v1.json.
func Files() fs.FS { return files }

// Of is the schema of "plan", "day", "seal", "week", "after", "filling", "heat", "recall", "trace", "stock", "book" or "request". Another name is fs.ErrNotExist.
func Of(what string) ([]byte, error) { return files.ReadFile(what + ".v1.json") }
