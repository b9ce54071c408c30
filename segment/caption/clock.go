package caption

import (
	"strings"
	"time"
)

// A clockFault says what was odd about a written time.
type clockFault uint8

const (
	clockNegative clockFault = 1 << iota // below zero; read as zero
	clockTooLate                         // beyond 24 hours; read as a time beyond maxClock
	clockCarried                         // minutes or seconds above 59
)

const maxClock = Time(24 * time.Hour)

// readClock reads a time such as 1:02:03.456 at the start of s and returns it with the number of bytes that it takes,
// 0 where there is none. Hours may be missing; the decimals may be any number, after a dot, a comma or a colon.
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
	if parts == 4 || parts == 3 && width == 3 { // decimals after a colon
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
		if i >= len(s) || s[i] != ':' {
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
	var d [len(form)]int64
	for i := range len(form) {
		switch c := s[i]; {
		case i == 2 || i == 5:
			if c != ':' {
				return 0, false
			}
		case i == 8:
			if c != '.' && c != ',' {
				return 0, false
			}
		case c < '0' || c > '9':
			return 0, false
		default:
			d[i] = int64(c - '0')
		}
	}
	h, m, sec := d[0]*10+d[1], d[3]*10+d[4], d[6]*10+d[7]
	if h > 23 || m > 59 || sec > 59 {
		return 0, false
	}
	ms := (h*3600+m*60+sec)*1000 + d[9]*100 + d[10]*10 + d[11]
	return Time(ms) * Time(time.Millisecond), true
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
	thin       bool // an arrow other than -->
	point      bool // the decimals of its start stand after a dot, as in WebVTT
	rest       string
}

// arrows are the forms of the arrow in a time line; the first is the right one.
var arrows = [...]string{"-->", "->", "–>", "—>", "→", "--&gt;", "=>", "- ->", "-- >"}

// readTimeLine reads a time line; where blanks stand beside the marks of its times ("00: 00: 01, 000"), it reads it without them.
func readTimeLine(s string) (tl timeLine, ok bool) {
	if tl, ok = readTidyLine(s); ok {
		return tl, true
	}
	s = trimFront(s)
	if s == "" || s[0] < '0' || s[0] > '9' || len(s) > 100 || !strings.Contains(s, ">") || !strings.Contains(s, ": ") && !strings.Contains(s, " :") {
		return tl, false
	}
	tl, ok = readTidyLine(squeeze(s))
	return tl, ok && tl.hasEnd
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

// readTidyLine reads "start --> end settings". A line counts as one only with a time on both sides of the arrow,
// or with one before it and nothing (or the beginning of a time) after it.
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
	s = trimFront(s[n:])
	arrow := -1
	for i, a := range arrows {
		if strings.HasPrefix(s, a) {
			arrow, s = i, trimFront(s[len(a):])
			break
		}
	}
	if arrow < 0 {
		return tl, false
	}
	tl.thin = arrow > 0
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
	return tl, true
}

// cutTime reports whether a written time was cut off in its minutes or seconds: "00:0".
func cutTime(s string) bool {
	i := strings.LastIndexByte(s, ':')
	return len(s)-i-1 < 2 && !strings.ContainsAny(s, ".,")
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
	return strings.TrimLeft(s, " \t\u00a0\ufeff\u200e")
}
