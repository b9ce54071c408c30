package caption

import "time"

// fillerLength is the longest cue that only holds the lines of a roll-up caption between two steps; they are written with 10 ms.
const fillerLength = Time(20 * time.Millisecond)

// isRollUp reports whether lines roll up through the cues, so that each line is shown more than once: at least half of
// the cues that could repeat a line of the cue before do so, and a third of all. It counts the lines that each cue carries on.
func isRollUp(r *reading) bool {
	could, do, all := 0, 0, 0
	var shown []row
	for i := range r.cues {
		cur := r.lines(i)
		if len(cur) == 0 {
			continue
		}
		all++
		r.cues[i].carried = r.overlap(i, shown)
		if len(shown) > 0 && (len(cur) > 1 || r.isFiller(i)) {
			could++
			if r.cues[i].carried > 0 {
				do++
			}
		}
		shown = cur
	}
	return do > 0 && do*2 >= could && do*3 >= all-1
}

func (r *reading) lines(cue int) []row { return r.rows[r.cues[cue].rows[0]:r.cues[cue].rows[1]] }

func (r *reading) isFiller(cue int) bool {
	c := &r.cues[cue]
	return c.hasEnd && c.end-c.start <= fillerLength
}

// overlap returns how many lines of a cue were shown by the cue before, whose lines are shown. It goes by place, and not by text
// alone, since the same words can be said again: the last line is new, but in a filler or above a blank line.
func (r *reading) overlap(cue int, shown []row) int {
	cur := r.lines(cue)
	most := len(cur) - 1
	if r.isFiller(cue) || r.cues[cue].lastBlank || r.cutShort(cur, shown) {
		most = len(cur)
	}
	for n := min(most, len(shown)); n > 0; n-- {
		if r.sameLines(cur[:n], shown[len(shown)-n:]) {
			return n
		}
	}
	if most == len(cur) && len(cur) == 1 && r.cutShort(cur, shown) {
		return 1
	}
	return 0
}

// cutShort reports whether the only line of a cue ends with the file, within or with the line that it carries on.
func (r *reading) cutShort(cur, shown []row) bool {
	if len(cur) != 1 || len(shown) == 0 || !isBlankText(r.src[cur[0].to:]) {
		return false
	}
	s, t := r.src[cur[0].from:cur[0].to], shown[len(shown)-1]
	for k := t.from; k < t.to; k++ {
		plain := skipMarks(r.src[k:t.to])
		s = skipMarks(s)
		if s == "" {
			return true
		}
		if plain == "" || plain[0] != s[0] {
			return isCutTag(s)
		}
		k, s = t.to-len(plain), s[1:]
	}
	return isBlankText(s)
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
	if s == t {
		return true
	}
	for {
		n := 0
		for n < len(s) && n < len(t) && s[n] == t[n] && s[n] > ' ' && s[n] != '<' && s[n] != '{' && s[n] != '&' {
			n++
		}
		s, t = skipMarks(s[n:]), skipMarks(t[n:])
		if s == "" || t == "" {
			return s == t
		}
		if s[0] != t[0] {
			return false
		}
		s, t = s[1:], t[1:]
	}
}

// skipMarks drops tags, blanks and controls at the start of s.
func skipMarks(s string) string {
	for s != "" {
		switch {
		case s[0] <= ' ':
			s = s[1:]
		case s[0] == '<' || s[0] == '{' || s[0] == '&':
			n, _, _ := readTag(s)
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
