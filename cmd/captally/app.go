package main

import (
	"io"
	"runtime/debug"

	"github.com/urfave/cli/v2"
)

// version is set at release by -ldflags "-X main.version=1.2.3".
var version = ""

func newApp(in io.Reader, out, errOut io.Writer) *cli.App {
	app := &cli.App{
		Name:      "captally",
		HelpName:  "captally",
		Usage:     "what was really done in a recorded exercise session, from its captions",
		UsageText: "captally COMMAND [FLAGS] FILE",
		Version:   versionString(),
		Description: `Reads the caption file of a follow-along exercise video and finds the sets,
rests, repetitions and time under tension, the miscounts and whose they are, and
drafts the notes. Nothing leaves this computer.

Start with: captally check session.vtt
No file at hand: captally demo`,
		Commands: []*cli.Command{
			checkCommand(), measureCommand(), notesCommand(), reviewCommand(), profileCommand(), wordsCommand(), demoCommand(), completionCommand(), helpCommand(),
		},
		CustomAppHelpTemplate: appHelp,
		Reader:                in,
		Writer:                out,
		ErrWriter:             errOut,
		ExitErrHandler:        func(*cli.Context, error) {}, // run prints and returns
		OnUsageError:          usageError,
	}
	for _, c := range app.Commands {
		c.CustomHelpTemplate = commandHelp
		c.HideHelpCommand = true // a file may be called help
		c.OnUsageError = usageError
	}
	return app
}

// usageError hears of what the cli package could not parse, such as --workers many.
func usageError(c *cli.Context, err error, _ bool) error {
	return misuse("see "+c.Command.HelpName+" --help", "%v", err)
}

func versionString() string {
	if version != "" {
		return version
	}
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		return info.Main.Version
	}
	return "(devel)"
}
