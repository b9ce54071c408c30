package main

import (
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"captally.example/captally/analyze"
	"github.com/urfave/cli/v2"
)

func measureCommand() *cli.Command {
	return &cli.Command{
		Name:      "measure",
		Usage:     "print what was done, as figures",
		ArgsUsage: "FILE...",
		Description: `Reads caption files and prints their reports. One file gives its sets, rests
and totals. Several give a row each (table), a line of JSON each (lines), or
all sets and rests in one sheet (csv). "-" reads standard input.

Example: captally measure --as csv --out march.csv march/*.vtt`,
		Flags: append([]cli.Flag{
			asFlag("table", "json", "lines", "csv"),
			unsettledFlag(),
			outFlag(),
			&cli.IntFlag{Name: "workers", Usage: "read `N` files at a time", Value: runtime.GOMAXPROCS(0),
				DefaultText: "one a processor"},
		}, limitFlags()...),
		Action: measure,
	}
}

// A measured is what became of one file.
type measured struct {
	report  *analyze.Report
	settled *settledFrom
	err     error
}

func measure(c *cli.Context) error {
	as, err := form(c)
	if err != nil {
		return err
	}
	files := expand(c.Args().Slice())
	if err := checkFiles(files, as, c.Int("workers")); err != nil {
		return err
	}
	most, err := limitsOf(c)
	if err != nil {
		return err
	}
	out, err := newOutput(c, files...)
	if err != nil {
		return err
	}
	var w reportWriter
	switch {
	case as == "json":
		w = jsonReport{out}
	case as == "lines":
		w = jsonLines{out}
	case as == "csv":
		w = newSheet(out)
	case len(files) == 1:
		w = oneTable{out}
	default:
		w = newOverview(out)
	}
	read := func(name string) (*reading, error) { return readReport(name, c.App.Reader, most, c.Bool("unsettled")) }
	failed := measureAll(files, read, c.App.ErrWriter, c.Int("workers"), w)
	w.end()
	if err := out.close(); err != nil {
		return err
	}
	return failed
}

// expand replaces patterns such as *.vtt by the files that they name, where the shell has not done so (on Windows none does).
// What names no file stays, to be reported.
func expand(args []string) []string {
	var files []string
	for _, arg := range args {
		if _, err := os.Lstat(arg); err != nil && strings.ContainsAny(arg, "*?[") {
			if found, err := filepath.Glob(arg); err == nil && len(found) > 0 {
				files = append(files, found...)
				continue
			}
		}
		files = append(files, arg)
	}
	return files
}

func checkFiles(files []string, as string, workers int) error {
	if len(files) == 0 {
		return misuse("for example: captally measure session.vtt", "measure needs at least one caption file")
	}
	if as == "json" && len(files) > 1 {
		return misuse("--as lines gives one object a line", "--as json is one report, but there are %d files", len(files))
	}
	if workers < 1 {
		return misuse("", "--workers must be 1 or more")
	}
	inputs := 0
	for _, f := range files {
		if f == standardInput {
			inputs++
		}
	}
	if inputs > 1 {
		return misuse("", "standard input (-) can be read only once")
	}
	return nil
}

// measureAll hands the reports to w in the order of the files and tells of those that could not be read.
// It returns a fault when there were some.
func measureAll(files []string, readFile func(name string) (*reading, error), errOut io.Writer, workers int, w reportWriter) error {
	var failed error
	p := newProgress(errOut, len(files))
	read := func(i int) measured {
		r, err := readFile(files[i])
		if err != nil {
			return measured{err: err}
		}
		return measured{report: r.report, settled: r.settled}
	}
	ordered(len(files), workers, read, func(i int, m measured) {
		p.clear()
		if m.err != nil {
			toFault(m.err).print(errOut)
			failed = &fault{code: exitUnreadable}
		} else {
			m.settled.tell(errOut)
			w.report(m.report)
		}
		p.done(i + 1)
	})
	p.clear()
	return failed
}
