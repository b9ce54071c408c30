package main

import (
	"fmt"

	"github.com/urfave/cli/v2"
)

func checkCommand() *cli.Command {
	return &cli.Command{
		Name:      "check",
		Usage:     "tell a person what was done and what to look at",
		ArgsUsage: "FILE",
		Description: `Reads one caption file and prints a verdict, every set and rest, and the
findings: first what was really said or done, then what may be either, then
mistakes of the captions only, for which nobody need record again.

--why tells what the program believed about a moment, and how sure it was.
--fail-on takes kinds of findings (count-skipped, rest-short ...), causes
(session, unsure, captions) or any, with commas between them.

Example: captally check --why 12:40 knee.srt`,
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "why", Usage: "explain what was believed at `TIME` (12:40, or seconds)"},
			&cli.StringFlag{Name: "fail-on", Usage: "exit with 1 on findings of `KIND,...`, or any"},
			outFlag(),
		},
		Action: check,
	}
}

func check(c *cli.Context) error {
	file, err := oneFile(c)
	if err != nil {
		return err
	}
	fails, err := failOn(c)
	if err != nil {
		return err
	}
	if c.IsSet("why") && c.IsSet("fail-on") {
		return misuse("ask them one after the other", "--why and --fail-on do not go together")
	}
	out, err := newOutput(c, file)
	if err != nil {
		return err
	}
	r, err := readReport(file, c.App.Reader)
	if err != nil {
		return err
	}
	if c.IsSet("why") {
		at, err := moment(c.String("why"), r.track.Duration)
		if err != nil {
			return err
		}
		printWhy(out, r, at)
		return out.close()
	}
	printCheck(out, r.report)
	if err := out.close(); err != nil {
		return err
	}
	if n := fails.count(r.report.Findings); n > 0 {
		return &fault{code: exitFindings, text: fmt.Sprintf("%s of --fail-on %s", count(n, "finding"), c.String("fail-on"))}
	}
	return nil
}
