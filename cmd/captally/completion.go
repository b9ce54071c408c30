package main

import (
	"embed"
	"slices"
	"strings"
	"text/template"

	"github.com/urfave/cli/v2"
)

// The scripts hold everything that they offer, so that a press of TAB does not start the program.
//
//go:embed completion/*.tmpl
var completionTemplates embed.FS

func completionCommand() *cli.Command {
	return &cli.Command{
		Name:      "completion",
		Usage:     "print a script that completes commands with TAB",
		ArgsUsage: "bash|zsh|fish",
		Description: `Prints the script for a shell. For bash, put this line into ~/.bashrc; for zsh,
with zsh in place of bash, into ~/.zshrc:

Example: source <(captally completion bash)

For fish:
captally completion fish > ~/.config/fish/completions/captally.fish`,
		Action: completion,
	}
}

func completion(c *cli.Context) error {
	shells := strings.Split(c.Command.ArgsUsage, "|")
	if c.NArg() != 1 {
		return misuse("for example: captally completion bash", "completion needs the name of one shell")
	}
	shell := c.Args().First()
	if !slices.Contains(shells, shell) {
		return misuse("there are scripts for "+strings.Join(shells, ", "), "completion knows no shell %q", shell)
	}
	return printCompletion(c, shell)
}

// A completedCommand is what the templates need to know of a command.
type completedCommand struct {
	Name, Usage string
	Flags       []completedFlag
	File        bool     // its arguments are files
	Words       []string // what else may be its argument
}

type completedFlag struct {
	Name    string
	Value   bool     // it takes one
	Choices []string // the values, where they can be listed
}

func printCompletion(c *cli.Context, shell string) error {
	out, err := newOutput(c)
	if err != nil {
		return err
	}
	t := template.New(shell + ".tmpl").Funcs(template.FuncMap{"join": func(words []string) string { return strings.Join(words, " ") }})
	if t, err = t.ParseFS(completionTemplates, "completion/"+shell+".tmpl"); err != nil {
		return err
	}
	if err := t.Execute(out, completedCommands(c.App)); err != nil && out.failed == nil {
		return err
	}
	return out.close()
}

func completedCommands(app *cli.App) []completedCommand {
	var commands []completedCommand
	for _, c := range app.Commands {
		done := completedCommand{Name: c.Name, Usage: c.Usage, File: strings.HasPrefix(strings.TrimPrefix(c.ArgsUsage, "["), "FILE")}
		switch {
		case c.Name == "help":
			for _, other := range app.Commands {
				done.Words = append(done.Words, other.Name)
			}
		case !done.File && c.ArgsUsage != "":
			done.Words = strings.Split(c.ArgsUsage, "|")
		}
		for _, f := range c.Flags {
			done.Flags = append(done.Flags, completeFlag(f))
		}
		commands = append(commands, done)
	}
	return commands
}

func completeFlag(f cli.Flag) completedFlag {
	_, boolean := f.(*cli.BoolFlag)
	done := completedFlag{Name: f.Names()[0], Value: !boolean}
	if choice, ok := f.(*choiceFlag); ok {
		done.Choices = choice.choices
	} else if done.Name == "fail-on" {
		done.Choices = findingNames()
	}
	return done
}
