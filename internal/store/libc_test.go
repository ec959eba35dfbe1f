package store

import (
	"encoding/json"
	"os"
	"os/exec"
	"regexp"
	"testing"
)

// modernc.org/sqlite is generated against one version of modernc.org/libc and is wrong with another; its documentation says so. A stray
// upgrade of all modules would part them.
func TestLibcIsTheOneThatSQLiteWasMadeWith(t *testing.T) {
	module := func(path string) (m struct{ Version, GoMod string }) {
		out, err := exec.Command("go", "list", "-m", "-json", path).Output()
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(out, &m); err != nil {
			t.Fatal(err)
		}
		return m
	}
	text, err := os.ReadFile(module("modernc.org/sqlite").GoMod)
	if err != nil {
		t.Fatal(err)
	}
	want := regexp.MustCompile(`modernc\.org/libc (v\S+)`).FindSubmatch(text)
	if want == nil {
		t.Fatal("the go.mod of modernc.org/sqlite names no modernc.org/libc")
	}
	if got := module("modernc.org/libc").Version; got != string(want[1]) {
		t.Errorf("modernc.org/libc is %s; modernc.org/sqlite wants %s: go get modernc.org/libc@%s", got, want[1], want[1])
	}
}
