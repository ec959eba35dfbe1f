package app

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
)

// Most that is read of what somebody sends to begin a kitchen with.
const (
	mostSent      = 4000      // files in a zip
	mostSentFile  = 4 << 20   // bytes of one file of a book, unpacked: as much as is read of it
	mostSentBook  = 64 << 20  // bytes of all of them
	mostSentTold  = 512 << 20 // bytes of all entries, unpacked
	mostNameBytes = 200
)

// Codes of what keeps files out.
const (
	CodeSentNoZip    = "sent-no-zip"    // it is called a zip and is none
	CodeSentName     = "sent-name"      // its name is none that a file of a book can have
	CodeSentTwice    = "sent-twice"     // two files have one name
	CodeSentTooLarge = "sent-too-large" // more than is read
	CodeSentDamaged  = "sent-damaged"   // it does not unpack
	CodeSentNothing  = "sent-nothing"   // no file of a book is in it
)

// SentFile is a file that somebody sent.
type SentFile struct {
	Name string
	Data []byte
}

// Sent is what somebody sent to begin a kitchen with, sorted out.
type Sent struct {
	Files map[string]string // of a book
	Left  []string          // names of what is no part of a book
	Found finding.List      // what keeps files out, each with its fix
	told  *zip.File         // all entries of other records, as an export of everything has them
}

// HasEntries says whether all entries of other records are among it.
func (s Sent) HasEntries() bool { return s.told != nil }

// entriesName is the file of all entries in an export of everything; bookFolder is where that has the book.
const (
	entriesName  = "entries.jsonl"
	bookInExport = "book/"
)

