package record

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"reflect"
	"slices"
)

// Body is what an entry says: one Go type for each kind.
type Body interface{ Kind() Kind }

// shape is how bodies of one kind are written and read.
type shape struct {
	codec codec
	of    reflect.Type
}

// shapes are the kinds that are known.
var shapes = shapesOf(
	Received{}, Used{}, Made{}, Packed{}, Moved{}, Counted{}, WrittenOff{}, Held{}, Released{},
	Opened{}, Closed{}, Started{}, Finished{}, Skipped{}, Weighed{}, Wasted{}, Measured{}, CheckWeighed{}, Changed{},
	Customer{}, Ordered{}, Cancelled{}, Picked{}, HandedOver{}, Returned{}, Routed{}, Invoiced{}, Credited{}, Paid{},
	Voided{}, Noted{}, Booked{}, Drilled{}, Person{},
	Watched{}, Calibrated{}, Acted{}, HazardPlan{}, PlanReviewed{}, Signed{}, Logged{},
	TrialLaid{}, TrialMade{}, TrialOpened{}, TrialScored{}, TrialClosed{}, Pictured{}, SetAside{}, Tasted{}, Learned{}, LeftOut{}, Labelled{},
)

func shapesOf(bodies ...Body) map[Kind]shape {
	all := map[Kind]shape{}
	for _, b := range bodies {
		t := reflect.TypeOf(b)
		all[b.Kind()] = shape{codecOf(t), t}
	}
	return all
}

// Kinds are the kinds of entries that are known, in alphabetical order.
func Kinds() []Kind { return slices.Sorted(maps.Keys(shapes)) }

// KindError says that no such kind is known.
type KindError struct{ Kind Kind }

func (e *KindError) Error() string {
	return fmt.Sprintf("record: no kind is called %.40q: use one of %v", e.Kind, Kinds())
}

// Encode checks a body and writes its canonical JSON. Errors are FieldErrors and *KindError.
func Encode(b Body) (json.RawMessage, error) {
	s, ok := shapes[b.Kind()]
	if !ok || reflect.TypeOf(b) != s.of {
		return nil, &KindError{b.Kind()}
	}
	v := reflect.ValueOf(b)
	if err := s.check(b.Kind(), v); err != nil {
		return nil, err
	}
	return s.codec.write(nil, v), nil
}

func (s shape) check(kind Kind, v reflect.Value) error {
	c := checker{kind: kind}
	s.codec.check(&c, v)
	if len(c.found) > 0 {
		return c.found
	}
	return nil
}

// Decode reads a body as Encode writes it and in no other form, so that what was sealed has one meaning. Errors are *FieldError, FieldErrors
// and *KindError.
func Decode(kind Kind, body []byte) (Body, error) {
	b, err := Read(kind, body)
	if err != nil {
		return nil, err
	}
	if at := firstDifference(body, shapes[kind].codec.write(nil, reflect.ValueOf(b))); at >= 0 {
		return nil, &FieldError{Kind: kind, Path: "body", Problem: fmt.Sprintf("is not in its canonical form from byte %d on", at+1), Fix: "write it with Encode"}
	}
	return b, nil
}

// Read reads a body as a person or another program writes it: strictly (no field unknown, missing or twice, nothing behind it) and checked,
// but in any order, with white space, and with decimals in any spelling. Errors are as of Decode.
func Read(kind Kind, body []byte) (Body, error) {
	s, ok := shapes[kind]
	if !ok {
		return nil, &KindError{kind}
	}
	v := reflect.New(s.of).Elem()
	r := &reader{kind: kind, data: body}
	if err := s.codec.read(r, v); err != nil {
		return nil, err
	}
	if err := r.end(); err != nil {
		return nil, err
	}
	if err := s.check(kind, v); err != nil {
		return nil, err
	}
	return v.Interface().(Body), nil
}

// Say makes an entry of a body; the seals are the store's to give.
func Say(id ID, happened Instant, who, device string, b Body) (Entry, error) {
	body, err := Encode(b)
	if err != nil {
		return Entry{}, err
	}
	return Entry{ID: id, Kind: b.Kind(), Happened: happened, Who: who, Device: device, Body: bytes.Clone(body)}, nil
}
