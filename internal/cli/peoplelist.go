package cli

import (
	"fmt"
	"strings"
	"text/tabwriter"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
)

type listCommand struct {
	recordsFlag
	JSON bool `help:"As JSON (kettlefrost.people/1)."`
}

func (c listCommand) Run(s *surroundings) error {
	return c.withPeople(s, func(p *app.People) error {
		rows, err := personRows(s, p)
		if err != nil {
			return err
		}
		if c.JSON {
			return s.showJSON(People{peopleSchema, rows})
		}
		if len(rows) == 0 {
			return s.show("Nobody yet. kettlefrost people add NAME --role owner adds the first.\n")
		}
		var text strings.Builder
		w := tabwriter.NewWriter(&text, 0, 0, 2, ' ', 0)
		fmt.Fprintln(w, "ID\tNAME\tROLE\tSINCE\tSIGNS IN BY\tDEVICES")
		for _, x := range rows {
			fmt.Fprintf(w, "%s\t%s\t%s\t%s\t%s\t%s\n", x.ID, x.Name, x.Role, period(x), means(x.Password, x.PIN), strings.Join(x.Devices, ", "))
		}
		if err := w.Flush(); err != nil {
			return err
		}
		return s.show(text.String())
	})
}

func period(x Person) string {
	if x.Left != "" {
		return fmt.Sprintf("%s to %s", x.Since, x.Left)
	}
	return string(x.Since)
}

func means(password, pin bool) string {
	switch {
	case password && pin:
		return "password, PIN"
	case password:
		return "password"
	case pin:
		return "PIN"
	}
	return "nothing yet"
}

func personRows(s *surroundings, p *app.People) ([]Person, error) {
	rows := []Person{}
	kept, err := p.Means(s.ctx)
	if err != nil {
		return nil, err
	}
	sessions, err := p.Sessions(s.ctx)
	if err != nil {
		return nil, err
	}
	on := map[string][]string{}
	for _, x := range sessions {
		for _, id := range x.Persons {
			on[id] = append(on[id], x.Device)
		}
	}
	err = p.Staff(s.ctx, func(all *people.Staff) error {
		for _, x := range all.All() {
			devices := append([]string{}, on[x.Person]...)
			rows = append(rows, Person{x.Person, x.Name, x.Role, x.Since, x.Left, kept[x.Person].Password, kept[x.Person].PIN, devices})
		}
		return nil
	})
	return rows, err
}

// keyCommand is keys of instruments.
type keyCommand struct {
	Add    addKeyCommand    `cmd:"" help:"Make a key; it is shown once."`
	List   listKeysCommand  `cmd:"" help:"Which instruments have a key, and when it was last used."`
	Remove removeKeyCommand `cmd:"" help:"Take a key away."`
}

type addKeyCommand struct {
	recordsFlag
	decider
	Name string `arg:"" help:"What the instrument is called in its entries, such as \"probe walk-in\"."`
}

func (c addKeyCommand) Run(s *surroundings) error {
	return c.withPeople(s, func(p *app.People) error {
		who, err := c.of(s, p, "")
		if err != nil {
			return err
		}
		key, err := p.AddKey(s.ctx, who, commandLine, c.Name)
		if err != nil {
			return err
		}
		s.say("this key is shown once and kept nowhere; the instrument sends it as Authorization: Bearer KEY to POST /enter")
		return s.show(people.RevealKey(key) + "\n")
	})
}

type listKeysCommand struct{ recordsFlag }

func (c listKeysCommand) Run(s *surroundings) error {
	return c.withPeople(s, func(p *app.People) error {
		keys, err := p.Keys(s.ctx)
		if err != nil {
			return err
		}
		var text strings.Builder
		w := tabwriter.NewWriter(&text, 0, 0, 2, ' ', 0)
		fmt.Fprintln(w, "INSTRUMENT\tMADE\tBY\tLAST USED")
		for _, k := range keys {
			fmt.Fprintf(w, "%s\t%s\t%s\t%s\n", k.Name, moment(k.Made), k.By, moment(k.Seen))
		}
		if err := w.Flush(); err != nil {
			return err
		}
		return s.show(text.String())
	})
}

// moment is a time as people read it, here.
func moment(at record.Instant) string {
	if at == 0 {
		return "never"
	}
	return time.UnixMilli(int64(at)).Format("2006-01-02 15:04")
}

type removeKeyCommand struct {
	recordsFlag
	decider
	Name string `arg:"" help:"Which instrument's."`
}

func (c removeKeyCommand) Run(s *surroundings) error {
	return c.withPeople(s, func(p *app.People) error {
		who, err := c.of(s, p, "")
		if err != nil {
			return err
		}
		if err := p.DropKey(s.ctx, who, commandLine, c.Name); err != nil {
			return err
		}
		return s.show(fmt.Sprintf("The key of %s opens nothing any more.\n", c.Name))
	})
}
