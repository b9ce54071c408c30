package caption

import (
	"bytes"
	"unicode"
	"unicode/utf8"
)

// nextWord finds the first word from pos on in a chunk without blanks: it is b[start:end], and what follows it begins at next,
// after the marks between. start is -1 where b holds no further word.
//
// A word begins with a letter or a digit. Hyphens and apostrophes inside it stay ("twenty-one", "don't"), as do the marks
// inside a number ("1.5", "1,500", "10:30"); other marks end it, and so do hyphens between counted numbers ("3-2-1").
func nextWord(b []byte, pos int) (start, end, next int) {
	start = -1
	for i := pos; i < len(b); {
		r, n := decode1(b[i:])
		if isWordRune(r) {
			start = i
			break
		}
		i += n
	}
	if start < 0 {
		return -1, 0, 0
	}
	i := start
	for i < len(b) {
		r, n := decode1(b[i:])
		if isWordRune(r) {
			i += n
			continue
		}
		if i+n >= len(b) || !joins(b, start, i, n, r) {
			break
		}
		i += n
	}
	end = i
	for next = end; next < len(b); {
		r, n := decode1(b[next:])
		if isWordRune(r) {
			break
		}
		next += n
	}
	return start, end, next
}

func decode1(b []byte) (rune, int) {
	if b[0] < utf8.RuneSelf {
		return rune(b[0]), 1
	}
	return utf8.DecodeRune(b)
}

func isWordRune(r rune) bool {
	if r < utf8.RuneSelf {
		return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9'
	}
	return unicode.IsLetter(r) || unicode.IsNumber(r) || unicode.IsMark(r)
}

// joins reports whether the mark r of n bytes at b[i] belongs to the word that began at start.
func joins(b []byte, start, i, n int, r rune) bool {
	after, _ := decode1(b[i+n:])
	if !isWordRune(after) {
		return false
	}
	before, _ := utf8.DecodeLastRune(b[:i])
	digits := unicode.IsDigit(before) && unicode.IsDigit(after)
	switch {
	case r == '\'' || r == '’' || r == 'ʼ' || r == '‘' || r == '`':
		return true
	case r == '<' || r == '_' || r == '@' || r == '&' || r == '+' || r == '=':
		return true
	case isHyphen(r):
		return !digits && !countHyphen(b, start, i, n)
	case r == ',':
		return digits && thousands(b, start, i)
	case r == '.':
		if digits {
			listed := start > 1 && b[start-1] == '.' && b[start-2] >= '0' && b[start-2] <= '9'
			return !listed && !dotList(b[i+n:])
		}
		return initial(b, start, i)
	case r == ':':
		listed := start > 1 && b[start-1] == ':' && b[start-2] >= '0' && b[start-2] <= '9'
		return digits && !listed && !colonList(b, start, i)
	}
	return false
}

// isHyphen: the hyphens that join words; the dashes part them.
func isHyphen(r rune) bool {
	return r == '-' || r >= 0x2010 && r <= 0x2012 || r == 0x2212 || r == 0xFE63 || r == 0xFF0D
}

// countHyphen reports whether the hyphen at b[i] parts two numbers of a count, as in "three-two-one"; "twenty-one" is one.
func countHyphen(b []byte, start, i, n int) bool {
	left := b[start:i]
	if j := bytes.LastIndexByte(left, '-'); j >= 0 {
		left = left[j+1:]
	}
	j := i + n
	for j < len(b) {
		r, m := decode1(b[j:])
		if !isWordRune(r) {
			break
		}
		j += m
	}
	l, r := numberWord(left), numberWord(b[i+n:j])
	return l > 0 && r > 0 && !(l >= 20 && l < 100 && l%10 == 0 && r < 10)
}

// thousands reports whether the comma at b[i] groups thousands: one to three digits before it, three after it.
func thousands(b []byte, start, i int) bool {
	if i-start > 15 {
		return false
	}
	for _, c := range b[start:i] {
		if c != ',' && (c < '0' || c > '9') {
			return false
		}
	}
	first := bytes.IndexByte(b[start:i], ',')
	if first < 0 {
		first = i - start
	}
	if first > 3 || b[start] == '0' {
		return false
	}
	return digitRun(b[i+1:]) == 3
}

func digitRun(b []byte) int {
	n := 0
	for n < len(b) && b[n] >= '0' && b[n] <= '9' {
		n++
	}
	return n
}

// dotList reports whether digits and one more dotted number follow: "1.2.3" is a list.
func dotList(b []byte) bool {
	n := digitRun(b)
	return n+1 < len(b) && b[n] == '.' && b[n+1] >= '0' && b[n+1] <= '9'
}

// colonList reports whether the colon at b[i] parts numbers of a list such as "3:2:1", not the parts of a clock time.
func colonList(b []byte, start, i int) bool {
	n := digitRun(b[i+1:])
	more := i+1+n+1 < len(b) && b[i+1+n] == ':' && b[i+2+n] >= '0' && b[i+2+n] <= '9'
	return n < 2 && (more || bytes.IndexByte(b[start:i], ':') >= 0)
}

// initial reports whether the dot at b[i] follows a single letter, as in "e.g." and "a.m.".
func initial(b []byte, start, i int) bool {
	j := bytes.LastIndexByte(b[start:i], '.') + 1
	r, n := decode1(b[start+j:])
	if start+j+n != i || !unicode.IsLetter(r) {
		return false
	}
	after, m := decode1(b[i+1:])
	if !unicode.IsLetter(after) {
		return false
	}
	if i+1+m == len(b) {
		return true
	}
	next, _ := decode1(b[i+1+m:])
	return !isWordRune(next)
}

// numberWord returns the value of an English number word up to a hundred, or of digits; -1 for another word.
func numberWord(b []byte) int {
	if len(b) == 0 || len(b) > 9 {
		return -1
	}
	if digitRun(b) == len(b) {
		return number(string(b))
	}
	var low [9]byte
	for i, c := range b {
		if c >= 'A' && c <= 'Z' {
			c += 'a' - 'A'
		}
		low[i] = c
	}
	return englishNumber(string(low[:len(b)]))
}
