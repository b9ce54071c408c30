package caption

import "strings"

// A spokenLine is one line of a cue in a format that knows no lines of the file.
type spokenLine struct {
	text  string // without blanks
	first int    // its first piece
}

// dropCarried leaves out the lines that a cue shows again because captions that roll up were turned into this format. The rules are those
// of isRollUp and overlap.
func (r *reading) dropCarried() {
	carried := make([]int, len(r.cues)) // by cue: how many of its lines the one before has shown
	lines := make([][]spokenLine, len(r.cues))
	could, do, all := 0, 0, 0
	var shown []spokenLine
	for i := range r.cues {
		cur := r.spokenLines(i)
		lines[i] = cur
		if len(cur) == 0 {
			continue
		}
		all++
		most := len(cur) - 1
		if r.isFiller(i) {
			most = len(cur)
		}
		carried[i] = carriedLines(cur[:most], shown)
		if len(shown) > 0 && most > 0 {
			could++
			if carried[i] > 0 {
				do++
			}
		}
		shown = cur
	}
	if do == 0 || do*2 < could || do*3 < all-1 {
		return
	}
	kept := r.cues[:0]
	for i, c := range r.cues {
		if n := carried[i]; n > 0 && n == len(lines[i]) {
			continue
		} else if n > 0 {
			c.first = lines[i][n].first
		}
		kept = append(kept, c)
	}
	r.cues = kept
}

// carriedLines returns how many of the first lines of cur are the last of those shown before.
func carriedLines(cur, shown []spokenLine) int {
next:
	for n := min(len(cur), len(shown)); n > 0; n-- {
		for k := range n {
			if cur[k].text != shown[len(shown)-n+k].text {
				continue next
			}
		}
		return n
	}
	return 0
}

// spokenLines cuts the pieces of a cue into lines; lines of blanks alone are none.
func (r *reading) spokenLines(cue int) []spokenLine {
	c := r.cues[cue]
	var lines []spokenLine
	for p := c.first; p < c.last; {
		first := p
		var text strings.Builder
		for {
			for _, word := range strings.Fields(r.pieces[p].text) {
				text.WriteString(word)
			}
			p++
			if p == c.last || r.pieces[p].newline {
				break
			}
		}
		if text.Len() > 0 {
			lines = append(lines, spokenLine{text.String(), first})
		}
	}
	return lines
}
