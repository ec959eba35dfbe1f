package store

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kettlefrost/internal/record"
)

func picture(text string) Picture {
	return Picture{Hash: sha256.Sum256([]byte(text)), Type: "image/png", Data: []byte(text)}
}

func mustKeep(t *testing.T, s *Store, all ...Picture) {
	t.Helper()
	for _, p := range all {
		if err := s.KeepPicture(t.Context(), p); err != nil {
			t.Fatal(err)
		}
	}
}

// holds requires a store to have a picture byte for byte.
func holds(t *testing.T, s *Store, want Picture) {
	t.Helper()
	got, there, err := s.Picture(t.Context(), want.Hash)
	if err != nil || !there || got.Type != want.Type || !bytes.Equal(got.Data, want.Data) {
		t.Errorf("%v: %+v, %v, %v", want.Hash, got, there, err)
	}
}

func picturesKept(t *testing.T, address string) {
	s := open(t, address)
	// "abc" has the SHA-256 hash of FIPS 180-4.
	abc := picture("abc")
	if abc.Hash.String() != "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad" {
		t.Fatal(abc.Hash)
	}
	odd := picture("\x00\xff\n{\"picture\":\xc3")
	mustKeep(t, s, abc, odd, abc)
	holds(t, s, abc)
	holds(t, s, odd)
	if _, there, err := s.Picture(t.Context(), record.Hash{1}); there || err != nil {
		t.Errorf("a picture that nobody kept: %v, %v", there, err)
	}
	large := picture(strings.Repeat("x", MostPicture))
	mustKeep(t, s, large)
	holds(t, s, large)
	forged := abc
	forged.Data = []byte("abd")
	for name, bad := range map[string]Picture{"empty": {Type: "image/png"}, "too large": picture(strings.Repeat("x", MostPicture+1)), "forged": forged, "of no type": {Hash: abc.Hash, Data: abc.Data}} {
		if wrong := (*record.FieldError)(nil); !errors.As(s.KeepPicture(t.Context(), bad), &wrong) || wrong.Fix == "" {
			t.Errorf("%s: it is kept, or nothing is said", name)
		}
	}
	if _, err := s.write.Exec(`update picture set data = $1 where hash = $2`, []byte("abd"), abc.Hash.String()); err != nil {
		t.Fatal(err)
	}
	_, _, err := s.Picture(t.Context(), abc.Hash)
	wantCode(t, err, Damaged)
	s.Close()
	wantCode(t, s.KeepPicture(t.Context(), odd), Closed)
}

func picturesRestored(t *testing.T, address string) {
	s := open(t, address)
	mustAppend(t, s, weighings("ana", 0, 3)...)
	one, other := picture("one"), picture(strings.Repeat("\x00\r\n", MostPicture/3)) // as a line of a backup it is longer than any entry
	mustKeep(t, s, one, other)
	head := intact(t, s, 3)
	backup := filepath.Join(t.TempDir(), "kettlefrost-20260301T060000Z"+s.dialect.suffix)
	if _, err := s.Backup(t.Context(), backup); err != nil {
		t.Fatal(err)
	}
	for _, database := range databases {
		into := database.address(t)
		if done, err := Restore(t.Context(), backup, into, clock()); err != nil || done.Head != head {
			t.Fatalf("into %s: %+v, %v", database.name, done, err)
		}
		again := open(t, into)
		intact(t, again, 3)
		holds(t, again, one)
		holds(t, again, other)
	}
	if s.dialect.suffix == postgresDialect.suffix {
		damagedPicture(t, backup)
	}
}

// TestPicturesOfAnExportAreRestored: an export has them as files beside its entries, in a folder or a ZIP file.
func TestPicturesOfAnExportAreRestored(t *testing.T) {
	s := open(t, filepath.Join(t.TempDir(), "old.db"))
	mustAppend(t, s, weighings("ana", 0, 3)...)
	one, other := picture("one"), picture("other")
	mustKeep(t, s, one, other)
	head := intact(t, s, 3)
	var lines bytes.Buffer
	if _, err := s.Export(t.Context(), &lines); err != nil {
		t.Fatal(err)
	}
	files := map[string][]byte{entriesName: lines.Bytes(), "pictures/notes.txt": []byte("no picture")}
	for p, err := range s.Pictures(t.Context()) {
		if err != nil {
			t.Fatal(err)
		}
		files[p.FileName()] = p.Data
	}
	folder, zipped := t.TempDir(), filepath.Join(t.TempDir(), "export.zip")
	bundle(t, folder, zipped, files)
	for _, from := range []string{folder, zipped} {
		into := filepath.Join(t.TempDir(), "new.db")
		if done, err := Restore(t.Context(), from, into, clock()); err != nil || done.Head != head {
			t.Fatalf("%s: %+v, %v", from, done, err)
		}
		again := open(t, into)
		holds(t, again, one)
		holds(t, again, other)
	}
	files[one.FileName()] = []byte("onf")
	folder = t.TempDir()
	bundle(t, folder, filepath.Join(t.TempDir(), "export.zip"), files)
	into := filepath.Join(t.TempDir(), "new.db")
	if _, err := Restore(t.Context(), folder, into, clock()); err == nil {
		t.Error("a picture that was changed comes back")
	}
	if head, err := open(t, into).Head(t.Context()); err != nil || head.Seq != 0 {
		t.Errorf("and %d entries with it (%v)", head.Seq, err)
	}
}

// bundle writes files into a folder and into a ZIP file.
func bundle(t *testing.T, folder, zipped string, files map[string][]byte) {
	t.Helper()
	out, err := os.Create(zipped)
	if err != nil {
		t.Fatal(err)
	}
	z := zip.NewWriter(out)
	for name, data := range files {
		w, err := z.Create(name)
		if err == nil {
			_, err = w.Write(data)
		}
		at := filepath.Join(folder, filepath.FromSlash(name))
		if err := errors.Join(err, os.MkdirAll(filepath.Dir(at), 0o700), os.WriteFile(at, data, 0o600)); err != nil {
			t.Fatal(err)
		}
	}
	if err := errors.Join(z.Close(), out.Close()); err != nil {
		t.Fatal(err)
	}
}

// damagedPicture: a backup of lines in which a picture was changed brings back nothing, and names the line.
func damagedPicture(t *testing.T, backup string) {
	text, err := os.ReadFile(backup)
	if err != nil {
		t.Fatal(err)
	}
	bad := filepath.Join(t.TempDir(), "bad.jsonl")
	if err := os.WriteFile(bad, bytes.Replace(text, []byte(`"data":"b25l"`), []byte(`"data":"b25m"`), 1), 0o600); err != nil { // one, onf
		t.Fatal(err)
	}
	_, err = OpenCopy(t.Context(), bad)
	if line := (*LineError)(nil); !errors.As(err, &line) || line.Line < 4 {
		t.Errorf("a picture that was changed: %v", err)
	}
}

// A backup from before pictures were kept has no table of them.
func TestABackupWithoutPicturesIsRestored(t *testing.T) {
	path := filepath.Join(t.TempDir(), "old.db")
	s := open(t, path)
	mustAppend(t, s, weighings("ana", 0, 3)...)
	if _, err := s.write.Exec(`drop table picture`); err != nil {
		t.Fatal(err)
	}
	s.Close()
	c, err := OpenCopy(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	into := open(t, filepath.Join(t.TempDir(), "new.db"))
	if err := into.take(t.Context(), c); err != nil {
		t.Fatal(err)
	}
	intact(t, into, 3)
}
