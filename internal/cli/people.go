package cli

import (
	"cmp"
	"errors"
	"fmt"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
)

// peopleCommand is who works here and how they are known again.
type peopleCommand struct {
	Add      addPersonCommand `cmd:"" help:"Add somebody; the first is an owner."`
	List     listCommand      `cmd:"" help:"Who works here, as what, and how they can sign in."`
	Role     roleCommand      `cmd:"" help:"Give somebody another role."`
	Password passwordCommand  `cmd:"" help:"Set somebody's password: to sign in with, from anywhere."`
	Pin      pinCommand       `cmd:"" help:"Set somebody's PIN: to change over with on a device that is signed in."`
	Leave    leaveCommand     `cmd:"" help:"Somebody leaves: what they entered stays, and they get in no more."`
	Key      keyCommand       `cmd:"" help:"Keys of scales and probes, which may only tell what they weighed and measured."`
	SignOut  signOutCommand   `cmd:"" help:"Sign somebody out everywhere."`
}

// Help is the longer help of the command.
func (peopleCommand) Help() string {
	return `As soon as there is an owner, the pages let nobody in without signing in. Passwords and PINs are typed on the terminal, where they do not show,
or come on standard input, one on a line; they are kept as slow salted hashes beside the entries and are in no export.

    kettlefrost people add "Ada Miller" --role owner --records kitchen.records
    kettlefrost people add "Pat" --role packer --who ada-miller --records kitchen.records
    kettlefrost people pin pat --records kitchen.records`
}

// commandLine is the device of what is entered here.
const commandLine = "command line"

// decider is who stands for an entry about people.
type decider struct {
	Who string `placeholder:"ID" help:"Who decides so: an owner. It can be left out for the first."`
}

// of is the decider's ID, checked; self when nobody is an owner yet.
func (d decider) of(s *surroundings, p *app.People, self string) (string, error) {
	set, err := p.SetUp(s.ctx)
	if err != nil {
		return "", err
	}
	if d.Who == "" && !set {
		return self, nil
	}
	const fix = "give the ID of an owner; kettlefrost people list shows them"
	if d.Who == "" {
		return "", failure{badUsage, "--who", "nobody said who decides so", fix}
	}
	x, known, err := p.Person(s.ctx, d.Who)
	if err != nil {
		return "", err
	}
	if !known || !people.MayManage(x.Role) || !people.Here(x, today(s)) {
		return "", failure{badUsage, "--who " + d.Who, "this is no owner here", fix}
	}
	return d.Who, nil
}

func today(s *surroundings) record.Day { return record.Day(s.now().Format(time.DateOnly)) }

// withPeople opens the records for work on who works here.
func (f recordsFlag) withPeople(s *surroundings, work func(p *app.People) error) error {
	return f.with(s, func(r *app.Records) error { return personFailure(work(r.People())) })
}

// personFailure gives what is wrong with a person or a secret its exit code.
func personFailure(err error) error {
	if wrong, ok := errors.AsType[*people.SecretError](err); ok {
		return failure{code: mistakes, what: "the " + wrong.What + " " + wrong.Problem, fix: wrong.Fix}
	}
	if wrong, ok := errors.AsType[*app.PersonError](err); ok {
		return failure{code: mistakes, what: wrong.Problem, fix: wrong.Fix}
	}
	if wrong := record.FieldErrors(nil); errors.As(err, &wrong) {
		return failure{code: mistakes, what: strings.TrimPrefix(wrong.Error(), "record: ")}
	}
	return err
}

type addPersonCommand struct {
	recordsFlag
	decider
	Name  string      `arg:"" help:"The name, as it stands on pages and sheets."`
	Role  record.Role `required:"" enum:"owner,cook,packer,inspector" help:"What for: owner, cook, packer or inspector."`
	ID    string      `name:"id" placeholder:"ID" help:"Short and for good, such as ada; made of the name when left out."`
	Since string      `placeholder:"DAY" help:"The first day, such as 2026-12-01; today when left out."`
}

