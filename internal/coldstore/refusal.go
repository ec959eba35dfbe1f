package coldstore

import (
	"errors"
	"fmt"
	"strings"

	"kettlefrost/internal/lots"
)

// Refusal says why something cannot be entered. Nothing of it is.
type Refusal struct {
	Field   string // of the form: code, which, from, to, why
	Problem string
	Fix     string
}

func (e *Refusal) Error() string {
	if e.Fix == "" {
		return e.Problem
	}
	return e.Problem + ": " + e.Fix
}

func refuse(field, fix, problem string, of ...any) error {
	return &Refusal{Field: field, Problem: fmt.Sprintf(problem, of...), Fix: fix}
}

// InHand is the lot that a code names, and the packs of it. Pots are no lots that anybody can hold. Errors are *Refusal.
func InHand(s *lots.State, text string) (lots.Code, *lots.Lot, error) {
	code, l, err := s.ReadCode(text)
	wrong := (*lots.CodeError)(nil)
	switch {
	case errors.As(err, &wrong):
		return lots.Code{}, nil, refuse("code", wrong.Fix, "%s", wrong.Problem)
	case err != nil || l.Sort == lots.Pot:
		return lots.Code{}, nil, refuse("code", "look how it is written on the tub or the bag; what nobody entered is set aside until somebody says where it came from", "no entry names a lot %.80q", strings.Join(strings.Fields(text), " "))
	}
	return code, l, nil
}
