package caption

import (
	"strings"
	"time"
	"unicode/utf8"
)

// A clockFault says what was odd about a written time.
type clockFault uint8

const (
	clockNegative clockFault = 1 << iota // below zero; read as zero
	clockTooLate                         // beyond 24 hours; read as a time beyond maxClock
	clockCarried                         // minutes or seconds above 59
	clockFrames                          // frames after the seconds, as in an editing program
	clockDotted                          // no colons
	clockMended                          // letters for digits
	clockBroken                          // not to be read
)

const maxClock = Time(24 * time.Hour)

// frameRate is what frames are counted in where a file does not say; at 24 or 25 a second a time comes out at most 0.2 s early.
const frameRate = 30

// readClock reads a time such as 1:02:03.456 at the start of s and returns it with the number of bytes that it takes,
// 0 where there is none. Hours may be missing; the decimals may be any number, after a dot or a comma, or three after a colon. Two digits
// after a third colon (or semicolon) are frames.
func readClock(s string) (t Time, n int, fault clockFault) {
	if t, ok := plainClock(s); ok {
		return t, len("00:00:00.000"), 0
	}
	from := 0
	if strings.HasPrefix(s, "-") {
		fault, from = clockNegative, 1
	}
	part, width, parts, n := clockParts(s, from)
	if parts < 2 {
		return 0, 0, 0
	}
	var frac time.Duration
	if parts == 4 && width <= 2 && part[3] < frameRate {
		parts--
		fault |= clockFrames
		frac = time.Duration(part[3]) * time.Second / frameRate
	} else if parts == 4 || parts == 3 && width == 3 { // decimals after a colon
		parts--
		frac = fraction(s[n-width : n])
	} else if n+1 < len(s) && (s[n] == '.' || s[n] == ',') && s[n+1] >= '0' && s[n+1] <= '9' {
		digits := n + 1
		n = digits
		for n < len(s) && s[n] >= '0' && s[n] <= '9' {
			n++
		}
		frac = fraction(s[digits:n])
	}
	var sec int64
	for k, p := range part[:parts] {
		if k > 0 && p > 59 {
			fault |= clockCarried
		}
		sec = sec*60 + p
	}
	switch {
	case sec > int64(maxClock)/int64(time.Second):
		return maxClock + 1, n, fault | clockTooLate
	case fault&clockNegative != 0:
		if sec == 0 && frac == 0 {
			fault &^= clockNegative
		}
		return 0, n, fault
	}
	return Time(time.Duration(sec)*time.Second + frac), n, fault
}

// clockParts reads up to four numbers with colons between them, from an offset on; it returns them, the width of the last, their number
// and where they end. A number beyond a million million stays there.
func clockParts(s string, from int) (part [4]int64, width, parts, end int) {
	for i := from; parts < 4; i++ {
		start := i
		var v int64
		for i < len(s) && s[i] >= '0' && s[i] <= '9' {
			if v < 1e12 {
				v = v*10 + int64(s[i]-'0')
			}
			i++
		}
		if i == start {
			break
		}
		part[parts], width, end = v, i-start, i
		parts++
		if i >= len(s) || s[i] != ':' && (s[i] != ';' || parts != 3) {
			break
		}
	}
	return part, width, parts, end
}

// plainClock reads the usual form, 00:00:00.000 with a dot or a comma, which nearly all times have.
func plainClock(s string) (Time, bool) {
	const form = "00:00:00.000"
	if len(s) < len(form) || len(s) > len(form) && s[len(form)] >= '0' && s[len(form)] <= '9' {
		return 0, false
	}
	b := (*[len(form)]byte)([]byte(s[:len(form)]))
	if b[2] != ':' || b[5] != ':' || b[8] != '.' && b[8] != ',' {
		return 0, false
	}
	h, ok1 := twoDigits(b[0], b[1])
	m, ok2 := twoDigits(b[3], b[4])
	sec, ok3 := twoDigits(b[6], b[7])
	ms, ok4 := twoDigits(b[9], b[10])
	last := b[11] - '0'
	if !ok1 || !ok2 || !ok3 || !ok4 || last > 9 || h > 23 || m > 59 || sec > 59 {
		return 0, false
	}
	return Time((h*3600+m*60+sec)*1000+ms*10+int64(last)) * Time(time.Millisecond), true
}

// twoDigits returns the value of two digits.
func twoDigits(a, b byte) (int64, bool) {
	a, b = a-'0', b-'0' // what is below '0' wraps round
	return int64(a)*10 + int64(b), a <= 9 && b <= 9
}

