// Package schema carries the published JSON Schemas (draft 2020-12) of what kettlefrost reads and writes. The files are generated
// from the types they describe; tests hold them to those types.
package schema

import (
	"embed"
	"io/fs"
	"slices"
	"strings"
)

//go:embed *.json
var files embed.FS

// ending is what stands behind the name of a schema in that of its file.
const ending = ".v1.json"

// Files are the schemas as files, such as plan.v1.json: one for each of Names.
func Files() fs.FS { return files }

// Names are what there is a schema of, in the order of the alphabet. What is called plan here is what has kettlefrost.plan/1 as its schema
// field; book and request are read and have no such field.
func Names() []string {
	var names []string
	all, _ := files.ReadDir(".") // what is embedded can be read
	for _, file := range all {
		names = append(names, strings.TrimSuffix(file.Name(), ending))
	}
	slices.Sort(names) // files are in another order: bill-draft.v1.json is before bill.v1.json
	return names
}

// Of is the schema of one of Names. Another name is fs.ErrNotExist.
func Of(what string) ([]byte, error) { return files.ReadFile(what + ending) }
