package main

import (
	"fmt"
	"io"

	"captally.example/captally/analyze"
	"captally.example/captally/corpus"
	"captally.example/captally/segment"
	"captally.example/captally/segment/topic"
)

// compare prints, for each timing, the phase agreement with the fitted topic.Tables and with tables fitted on the other sessions.
func compare(out io.Writer, all []*labelled, fitted topic.Tables) error {
	inside := talliesOf(all, func(string) topic.Tables { return fitted })
	byName := map[string]topic.Tables{}
	outside := talliesOf(all, func(name string) topic.Tables {
		if _, ok := byName[name]; !ok {
			byName[name] = fitAll(all, name)
		}
		return byName[name]
	})
	fmt.Fprintf(out, "%-24s%8s%10s\n", "", "fitted", "left out")
	for i, timing := range corpus.Timings {
		for _, name := range []string{"phase agreement", "phase macro F1", "rests F1"} {
			if _, err := fmt.Fprintf(out, "%-6s%-18s%8.3f%10.3f\n", timing, name, inside[i].Figures()[name], outside[i].Figures()[name]); err != nil {
				return err
			}
		}
	}
	return nil
}

func talliesOf(all []*labelled, tablesFor func(name string) topic.Tables) []*corpus.Tally {
	var out []*corpus.Tally
	for _, timing := range corpus.Timings {
		out = append(out, corpus.NewTally(timing))
	}
	for _, l := range all {
		t := tablesFor(l.Name)
		for i, tr := range l.tracks {
			report := analyze.Measure(segment.DecodeWith(tr, t), analyze.Options{})
			out[i].Add(corpus.Score(l.Truth, report, corpus.Timings[i]))
		}
	}
	return out
}
