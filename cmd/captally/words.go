package main

import (
	"fmt"

	"captally.example/captally/analyze"
	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
	"github.com/urfave/cli/v2"
)

func wordsCommand() *cli.Command {
	return &cli.Command{
		Name:      "words",
		Usage:     "print the words as they were read, with their times",
		ArgsUsage: "FILE",
		Description: `Shows what was read in a caption file: each word once, in order, with the time
at which it was begun and the limits of that time. vtt writes the words back as
clean WebVTT captions.

Example: captally words --as vtt --out clean.vtt messy-transcript.txt`,
		Flags:  append([]cli.Flag{asFlag("table", "json", "vtt"), outFlag()}, limitFlags()...),
		Action: printWords,
	}
}

func printWords(c *cli.Context) error {
	as, err := form(c)
	if err != nil {
		return err
	}
	file, err := oneFile(c)
	if err != nil {
		return err
	}
	out, err := newOutput(c, file)
	if err != nil {
		return err
	}
	most, err := limitsOf(c)
	if err != nil {
		return err
	}
	r, err := readTrack(file, c.App.Reader, most)
	if err != nil {
		return err
	}
	switch as {
	case "json":
		writeJSON(out, spoken(r.track), "  ")
	case "vtt":
		_ = r.track.WriteVTT(out) // the output remembers failures
	default:
		wordsTable(out, r.track)
	}
	return out.close()
}

// A spokenFile is the public data format of the words as read, version 1. Times are seconds from the start.
type spokenFile struct {
	Version int            `json:"reading"`
	Source  analyze.Source `json:"source"`
	Words   []spokenWord   `json:"words"`
	Events  []spokenEvent  `json:"events"`
}

type spokenWord struct {
	Text    string  `json:"text"`
	At      float64 `json:"at_s"`
	Low     float64 `json:"low_s"`
	High    float64 `json:"high_s"`
	Cue     int     `json:"cue"` // from 1
	Line    int     `json:"line"`
	Speaker string  `json:"speaker,omitempty"`
}

type spokenEvent struct {
	Text string  `json:"text"`
	At   float64 `json:"at_s"`
}

func spoken(t *caption.Track) spokenFile {
	s := spokenFile{Version: 1, Words: []spokenWord{}, Events: []spokenEvent{},
		Source: sourceOf(t)}
	for _, w := range t.Words {
		at := w.Time
		s.Words = append(s.Words, spokenWord{w.Text, thousandths(at.At), thousandths(at.Low), thousandths(at.High), w.Cue + 1, w.Line, w.Speaker})
	}
	for _, e := range t.Events {
		s.Events = append(s.Events, spokenEvent{e.Text, thousandths(e.At)})
	}
	return s
}

// thousandths returns a time in seconds, cut to a thousandth.
func thousandths(t caption.Time) float64 { return float64(int64(t)/1e6) / 1000 }

// sourceOf describes a track as its report would.
func sourceOf(t *caption.Track) analyze.Source {
	return analyze.Measure(&segment.Session{Track: t}, analyze.Options{}).Source
}

func wordsTable(out *output, t *caption.Track) {
	rows := table{columns: []column{{title: "began", right: true}, {title: "between", right: true}, {title: "word", shrink: true},
		{title: "speaker"}, {title: "caption", right: true}, {title: "line", right: true}}}
	for _, w := range t.Words {
		rows.add(tenths(w.Time.At), spread(w.Time), w.Text+w.After, w.Speaker, fmt.Sprint(w.Cue+1), fmt.Sprint(w.Line))
	}
	if len(t.Words) == 0 {
		fmt.Fprintln(out, "No words were found.")
	} else {
		rows.print(out)
	}
	printWarnings(out, sourceOf(t))
}
