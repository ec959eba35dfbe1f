package app

import (
	"context"

	"kettlefrost/internal/record"
)

// Kinds are the kinds of which an entry stands, wherever it is from. Errors are those of the store.
func (r *Records) Kinds(ctx context.Context) (map[record.Kind]bool, error) {
	if err := r.bring(ctx); err != nil {
		return nil, err
	}
	r.mu.RLock()
	defer r.mu.RUnlock()
	there := map[record.Kind]bool{}
	for e := range r.standing.All() {
		there[e.Kind] = true
	}
	return there, nil
}
