package caption

import (
	"sort"
	"time"
)

// build does the second half of the work: from cues and pieces to words with times.
func (r *reading) build(name string, opt Options) *Track {
	r.orderCues()
	r.endCues()
	t := &Track{Name: name, Format: r.format, Language: r.language, Title: r.title}
	t.Cues = make([]Cue, len(r.cues))
	lx := lexer{r: r, track: t}
	lx.text = make([]byte, 0, len(r.src)/2)
	t.Words = make([]Word, 0, 16+len(r.pieces)+len(r.src)/16)
	for i, c := range r.cues {
		first := len(t.Words)
		lx.cue(i)
		t.Cues[i] = Cue{Start: c.start, End: c.end, Line: c.line, First: first, Last: len(t.Words)}
		t.Duration = max(t.Duration, c.end)
	}
	lx.finish()
	r.timeWords(t, lx.spans)
	t.Warnings = r.warn
	return t
}

// orderCues puts the cues in the order of their starts; equal starts keep the order of the file.
func (r *reading) orderCues() {
	sorted := true
	for i := 1; i < len(r.cues); i++ {
		if r.cues[i].start < r.cues[i-1].start {
			r.warn.add(r.cues[i].line, "cue begins before the one above it; put in order")
			sorted = false
		}
	}
	if !sorted {
		sort.SliceStable(r.cues, func(i, j int) bool { return r.cues[i].start < r.cues[j].start })
	}
}

// endCues gives every cue an end after its start: its own, but not after the next cue's start.
func (r *reading) endCues() {
	next := Time(-1) // start of the next cue that begins later
	for i := len(r.cues) - 1; i >= 0; i-- {
		c := &r.cues[i]
		if i+1 < len(r.cues) && r.cues[i+1].start > c.start {
			next = r.cues[i+1].start
		}
		switch {
		case r.blocks && next >= 0:
			c.end = next
		case r.blocks:
			c.end = c.start + r.readingTime(*c)
		case c.hasEnd && c.end > c.start:
			if next >= 0 && c.end > next {
				c.end = next
				r.warn.add(c.line, "cue lasts beyond the start of the next; cut there")
			}
		default:
			if c.hasEnd && c.end < c.start {
				r.warn.add(c.line, "cue ends before it starts; its end is estimated")
			} else if c.hasEnd {
				r.warn.add(c.line, "cue of no length; its end is estimated")
			}
			c.end = c.start + r.readingTime(*c)
			if next >= 0 && (c.end > next || !c.hasEnd) {
				c.end = next
			}
		}
	}
}

// readingTime estimates how long the words of a cue take to say.
func (r *reading) readingTime(c rawCue) Time {
	letters, gaps := 0, 1
	for _, p := range r.pieces[c.first:c.last] {
		for i := 0; i < len(p.text); i++ {
			switch p.text[i] {
			case ' ':
				gaps++
			case '.', '?', '!':
				gaps += 2
			default:
				letters++
			}
		}
	}
	s := 0.055*float64(letters) + 0.2*float64(gaps)
	return Time(s*1000) * Time(time.Millisecond)
}
