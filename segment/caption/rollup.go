package caption

import "time"

// fillerLength is the longest cue that only holds the lines of a roll-up caption between two steps; they are written with 10 ms.
const fillerLength = Time(20 * time.Millisecond)

// isRollUp reports whether lines roll up through the cues, so that each line is shown more than once: at least half of
// the cues that could repeat the last line of the cue before do so.
func isRollUp(r *reading) bool {
	could, do := 0, 0
	for i := 1; i < len(r.cues); i++ {
		prev, cur := r.lines(i-1), r.lines(i)
		if len(prev) == 0 || len(cur) == 0 {
			continue
		}
		filler := r.cues[i].hasEnd && r.cues[i].end-r.cues[i].start <= fillerLength
		if len(cur) < 2 && !filler {
			continue
		}
		could++
		if r.sameLine(cur[0], prev[len(prev)-1]) || len(prev) > 1 && r.sameLine(cur[0], prev[1]) {
			do++
		}
	}
	return do > 0 && do*2 >= could
}

func (r *reading) lines(cue int) []row { return r.rows[r.cues[cue].rows[0]:r.cues[cue].rows[1]] }

// newLines returns the lines of a cue of a roll-up file that were not shown before: by their place, and not by their text
// alone, since the same words can be said again. shown are the lines of the cue before.
func (r *reading) newLines(cue int, shown []row) []row {
	cur := r.lines(cue)
	most := len(cur) - 1 // the last line is new ...
	if c := r.cues[cue]; c.hasEnd && c.end-c.start <= fillerLength {
		most = len(cur) // ... but in a filler
	}
	for n := min(most, len(shown)); n > 0; n-- {
		if r.sameLines(cur[:n], shown[len(shown)-n:]) {
			return cur[n:]
		}
	}
	return cur
}

func (r *reading) sameLines(a, b []row) bool {
	for i := range a {
		if !r.sameLine(a[i], b[i]) {
			return false
		}
	}
	return true
}

// sameLine compares two lines without their tags and blanks.
func (r *reading) sameLine(a, b row) bool {
	s, t := r.src[a.from:a.to], r.src[b.from:b.to]
	for {
		s, t = skipMarks(s), skipMarks(t)
		if s == "" || t == "" {
			return s == t
		}
		if s[0] != t[0] {
			return false
		}
		s, t = s[1:], t[1:]
	}
}

// skipMarks drops tags and blanks at the start of s.
func skipMarks(s string) string {
	for s != "" {
		switch {
		case s[0] == ' ' || s[0] == '\t':
			s = s[1:]
		case s[0] == '<' || s[0] == '{':
			n, _ := readTag(s)
			if n == 0 {
				return s
			}
			s = s[n:]
		default:
			return s
		}
	}
	return s
}
