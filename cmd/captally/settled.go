package main

import (
	"errors"
	"fmt"
	"io"

	"captally.example/captally/analyze"
	"captally.example/captally/analyze/settle"
	"captally.example/captally/cmd/captally/figures"
	"captally.example/captally/cmd/captally/keep"
	"github.com/urfave/cli/v2"
)

func unsettledFlag() cli.Flag {
	return &cli.BoolFlag{Name: "unsettled", Usage: "leave out what was settled in a review", DisableDefaultText: true}
}

// settle puts the decisions that lie beside a caption file on its session; there may be none.
func (r *reading) settle(file string) error {
	path := keep.Beside(file)
	d, err := keep.Load(path)
	if err != nil {
		var fault *settle.Fault
		if !errors.As(err, &fault) {
			return pathFault(path, err)
		}
		return unreadable("put it right, or leave it out with --unsettled", "what was settled cannot be read: %v", err)
	}
	if len(d.Made) == 0 {
		return nil
	}
	s := settle.Apply(r.session, d, analyze.Options{})
	r.session, r.report = s.Session, s.Report
	r.settled = &settledFrom{path: path, used: s.Used, unfit: s.Unfit, changed: d.Captions != keep.SumOf(r.data)}
	return nil
}

// A settledFrom says which decisions are in a report.
type settledFrom struct {
	path    string
	used    int
	unfit   []settle.Unfit
	changed bool // the captions, since the last decision
}

// tell says in a line that decisions were used, and in one for each what does not fit any more.
func (s *settledFrom) tell(w io.Writer) {
	if s == nil {
		return
	}
	line := "settled: " + figures.Count(s.used, "decision") + " from " + s.path
	if n := len(s.unfit); n == 1 {
		line += "; 1 does not fit any more"
	} else if n > 1 {
		line += fmt.Sprintf("; %d do not fit any more", n)
	}
	if s.changed {
		line += "; the captions have changed since"
	}
	fmt.Fprintf(w, "captally: %s\n", plain(line))
	for _, u := range s.unfit {
		fmt.Fprintf(w, "captally: left out: %s: %s\n", plain(u.Decision.Describe()), plain(u.Why))
	}
}
