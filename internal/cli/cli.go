// Package cli is the command line: it reads what was typed, calls the use cases and shows what they return, as text for people or
// as JSON for programs. Nothing is printed on standard output until it is complete; what happens on the way goes to standard error.
package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"time"

	"github.com/alecthomas/kong"
)

const about = `Plans a production day of a small kitchen that cooks soups, stews, sauces and fillings in batches, freezes them in flat
vacuum bags and sells them: what to buy, who does what when, how to chill, fill and freeze, what it costs and what goes on the labels.

Without a book, the invented demo kitchen is used. The book's folder can also be given as KETTLEFROST_BOOK.

Exit codes:

    0  fine
    1  the program failed
    2  wrong command line
    3  the book or the request has mistakes
    4  planned, but with a stop finding: do not start like this`

// commands is the command line.
type commands struct {
	Serve   serveCommand      `cmd:"" help:"Show the kitchen's plans in a browser on this computer."`
	Plan    planCommand       `cmd:"" help:"Plan a run and print its sheet."`
	Day     dayCommand        `cmd:"" help:"Show the day of a run: as text, JSON, a drawing or a calendar."`
	Seal    sealCommand       `cmd:"" help:"What to fill, from what was really weighed: as text or JSON."`
	Print   printCommand      `cmd:"" help:"A sheet of a run as PDF: shopping list, weigh-up, method, timetable, forms, heating cards; in three languages."`
	Buy     buyCommand        `cmd:"" help:"The shopping list of a run, by supplier or by storage: as text, CSV or JSON."`
	After   afterCommand      `cmd:"" help:"Why a run cost more or less than it should have: price, yield and time."`
	Formula formulaCommand    `cmd:"" help:"What the freezer does to a dish, the doses of what helps at any scale, where it freezes and how long it keeps; as text or JSON."`
	Spread  disperseCommand   `cmd:"" name:"disperse" help:"How a gum, starch or emulsifying salt gets into a dish without lumps, as steps of the dish, planned; as text or JSON."`
	Trials  trialsCommand     `cmd:"" help:"Trials in the freezer: laid out, opened, tasted blind, and what can be told from them; as text, JSON or CSV."`
	Filling fillingCommand    `cmd:"" help:"How a filling scattered and drifted, from its check-weights: as text, JSON or a control chart."`
	Label   labelCommand      `cmd:"" help:"The labels of packs: what stops each, previewed, printed from a lot and counted; as text, JSON, SVG, PNG or PDF."`
	Hazards hazardsCommand    `cmd:"" help:"The hazard plans: drafted from the dishes, their versions, what changed; as text or JSON."`
	Rules   rulesCommand      `cmd:"" help:"The rules of food safety as this kitchen holds them, with their sources; as text or JSON."`
	Week    weekCommand       `cmd:"" help:"What a week is best spent on, and what one more hour would be worth."`
	Board   boardCommand      `cmd:"" help:"A production as it happens: what each does now and next, and when the day ends."`
	Learn   learnCommand      `cmd:"" help:"What runs have shown of the figures of the book, and what they should be: accepted one by one."`
	Cooling coolingCommand    `cmd:"" help:"What cools in a production: when it will be at its limits, and what can be done while there is time."`
	Record  recordCommand     `cmd:"" help:"What really happened: entries that are only ever added, verified, exported, backed up."`
	Stock   stockCommand      `cmd:"" help:"What is on hand by the records, the oldest first."`
	Places  placesCommand     `cmd:"" help:"Where things are kept, and how much still fits."`
	Watch   watchCommand      `cmd:"" help:"What probes read in freezers and walk-ins: too warm, not known, and what lay there."`
	Probes  probesCommand     `cmd:"" name:"thermometers" help:"Thermometers, how far wrong they may read, and which are to be checked."`
	Safety  safetyCommand     `cmd:"" help:"Critical records: what is open, which lots they hold and why, and what is decided on them."`
	Logs    logsCommand       `cmd:"" help:"Temperature logs: what probes sent, the files of loggers, a probe's day."`
	Trace   traceCommand      `cmd:"" help:"Where a lot came from and where it went, with its balance."`
	Recall  recallCommand     `cmd:"" help:"Every pack that contains any of some lots, where it is, and how much is accounted for."`
	Folder  folderCommand     `cmd:"" help:"The inspector's folder of lots, a run or some days: what is missing first, as PDF and as a bundle that can be verified."`
	Keep    keepCommand       `cmd:"" help:"Packs kept for tasting: what is to be opened, what was found, and for how long packs are at their best."`
	Orders  ordersCommand     `cmd:"" help:"What customers want: list, enter, picking list of a day, packing slip."`
	People  peopleCommand     `cmd:"" help:"Who works here: roles, passwords, PINs, keys of instruments."`
	Bills   billsCommand      `cmd:"" help:"Invoices, credit notes, payments and what is open; numbers without gaps."`
	Next    nextRunCommand    `cmd:"" help:"What to make next: from orders, sales, stock and what should remain."`
	Import  importFileCommand `cmd:"" help:"Enter customers, orders, goods, stock or prices from a CSV or XLSX file: shown first, all or nothing, never twice."`
	Book    bookCommand       `cmd:"" help:"The book that the records keep: in from a folder and out to one, every change and who made it."`
	Set     setCommand        `cmd:"" help:"Change one thing in the book; all else in its files stays as it is."`
	Check   checkCommand      `cmd:"" help:"Find what is wrong in a book."`
	Find    findCommand       `cmd:"" help:"Find anything by words, a number, a date or a scanned code: in the book, the records and the composition table."`
	Foods   foodsCommand      `cmd:"" help:"Search the food composition table."`
	Heat    heatCommand       `cmd:"" help:"How long food takes to cool, freeze, thaw or warm, by simulation."`
	Schema  schemaCommand     `cmd:"" help:"Print the JSON Schema of a plan, a day, a sealing, an answer about heat, a book or a request."`
	Demo    demoCommand       `cmd:"" help:"Write the demo kitchen's book to a new folder, to start from."`
	Home    homeCommand       `cmd:"" help:"A dish for 4 to 8 people at home: in small pots, in cups and spoons, with a home's freezer and stove; as text, JSON or one page of PDF."`
	Draft   draftCommand      `cmd:"" help:"A home recipe becomes a first draft of a dish, with what must be decided listed; as text or JSON, or into the book."`
	Version versionCommand    `cmd:"" help:"Print the version."`
}

