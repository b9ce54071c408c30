package main

import (
	"fmt"

	"captally.example/captally/corpus"
	"captally.example/captally/notes"
	"captally.example/captally/segment/caption"
	"github.com/urfave/cli/v2"
)

// demoSession is the built-in session that the demonstration reads: it has slips of the therapist, mistakes of the
// captions, rests and balance sets.
const demoSession = "knee-weeks4"

func demoCommand() *cli.Command {
	return &cli.Command{
		Name:  "demo",
		Usage: "show all of it on a built-in, invented session",
		Description: `Reads the captions of an invented session that is built into the program, and
prints what check and notes print: what was done, what to look at, and the notes
to paste beneath the video.

Example: captally demo`,
		Flags:  []cli.Flag{outFlag()},
		Action: demo,
	}
}

func demo(c *cli.Context) error {
	if err := noFile(c); err != nil {
		return err
	}
	out, err := newOutput(c)
	if err != nil {
		return err
	}
	r, err := readDemo()
	if err != nil {
		return err
	}
	fmt.Fprint(out, "An invented session, read from ordinary captions. This is what `captally check FILE` prints:\n\n")
	printCheck(out, r.report)
	fmt.Fprint(out, "\nAnd these are the notes that `captally notes FILE` drafts:\n\n")
	fmt.Fprint(out, notes.Text(notes.Draft(r.report, notes.Profile{})))
	return out.close()
}

func readDemo() (*reading, error) {
	for _, s := range corpus.Sessions() {
		if s.Name == demoSession {
			track, err := caption.Parse(s.Cue.Data, s.Cue.Name, caption.Options{})
			if err != nil {
				return nil, err
			}
			r := &reading{data: s.Cue.Data, track: track}
			r.measure()
			return r, nil
		}
	}
	return nil, fmt.Errorf("there is no built-in session %s", demoSession)
}