func (c addPersonCommand) Run(s *surroundings) error {
	return c.withPeople(s, func(p *app.People) error {
		x := people.Person{Person: c.ID, Name: c.Name, Role: c.Role, Since: cmp.Or(record.Day(c.Since), today(s))}
		known := false
		err := p.Staff(s.ctx, func(all *people.Staff) error {
			if x.Person == "" {
				x.Person = all.NewID(c.Name)
			}
			_, known = all.Person(x.Person)
			return nil
		})
		if err != nil {
			return err
		}
		if known {
			return failure{mistakes, "--id " + x.Person, "somebody has that ID already, and it is for good", "take another, or change the role with kettlefrost people role"}
		}
		set, err := p.SetUp(s.ctx)
		if err != nil {
			return err
		}
		if !set && c.Role != record.Owner {
			return failure{badUsage, "--role " + string(c.Role), "nobody is an owner yet, who could look after people", "add an owner first"}
		}
		return c.add(s, p, x)
	})
}

func (c addPersonCommand) add(s *surroundings, p *app.People, x people.Person) error {
	who, err := c.of(s, p, x.Person)
	if err != nil {
		return err
	}
	var password people.Secret
	if x.Role == record.Owner { // one who cannot sign in looks after nobody
		if password, err = s.secret("Password of " + x.Name); err != nil {
			return err
		}
		if err := people.CheckPassword(password, x); err != nil {
			return err
		}
	}
	if err := p.Put(s.ctx, who, commandLine, x); err != nil {
		return err
	}
	next := fmt.Sprintf("kettlefrost people pin %s gives a PIN, kettlefrost people password %s a password.", x.Person, x.Person)
	if password != "" {
		if err := p.KeepPassword(s.ctx, x.Person, password); err != nil {
			return err
		}
		next = fmt.Sprintf("From now on the pages let nobody in without signing in. kettlefrost people pin %s gives a PIN.", x.Person)
	}
	return s.show(fmt.Sprintf("%s is here as %s: ID %s. %s\n", x.Name, x.Role, x.Person, next))
}

// known is a person who is here.
func known(s *surroundings, p *app.People, id string) (people.Person, error) {
	x, ok, err := p.Person(s.ctx, id)
	if err == nil && !ok {
		err = failure{mistakes, id, "nobody has that ID", "kettlefrost people list shows who there is"}
	}
	return x, err
}

type roleCommand struct {
	recordsFlag
	decider
	ID   string      `arg:"" help:"Whose, by ID."`
	Role record.Role `arg:"" enum:"owner,cook,packer,inspector" help:"owner, cook, packer or inspector."`
}

func (c roleCommand) Run(s *surroundings) error {
	return c.withPeople(s, func(p *app.People) error {
		x, err := known(s, p, c.ID)
		if err != nil {
			return err
		}
		who, err := c.of(s, p, "")
		if err != nil {
			return err
		}
		x.Role = c.Role
		if err := p.Put(s.ctx, who, commandLine, x); err != nil {
			return err
		}
		return s.show(fmt.Sprintf("%s is here as %s.\n", x.Name, x.Role))
	})
}

type leaveCommand struct {
	recordsFlag
	decider
	ID  string `arg:"" help:"Who, by ID."`
	Day string `placeholder:"DAY" help:"The last day here, such as 2026-12-01; today when left out. From then on they get in no more."`
}

func (c leaveCommand) Run(s *surroundings) error {
	return c.withPeople(s, func(p *app.People) error {
		x, err := known(s, p, c.ID)
		if err != nil {
			return err
		}
		who, err := c.of(s, p, "")
		if err != nil {
			return err
		}
		x.Left = cmp.Or(record.Day(c.Day), today(s))
		if err := p.Put(s.ctx, who, commandLine, x); err != nil {
			return err
		}
		return s.show(fmt.Sprintf("The last day of %s is %s. What was entered stays.\n", x.Name, x.Left))
	})
}

type signOutCommand struct {
	recordsFlag
	ID string `arg:"" help:"Who, by ID."`
}

func (c signOutCommand) Run(s *surroundings) error {
	return c.withPeople(s, func(p *app.People) error {
		x, err := known(s, p, c.ID)
		if err != nil {
			return err
		}
		n, err := p.EndSessionsOf(s.ctx, c.ID)
		if err != nil {
			return err
		}
		return s.show(fmt.Sprintf("%s is signed out of %d devices.\n", x.Name, n))
	})
}