// surroundings is what a command may use of the world.
type surroundings struct {
	ctx            context.Context
	getenv         func(string) string
	stdin          io.Reader
	stdout, stderr io.Writer
	now            func() time.Time
	closers        []func() error // what a command has opened and leaves to the end
}

// Run is the whole program: args are those after its name, and the number returned is the exit code. When ctx ends, a server shuts
// down and a plan takes the best timetable it has.
func Run(ctx context.Context, args []string, getenv func(string) string, stdin io.Reader, stdout, stderr io.Writer) int {
	s := &surroundings{ctx: ctx, getenv: getenv, stdin: stdin, stdout: stdout, stderr: stderr, now: time.Now}
	helped := false
	parser, err := kong.New(&commands{}, kong.Name("kettlefrost"), kong.Description(about), kong.Writers(stdout, stderr), kong.Vars{"schemas": schemaNames()},
		kong.Exit(func(int) { helped = true }), kong.ConfigureHelp(kong.HelpOptions{Compact: true, WrapUpperBound: 100}))
	if err != nil {
		return s.end(fmt.Errorf("the command line cannot be set up: %w", err))
	}
	command, err := parser.Parse(args)
	switch {
	case helped: // the parser goes on after it has printed the help
		return fine
	case err != nil:
		return s.end(misread(err))
	}
	err = command.Run(s)
	for _, closing := range slices.Backward(s.closers) {
		err = errors.Join(err, closing())
	}
	return s.end(err)
}

// misread is an error of the parser, with where to read on.
func misread(err error) error {
	help := "kettlefrost --help"
	if parse, ok := errors.AsType[*kong.ParseError](err); ok && parse.Context != nil {
		if node := parse.Context.Selected(); node != nil {
			help = node.FullPath() + " --help"
		}
	}
	return failure{code: badUsage, what: err.Error(), fix: help + " shows what can be said"}
}

// end reports an error, if there is one, and is the exit code.
func (s *surroundings) end(err error) int {
	if err == nil {
		return fine
	}
	code := failed
	if f, ok := errors.AsType[failure](err); ok {
		code = f.code
	}
	fmt.Fprintln(s.stderr, "kettlefrost: "+err.Error())
	return code
}
