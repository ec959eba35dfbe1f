// Package demo carries an invented kitchen: a book of text files that shows what a book can say. Its people, suppliers, prices and
// dishes are made up; only the food composition numbers it points at are real.
package demo

import (
	"embed"
	"io/fs"
)

//go:embed all:book
var files embed.FS

// Book is the folder of the demo's text files, as one would keep it on disk.
func Book() fs.FS {
	book, err := fs.Sub(files, "book")
	if err != nil { // the folder is embedded above, so its name is a valid path
		return files
	}
	return book
}
