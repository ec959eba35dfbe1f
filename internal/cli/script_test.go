package cli

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// The scripts run the real program: the test binary calls itself under the program's name.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"kettlefrost": func() {
			os.Exit(Run(context.Background(), os.Args[1:], os.Getenv, os.Stdin, os.Stdout, os.Stderr))
		},
	})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits": exits,
			"json":  jsonHas,
			"keeps": keepsSchema,
		},
	})
}

// exits CODE ARGS... runs kettlefrost and wants exactly that exit code.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 1 {
		ts.Fatalf("usage: exits CODE ARGS...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec("kettlefrost", args[1:]...); err != nil {
		exit, ok := errors.AsType[*exec.ExitError](err)
		if !ok {
			ts.Fatalf("kettlefrost did not run: %v", err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

// json FILE PATH VALUE wants a value at a path such as findings.0.at.line; VALUE is as Go prints it, * is any.
func jsonHas(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: json FILE PATH VALUE")
	}
	var value any
	if err := json.Unmarshal([]byte(ts.ReadFile(args[0])), &value); err != nil {
		ts.Fatalf("%s is not JSON: %v", args[0], err)
	}
	for key := range strings.SplitSeq(args[1], ".") {
		var found bool
		if value, found = inside(value, key); !found {
			ts.Fatalf("%s has no %s: it ends before %s", args[0], args[1], key)
		}
	}
	if got := fmt.Sprint(value); args[2] != "*" && got != args[2] {
		ts.Fatalf("%s is %q, want %q", args[1], got, args[2])
	}
}

// inside is what a JSON object or list holds at a key or number.
func inside(value any, key string) (any, bool) {
	switch v := value.(type) {
	case map[string]any:
		one, ok := v[key]
		return one, ok
	case []any:
		i, err := strconv.Atoi(key)
		if err != nil || i < 0 || i >= len(v) {
			return nil, false
		}
		return v[i], true
	}
	return nil, false
}
