package store

import (
	"context"
	"iter"
	"maps"
	"slices"
	"strings"
)

// Log is every version of every file of the book, the first first. The error is the last thing that it gives.
func (s *Store) Log(ctx context.Context) iter.Seq2[Version, error] {
	return func(yield func(Version, error) bool) {
		numbers := map[string]int{}
		for after := uint64(0); ; {
			const query = `select ` + columns + ` from entry where kind = $1 and seq > $2 order by seq limit $3`
			page, err := s.entries(ctx, s.read, query, string(booked), int64(after), pageSize)
			if err != nil {
				yield(Version{}, s.fail("read the book", err))
				return
			}
			for _, e := range page {
				v, err := s.versionOf(e)
				after = e.Seq
				numbers[v.Path]++
				v.Number = numbers[v.Path]
				if !yield(v, err) || err != nil {
					return
				}
			}
			if len(page) < pageSize {
				return
			}
		}
	}
}

// Versions are all that a file ever was, the first first. Nothing when there never was such a file.
func (s *Store) Versions(ctx context.Context, file string) (list []Version, err error) {
	for v, err := range s.Log(ctx) {
		if err != nil {
			return nil, err
		}
		if v.Path == file {
			list = append(list, v)
		}
	}
	return list, nil
}

// Hidden says whether a file is no part of the book that is read: it, or a folder that it is in, has a name that begins with a point. What is
// being worked on is kept like that.
func Hidden(file string) bool {
	return file != "." && (strings.HasPrefix(file, ".") || strings.Contains(file, "/."))
}

// With is the book as it would be with some changes; that of none is new(Book).
func (b *Book) With(changes ...Change) *Book {
	files := map[string]Version{}
	maps.Copy(files, b.versions)
	for _, c := range changes {
		files[c.Path] = Version{Path: c.Path, Text: c.Text, Deleted: c.Deleted}
	}
	return newBook(files)
}

// Visible is the book without what is hidden.
func (b *Book) Visible() *Book {
	files := map[string]Version{}
	for name, v := range b.versions {
		if !Hidden(name) {
			files[name] = v
		}
	}
	return newBook(files)
}

// Names are the paths of the files, in their order.
func (b *Book) Names() []string { return slices.Sorted(maps.Keys(b.versions)) }