// fraction reads decimals of a second.
func fraction(digits string) time.Duration {
	var d time.Duration
	for i := 0; i < 9; i++ {
		d *= 10
		if i < len(digits) {
			d += time.Duration(digits[i] - '0')
		}
	}
	return d
}

// A timeLine is the line of a cue that gives its time.
type timeLine struct {
	start, end Time
	hasEnd     bool
	fault      clockFault
	noStart    bool // its start is missing
	thin       bool // an arrow other than -->
	point      bool // the decimals of its start stand after a dot, as in WebVTT
	rest       string
}

// arrow returns the length of the arrow at the start of s, 0 for none: strokes of any kind and a tip. right says that it is the one of
// the standard. A stroke without a tip, or a comma, parts the two times of some programs; it is bare.
func arrow(s string) (n int, right, bare bool) {
	if strings.HasPrefix(s, "-->") {
		return len("-->"), true, false
	}
	strokes := 0
	for s[n:] != "" && strokes <= 4 {
		r, k := utf8.DecodeRuneInString(s[n:])
		switch {
		case r == '→' || r == '⟶' || r == '➔' || r == '➜':
			return n + k, false, false
		case r == ' ' && strokes > 0:
		case isHyphen(r) || r == '–' || r == '—' || r == '=':
			strokes++
		case strokes > 0 && strings.HasPrefix(s[n:], "&gt;"):
			return n + len("&gt;"), false, false
		case strokes > 0 && (r == '>' || r == '＞'):
			return n + k, false, false
		case strokes == 0 && r == ',':
			return k, false, true
		case s[0] == '=':
			return 0, false, false
		default:
			return n, false, true
		}
		n += k
	}
	return 0, false, false
}

// readTimeLine reads "start --> end settings", also where blanks stand beside the marks of its times ("00: 00: 01, 000"), where dots stand
// for the colons, and where the start is missing.
func readTimeLine(s string) (tl timeLine, ok bool) {
	if s == "" || s[0] > '9' && s[0] < utf8.RuneSelf && s[0] != 'O' { // as most lines of words
		return tl, false
	}
	if tl, ok = readTidyLine(s); ok {
		return tl, true
	}
	s = trimFront(s)
	if s == "" || s[0] != '-' && s[0] != 'O' && s[0] < utf8.RuneSelf && (s[0] < '0' || s[0] > '9') {
		return tl, false
	}
	if plain, changed := plainSigns(s[:min(len(s), 200)]); changed && len(s) < 200 {
		if tl, ok = readTimeLine(plain); ok && strings.HasSuffix(s, tl.rest) {
			return tl, true
		}
		return timeLine{}, false
	}
	if s[0] >= utf8.RuneSelf || len(s) > 100 || !strings.Contains(s, ">") {
		return tl, false
	}
	switch {
	case s[0] == '-':
		return readEndLine(s)
	case strings.Contains(s, ": ") || strings.Contains(s, " :"):
		n := strings.IndexAny(s, asciiLetters)
		if n < 0 {
			n = len(s)
		}
		tl, ok = readTidyLine(squeeze(s[:n]) + s[n:])
		return tl, ok && tl.hasEnd
	}
	if tl, ok = readDottedLine(s); ok {
		return tl, true
	}
	return readBrokenLine(s)
}

// squeeze drops the blanks beside colons, commas and dots.
func squeeze(s string) string {
	for _, mark := range [...]string{":", ",", "."} {
		for _, blank := range [...]string{mark + " ", " " + mark} {
			s = strings.ReplaceAll(s, blank, mark)
		}
	}
	return s
}

// readEndLine reads a line of nothing but an arrow and a time.
func readEndLine(s string) (tl timeLine, ok bool) {
	s, ok = strings.CutPrefix(s, "-->")
	s = strings.TrimSpace(s)
	end, n, fault := readClock(s)
	if !ok || n == 0 || n < len(s) || cutTime(s) {
		return tl, false
	}
	return timeLine{noStart: true, end: end, hasEnd: true, fault: fault, point: strings.Contains(s, ".")}, true
}

// readDottedLine reads a line of nothing but two times without colons around an arrow: "00.00.01,500", or seconds with decimals.
func readDottedLine(s string) (tl timeLine, ok bool) {
	from, to, ok := strings.Cut(s, "-->")
	start, okStart := dottedClock(strings.TrimSpace(from))
	end, okEnd := dottedClock(strings.TrimSpace(to))
	return timeLine{start: start, end: end, hasEnd: true, fault: clockDotted}, ok && okStart && okEnd
}

