package cli

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"golang.org/x/term"

	"kettlefrost/internal/app"
	"kettlefrost/internal/people"
)

type passwordCommand struct {
	recordsFlag
	ID string `arg:"" help:"Whose, by ID."`
}

func (c passwordCommand) Run(s *surroundings) error {
	return c.withPeople(s, func(p *app.People) error {
		x, err := known(s, p, c.ID)
		if err != nil {
			return err
		}
		password, err := s.secret("New password of " + x.Name)
		if err != nil {
			return err
		}
		if err := p.KeepPassword(s.ctx, c.ID, password); err != nil {
			return err
		}
		return s.show(fmt.Sprintf("The password of %s is set. Devices that are signed in stay so: kettlefrost people sign-out %s ends that.\n", x.Name, x.Person))
	})
}

type pinCommand struct {
	recordsFlag
	ID   string `arg:"" help:"Whose, by ID."`
	None bool   `help:"Take the PIN away."`
}

func (c pinCommand) Run(s *surroundings) error {
	return c.withPeople(s, func(p *app.People) error {
		x, err := known(s, p, c.ID)
		if err != nil {
			return err
		}
		var pin people.Secret
		if !c.None {
			if pin, err = s.secret("New PIN of " + x.Name); err != nil {
				return err
			}
			if err := people.CheckPIN(pin); err != nil {
				return err
			}
		}
		if err := p.KeepPIN(s.ctx, c.ID, pin); err != nil {
			return err
		}
		if c.None {
			return s.show(fmt.Sprintf("%s has no PIN.\n", x.Name))
		}
		return s.show(fmt.Sprintf("The PIN of %s is set.\n", x.Name))
	})
}

// secret reads a password or a PIN: twice from a terminal, where it does not show, or one line of standard input.
func (s *surroundings) secret(what string) (people.Secret, error) {
	f, ok := s.stdin.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return s.secretLine(what)
	}
	var typed [2][]byte
	for i, ask := range []string{what, "Once more"} {
		fmt.Fprint(s.stderr, ask+": ")
		var err error
		typed[i], err = term.ReadPassword(int(f.Fd()))
		fmt.Fprintln(s.stderr)
		if err != nil {
			return "", failure{failed, what, "the terminal cannot be read: " + err.Error(), "give it on standard input"}
		}
	}
	if string(typed[0]) != string(typed[1]) {
		return "", failure{mistakes, what, "the second time it was another", "type it once more"}
	}
	return people.Secret(typed[0]), nil
}

// secretLine is the next line of standard input.
func (s *surroundings) secretLine(what string) (people.Secret, error) {
	line, err := bufio.NewReader(io.LimitReader(s.stdin, 4096)).ReadString('\n')
	if err != nil && !errors.Is(err, io.EOF) {
		return "", failure{failed, what, "standard input cannot be read", "type it on the terminal"}
	}
	line = strings.TrimSuffix(strings.TrimSuffix(line, "\n"), "\r")
	if line == "" {
		return "", failure{badUsage, what, "nothing was typed", "type it on the terminal, or give it as one line on standard input; it is never an argument"}
	}
	return people.Secret(line), nil
}
