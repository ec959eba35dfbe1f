package cli

import (
	"reflect"
	"testing"

	"kettlefrost/internal/heatcase"
)

// Every key of a case is a flag of the same name and the same help, and no flag is anything else. The process is the command itself.
func TestHeatFlagsAreTheKeys(t *testing.T) {
	flags := map[string]reflect.StructTag{}
	for _, f := range reflect.VisibleFields(reflect.TypeFor[heatFlags]()) {
		if !f.Anonymous {
			flags[f.Tag.Get("name")] = f.Tag
		}
	}
	for _, f := range heatcase.Fields() {
		if f.Key == "process" {
			continue
		}
		tag, ok := flags[f.Key]
		if !ok || tag.Get("help") != f.Help || tag.Get("xor") != f.Group {
			t.Errorf("--%s (%v): help %q, want %q; group %q, want %q", f.Key, ok, tag.Get("help"), f.Help, tag.Get("xor"), f.Group)
		}
		delete(flags, f.Key)
	}
	for name := range flags {
		t.Errorf("--%s is no key of a case", name)
	}
}
