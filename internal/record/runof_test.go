package record

import (
	"reflect"
	"testing"
)

// Whatever names a run is about it, of every kind that there is.
func TestRunOf(t *testing.T) {
	for _, b := range examples(t) {
		want := ""
		if f := reflect.ValueOf(b).FieldByName("Run"); f.IsValid() {
			want = f.String()
		}
		if got := RunOf(b); got != want {
			t.Errorf("%s is about %q, want %q", b.Kind(), got, want)
		}
	}
}
