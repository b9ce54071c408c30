package main

import "github.com/urfave/cli/v2"

func helpCommand() *cli.Command {
	return &cli.Command{
		Name:      "help",
		Usage:     "show help for the program or for one command",
		ArgsUsage: "[COMMAND]",
		Description: `Prints what --help prints.

Example: captally help check`,
		HideHelpCommand: true,
		Action: func(c *cli.Context) error {
			if c.NArg() == 0 {
				return cli.ShowAppHelp(c)
			}
			return cli.ShowCommandHelp(c, c.Args().First())
		},
	}
}

const appHelp = `{{.Name}}: {{.Usage}}

usage: {{.UsageText}}

{{.Description}}

commands:{{range .VisibleCommands}}
  {{printf "%-11s" .Name}} {{.Usage}}{{end}}

flags may stand anywhere; after -- everything is a file:
  --help      about the program, or about a command
  --version   print the version

exit codes:
  0  fine
  1  findings (only with check --fail-on)
  2  wrong use
  3  a file could not be read or written
`

const commandHelp = `{{.HelpName}}: {{.Usage}}

usage: {{.HelpName}}{{if .VisibleFlags}} [FLAGS]{{end}} {{.ArgsUsage}}

{{.Description}}

flags:{{range .VisibleFlags}}
  {{.}}{{end}}
`
