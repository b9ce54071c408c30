package caption

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// A cueReader reads WebVTT and SubRip by the same lenient rules: a time line opens a cue; what stands above it may be
// its number; everything else until the next time line is its words.
type cueReader struct {
	*reading
	open    bool
	index   int    // number of the cue before, -1 for none
	indexed bool   // the first cue has a number, so a number above a time line can be one
	style   string // the marks around that number, as in "#1" or "1."
	bare    bool   // a cue after the first has no number
	unsure  []int  // cues that end with a number which may be that of the next
	named   bool   // cues have names
	skip    bool   // inside a NOTE, STYLE or REGION block
}

// readCues reads r.src, WebVTT or SubRip, into cues and pieces.
func readCues(r *reading) *Error {
	c := cueReader{reading: r, index: -1}
	r.cues = make([]rawCue, 0, 16+len(r.src)/128)
	r.rows = make([]row, 0, 16+len(r.src)/48)
	sc := scanRows(r.src)
	blankAbove := true
	for {
		w, ok := sc.next()
		if !ok {
			break
		}
		s := r.src[w.from:w.to]
		if tl, ok := readTimeLine(s); ok {
			c.close()
			if err := c.openCue(tl, w); err != nil {
				return err
			}
			blankAbove = false
			continue
		}
		c.text(w, s, blankAbove)
		blankAbove = w.from == w.to
	}
	c.finish()
	markUp(r)
	return nil
}

// openCue begins a cue at its time line.
func (c *cueReader) openCue(tl timeLine, w row) *Error {
	if len(c.cues) == 0 && c.format == "subrip" && tl.point && (!c.indexed || hasSetting(tl.rest)) {
		c.format = "webvtt"
		c.warn.add(w.line, "no WEBVTT line at the start; read as WebVTT because of its times")
	}
	c.skip, c.open = false, true
	c.warnTimes(tl, w.line)
	if n := len(c.cues); tl.noStart && n > 0 {
		tl.start = max(c.cues[n-1].start, c.cues[n-1].end)
	}
	err := c.addCue(rawCue{start: tl.start, end: tl.end, hasEnd: tl.hasEnd, line: w.line, rows: [2]int{len(c.rows), len(c.rows)}})
	if c.format == "subrip" && tl.rest != "" && strings.IndexAny(tl.rest, ":%") < 0 {
		c.warn.add(w.line, "words on the line of the time; kept")
		at := w.from + max(0, strings.LastIndex(c.src[w.from:w.to], tl.rest))
		c.rows = append(c.rows, row{from: at, to: at + len(tl.rest), line: w.line})
	}
	return err
}

// hasSetting reports whether a setting of WebVTT stands behind the times (6.3).
func hasSetting(rest string) bool {
	for _, name := range [...]string{"align:", "line:", "position:", "region:", "size:", "vertical:"} {
		if strings.Contains(rest, name) {
			return true
		}
	}
	return false
}

func (c *cueReader) warnTimes(tl timeLine, line int) {
	if tl.fault&clockBroken != 0 {
		c.warn.add(line, "time line not understood, expected one such as 00:00:01.000 --> 00:00:04.000; its words follow those above")
		return
	}
	if !tl.hasEnd {
		c.warn.add(line, "cue without an end; it ends where the next begins")
	}
	if tl.thin {
		c.warn.add(line, "arrow not written as -->; read as one")
	}
	if tl.noStart {
		c.warn.add(line, "cue without a start; it begins where the one before ends")
	}
	if tl.fault&clockFrames != 0 {
		c.warn.add(line, "frames after the seconds; counted as 30 a second")
	}
	if tl.fault&clockDotted != 0 {
		c.warn.add(line, "time without colons; read as hours, minutes and seconds")
	}
	if tl.fault&clockMended != 0 {
		c.warn.add(line, "letters in the place of digits in a time; read as digits")
	}
	if tl.fault&clockNegative != 0 {
		c.warn.add(line, "time below zero; read as zero")
	}
	if tl.fault&clockCarried != 0 {
		c.warn.add(line, "minutes or seconds above 59; carried over")
	}
}

