package main

import (
	"slices"

	"captally.example/captally/corpus"
	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/topic"
)

// chunk is how many words stand together in an example: about an utterance.
const chunk = 10

// An example is some neighbouring words and the class that they belong to.
type example struct {
	features []topic.Feature // each once
	class    int
}

// labelled is one hearing of a labelled session.
type labelled struct {
	*corpus.Session
	tracks          []*caption.Track // one for each timing
	sections, edges []example
}

func newLabelled(s *corpus.Session) (*labelled, error) {
	l := &labelled{Session: s}
	for _, f := range s.Files() {
		tr, err := caption.Parse(f.Data, f.Name, caption.Options{})
		if err != nil {
			return nil, err
		}
		l.tracks = append(l.tracks, tr)
	}
	l.sections = examples(l.tracks[0], sectionOf(s.Truth))
	l.edges = edges(l.tracks[0], s.Truth)
	return l, nil
}

// examples cuts the words into chunks of one class each; class is less than 0 where a time belongs to none.
func examples(tr *caption.Track, class func(t float64) int) []example {
	words := topic.Words(tr)
	var out []example
	open := -1 // class of the last example if it can take more words
	n := 0
	for i := range words {
		c := class(tr.Words[i].Time.At.Seconds() + 0.1)
		if c < 0 {
			open = -1
			continue
		}
		if c != open || n == chunk {
			out = append(out, example{class: c})
			open, n = c, 0
		}
		n++
		e := &out[len(out)-1]
		for _, f := range topic.Features(words, i) {
			if !slices.Contains(e.features, f) {
				e.features = append(e.features, f)
			}
		}
	}
	return out
}

// The classes of topic's sections.txt.
const (
	opening = iota
	warming
	main_
	cooling
	closing
)

// sectionOf tells the section of a time. The opening is the talk before anything is done, the closing the talk after.
func sectionOf(t *corpus.Truth) func(float64) int {
	type cut struct {
		at      float64
		section int
	}
	var cuts []cut
	for i, p := range t.Phases {
		s := main_
		switch {
		case p.Kind == "warm-up":
			s = warming
		case p.Kind == "cool-down":
			s = cooling
		case p.Kind == "talk" && i == 0:
			s = opening
		case p.Kind == "talk" && i == len(t.Phases)-1:
			s = closing
		}
		cuts = append(cuts, cut{p.Start, s})
	}
	return func(at float64) int {
		s := opening
		for _, c := range cuts {
			if at >= c.at {
				s = c.section
			}
		}
		return s
	}
}

// The classes of topic's edges.txt.
const (
	noEdge = iota
	warmEdge
	mainEdge
	coolEdge
	closeEdge
	restEdge
	talkEdge
	leadEdge
)

// edges makes an example of every place where a phase begins, and of every other where an utterance does.
func edges(tr *caption.Track, t *corpus.Truth) []example {
	words := topic.Words(tr)
	at := map[int]int{}
	for i, p := range t.Phases {
		if i == 0 {
			continue
		}
		before := t.Phases[i-1].Kind
		c := noEdge
		switch p.Kind {
		case "warm-up":
			c = warmEdge
		case "cool-down":
			c = coolEdge
		case "rest":
			c = restEdge
		case "work", "balance":
			c = leadEdge
		case "talk":
			c = talkEdge
			if i == len(t.Phases)-1 {
				c = closeEdge
			}
		}
		if before == "warm-up" && p.Kind != "warm-up" {
			c = mainEdge
		}
		for k := range words {
			if tr.Words[k].Time.At.Seconds() >= p.Start-0.3 {
				at[k] = c
				break
			}
		}
	}
	var out []example
	for i := 1; i < len(words); i++ {
		c, ok := at[i]
		if !ok && !begins(tr, i) {
			continue
		}
		out = append(out, example{topic.EdgeFeatures(words, i), c})
	}
	return out
}

// begins reports whether an utterance may begin at word i: after a full stop, or what must be a pause.
func begins(tr *caption.Track, i int) bool {
	const pause = 0.85 // seconds from word to word
	before := &tr.Words[i-1]
	switch before.After {
	case ".", "?", "!":
		return true
	}
	return (tr.Words[i].Time.At - before.Time.At).Seconds() > pause
}
