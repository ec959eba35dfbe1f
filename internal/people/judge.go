package people

import (
	"fmt"
	"slices"

	"kettlefrost/internal/record"
)

// How somebody showed who they are.
type How string

const (
	ByPassword How = "password"
	ByPIN      How = "pin"
	ByKey      How = "key" // a scale or a probe
)

// Actor is on whose behalf something is asked: a person on a device, or an instrument with a key.
type Actor struct {
	Person string // ID; empty for an instrument
	By     How
	Sure   bool // they typed the password just now
	Device string
	With   []string // everybody who signed in on the device, Person among them
}

// Asked is an entry that somebody wants to make.
type Asked struct {
	Kind     record.Kind
	Who      string
	Device   string
	Original *record.Entry // that it corrects or voids, nil for none
}

// DeniedError says who may not do what, and who could.
type DeniedError struct {
	Who     string // name
	Problem string // to be read after the name: "may not receive goods"
	Fix     string
}

func (e *DeniedError) Error() string { return fmt.Sprintf("%s %s: %s", e.Who, e.Problem, e.Fix) }

// Judge says whether an actor may make an entry, on a day: the one place where roles become yes or no. The error is *DeniedError.
func (s *Staff) Judge(a Actor, x Asked, day record.Day) error {
	if a.By == ByKey {
		return judgeKey(a, x)
	}
	p, err := s.speaker(a, x, day)
	if err != nil {
		return err
	}
	least := rightTo(x.Kind).least
	switch {
	case x.Device != a.Device:
		return &DeniedError{p.Name, fmt.Sprintf("is signed in on %q, and the entry was written on %q", a.Device, x.Device), "sign in on that device"}
	case !MayEnterAnything(p.Role):
		return &DeniedError{p.Name, "is here as an inspector and may enter nothing", "ask a cook to enter it"}
	case !MayEnter(p.Role, x.Kind):
		return &DeniedError{p.Name, fmt.Sprintf("is here as a %s and may not %s", p.Role, Does(x.Kind)), "ask " + article(least)}
	case x.Kind == kindPerson && !a.Sure:
		return &DeniedError{p.Name, "has not typed the password of late and may not " + Does(x.Kind), "sign in with the password once more"}
	case x.Original != nil:
		return judgeCorrection(p, *x.Original)
	}
	return nil
}

// speaker is who stands for an entry: the actor, or somebody else who signed in on the same device, whose entries were waiting there.
func (s *Staff) speaker(a Actor, x Asked, day record.Day) (Person, error) {
	p, known := s.Person(x.Who)
	switch {
	case !known:
		return p, &DeniedError{fmt.Sprintf("%.40q", x.Who), "is nobody who works here", "sign in, and send it again"}
	case !Here(p, day):
		return p, &DeniedError{p.Name, "has left", "ask an owner to enter it"}
	case x.Who != a.Person && !slices.Contains(a.With, x.Who):
		return p, &DeniedError{p.Name, "did not sign in on this device", "let them sign in here once, and send it again"}
	}
	return p, nil
}

// judgeCorrection: everybody puts right what they said themselves, owners what anybody said. What an instrument told is put right by a cook.
func judgeCorrection(p Person, original record.Entry) error {
	switch {
	case p.Role == record.Owner:
		return nil
	case !MayEnter(p.Role, original.Kind):
		return &DeniedError{p.Name, fmt.Sprintf("is here as a %s and may not %s", p.Role, Does(original.Kind)), "ask " + article(rightTo(original.Kind).least)}
	case original.Who == p.Person, original.Who == "" && rank(p.Role) >= rank(record.Cook):
		return nil
	case original.Who == "":
		return &DeniedError{p.Name, "may not put right what an instrument told", "ask a cook or an owner"}
	}
	return &DeniedError{p.Name, "may not put right what somebody else entered", "ask who entered it, or an owner"}
}

func judgeKey(a Actor, x Asked) error {
	instrument := fmt.Sprintf("The key of %s", a.Device)
	switch {
	case x.Who != "" || x.Device != a.Device:
		return &DeniedError{instrument, "speaks for the instrument alone", "leave who out, and write " + a.Device + " for the device or leave it out"}
	case !KeyMayEnter(x.Kind):
		return &DeniedError{instrument, fmt.Sprintf("may not %s", Does(x.Kind)), "send weighed, measured or check-weighed"}
	case x.Original != nil:
		return &DeniedError{instrument, "may not put right what was entered", "ask a cook or an owner"}
	}
	return nil
}

func article(r Role) string {
	if r == record.Owner {
		return "an owner"
	}
	return "a " + string(r) + " or an owner"
}