// text takes a line that is no time line.
func (c *cueReader) text(w row, s string, blankAbove bool) {
	if w.from == w.to {
		c.skip = false
	}
	if c.format == "webvtt" && blankAbove && (startsBlock(s) || c.open && isVTTHeader(strings.TrimLeft(s, "\ufeff"))) { // a second header where files were joined
		c.skip = true
	}
	if !c.skip {
		c.rows = append(c.rows, w)
	}
}

// startsBlock: NOTE, STYLE and REGION open a block of no words, but only after a blank line (WebVTT 4.1).
func startsBlock(s string) bool {
	for _, name := range [...]string{"NOTE", "STYLE", "REGION"} {
		if rest, ok := strings.CutPrefix(s, name); ok && (rest == "" || rest[0] == ' ' || rest[0] == '\t') {
			return true
		}
	}
	return strings.HasPrefix(s, "::cue")
}

// close ends the open cue at a time line: the lines since its own time line are its words, but for the number
// or name of the next cue.
func (c *cueReader) close() {
	from := 0
	if c.open {
		from = c.cues[len(c.cues)-1].rows[0]
	}
	rows := c.rows[from:]
	if n := c.label(rows, from); n >= 0 {
		rows = rows[:n]
	}
	if !c.open { // before the first time line
		c.header(rows)
		rows = rows[:0]
	}
	c.keep(rows, from)
}

// keep makes rows the lines of the open cue, without the blank ones.
func (c *cueReader) keep(rows []row, from int) {
	n := from
	empty, below := false, false
	for _, w := range rows {
		if !isEmptyRow(c.src[w.from:w.to]) {
			if empty && n > from {
				c.warn.add(w.line, "empty line inside a cue; the words below it are kept with the cue")
			}
			empty, below = false, false
			c.rows[n] = w
			n++
		} else if w.from == w.to {
			empty = true
		} else if !empty {
			below = true
		}
	}
	c.rows = c.rows[:n]
	if c.open {
		cue := &c.cues[len(c.cues)-1]
		cue.rows[1], cue.lastBlank = n, below && n > from
	}
	c.open = false
}

// isEmptyRow reports whether nothing of a line is to be seen: blanks, also as references, and tags around nothing.
func isEmptyRow(s string) bool {
	if s == "" || s[0] != '&' && s[0] != '<' && s[0] > ' ' && s[0] < utf8.RuneSelf {
		return s == ""
	}
	for s = skipMarks(s); s != ""; s = skipMarks(s) {
		if n := nameLength(s); s[0] == '&' && isBlank(unescape(s[:n])) {
			s = s[n:]
			continue
		}
		return isBlank(s)
	}
	return true
}

// label returns the place in rows of the number or name of the cue that begins after them, -1 for none.
func (c *cueReader) label(rows []row, from int) int {
	n := len(rows) - 1
	for n >= 0 && isBlank(c.src[rows[n].from:rows[n].to]) {
		n--
	}
	if n < 0 {
		return -1
	}
	s := trimFront(strings.TrimRight(c.src[rows[n].from:rows[n].to], " \t"))
	blankAbove := n == 0 && !c.open || n > 0 && isBlank(c.src[rows[n-1].from:rows[n-1].to])
	plain := s
	if len(s) < 40 {
		plain, _ = plainSigns(s)
	}
	digits, style := indexMarks(plain)
	if digits == "" || style != "" && c.format == "webvtt" {
		c.bare = true
		if c.format == "webvtt" && n == len(rows)-1 && blankAbove {
			c.named = true
			return n // any line can be the name of a cue (WebVTT 4.1)
		}
		return -1
	}
	v := number(digits)
	if !c.open && len(c.cues) == 0 {
		c.indexed, c.style = true, style
	}
	next := c.index >= 0 && v == c.index+1
	alone := c.open && n == 0 // it would leave its cue without a word
	switch {
	case !c.indexed && c.format == "webvtt" && c.open && blankAbove && n == len(rows)-1 && !c.noWords(rows[:n]):
		c.warn.add(rows[n].line, "number above the time of a cue in a file that does not number its cues; taken for the name of the cue")
		return n // WebVTT 4.1
	case !c.indexed || style != c.style || alone && !blankAbove:
		c.bare = true
		return -1
	case !blankAbove && !next && !c.open:
		return -1
	case !blankAbove && !next:
		c.unsure = append(c.unsure, len(c.cues)-1)
		return -1
	}
	c.index = v
	return n
}

