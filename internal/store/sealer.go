package store

import (
	"bytes"

	"kettlefrost/internal/record"
)

// sealer gives entries their places. It decides everything about a group of appends before any of it is written.
type sealer struct {
	head  record.Head
	known map[record.ID]record.Entry // stored, or sealed just now
	fresh []record.Entry             // sealed just now, to be written
	now   record.Instant
}

// take seals what is new of one append and answers the rest with what is stored; all, or with an error nothing.
func (s *sealer) take(entries []record.Entry) ([]record.Entry, error) {
	head, before := s.head, len(s.fresh)
	answer := make([]record.Entry, 0, len(entries))
	for _, e := range entries {
		sealed, err := s.one(e)
		if err != nil {
			for _, undo := range s.fresh[before:] {
				delete(s.known, undo.ID)
			}
			s.head, s.fresh = head, s.fresh[:before]
			return nil, err
		}
		answer = append(answer, sealed)
	}
	return answer, nil
}

func (s *sealer) one(e record.Entry) (record.Entry, error) {
	if old, ok := s.known[e.ID]; ok {
		if field := difference(old, e); field != "" {
			return record.Entry{}, &ConflictError{Stored: old, Given: e, Field: field}
		}
		return old, nil
	}
	e.Entered = s.now
	sealed, err := record.Seal(s.head, e)
	if err != nil {
		return record.Entry{}, err
	}
	s.known[e.ID] = sealed
	s.fresh = append(s.fresh, sealed)
	s.head = sealed.Head()
	return sealed, nil
}

// difference is the first field in which two tell something else; what the store gives an entry does not count.
func difference(a, b record.Entry) string {
	switch {
	case a.Kind != b.Kind:
		return "kind"
	case a.Happened != b.Happened:
		return "happened_ms"
	case a.Who != b.Who:
		return "who"
	case a.Device != b.Device:
		return "device"
	case a.Site != b.Site:
		return "site"
	case a.Corrects != b.Corrects:
		return "corrects"
	case !bytes.Equal(a.Body, b.Body):
		return "body"
	}
	return ""
}
