package cli

import (
	"bytes"
	"os"
	"regexp"
	"strings"
	"testing"
)

// Every command that the README shows does what it says there, in the order in which it stands there.
func TestReadmeCommands(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	word := regexp.MustCompile(`'[^']*'|"[^"]*"|\S+`)
	ran := 0
	for line := range strings.Lines(string(readme)) {
		line, isCommand := strings.CutPrefix(line, "    ./kettlefrost ")
		if !isCommand {
			continue
		}
		line, _, _ = strings.Cut(line, " #")
		var args []string
		for _, w := range word.FindAllString(line, -1) {
			if quote := w[:1]; quote == `"` || quote == "'" {
				w = strings.Trim(w, quote)
			}
			args = append(args, w)
		}
		var shown, told bytes.Buffer
		if code := Run(t.Context(), args, func(string) string { return "" }, strings.NewReader(""), &shown, &told); code != fine || shown.Len() == 0 {
			t.Errorf("%v: exit code %d, %d bytes shown; it said:\n%s", args, code, shown.Len(), told.String())
		}
		ran++
	}
	if ran < 5 {
		t.Errorf("only %d commands were found in the README", ran)
	}
	for code, text := range map[string]string{"0": "fine", "1": "the program failed", "2": "wrong command line", "3": "the book or the request has mistakes", "4": "planned, but with a stop finding"} {
		if !strings.Contains(string(readme), "| "+code+" | "+text) || !strings.Contains(about, "    "+code+"  "+text) {
			t.Errorf("exit code %s is not explained alike in the README and the help", code)
		}
	}
}