// indexMarks parts a cue's number from marks around it, as in "#1", "1." and "(1)"; digits is empty where it is none.
func indexMarks(s string) (digits, style string) {
	digits = strings.TrimLeft(s, "#([")
	front := s[:len(s)-len(digits)]
	digits = strings.TrimRight(digits, ".:)]")
	style = front + s[len(front)+len(digits):]
	if !isDigits(digits) || len(style) > 2 {
		return "", ""
	}
	return digits, style
}

// dropUnsure takes the numbers that do not go on by one, and have no empty line above, for those of the cues, where every other cue has one.
func (c *cueReader) dropUnsure() {
	if c.bare {
		return
	}
	for _, i := range c.unsure {
		cue := &c.cues[i]
		cue.rows[1]--
		c.warn.add(c.rows[cue.rows[1]].line, "number above a time that does not go on by one; taken for the number of the cue")
	}
}

// number reads digits; what is too long for a count of cues is -2.
func number(s string) int {
	if len(s) > 9 {
		return -2
	}
	v := 0
	for i := 0; i < len(s); i++ {
		v = v*10 + int(s[i]-'0')
	}
	return v
}

// header takes the lines before the first cue.
func (c *cueReader) header(rows []row) {
	for _, w := range rows {
		s := strings.TrimLeft(c.src[w.from:w.to], "\ufeff")
		switch {
		case isVTTHeader(s):
			c.title = strings.Trim(s[len("WEBVTT"):], " \t-–—:")
		case strings.HasPrefix(s, "Language:"):
			c.language = strings.TrimSpace(s[len("Language:"):])
		case strings.HasPrefix(s, "X-TIMESTAMP-MAP"):
			c.warn.add(w.line, "the file maps its times to the clock of a stream (X-TIMESTAMP-MAP); the map is not applied")
		case c.format == "subrip" && !isBlank(s):
			c.warn.add(w.line, "text before the first cue; left out")
		}
	}
}

// finish ends the last cue.
func (c *cueReader) finish() {
	if !c.open {
		return
	}
	from := c.cues[len(c.cues)-1].rows[0]
	rows := c.rows[from:]
	if n := c.cutCue(rows, from); n < len(rows) {
		c.warn.add(rows[n].line, cutFile)
		rows = rows[:n]
	} else if c.noLines(rows) {
		c.warn.add(c.cues[len(c.cues)-1].line, "the file ends behind the time of a cue; its words are missing")
	} else if w := rows[len(rows)-1]; w.to == len(c.src) {
		c.warn.add(w.line, openEnd)
	}
	c.keep(rows, from)
	c.dropUnsure()
}

// noWords reports whether nothing is written in rows.
func (c *cueReader) noWords(rows []row) bool {
	return !slices.ContainsFunc(rows, func(w row) bool { return !c.isBlankRow(w) })
}

// noLines reports whether the rows below the last time hold nothing, not even the empty line that ends a cue.
func (c *cueReader) noLines(rows []row) bool {
	for _, w := range rows {
		if w.from == w.to || !c.isBlankRow(w) {
			return false
		}
	}
	return true
}
