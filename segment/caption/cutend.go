package caption

import (
	"strconv"
	"strings"
)

// cutCue looks at the last lines of a file that may have been cut off: the number and a part of the time of a further cue are no
// words of the cue before. It returns how many of the rows remain.
func (c *cueReader) cutCue(rows []row, from int) int {
	n := len(rows) - 1
	for n >= 0 && c.isBlankRow(rows[n]) {
		n--
	}
	if n < 0 {
		return len(rows)
	}
	s := c.marks(rows[n])
	open := rows[n].to == len(c.src) // no line end: the cut may be in this line
	blankAbove := n > 0 && c.isBlankRow(rows[n-1])
	switch {
	case open && isCutTimeLine(s), open && isTimeMarks(s) && (c.numberAbove(rows[:n], s[0] == '0') || c.nameAbove(rows[:n])):
		if k := c.label(rows[:n], from); k >= 0 {
			return k
		}
		return n
	case isDigits(s) && c.indexed && blankAbove && number(s) == c.index+1:
		return n
	case open && isDigits(s) && blankAbove && (s[0] == '0' || c.indexed && strings.HasPrefix(strconv.Itoa(c.index+1), s)):
		return n
	case open && blankAbove && c.named && c.format == "webvtt":
		return n
	}
	return len(rows)
}

// marks returns a row as the number or the time of a cue is read; a rune that is cut off stands as "-".
func (c *cueReader) marks(w row) string {
	s, _ := plainSigns(strings.ToValidUTF8(c.src[w.from:min(w.to, w.from+200)], "-"))
	return strings.TrimSpace(s)
}

func (c *cueReader) isBlankRow(w row) bool { return isBlank(c.src[w.from:w.to]) }

// numberAbove reports whether the last of rows is the number of the next cue; sure says that it can be so without a blank line above.
func (c *cueReader) numberAbove(rows []row, sure bool) bool {
	n := len(rows) - 1
	if n < 1 || !sure && !c.isBlankRow(rows[n-1]) {
		return false
	}
	s := c.marks(rows[n])
	return c.indexed && isDigits(s) && number(s) == c.index+1
}

// nameAbove reports whether the last of rows is the name of the next cue, in a file that names its cues.
func (c *cueReader) nameAbove(rows []row) bool {
	n := len(rows) - 1
	return c.named && c.format == "webvtt" && n > 0 && !c.isBlankRow(rows[n]) && c.isBlankRow(rows[n-1])
}

// isCutTimeLine reports whether a line could be the beginning of a time line: digits and colons, perhaps with a part of an arrow.
func isCutTimeLine(s string) bool { return strings.IndexByte(s, ':') > 0 && isTimeMarks(s) }

// isTimeMarks reports whether a line holds only what the beginning of a time line can: also letters that stand for digits there, and an
// arrow cut off within its rune.
func isTimeMarks(s string) bool {
	return strings.Trim(s, "0123456789:;,. ->OolI|=–—→⟶") == "" && strings.ContainsAny(s, "0123456789-")
}