// readBrokenLine reads a line in which colons on both sides of the arrow show that times were meant: with letters in the place of digits
// they are read, else only that a cue begins here is known.
func readBrokenLine(s string) (tl timeLine, ok bool) {
	from, to, ok := strings.Cut(s, "-->")
	from, to = strings.TrimSpace(from), strings.TrimSpace(to)
	if !ok || !meansClock(from) || !meansClock(to) {
		return tl, false
	}
	mended := strings.NewReplacer("O", "0", "o", "0", "l", "1", "I", "1", "|", "1").Replace(from + " --> " + to)
	if tl, ok = readTidyLine(mended); ok && tl.hasEnd && tl.rest == "" {
		tl.fault |= clockMended
		return tl, true
	}
	return timeLine{noStart: true, fault: clockBroken}, true
}

// meansClock reports whether s is one word with at least four digits and a colon between others of its letters.
func meansClock(s string) bool {
	return strings.Index(s, ":") > 0 && len(s) <= 20 && !strings.ContainsAny(s, " \t<>") && len(strings.Map(onlyDigits, s)) >= 4
}

func onlyDigits(r rune) rune {
	if r < '0' || r > '9' {
		return -1
	}
	return r
}

func dottedClock(s string) (Time, bool) {
	part := strings.FieldsFunc(s, func(r rune) bool { return r == '.' || r == ',' })
	if len(part) < 2 || len(part) > 4 || !isDigits(strings.Join(part, "")) || len(strings.Join(part, ".")) != len(s) {
		return 0, false
	}
	last := len(part) - 1
	clock := strings.Join(part[:last], ":") + "." + part[last]
	if last == 1 { // seconds alone
		clock = "0:" + clock
	}
	t, n, fault := readClock(clock)
	return t, n > 0 && fault&clockTooLate == 0
}

// readTidyLine reads a time line as it should be. A line counts as one only with a time on both sides of the arrow, or with one before
// it and nothing (or the beginning of a time) after it.
func readTidyLine(s string) (tl timeLine, ok bool) {
	s = trimFront(s)
	if s == "" || (s[0] != '-' && (s[0] < '0' || s[0] > '9')) {
		return tl, false
	}
	start, n, fault := readClock(s)
	if n == 0 { // perhaps the cue's number stands on the same line
		i := digitRun([]byte(s[:min(len(s), 9)]))
		after := trimFront(strings.TrimLeft(s[i:], ".)"))
		if i == 0 || len(after) == len(s)-i {
			return tl, false
		}
		s = after
		if start, n, fault = readClock(s); n == 0 {
			return tl, false
		}
	}
	tl.start, tl.fault = start, fault
	tl.point = strings.IndexByte(s[:n], '.') > 0
	decimals := tl.point || strings.IndexByte(s[:n], ',') > 0
	s = trimFront(s[n:])
	n, right, bare := arrow(s)
	if n == 0 {
		return tl, false
	}
	s = trimFront(s[n:])
	tl.thin = !right
	end, n, fault := readClock(s)
	if n > 0 && cutTime(s[:n]) {
		n = 0
	}
	if n == 0 {
		if tl.thin || !isCutTime(s) {
			return tl, false
		}
		return tl, true
	}
	tl.end, tl.hasEnd, tl.fault = end, true, tl.fault|fault
	tl.rest = strings.TrimSpace(s[n:])
	// Without an arrow only a line of nothing but two full times is one.
	return tl, !bare || decimals && strings.ContainsAny(s[:n], ".,") && tl.rest == ""
}

// cutTime reports whether a written time was cut off in its minutes or seconds: "00:0". In "0:0:4" one digit is the habit.
func cutTime(s string) bool {
	i := strings.LastIndexByte(s, ':')
	habit := i > 1 && s[i-2] == ':'
	return len(s)-i-1 < 2 && !habit && !strings.ContainsAny(s, ".,")
}

// isCutTime reports whether s is empty or could be the beginning of a time.
func isCutTime(s string) bool { return strings.Trim(s, "0123456789:., \t") == "" }

// trimFront drops blanks and invisible marks at the front of s.
func trimFront(s string) string {
	for s != "" && (s[0] == ' ' || s[0] == '\t') {
		s = s[1:]
	}
	if s == "" || s[0] < 0x80 {
		return s
	}
	return strings.TrimLeft(s, " \t\u00a0\ufeff\u200b\u200e\u200f\u2060")
}
