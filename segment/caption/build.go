package caption

import (
	"sort"
	"strings"
	"time"
)

// Texts of warnings that more than one format gives.
const (
	tooLate  = "time beyond 24 hours; cue left out"
	inFrames = "frames after the seconds; counted as 30 a second"
	cutFile  = "the file ends in the middle of a cue"
	openEnd  = "the file ends without a line end; if it was cut off, words are missing"
)

// build does the second half of the work: from cues and pieces to words with times.
func (r *reading) build(name string) *Track {
	t, lx := r.lex()
	t.Name = name
	r.timeWords(t, lx.spans)
	r.doubtLoops(t)
	t.Warnings = r.warn
	return t
}

// lex puts the cues in order and cuts them into words.
func (r *reading) lex() (*Track, *lexer) {
	r.dropLate()
	r.takeHoursOff()
	r.orderCues()
	r.dropTwice()
	r.endCues()
	t := &Track{Format: r.format, Language: languageTag(r.language), Title: r.title}
	t.Cues = make([]Cue, len(r.cues))
	lx := newLexer(r, t)
	if r.copies {
		lx.origin = &origins{}
	}
	for i, c := range r.cues {
		first := len(t.Words)
		lx.cue(i)
		t.Cues[i] = Cue{Start: c.start, End: c.end, Line: c.line, First: first, Last: len(t.Words)}
		t.Duration = max(t.Duration, c.end)
	}
	lx.finish()
	if len(t.Words) == 0 && len(t.Events) == 0 {
		r.warn.add(0, "times, but no words")
	}
	if lx.origin != nil {
		lx.origin.fill(len(lx.text))
	}
	return t, lx
}

// languageTag returns s if it could be a language tag: subtags of letters and digits (BCP 47, 2.1); else "".
func languageTag(s string) string {
	if len(s) > 35 || strings.Trim(s, asciiLetters+"0123456789-_") != "" {
		return ""
	}
	return s
}

// dropLate leaves out cues beyond 24 hours: such a time is a broken one.
func (r *reading) dropLate() {
	kept := r.cues[:0]
	for _, c := range r.cues {
		if c.start > maxClock {
			r.warn.add(c.line, tooLate)
			continue
		}
		if c.end > maxClock {
			c.hasEnd = false
			r.warn.add(c.line, "cue that ends beyond 24 hours; its end is estimated")
		}
		kept = append(kept, c)
	}
	r.cues = kept
}

// takeHoursOff takes whole hours off a clock that starts at one hour or later, as that of a broadcast does.
func (r *reading) takeHoursOff() {
	if r.keepClock || len(r.cues) == 0 {
		return
	}
	r.closeJump()
	first := r.cues[0].start
	for _, c := range r.cues {
		first = min(first, c.start)
	}
	hours := first - first%Time(time.Hour)
	if hours == 0 {
		return
	}
	r.warn.add(r.cues[0].line, "the clock starts at "+hours.String()+"; the whole hours are taken off")
	r.setBack(0, hours)
	if r.end > hours {
		r.end -= hours
	}
}

// setBack makes the cues from number i on earlier, with their words.
func (r *reading) setBack(i int, by Time) {
	for k := range r.cues[i:] {
		c := &r.cues[i+k]
		c.start -= by
		c.end -= by
		for p := range r.pieces[c.first:c.last] {
			r.pieces[c.first+p].at -= by
			r.pieces[c.first+p].until -= by
		}
	}
}

// clockJump is a silence that no session has.
const clockJump = Time(6 * time.Hour)

