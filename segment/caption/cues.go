package caption

import (
	"encoding/json"
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
	oneLine bool   // the line ends were lost
	glued   bool   // and the number of a cue stands before its time
}

// readCues reads r.src, WebVTT or SubRip, into cues and pieces.
func readCues(r *reading) *Error {
	c := cueReader{reading: r, index: -1}
	cues := strings.Count(r.src, "-->")
	lines := strings.Count(r.src, "\n") - 2*cues // but for those of the times and between the cues
	r.cues = make([]rawCue, 0, min(cues, r.maxCues))
	r.rows = make([]row, 0, min(max(lines, cues)+16, len(r.src)/48+16))
	sc := scanRows(r.src)
	blankAbove := true
	for {
		w, ok := sc.next()
		if !ok {
			break
		}
		if w.to-w.from > shortestRange && (r.src[w.from] <= '9' || len(r.cues) == 0) {
			c.cutRow(&sc, &w)
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
	if tl.rest != "" && (c.format == "subrip" || c.oneLine) {
		c.wordsBehind(w, tl.rest)
	}
	return err
}

// wordsBehind keeps the words that stand behind the times of a cue on their line.
func (c *cueReader) wordsBehind(w row, rest string) {
	words := afterSettings(rest)
	at := strings.LastIndex(c.src[w.from:w.to], words)
	if words == "" || at < 0 {
		return
	}
	if !c.oneLine {
		c.warn.add(w.line, "words on the line of the time; kept")
	}
	c.rows = append(c.rows, row{from: w.from + at, to: w.from + at + len(words), line: w.line})
}

// hasSetting reports whether a setting of WebVTT stands behind the times (6.3).
func hasSetting(rest string) bool {
	for _, word := range strings.Fields(rest) {
		if isSetting(word) {
			return true
		}
	}
	return false
}

func isSetting(word string) bool {
	name, _, _ := strings.Cut(word, ":")
	switch name {
	case "align", "line", "position", "region", "size", "vertical":
		return len(name) < len(word)
	}
	return false
}

// afterSettings returns what stands behind the settings of WebVTT or the coordinates of SubRip (X1:100) that follow the times of a cue.
func afterSettings(rest string) string {
	for rest != "" {
		word, after, _ := strings.Cut(rest, " ")
		coordinate := len(word) > 3 && strings.IndexByte("XYxy", word[0]) >= 0 && strings.IndexByte("12", word[1]) >= 0 && word[2] == ':'
		if !isSetting(word) && !coordinate {
			break
		}
		rest = strings.TrimSpace(after)
	}
	return rest
}

// shortestRange is a length below which no line holds the times of two cues.
const shortestRange = len("0:01.0->0:02.0 0:03.0->0:04.0")

// cutRow cuts a line that holds the times of more than one cue before the second of them, with its number, as where the line ends of a file
// were lost; the rest comes next.
func (c *cueReader) cutRow(sc *rowScanner, w *row) {
	s := c.src[w.from:w.to]
	arrow := strings.Index(s, "-->")
	if arrow < 0 {
		return
	}
	header := len(c.cues) == 0 && isVTTHeader(s)
	if !header && (!strings.Contains(s[arrow+len("-->"):], "-->") || !isTimeRow(s)) {
		return
	}
	first, _, _ := strings.Cut(s, " ")
	cut := 0
	for at := arrow; cut == 0; {
		if at > arrow || header {
			cut = timeBefore(s, at, c.oneLine && c.glued || isDigits(first), w.to == len(c.src))
		}
		more := strings.Index(s[at+len("-->"):], "-->")
		if more < 0 {
			break
		}
		at += len("-->") + more
	}
	if cut == 0 {
		return
	}
	if !c.oneLine {
		c.oneLine, c.glued = true, isDigits(first)
		c.warn.add(w.line, "the times of several cues on one line; cut there")
	}
	sc.pos = w.from + cut
	sc.line--
	w.to = sc.pos
}

// timeBefore returns where the time line begins whose arrow stands at an offset in s, with the number of its cue; 0 where there is none.
// It needs an end, but where the file ends with s.
func timeBefore(s string, arrow int, numbered, open bool) int {
	word := func(end int) int { // where the word begins that ends there
		t := strings.TrimRight(s[max(0, end-40):end], " \t")
		return end - min(end, 40) + strings.LastIndexAny(t, " \t") + 1
	}
	at := word(arrow)
	if tl, ok := readTidyLine(s[at:min(len(s), at+60)]); !ok || !tl.hasEnd && !open {
		return 0
	}
	if number := word(at); numbered && number < at && isDigits(strings.TrimSpace(s[number:at])) {
		return number
	}
	return at
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
		c.warn.add(line, inFrames)
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
	if c.open && c.isData(c.rows[from:n]) {
		c.warn.add(c.rows[from].line, "cue that holds data and no words; left out")
		n = from
	}
	c.rows = c.rows[:n]
	if c.open {
		cue := &c.cues[len(c.cues)-1]
		cue.rows[1], cue.lastBlank = n, below && n > from
	}
	c.open = false
}

// isData reports whether the lines of a cue are JSON, as those of metadata are (WebVTT 1.4).
func (c *cueReader) isData(rows []row) bool {
	if len(rows) == 0 {
		return false
	}
	first, last := rows[0], rows[len(rows)-1]
	if strings.IndexByte("{[ \t", c.src[first.from]) < 0 {
		return false
	}
	inner, ok := strings.CutPrefix(strings.TrimLeft(c.src[first.from:last.to], " \t["), "{")
	if !ok {
		return false
	}
	if isBlankText(c.src[last.to:]) && strings.HasPrefix(strings.TrimLeft(inner, " \t\r\n"), `"`) {
		return true // it may be cut off
	}
	return strings.IndexByte("}]", c.src[last.to-1]) >= 0 && json.Valid([]byte(c.src[first.from:last.to]))
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
	if s != "" && len(s) < 40 && (s[0] < 'A' || s[0] > 'z' || s[0] == '[') {
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
	if !c.indexed && c.format == "subrip" && len(c.cues) == 1 && v == 2 && style == "" && blankAbove && n == len(rows)-1 && c.numbersFrom(rows[n].to) {
		c.indexed, c.index = true, 1
		c.warn.add(rows[n].line, "the cues are numbered from 2 on; these numbers are no words")
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

// numbersFrom reports whether the line above each further time line is the number of that cue, from 3 on.
func (c *cueReader) numbersFrom(pos int) bool {
	sc := scanRows(c.src[pos:])
	sc.next() // the end of the line before
	sc.next() // the time of the second cue
	above, cue := "", 3
	for {
		w, ok := sc.next()
		if !ok {
			return cue > 3
		}
		s := c.src[pos+w.from : pos+w.to]
		if isTimeRow(s) {
			if number(above) != cue || !isDigits(above) {
				return false
			}
			cue++
		}
		above = strings.TrimSpace(s)
	}
}

// indexMarks parts a cue's number from marks around it, as in "#1", "1." and "(1)"; digits is empty where it is none.
func indexMarks(s string) (digits, style string) {
	if s != "" && s[0] >= 'A' && s[0] <= 'z' && s[0] != '[' {
		return "", ""
	}
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
		case strings.HasPrefix(s, "Kind:"):
			if kind := strings.ToLower(strings.TrimSpace(s[len("Kind:"):])); kind == "chapters" || kind == "metadata" || kind == "descriptions" {
				c.warn.add(w.line, "the file says that it holds "+kind+", not what is said; read as captions")
			}
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