// ReadSent sorts out files: .yaml files as they are, and a .zip with a book's folder in it or with everything that records hold. Nothing is written
// anywhere, whatever the files are called.
func ReadSent(files []SentFile) Sent {
	s := sorter{Sent: Sent{Files: map[string]string{}}, lower: map[string]string{}}
	for _, f := range files {
		name := path.Base(strings.ReplaceAll(f.Name, `\`, "/"))
		if strings.EqualFold(path.Ext(name), ".zip") {
			s.unpack(name, f.Data)
			continue
		}
		s.take(name, func() ([]byte, error) { return f.Data, nil })
	}
	if len(s.Files) == 0 && len(s.Found) == 0 {
		s.stop(CodeSentNothing, "", "no file of a book is in it", "send the .yaml files of a book, or a zip of its folder")
	}
	s.Found.Sort()
	slices.Sort(s.Left)
	return s.Sent
}

// sorter sorts files out.
type sorter struct {
	Sent
	lower map[string]string // names by what they are in small letters
	bytes int
}

func (s *sorter) stop(code, name, message, fix string) {
	f := finding.Finding{Code: code, Severity: finding.Stop, Where: "what was sent", Message: message, Fix: fix}
	if name != "" {
		name = showable(name)
		f.Where, f.At = "file "+name, &finding.Position{File: name}
	}
	s.Found = append(s.Found, f)
}

// showable is a name that can be shown: on one line, and not for ever.
func showable(name string) string {
	name = strings.ToValidUTF8(name, "\uFFFD")
	name = strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) {
			return '\uFFFD'
		}
		return r
	}, name)
	if r := []rune(name); len(r) > 80 {
		name = string(r[:79]) + "…"
	}
	return name
}

// unpack takes the files of a zip.
func (s *sorter) unpack(name string, data []byte) {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	switch {
	case err != nil && !errors.Is(err, zip.ErrInsecurePath):
		s.stop(CodeSentNoZip, name, "this is no zip, or it did not come through whole", "pack the folder again, or send the .yaml files themselves")
		return
	case len(z.File) > mostSent:
		s.stop(CodeSentTooLarge, name, fmt.Sprintf("%d files are in it, and %d at most are read", len(z.File), mostSent), "pack only the folder of the book")
		return
	}
	root := rootOf(z.File)
	for _, f := range z.File {
		if f.Name == entriesName {
			s.told = f
		}
	}
	if s.told != nil {
		root = bookInExport
	}
	for _, f := range z.File {
		inside := strings.ReplaceAll(f.Name, `\`, "/")
		rest, within := strings.CutPrefix(inside, root)
		switch {
		case f.FileInfo().IsDir(), f == s.told, strings.HasPrefix(inside, "__MACOSX/"):
		case !within:
			s.Left = append(s.Left, showable(inside))
		case f.Mode()&fs.ModeType != 0:
			s.stop(CodeSentName, inside, "is a link or a device, not a file", "put the file itself into the zip")
		case f.Flags&1 != 0:
			s.stop(CodeSentDamaged, inside, "is locked with a password", "pack it without one")
		default:
			s.take(rest, func() ([]byte, error) { return unpacked(f, mostSentFile) })
		}
	}
}

// rootOf is the folder that all files of a book in a zip lie in, with its slash; "" when there is none.
func rootOf(files []*zip.File) string {
	root, first := "", true
	for _, f := range files {
		name := strings.ReplaceAll(f.Name, `\`, "/")
		if path.Ext(name) != ".yaml" || strings.HasPrefix(name, "__MACOSX/") {
			continue
		}
		folder, _, below := strings.Cut(name, "/")
		if !below || !fs.ValidPath(folder) || folder == "." || !first && folder+"/" != root {
			return ""
		}
		root, first = folder+"/", false
	}
	return root
}

var errTooLarge = errors.New("too large")

// unpacked is a file of a zip, read to its end whatever it says of its size.
func unpacked(f *zip.File, most int64) ([]byte, error) {
	r, err := f.Open()
	if err != nil {
		return nil, err
	}
	defer r.Close()
	data, err := io.ReadAll(io.LimitReader(r, most+1))
	if err == nil && int64(len(data)) > most {
		err = errTooLarge
	}
	return data, err
}

// take takes a file of the book, or says why not. What is no part of a book is left.
func (s *sorter) take(name string, read func() ([]byte, error)) {
	hidden := slices.ContainsFunc(strings.Split(name, "/"), func(part string) bool { return strings.HasPrefix(part, ".") && part != ".." && part != "." })
	ending := path.Ext(name)
	if hidden || ending != ".yaml" && ending != ".yml" {
		s.Left = append(s.Left, showable(name))
		return
	}
	if why := badName(name); why != "" {
		s.stop(CodeSentName, name, why, "give it a plain name within the folder of the book, such as dishes/leek-soup.yaml")
		return
	}
	if ending == ".yml" {
		name = strings.TrimSuffix(name, ".yml") + ".yaml"
	}
	if other, twice := s.lower[strings.ToLower(name)]; twice {
		s.stop(CodeSentTwice, name, "is there twice, as "+strconv.Quote(other)+" too", "keep one of them")
		return
	}
	s.lower[strings.ToLower(name)] = name
	text, err := read()
	switch {
	case errors.Is(err, errTooLarge), len(text) > mostSentFile:
		s.stop(CodeSentTooLarge, name, fmt.Sprintf("is larger than %d MB, and is not read", mostSentFile>>20), "divide it into several files")
	case err != nil:
		s.stop(CodeSentDamaged, name, "does not unpack: "+err.Error(), "pack the folder again")
	case s.bytes+len(text) > mostSentBook:
		s.stop(CodeSentTooLarge, name, fmt.Sprintf("all files together are larger than %d MB", mostSentBook>>20), "send only the book")
	default:
		s.bytes += len(text)
		s.Files[name] = string(text)
	}
}

// badName is why a file of a book cannot be called so; "" when it can.
func badName(name string) string {
	switch {
	case len(name) > mostNameBytes:
		return fmt.Sprintf("its name is longer than %d letters", mostNameBytes)
	case !fs.ValidPath(name):
		return "its name leads out of the folder of the book"
	case strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsPrint(r) || strings.ContainsRune(`:*?"<>|`, r) }):
		return "its name has a character in it that names of files cannot have everywhere"
	}
	return ""
}

// Restore takes all entries of other records, with the book among them, into records that hold none. It is all of them or nothing, and only if their
// chain holds. Errors are *BegunError, *MixedError, *people.DeniedError, those of Import, and what does not unpack.
func (a *App) Restore(ctx context.Context, by Author, s Sent) (record.Head, error) {
	a.begins.Lock()
	defer a.begins.Unlock()
	if s.told == nil || a.records == nil {
		return record.Head{}, errors.New("there are no entries to take in")
	}
	if has, err := a.records.HasBook(ctx); has || err != nil {
		book, _ := a.Book()
		return record.Head{}, firstError(err, &BegunError{book.Kitchen.Name})
	}
	head, err := a.records.Head(ctx)
	if err != nil || head.Seq > 0 {
		return record.Head{}, firstError(err, &MixedError{int(head.Seq)})
	}
	if err := a.records.mayBook(ctx, by); err != nil {
		return record.Head{}, err
	}
	r, err := s.told.Open()
	if err != nil {
		return record.Head{}, fmt.Errorf("%s does not unpack: %w", entriesName, err)
	}
	defer r.Close()
	return a.records.Import(ctx, &limited{r: r, left: mostSentTold})
}

// limited reads no more than so many bytes: more are an error and not an end.
type limited struct {
	r    io.Reader
	left int64
}

func (l *limited) Read(p []byte) (int, error) {
	n, err := l.r.Read(p)
	if l.left -= int64(n); l.left < 0 {
		return n, errTooLarge
	}
	return n, err
}

// MayRestore says whether the records hold nothing at all, so that all entries of others can be taken in.
func (r *Records) MayRestore(ctx context.Context) (bool, error) {
	head, err := r.Head(ctx)
	return err == nil && head.Seq == 0, err
}
