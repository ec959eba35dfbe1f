package unit

import (
	"testing"

	"pgregory.net/rapid"
)

func TestMoment(t *testing.T) {
	for m, want := range map[Moment]string{0: "00:00", 390: "06:30", 1439: "23:59", 1440: "00:00+1", 1510: "01:10+1", 2950: "01:10+2", -10: "23:50-1", -1440: "00:00-1"} {
		if got := m.String(); got != want {
			t.Errorf("%d minutes: got %s, want %s", int(m), got, want)
		}
	}
	for _, text := range []string{"", "6", "25:00", "01:10+", "01:10+x", "01:10+1+1", "01:10+99999999999"} {
		var m Moment
		if err := m.UnmarshalText([]byte(text)); err == nil {
			t.Errorf("%q was read as %s", text, m)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		want := Moment(rapid.Int32Range(-1_000_000, 1_000_000).Draw(t, "minutes"))
		var got Moment
		if err := got.UnmarshalText([]byte(want.String())); err != nil || got != want {
			t.Fatalf("%s came back as %d, %v", want, got, err)
		}
	})
}
