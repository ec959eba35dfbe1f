package app_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/app"
)

// The lines that are left, put together, are the texts again: nothing that differs is left out.
func TestADiffNamesEveryLineThatDiffers(t *testing.T) {
	if app.Diff("a\nb\n", "a\nb\n") != nil {
		t.Error("equal texts differ")
	}
	lines := app.Diff("a\nb\nc\n", "a\nB \nc\nd\n")
	var got []string
	for _, l := range lines {
		got = append(got, string(l.Sign)+l.Text)
	}
	if want := "@@ -1,3 +1,4 @@| a|-b|+B·| c|+d"; strings.Join(got, "|") != want {
		t.Errorf("%q", got)
	}
	if lines := app.Diff("a\r\n", "a\n"); len(lines) != 3 || lines[1].Text != "a␍" || lines[2].Text != "a" {
		t.Errorf("%q", lines)
	}
	rapid.Check(t, func(t *rapid.T) {
		text := func(name string) []string {
			return rapid.SliceOfN(rapid.SampledFrom([]string{"a", "b", "c", "- x", "+ y", "@@", "--- old", ""}), 0, 12).Draw(t, name)
		}
		old, new := text("old"), text("new")
		lines := app.Diff(strings.Join(old, "\n")+"\n", strings.Join(new, "\n")+"\n")
		added, removed := app.Counts(lines)
		if len(new)-len(old) != added-removed && len(old)*len(new) > 0 {
			t.Fatalf("%d lines added, %d removed, from %d to %d", added, removed, len(old), len(new))
		}
	})
}
