// Garlandry serves the app and has commands for plans, calculators, backups and devices. This package only wires.
package main

import (
	"errors"
	"io"
	"os"

	"github.com/alecthomas/kong"
)

// program is the whole command line.
type program struct {
	Serve   serveCommand   `cmd:"" help:"Serve the app. Prints the address, and an owner link while you have no device."`
	Plan    planCommand    `cmd:"" help:"Print the plan of a job file: counts, pack list, cards, window."`
	Picture pictureCommand `cmd:"" help:"Draw a job file's pieces from the front, to scale, as SVG."`
	Calc    calcCommand    `cmd:"" help:"List the calculators, or run one, such as: clusters length=10ft recipe=2x11@9.5"`
	Schema  schemaCommand  `cmd:"" help:"Print the JSON Schema of a job file."`
	Backup  backupCommand  `cmd:"" help:"Copy the data to a file and check every record. The server may be running."`
	Restore restoreCommand `cmd:"" help:"Restore a backup, or rebuild the data from the journal."`
	Invite  inviteCommand  `cmd:"" help:"Make an owner link for another device, list your devices, or end one."`
	Aside   asideCommand   `cmd:"" help:"List what is unusual in a job, set a harmful operation aside, or put it back."`
	Version versionCommand `cmd:"" help:"Print the version."`
}

// stdio is the input and output of a command. Tests replace it.
type stdio struct {
	in       io.Reader
	out, err io.Writer
}

// usageError is a mistake in the command line: exit code 2.
type usageError struct{ error }

func (e usageError) Unwrap() error { return e.error }

func main() {
	os.Exit(run(os.Args[1:], stdio{os.Stdin, os.Stdout, os.Stderr}))
}

// run returns the exit code: 0 done, 1 failed, 2 wrong usage.
func run(args []string, s stdio) (code int) {
	s.out, s.err = safely(s.out), safely(s.err)
	var cli program
	parser, err := kong.New(&cli, kong.Name("garlandry"),
		kong.Description("From the promise of a look to open doors: a pocket tool for decorating events with balloons. "+
			"Start with: garlandry serve --demo"),
		kong.Writers(s.out, s.err), kong.Bind(s), kong.UsageOnError(), kong.ConfigureHelp(kong.HelpOptions{Compact: true}),
		kong.Exit(func(c int) { panic(exit(c)) }))
	if err != nil {
		say(s.err, "garlandry: %v\n", err)
		return 1
	}
	defer func() {
		if stop, asked := recover().(exit); asked {
			code = int(stop)
		}
	}()
	command, err := parser.Parse(flagsLast(args))
	if err != nil {
		say(s.err, "garlandry: %v; see garlandry --help\n", err)
		return 2
	}
	if err := command.Run(); err != nil {
		say(s.err, "garlandry: %v\n", err)
		var usage usageError
		if errors.As(err, &usage) {
			return 2
		}
		return 1
	}
	return 0
}

// exit is the panic that stops the program after the command library has printed help.
type exit int
