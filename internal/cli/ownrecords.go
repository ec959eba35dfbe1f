package cli

import (
	"os"
	"path/filepath"
)

// ownFile is where the records of a book are kept when nobody says where: in its folder, which reads only the .yaml files.
const ownFile = "kitchen.records"

// booksFolder is the folder of the book that is named, "" when none is or when the records keep it.
func (b bookFlag) booksFolder(s *surroundings) string {
	folder := b.Book
	if folder == "" {
		folder = s.getenv("KETTLEFROST_BOOK")
	}
	if folder == inRecords {
		return ""
	}
	return folder
}

// beside has a command follow the records that stand in the book's folder, if it has any and nobody named others.
func (b *bookFlag) beside(s *surroundings) {
	folder := b.booksFolder(s)
	if b.kept(s) || folder == "" {
		return
	}
	if file := filepath.Join(folder, ownFile); isFile(file) {
		b.Records = file
	}
}

func isFile(name string) bool {
	info, err := os.Stat(name)
	return err == nil && info.Mode().IsRegular()
}

// ownRecords gives the pages records where nobody named any: in the folder of the book; for the demo, in a file that is thrown away when they are
// no longer served. The function returned throws it away.
func (c *serveCommand) ownRecords(s *surroundings, r reach) (func(), error) {
	nothing := func() {}
	folder := c.booksFolder(s)
	switch {
	case c.NoRecords || c.kept(s) || c.Book == inRecords || r.network || len(r.proxies) > 0: // who opens them to others says where they are
		return nothing, nil
	case folder != "":
		if notFolder(folder) == "" { // else opening it says what is wrong
			c.Records = filepath.Join(folder, ownFile)
			s.say("what happens is kept in %s", c.Records)
		}
		return nothing, nil
	}
	temporary, err := os.MkdirTemp("", "kettlefrost-demo-")
	if err != nil {
		return nothing, failure{failed, "the demo's records", "no file can be made for them: " + reason(err), "give --records FILE, or --no-records"}
	}
	c.Records, c.passing = filepath.Join(temporary, ownFile), true
	s.say("what is entered here is thrown away when it stops; --records FILE keeps it")
	return func() { os.RemoveAll(temporary) }, nil
}
