package app

import (
	"errors"

	"kettlefrost/internal/store"
)

// IsTrouble says whether an error is of the database, and not of what was to be entered: the same can be sent again.
func IsTrouble(err error) bool {
	trouble := (*store.Error)(nil)
	return errors.As(err, &trouble)
}

// IsConflict says whether something else was entered before under the same ID.
func IsConflict(err error) bool {
	conflict := (*store.ConflictError)(nil)
	return errors.As(err, &conflict)
}
