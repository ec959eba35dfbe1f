package bookfile

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"strings"

	"kettlefrost/internal/finding"
)

// file is one file of the book.
type file struct {
	name string
	text []byte
}

// readFiles gives the .yaml files of a folder in the order of their names. It reports what it cannot read and says so in failed.
func readFiles(fsys fs.FS, d *decoder) (texts []file, failed bool) {
	fail := func(code, name, message, fix string) {
		failed = true
		d.add(finding.Finding{Code: code, Severity: finding.Stop, Where: "file " + name, At: &finding.Position{File: name}, Message: message, Fix: fix})
	}
	total, seen := 0, 0
	// The walk itself never fails: every error it meets is reported and passed over.
	_ = fs.WalkDir(fsys, ".", func(name string, entry fs.DirEntry, err error) error {
		switch {
		case err != nil && name == ".":
			failed = true
			d.add(finding.Finding{Code: CodeMissingFolder, Severity: finding.Stop, Where: "the book's folder",
				Message: "the folder of the book cannot be read: " + reason(err), Fix: "give the folder that holds the book's .yaml files"})
			return fs.SkipAll
		case err != nil:
			fail(CodeUnreadable, name, "cannot be read: "+reason(err), "let this user read it, or move it out of the book")
			return fs.SkipDir
		case name != "." && strings.HasPrefix(path.Base(name), "."):
			return skip(entry)
		case entry.IsDir():
			return nil
		case path.Ext(name) == ".yml":
			d.add(finding.Finding{Code: CodeOtherFile, Severity: finding.Caution, Where: "file " + name, At: &finding.Position{File: name},
				Message: "is not read: the book's files end in .yaml", Fix: "rename it to " + strings.TrimSuffix(name, ".yml") + ".yaml, or move it out of the book"})
			return nil
		case path.Ext(name) != ".yaml":
			return nil
		}
		seen++
		text, err := readFile(fsys, name)
		switch {
		case errors.Is(err, errTooBig) || total+len(text) > maxBookBytes:
			fail(CodeTooBig, name, fmt.Sprintf("is too large: one file may have %d MB, the whole book %d MB", maxFileBytes>>20, maxBookBytes>>20), "divide it into several files")
		case err != nil:
			fail(CodeUnreadable, name, "cannot be read: "+reason(err), "let this user read it, or move it out of the book")
		default:
			total += len(text)
			texts = append(texts, file{name, text})
		}
		return nil
	})
	if seen == 0 && !failed {
		failed = true
		d.add(finding.Finding{Code: CodeEmpty, Severity: finding.Stop, Where: "the book's folder",
			Message: "there is no .yaml file in the folder of the book", Fix: "give the folder that holds the book's .yaml files"})
	}
	return texts, failed
}

func skip(entry fs.DirEntry) error {
	if entry.IsDir() {
		return fs.SkipDir
	}
	return nil
}

var (
	errTooBig     = errors.New("too large")
	errNotRegular = errors.New("it is not an ordinary file")
)

// readFile looks before it opens: opening a pipe would wait for ever.
func readFile(fsys fs.FS, name string) ([]byte, error) {
	info, err := fs.Stat(fsys, name)
	switch {
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular():
		return nil, errNotRegular
	case info.Size() > maxFileBytes:
		return nil, errTooBig
	}
	f, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, maxFileBytes+1)) // it may have grown since
	if err == nil && len(text) > maxFileBytes {
		err = errTooBig
	}
	return text, err
}

// reason is why a file could not be read, without the path that the finding names anyway.
func reason(err error) string {
	if pathErr, ok := errors.AsType[*fs.PathError](err); ok {
		err = pathErr.Err
	}
	return err.Error()
}
