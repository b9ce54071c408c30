package caption

import (
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// A stampShape is a way in which transcripts write the time of a block.
type stampShape uint8

const (
	noStamp     stampShape = iota
	leadSquare             // [0:01] words
	leadRound              // (0:01) words
	leadBare               // 0:01 words, 0:01 - words, 0m33s words
	leadName               // Name (0:01): words
	nameAlone              // Name 0:01, with the words below
	alone                  // 0:01, with the words below (or above)
	trailSquare            // words [0:01]
	trailRound             // words (0:01)
	trailBare              // words 0:01
	leadGlued              // 0:01words, where a page was copied without its blanks
	stampShapes
)

// A stamp is a time on a line of a transcript.
type stamp struct {
	shape    stampShape
	at, end  Time
	hasEnd   bool
	fraction bool // it has decimals, so it was not cut to whole seconds
	frames   bool // or frames
	from, to int  // what is left of the line, within it
	lone     bool // nothing else stands on the line
	speaker  string
}

// leadingStamp finds a time at the start of a line.
func leadingStamp(s string) (st stamp, ok bool) {
	i := len(s) - len(strings.TrimLeft(s, " \t\u00a0\ufeff\u200b\u200e\u200f\u2060*•>·"))
	if strings.HasPrefix(s[i:], "- ") || strings.HasPrefix(s[i:], "– ") {
		i += strings.IndexByte(s[i:], ' ') + 1
	}
	i += listNumber(s[i:])
	st.to = len(s)
	if n := st.bracketed(s[i:]); n > 0 {
		st.shape = leadSquare
		if s[i] == '(' {
			st.shape = leadRound
		}
		st.from = i + n
		st.from += linkTarget(s[st.from:])
	} else if n := st.clock(s[i:]); n > 0 {
		st.shape = leadBare
		st.from = i + n
		rest := s[st.from:]
		switch {
		case isDayTime(rest):
			return stamp{}, false
		case rest != "" && unicode.IsLetter(firstRune(rest)):
			st.shape = leadGlued
		case rest != "" && !strings.ContainsRune(" \t-–—:|,.*\u00a0", firstRune(rest)):
			return stamp{}, false
		}
	} else {
		return namedStamp(s)
	}
	st.from = len(s) - len(strings.TrimLeft(s[st.from:], " \t-–—:|*\u00a0"))
	st.lone = isBlank(s[st.from:])
	if st.lone && (st.shape == leadBare || st.shape == leadGlued) {
		st.shape = alone
	}
	return st, true
}

// listNumber returns the length of a number before a time, as in "3. [0:09]" and "3) 0:09"; 0 for none.
func listNumber(s string) int {
	n := digitRun([]byte(s[:min(len(s), 5)]))
	if n == 0 || n > 4 || n == len(s) || s[n] != '.' && s[n] != ')' {
		return 0
	}
	rest := trimFront(s[n+1:])
	var st stamp
	if len(rest) == len(s)-n-1 || st.bracketed(rest) == 0 && st.clock(rest) == 0 {
		return 0
	}
	return len(s) - len(rest)
}

// linkTarget returns the length of an address in round brackets, which follows a time where it was a link.
func linkTarget(s string) int {
	if !strings.HasPrefix(s, "(http") {
		return 0
	}
	return strings.IndexByte(s, ')') + 1
}

// namedStamp finds "Name (0:25): words" and "Name: [0:25] words".
func namedStamp(s string) (st stamp, ok bool) {
	i := strings.IndexAny(s[:min(len(s), 60)], "([")
	if i <= 0 || !isName(s[:i]) {
		return stamp{}, false
	}
	n := st.bracketed(s[i:])
	if n == 0 {
		return stamp{}, false
	}
	rest, colon := strings.CutPrefix(s[i+n:], ":")
	if !colon && !strings.HasSuffix(strings.TrimRight(s[:i], " \t*"), ":") {
		return stamp{}, false
	}
	st.shape, st.speaker = leadName, strings.Trim(s[:i], " \t:-–*")
	st.from, st.to = len(s)-len(strings.TrimLeft(rest, " \t*")), len(s)
	if isBlank(rest) {
		st.shape, st.lone = nameAlone, true
	}
	return st, true
}

// trailingStamp finds a time at the end of a line.
func trailingStamp(s string) (st stamp, ok bool) {
	end := strings.TrimRight(s, " \t\u00a0.*")
	if end == "" {
		return stamp{}, false
	}
	shape, open := trailBare, -1
	switch end[len(end)-1] {
	case ')':
		shape, open = trailRound, strings.LastIndexByte(end, '(')
	case ']':
		shape, open = trailSquare, strings.LastIndexByte(end, '[')
	default:
		open = strings.LastIndexAny(end, " \t") + 1
	}
	if open <= 0 || isBlank(end[:open]) {
		return stamp{}, false
	}
	n := 0
	if shape == trailBare {
		n = st.clock(end[open:])
	} else {
		n = st.bracketed(end[open:])
	}
	if n == 0 || open+n != len(end) {
		return stamp{}, false
	}
	st.shape = shape
	st.to = len(strings.TrimRight(end[:open], " \t-–—|"))
	return st, true
}

// bracketed reads "[0:29]", "(0:29)" or "[0:29 - 0:31]" and returns its length.
func (st *stamp) bracketed(s string) int {
	if s == "" || s[0] != '[' && s[0] != '(' {
		return 0
	}
	shut := "]"
	if s[0] == '(' {
		shut = ")"
	}
	i := 1 + len(s[1:]) - len(trimFront(s[1:]))
	n := st.clock(s[i:])
	if n == 0 {
		return 0
	}
	i += n
	rest := trimFront(s[i:])
	if !strings.HasPrefix(rest, shut) {
		return 0
	}
	return len(s) - len(rest) + 1
}

// clock reads a time, or two with a dash between them, and returns the length.
func (st *stamp) clock(s string) int {
	at, n, fraction := transcriptClock(s)
	if n == 0 {
		return 0
	}
	st.at, st.fraction, st.hasEnd = at, fraction, false
	_, _, fault := readClock(s)
	st.frames = fault&clockFrames != 0
	rest := trimFront(s[n:])
	for _, dash := range [...]string{"-->", "->", "--", "-", "–", "—", "→", "to "} {
		if after, ok := strings.CutPrefix(rest, dash); ok {
			after = trimFront(after)
			if end, m, _ := transcriptClock(after); m > 0 && end >= at {
				st.end, st.hasEnd = end, true
				return len(s) - len(after) + m
			}
			break
		}
	}
	return n
}

// transcriptClock reads m:ss, mm:ss.fff, h:mm:ss or 1h02m03s. Unlike a cue's time it must be a proper time of a player:
// seconds and minutes after hours have two digits.
func transcriptClock(s string) (t Time, n int, fraction bool) {
	if s == "" || s[0] < '0' || s[0] > '9' {
		return 0, 0, false
	}
	t, n, fault := readClock(s)
	if n == 0 {
		t, n = unitClock(s)
		return t, n, false
	}
	if fault&(clockTooLate|clockCarried|clockNegative) != 0 {
		return 0, 0, false
	}
	whole := s[:n]
	if i := strings.IndexAny(whole, ".,;"); i >= 0 {
		whole, fraction = whole[:i], true
	}
	part := strings.Split(whole, ":")
	if len(part) == 4 {
		fraction = true
	}
	if len(part[0]) > 3 {
		return 0, 0, false
	}
	for _, p := range part[1:] {
		if len(p) != 2 {
			return 0, 0, false
		}
	}
	if n < len(s) && s[n] >= '0' && s[n] <= '9' {
		return 0, 0, false
	}
	return t, n, fraction
}

func isASCIILetter(c byte) bool { return c|0x20 >= 'a' && c|0x20 <= 'z' }

// unitClock reads 1h02m03s or 0m33s: two units at least.
func unitClock(s string) (Time, int) {
	var total Time
	units, i := 0, 0
	for _, u := range [...]struct {
		name byte
		of   Time
	}{{'h', Time(time.Hour)}, {'m', Time(time.Minute)}, {'s', Time(time.Second)}} {
		j := i + digitRun([]byte(s[i:min(len(s), i+4)]))
		if j > i && j-i < 4 && j < len(s) && s[j] == u.name {
			total += Time(number(s[i:j])) * u.of
			i = j + 1
			units++
		}
	}
	if units < 2 || i < len(s) && (isASCIILetter(s[i]) || s[i] >= '0' && s[i] <= '9') {
		return 0, 0
	}
	return total, i
}

// isDayTime reports whether what follows a time makes it one of the day: "9:30 am", "10:15 o'clock".
func isDayTime(rest string) bool {
	rest = strings.ToLower(strings.TrimLeft(rest, " \t"))
	for _, w := range [...]string{"am", "pm", "a.m", "p.m", "o'clock", "o’clock"} {
		if after, ok := strings.CutPrefix(rest, w); ok && (after == "" || !isWordRune(firstRune(after))) {
			return true
		}
	}
	return false
}

func firstRune(s string) rune {
	r, _ := utf8.DecodeRuneInString(s)
	return r
}

// isName reports whether s could be the name of a speaker: one to four words, the first with a capital, no marks of a sentence.
func isName(s string) bool {
	s = strings.Trim(s, " \t:-–*")
	if s == "" || len(s) > 40 || !unicode.IsUpper(firstRune(s)) || strings.ContainsAny(s, ",;!?\"“”") {
		return false
	}
	return len(strings.Fields(s)) <= 4
}