// closeJump takes whole hours out of a jump of the clock, as between a title at zero and a programme that starts at ten o'clock.
func (r *reading) closeJump() {
	latest := r.cues[0].start
	for i, c := range r.cues {
		if jump := c.start - latest; jump > clockJump {
			for _, after := range r.cues[i:] {
				if after.start < c.start-Time(time.Hour) {
					return // it comes back: a single cue is out of order
				}
			}
			jump -= jump % Time(time.Hour)
			r.warn.add(c.line, "the clock jumps by more than six hours; whole hours are taken out")
			r.setBack(i, jump)
			return
		}
		latest = max(latest, c.start)
	}
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

// twiceWithin is how many cues back a copy of a cue is looked for, as a shadow or an outline in another layer is one.
const twiceWithin = 4

// dropTwice leaves out cues that show the words of another at the very same time: they were said once. Times cut to whole seconds do not
// tell.
func (r *reading) dropTwice() {
	if r.blocks {
		return
	}
	kept := r.cues[:0]
	for _, c := range r.cues {
		i := len(kept) - 1
		for i >= 0 && i >= len(kept)-twiceWithin && kept[i].start == c.start && !r.isCopy(c, kept[i]) {
			i--
		}
		if i < 0 || i < len(kept)-twiceWithin || kept[i].start != c.start {
			kept = append(kept, c)
			continue
		}
		r.warn.add(c.line, "the same words twice at the very same time; taken once")
		if of := kept[i]; r.copies && len(r.shows) > 0 && c.rows[1]-c.rows[0] == of.rows[1]-of.rows[0] {
			for k := range c.rows[1] - c.rows[0] {
				r.shows[c.rows[0]+k] = r.shows[of.rows[0]+k]
			}
		}
	}
	r.cues = kept
}

// isCopy reports whether two cues last equally long and show the same letters.
func (r *reading) isCopy(a, b rawCue) bool {
	if !a.hasEnd || !b.hasEnd || a.end != b.end {
		return false
	}
	s, t := r.letters(a), r.letters(b)
	return s != "" && s == t
}

// letters returns the text of a cue without blanks.
func (r *reading) letters(c rawCue) string {
	var s strings.Builder
	for _, p := range r.pieces[c.first:c.last] {
		for _, word := range strings.Fields(p.text) {
			s.WriteString(word)
		}
	}
	return s.String()
}

// endCues gives every cue an end after its start: its own, but not after the next cue's start.
func (r *reading) endCues() {
	next := Time(-1) // start of the next cue that begins later
	slow := 1.0
	if r.blocks {
		slow = r.slowness()
	}
	for i := len(r.cues) - 1; i >= 0; i-- {
		c := &r.cues[i]
		if i+1 < len(r.cues) && r.cues[i+1].start > c.start {
			next = r.cues[i+1].start
		}
		switch {
		case c.hasEnd && c.end > c.start:
			if next >= 0 && c.end > next {
				c.end = next
				if !r.blocks {
					r.warn.add(c.line, "cue lasts beyond the start of the next; cut there")
				}
			}
		case next >= 0 && !c.hasEnd && !c.loose:
			c.end = next
		case r.blocks && r.end > c.start:
			c.end = r.end
		default:
			if c.hasEnd && c.end < c.start {
				r.warn.add(c.line, "cue ends before it starts; its end is estimated")
			} else if c.hasEnd {
				r.warn.add(c.line, "cue of no length; its end is estimated")
			}
			c.end = c.start + max(r.readingTime(*c), Time(time.Millisecond))
			c.end = c.start + Time(float64(c.end-c.start)*slow)
			if next >= 0 && c.end > next {
				c.end = next
			}
		}
	}
}

// slowness returns how many times their reading time the blocks of a transcript last, from 1 to 4.
func (r *reading) slowness() float64 {
	var need, length Time
	for i := 0; i+1 < len(r.cues); i++ {
		need += r.readingTime(r.cues[i])
		length += r.cues[i+1].start - r.cues[i].start
	}
	if need <= 0 {
		return 1
	}
	return max(1, min(4, float64(length)/float64(need)))
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
	s := float64(0.055*float64(letters)) + float64(0.2*float64(gaps))
	return Time(s*1000) * Time(time.Millisecond)
}
