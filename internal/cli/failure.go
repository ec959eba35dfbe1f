package cli

// The exit codes; the help and the README say them too.
const (
	fine     = 0
	failed   = 1
	badUsage = 2
	mistakes = 3
	stopped  = 4
)

// failure is an error with its exit code, where it is and what to do.
type failure struct {
	code  int
	place string
	what  string
	fix   string
}

func (f failure) Error() string {
	text := f.what
	if f.place != "" {
		text = f.place + ": " + text
	}
	if f.fix != "" {
		text += " (" + f.fix + ")"
	}
	return text
}
