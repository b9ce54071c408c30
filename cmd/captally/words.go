package main

import (
	"fmt"
	"strings"

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
WebVTT captions with a time on each.

Example: captally words --as vtt --out clean.vtt messy-transcript.txt`,
		Flags:  []cli.Flag{asFlag("table", "json", "vtt"), outFlag()},
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
	r, err := readTrack(file, c.App.Reader)
	if err != nil {
		return err
	}
	switch as {
	case "json":
		writeJSON(out, spoken(r.track), "  ")
	case "vtt":
		wordsVTT(out, r.track)
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

// wordsVTT writes WebVTT (W3C, section 4) with a cue for each cue of the track and a timestamp before each further word.
func wordsVTT(out *output, t *caption.Track) {
	fmt.Fprint(out, "WEBVTT\n")
	for _, c := range t.Cues {
		if c.First == c.Last {
			continue
		}
		fmt.Fprintf(out, "\n%s --> %s\n", stamp(c.Start), stamp(max(c.End, c.Start+caption.At(0.001))))
		last := c.Start
		for i, w := range t.Words[c.First:c.Last] {
			if i > 0 {
				fmt.Fprint(out, " ")
			}
			// A timestamp must lie within the cue and behind the one before (section 4.2.2).
			if w.Time.At > last && w.Time.At < c.End {
				fmt.Fprintf(out, "<%s>", stamp(w.Time.At))
				last = w.Time.At
			}
			fmt.Fprint(out, escapeVTT(w.Text+w.After))
		}
		fmt.Fprintln(out)
	}
}

var escapeVTT = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace

// stamp writes a time as WebVTT does, "00:12:40.500".
func stamp(t caption.Time) string {
	ms := max(0, int64(t)/1e6)
	return fmt.Sprintf("%02d:%02d:%02d.%03d", ms/3600000, ms/60000%60, ms/1000%60, ms%1000)
}
