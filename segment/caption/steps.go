package caption

import (
	"strings"
	"time"
)

// stepGap is the longest silence between two showings of one growing line.
const stepGap = Time(time.Second)

// isGrowing reports whether lines are shown again with a word more each time, as live captions do: in at least half of the cues, and in two
// of them running.
func isGrowing(r *reading) bool {
	do, run, longest, all := 0, 0, 0, -1
	for i := range r.cues {
		if len(r.lines(i)) == 0 {
			continue
		}
		all++
		run++
		if _, ok := r.growth(i); ok {
			do++
		} else {
			run = 0
		}
		longest = max(longest, run)
	}
	return longest >= 2 && do*2 >= all
}

// growth returns what a cue has more than the last one before it with any lines, if it begins with all of that and follows at once. The same
// words once more are no growth: they were said again.
func (r *reading) growth(cue int) (more []row, ok bool) {
	if len(r.lines(cue)) == 0 {
		return nil, false
	}
	before := cue - 1
	for before >= 0 && len(r.lines(before)) == 0 {
		before--
	}
	if before < 0 || !r.touches(before, cue) {
		return nil, false
	}
	prev, rows := r.lines(before), r.lines(cue)
	first := rows[0]
	s, pos := r.src[first.from:first.to], first.from
	for _, w := range prev {
		for t := skipMarks(r.src[w.from:w.to]); t != ""; t = skipMarks(t) {
			s = skipMarks(s)
			for s == "" {
				rows = rows[1:]
				if len(rows) == 0 {
					return nil, false
				}
				first = rows[0]
				s = skipMarks(r.src[first.from:first.to])
			}
			if s[0] != t[0] {
				return nil, false
			}
			s, t = s[1:], t[1:]
		}
	}
	rest := skipMarks(s)
	pos = first.to - len(s)
	if rest == "" {
		return rows[1:], len(rows) > 1
	}
	if len(rest) == len(s) && isWordRune(firstRune(rest)) {
		return nil, false // it ends inside a word
	}
	first.from = pos
	return append([]row{first}, rows[1:]...), true
}

func (r *reading) touches(before, cue int) bool {
	return !r.cues[before].hasEnd || r.cues[cue].start <= r.cues[before].end+stepGap
}

// isUnderlined reports whether each line is shown again and again with one word after the other underlined.
func isUnderlined(r *reading) bool {
	do := 0
	for i := 1; i < len(r.cues); i++ {
		rows := r.lines(i)
		if len(rows) > 0 && r.underline(rows) >= 0 && r.sameCue(i) {
			do++
		}
	}
	return do >= 2 && do*3 >= len(r.cues)
}

// sameCue reports whether a cue shows the same words as the cue before, and follows at once.
func (r *reading) sameCue(cue int) bool {
	a, b := r.lines(cue-1), r.lines(cue)
	return len(a) == len(b) && len(a) > 0 && r.touches(cue-1, cue) && r.sameLines(a, b)
}

// underline returns how many letters and marks stand before the underlined word, -1 where none is underlined.
func (r *reading) underline(rows []row) int {
	n := 0
	for _, w := range rows {
		s := r.src[w.from:w.to]
		i := strings.Index(s, "<u>")
		if i >= 0 {
			return n + visible(s[:i])
		}
		n += visible(s)
	}
	return -1
}

// visible counts the bytes of s that are no tags and no blanks.
func visible(s string) int {
	n := 0
	for s = skipMarks(s); s != ""; s = skipMarks(s[1:]) {
		n++
	}
	return n
}

// markUnderlined makes one cue of each run of cues with the same words; the underlined word of each gets the time of that cue.
func markUnderlined(r *reading) {
	r.tagged = true
	cues := r.cues[:0:0]
	for i := 0; i < len(r.cues); {
		j := i + 1
		for j < len(r.cues) && r.sameCue(j) {
			j++
		}
		c := r.cues[i]
		c.end, c.hasEnd = r.cues[j-1].end, r.cues[j-1].hasEnd
		c.first = len(r.pieces)
		marks := r.underlines(i, j)
		seen, voice := 0, ""
		for _, w := range r.lines(i) {
			from := len(r.pieces)
			voice = r.markLine(w, voice)
			line := append([]piece(nil), r.pieces[from:]...)
			r.pieces = r.pieces[:from]
			for _, p := range line {
				marks = r.timePiece(p, seen, marks)
				seen += visible(p.text)
			}
		}
		c.last = len(r.pieces)
		cues = append(cues, c)
		i = j
	}
	r.cues = cues
}

// A wordStart says at which visible byte of a line a word begins, and when.
type wordStart struct {
	byte int
	at   Time
}

// underlines returns the starts of the underlined words of the cues [first,last), in the order of their places.
func (r *reading) underlines(first, last int) []wordStart {
	var starts []wordStart
	for i := first; i < last; i++ {
		n := r.underline(r.lines(i))
		if n >= 0 && (len(starts) == 0 || n > starts[len(starts)-1].byte) {
			starts = append(starts, wordStart{n, r.cues[i].start})
		}
	}
	return starts
}

// timePiece adds a piece, cut where words begin; seen is how many visible bytes came before it. It returns the starts not yet used.
func (r *reading) timePiece(p piece, seen int, starts []wordStart) []wordStart {
	for pos := 0; len(starts) > 0; starts = starts[1:] {
		for pos < len(p.text) && (seen < starts[0].byte || p.text[pos] == ' ') {
			if p.text[pos] != ' ' {
				seen++
			}
			pos++
		}
		if pos == len(p.text) {
			break
		}
		if pos > 0 {
			head := p
			head.text = p.text[:pos]
			r.pieces = append(r.pieces, head)
			p.text, p.pos, p.newline = p.text[pos:], p.pos+pos, false
			pos = 0
		}
		p.at, p.timed = starts[0].at, true
	}
	r.pieces = append(r.pieces, p)
	return starts
}
