package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"captally.example/captally/analyze"
	"captally.example/captally/analyze/settle"
	"captally.example/captally/cmd/captally/figures"
	"captally.example/captally/cmd/captally/keep"
	"github.com/urfave/cli/v2"
)

func unsettledFlag() cli.Flag {
	return &cli.BoolFlag{Name: "unsettled", Usage: "leave out what was settled in a review", DisableDefaultText: true}
}

// settle puts the decisions on a caption file on its session; there may be none.
func (r *reading) settle(file string) error {
	path, also := keep.Of(file, r.data, reviewsFolder())
	d, err := keep.Load(path)
	if err != nil {
		var fault *settle.Fault
		if !errors.As(err, &fault) {
			return pathFault(path, err)
		}
		hint := "put it right, or leave it out with --unsettled"
		if fault.Newer {
			hint = "use the later captally, or leave it out with --unsettled"
		}
		return unreadable(hint, "what was settled cannot be read: %v", err)
	}
	if len(d.Made) == 0 {
		return nil
	}
	s := settle.Apply(r.session, d, analyze.Options{})
	r.session, r.report = s.Session, s.Report
	r.settled = &settledFrom{path: path, used: s.Used, unfit: s.Unfit, changed: d.Captions != keep.SumOf(r.data), also: also, dropped: path != keep.Beside(file)}
	return nil
}

// reviewsFolder is where decisions on files that were dropped on the page are kept; empty where there is no configuration folder.
func reviewsFolder() string {
	folder, err := os.UserConfigDir()
	if err != nil {
		return ""
	}
	return filepath.Join(folder, "captally", "reviews")
}

// A settledFrom says which decisions are in a report.
type settledFrom struct {
	path    string
	used    int
	unfit   []settle.Unfit
	changed bool   // the captions, since the last decision
	dropped bool   // they were made when the captions were dropped on the page
	also    string // decisions on the same captions that are not used, empty for none
}

// tell says in a line that decisions were used, and in one for each what does not fit any more.
func (s *settledFrom) tell(w io.Writer) {
	if s == nil {
		return
	}
	line := "settled: " + figures.Count(s.used, "decision") + " from " + s.path
	if s.dropped {
		line += ", made when the file was dropped on the page"
	}
	if n := len(s.unfit); n == 1 {
		line += "; 1 does not fit any more"
	} else if n > 1 {
		line += fmt.Sprintf("; %d do not fit any more", n)
	}
	if s.changed {
		line += "; the captions have changed since"
	}
	fmt.Fprintf(w, "captally: %s\n", plain(line))
	if s.also != "" {
		fmt.Fprintf(w, "captally: hint: there are others in %s, made when the file was dropped on the page; they are not used\n", plain(s.also))
	}
	for _, u := range s.unfit {
		fmt.Fprintf(w, "captally: left out: %s: %s\n", plain(u.Decision.Describe()), plain(u.Why))
	}
}
