package main

import "io"

// Exit codes; documented in the README.
const (
	exitFine       = 0
	exitFindings   = 1 // only with check --fail-on
	exitMisuse     = 2
	exitUnreadable = 3 // a file could not be read, or the output not be written
)

// run is the whole program: results go to out, everything else to errOut. It returns the exit code.
func run(args []string, in io.Reader, out, errOut io.Writer) int {
	app := newApp(in, out, errOut)
	arranged, err := arrange(app, args)
	if err == nil {
		err = app.Run(arranged)
	}
	if err == nil {
		return exitFine
	}
	f := toFault(err)
	f.print(errOut)
	return f.code
}
