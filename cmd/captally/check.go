package main

import (
	"fmt"

	"captally.example/captally/analyze"
	"captally.example/captally/cmd/captally/figures"
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
--habits tells, for you alone, of pace, rests, time cues and talk, and what to
mind at the next recording.
--fail-on takes kinds of findings (count-skipped, rest-short ...), causes
(session, unsure, captions) or any, with commas between them.

Example: captally check --why 12:40 knee.srt`,
		Flags: append([]cli.Flag{
			&cli.StringFlag{Name: "why", Usage: "explain what was believed at `TIME` (12:40, or seconds)"},
			&cli.StringFlag{Name: "fail-on", Usage: "exit with 1 on findings of `KIND,...`, or any"},
			&cli.BoolFlag{Name: "habits", Usage: "tell how the session was led, for you alone", DisableDefaultText: true},
			unsettledFlag(),
			outFlag(),
		}, limitFlags()...),
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
	for _, two := range [][2]string{{"why", "fail-on"}, {"why", "habits"}, {"habits", "fail-on"}} {
		if c.IsSet(two[0]) && c.IsSet(two[1]) {
			return misuse("ask them one after the other", "--%s and --%s do not go together", two[0], two[1])
		}
	}
	out, err := newOutput(c, file)
	if err != nil {
		return err
	}
	most, err := limitsOf(c)
	if err != nil {
		return err
	}
	r, err := readReport(file, c.App.Reader, most, c.Bool("unsettled"))
	if err != nil {
		return err
	}
	r.settled.tell(c.App.ErrWriter)
	if c.IsSet("why") {
		at, err := moment(c.String("why"), r.track.Duration)
		if err != nil {
			return err
		}
		printWhy(out, r, at)
		return out.close()
	}
	if c.Bool("habits") {
		printHabits(out, r.report, analyze.HabitsOf(r.session, r.report, analyze.Options{}))
		return out.close()
	}
	printCheck(out, r.report)
	if err := out.close(); err != nil {
		return err
	}
	if n := fails.count(r.report.Findings); n > 0 {
		return &fault{code: exitFindings, text: fmt.Sprintf("%s of --fail-on %s", figures.Count(n, "finding"), c.String("fail-on"))}
	}
	return nil
}
