package unit

import "strings"

// System is the system of units that a cook reads.
type System uint8

const (
	Metric System = iota
	US            // US customary
)

// ParseSystem reads "metric" or "us", in any case.
func ParseSystem(text string) (System, error) {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "metric":
		return Metric, nil
	case "us":
		return US, nil
	}
	return 0, fail(systemKind, text, "is no system of units")
}

// String is "metric" or "us".
func (s System) String() string {
	if s == US {
		return "us"
	}
	return "metric"
}

// MarshalText writes "metric" or "us".
func (s System) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalText reads "metric" or "us".
func (s *System) UnmarshalText(text []byte) error { return readInto(s, ParseSystem, text) }
