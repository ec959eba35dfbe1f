package cli

import (
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/heatcase"
)

// heatCase is a case of heat: from a file, from a dish of the book, and from flags.
type heatCase struct {
	File string `arg:"" optional:"" help:"A file with the case, YAML; - reads standard input."`
	heatOf
	heatFlags
}

// load is the case with all that was said of it; no process leaves the file's. The file comes along to say where a mistake stands.
func (h heatCase) load(s *surroundings, p heatcase.Process) (heatcase.Case, heatcase.File, error) {
	file, err := h.read(s)
	if err != nil {
		return heatcase.Case{}, file, err
	}
	c := file.Case
	if p != "" && c.Process != "" && c.Process != p {
		return c, file, failure{badUsage, h.File, fmt.Sprintf("this case is about %s, not %s", c.Process, p), fmt.Sprintf("say kettlefrost heat %s", c.Process)}
	}
	if p != "" {
		c.Process = p
	}
	if _, _, err := h.hold(s, &c, h.given()); err != nil {
		return c, file, err
	}
	return c, file, setFlags(&c, h.given())
}

// read is the case of the file, or an empty one.
func (h heatCase) read(s *surroundings) (heatcase.File, error) {
	name, from := h.File, s.stdin
	switch name {
	case "":
		file, _ := heatcase.Read("", nil)
		return file, nil
	case "-":
		name = "standard input"
	default:
		file, err := os.Open(name)
		if err != nil {
			return heatcase.File{}, failure{badUsage, name, "cannot be read: " + reason(err), "name a file with a case, one key on a line, such as pan: 2 in"}
		}
		defer file.Close()
		from = file
	}
	text, err := io.ReadAll(io.LimitReader(from, longestRequest))
	if err != nil {
		return heatcase.File{}, failure{badUsage, name, "cannot be read: " + reason(err), "name a text file"}
	}
	file, found := heatcase.Read(name, text)
	if len(found) > 0 {
		return file, wrongCase(mistakes, name, found)
	}
	return file, nil
}

// refused is a case that makes no sense: the file's mistake, unless a flag says it or there is no file.
func (h heatCase) refused(found finding.List, file heatcase.File) error {
	flags := map[string]bool{"took": true} // of no file
	for _, f := range h.given() {
		flags[f[0]] = true
	}
	code, place := badUsage, "the command line"
	if h.File != "" {
		code, place = mistakes, h.File
	}
	located := file.Locate(found)
	for i, f := range located {
		if flags[f.Path] {
			code = badUsage
			located[i].At = nil
		}
		switch {
		case f.Path == "shape":
			located[i].Where = "--pan, --bag, --slab, --pot or --brick"
		case h.Of.given && slices.Contains(foodKeys, f.Path):
			located[i].Where = "--of " + h.Of.text
		case flags[f.Path] || h.File == "":
			located[i].Where = "--" + f.Path
		}
	}
	if len(located) == 1 && located[0].At == nil {
		return failure{code, located[0].Where, located[0].Message, located[0].Fix}
	}
	return wrongCase(code, place, located)
}

func wrongCase(code int, place string, found finding.List) error {
	var lines []string
	for _, f := range found {
		lines = append(lines, f.String())
	}
	return failure{code: code, place: place, what: "mend this first, nothing was computed:\n" + strings.Join(lines, "\n")}
}
