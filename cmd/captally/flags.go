package main

import (
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
	usage := "`FORM` of the result: " + strings.Join(forms[:len(forms)-1], ", ") + " or " + forms[len(forms)-1]
	return &choiceFlag{&cli.StringFlag{Name: "as", Value: forms[0], Usage: usage}, forms}
}

// form returns the value of --as.
func form(c *cli.Context) (string, error) {
	got := c.String("as")
	for _, f := range c.Command.Flags {
		choice, ok := f.(*choiceFlag)
		if !ok || choice.Name != "as" {
			continue
		}
		for _, known := range choice.choices {
			if got == known {
				return got, nil
			}
		}
		hint := "the forms are " + strings.Join(choice.choices, ", ")
		if near := nearest(got, choice.choices); near != "" {
			hint = "did you mean " + near + "? " + hint
		}
		return "", misuse(hint, "--as knows no form %q", got)
	}
	return got, nil
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
