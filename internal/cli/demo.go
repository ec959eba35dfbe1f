package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"kettlefrost/demo"
)

// demoCommand writes the demo kitchen's book.
type demoCommand struct {
	Dir  string `arg:"" help:"Folder to make; it must not be there yet."`
	JSON bool   `name:"json" help:"Say what was written as JSON (kettlefrost.demo/1)."`
}

// Run writes into a folder beside the wanted one and renames it at the end, so that half a book is never left under its name.
func (c demoCommand) Run(s *surroundings) error {
	if _, err := os.Lstat(c.Dir); !errors.Is(err, fs.ErrNotExist) {
		return failure{badUsage, c.Dir, "this is there already and is not overwritten", "name a folder that is not there yet"}
	}
	half, err := os.MkdirTemp(filepath.Dir(filepath.Clean(c.Dir)), ".kettlefrost-demo-")
	if err != nil {
		return failure{failed, c.Dir, "cannot be written: " + reason(err), "name a folder inside one that you may write to"}
	}
	defer os.RemoveAll(half)
	if err := writeDemo(half, c.Dir); err != nil {
		return failure{failed, c.Dir, "cannot be written: " + reason(err), "look for space on the disk and leave to write, then try again"}
	}
	if c.JSON {
		return s.showJSON(Demo{demoSchema, c.Dir})
	}
	return s.show(fmt.Sprintf("The demo book is in %[1]s, all of it invented. Try: kettlefrost check --book %[1]s\n", c.Dir))
}

func writeDemo(half, dir string) error {
	if err := os.CopyFS(half, demo.Book()); err != nil {
		return err
	}
	if err := os.Chmod(half, 0o755); err != nil {
		return err
	}
	return os.Rename(half, dir)
}

// reason is why a file could not be used, without the path, which the message names anyway.
func reason(err error) string {
	if p, ok := errors.AsType[*fs.PathError](err); ok {
		return p.Err.Error()
	}
	if l, ok := errors.AsType[*os.LinkError](err); ok {
		return l.Err.Error()
	}
	return err.Error()
}
