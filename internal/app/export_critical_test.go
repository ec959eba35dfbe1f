package app

import (
	"context"

	"kettlefrost/internal/store"
)

// LookAtOnce has the book and the probes looked at each time anybody looks: tests do not wait.
func LookAtOnce(r *Records) { r.judging.patience = -1 }

// TakeBatch takes in readings as they are.
func TakeBatch(ctx context.Context, r *Records, b store.Batch) error {
	return r.store.TakeReadings(ctx, b)
}
