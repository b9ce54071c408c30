package main

import (
	"slices"
	"strings"

	"github.com/urfave/cli/v2"
)

// A choiceFlag takes one of a few words. The first is the default.
type choiceFlag struct {
	*cli.StringFlag
	choices []string
}

// asFlag is --as, the form of a command's result.
func asFlag(forms ...string) cli.Flag {
	usage := "`FORM` is " + forms[0] + ", or else " + strings.Join(forms[1:], ", ")
	if len(forms) > fewForms {
		usage = "`FORM` is " + forms[0] + ", or else one of those above"
	}
	return &choiceFlag{&cli.StringFlag{Name: "as", Usage: usage}, forms}
}

// fewForms is how many forms fit on a line of the help.
const fewForms = 5

// form returns the value of --as.
func form(c *cli.Context) (string, error) {
	forms := find(c.Command.Flags, "--as").(*choiceFlag).choices
	got := c.String("as")
	switch {
	case !c.IsSet("as"):
		return forms[0], nil
	case slices.Contains(forms, got):
		return got, nil
	}
	hint := "the forms are " + strings.Join(forms, ", ")
	if near := nearest(got, forms); near != "" {
		hint = "did you mean " + near + "? " + hint
	}
	return "", misuse(hint, "--as knows no form %q", got)
}

// oneFile returns the only argument of a command that reads one file.
func oneFile(c *cli.Context) (string, error) {
	switch c.NArg() {
	case 1:
		return c.Args().First(), nil
	case 0:
		return "", misuse("for example: captally "+c.Command.Name+" session.vtt", "%s needs a caption file", c.Command.Name)
	}
	return "", misuse("several files at once: captally measure FILE...", "%s takes one file, not %d", c.Command.Name, c.NArg())
}

// noFile refuses arguments.
func noFile(c *cli.Context) error {
	if c.NArg() == 0 {
		return nil
	}
	return misuse("captally check "+c.Args().First()+" reads a file", "%s takes no file", c.Command.Name)
}
