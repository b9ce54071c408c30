package main

import (
	"os"
	"strings"

	"github.com/urfave/cli/v2"
)

// arrange puts a command line into the order that the cli package understands: flags for the whole program,
// the command, its flags, "--", its arguments. Without it, a flag that stands after a file would be ignored silently.
// What looks like a flag and is none is a misuse. After "--" everything is an argument; "-" is one too.
func arrange(app *cli.App, args []string) ([]string, error) {
	app.Setup()
	at := commandIndex(app, args)
	if at < 0 {
		return arrangeAlone(app, args)
	}
	command := app.Command(args[at])
	if command == nil {
		return nil, unknownCommand(app, args[at])
	}
	line := line{flags: command.Flags, help: "captally " + command.Name + " --help"}
	if err := line.read(args[1:at]); err != nil {
		return nil, err
	}
	if err := line.read(args[at+1:]); err != nil {
		return nil, err
	}
	if line.wantsHelp {
		return []string{args[0], "help", "--", command.Name}, nil
	}
	if command.Name == "help" && len(line.rest) > 0 && app.Command(line.rest[0]) == nil {
		return nil, unknownCommand(app, line.rest[0])
	}
	arranged := append([]string{args[0]}, line.global...)
	arranged = append(arranged, command.Name)
	arranged = append(arranged, line.own...)
	arranged = append(arranged, "--")
	return append(arranged, line.rest...), nil
}

// arrangeAlone handles a line without a command: only --help and --version make sense.
func arrangeAlone(app *cli.App, args []string) ([]string, error) {
	if len(args) == 0 {
		return []string{app.Name}, nil
	}
	line := line{help: "captally --help"}
	if err := line.read(args[1:]); err != nil {
		return nil, err
	}
	if len(line.rest) > 0 {
		return nil, unknownCommand(app, line.rest[0])
	}
	if line.wantsHelp {
		return []string{args[0], "help"}, nil
	}
	return append([]string{args[0]}, line.global...), nil
}

// commandIndex returns the place of the first argument that is neither a flag nor a flag's value, or -1.
func commandIndex(app *cli.App, args []string) int {
	var all []cli.Flag
	for _, c := range app.Commands {
		all = append(all, c.Flags...)
	}
	for i := 1; i < len(args); i++ {
		switch {
		case args[i] == "--":
			return -1
		case !looksLikeFlag(args[i]):
			return i
		case takesNext(all, args[i]):
			i++
		}
	}
	return -1
}

// A line sorts the arguments of one command.
type line struct {
	flags     []cli.Flag // of the command
	help      string     // where to read about them
	ended     bool       // "--" was met
	wantsHelp bool
	global    []string // flags of the whole program
	own       []string // flags of the command, with their values
	rest      []string // arguments
}

func (l *line) read(args []string) error {
	for i := 0; i < len(args); i++ {
		arg := args[i]
		switch {
		case l.ended || !looksLikeFlag(arg):
			l.rest = append(l.rest, arg)
		case arg == "--":
			l.ended = true
		case arg == "--version" || arg == "-v":
			l.global = append(l.global, arg)
		case arg == "--help" || arg == "-h":
			l.wantsHelp = true
		case find(l.flags, arg) == nil:
			return l.unknown(arg)
		case takesNext(l.flags, arg):
			if i+1 == len(args) || looksLikeFlag(args[i+1]) {
				return misuse("see "+l.help, "%s needs a value", arg)
			}
			i++
			l.own = append(l.own, arg+"="+args[i])
		default:
			l.own = append(l.own, arg)
		}
	}
	return nil
}

func (l *line) unknown(arg string) error {
	if _, err := os.Stat(arg); err == nil {
		return misuse("a file whose name begins with a dash goes after --", "unknown flag %s", arg)
	}
	known := []string{"--help", "--version"}
	for _, f := range l.flags {
		known = append(known, "--"+f.Names()[0])
	}
	name, _, _ := strings.Cut(arg, "=")
	if near := nearest("--"+strings.TrimLeft(name, "-"), known); near != "" {
		return misuse("did you mean "+near+"? See "+l.help, "unknown flag %s", name)
	}
	return misuse("see "+l.help, "unknown flag %s", name)
}

func unknownCommand(app *cli.App, name string) error {
	if _, err := os.Stat(name); err == nil {
		return misuse("to read a file, say what to do with it: captally check "+name, "%s is a file, not a command", name)
	}
	var known []string
	for _, c := range app.Commands {
		known = append(known, c.Name)
	}
	if near := nearest(name, known); near != "" {
		return misuse("did you mean captally "+near+"?", "unknown command %s", name)
	}
	return misuse("captally --help lists the commands", "unknown command %s", name)
}

func looksLikeFlag(arg string) bool { return len(arg) > 1 && arg[0] == '-' }

// find returns the flag that arg names, or nil. Long names want two dashes, one letter wants one.
func find(flags []cli.Flag, arg string) cli.Flag {
	name, _, _ := strings.Cut(arg, "=")
	for _, f := range flags {
		for _, n := range f.Names() {
			if len(n) == 1 && name == "-"+n || len(n) > 1 && name == "--"+n {
				return f
			}
		}
	}
	return nil
}

// takesNext says whether arg is a flag whose value is the next argument.
func takesNext(flags []cli.Flag, arg string) bool {
	f := find(flags, arg)
	if f == nil || strings.Contains(arg, "=") {
		return false
	}
	_, boolean := f.(*cli.BoolFlag)
	return !boolean
}
