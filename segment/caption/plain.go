package caption

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// plainSigns returns s with the digits of any script as 0-9, full-width marks of a time as those of ASCII, and every kind of space as a
// blank: times are read in it, words are not. Runes stay in their places. changed is false where s is so already.
func plainSigns(s string) (plain string, changed bool) {
	for i := 0; i < len(s); {
		if s[i] < utf8.RuneSelf {
			i++
			continue
		}
		r, n := utf8.DecodeRuneInString(s[i:])
		if plainSign(r) != r {
			return strings.Map(plainSign, s), true
		}
		i += n
	}
	return s, false
}

func plainSign(r rune) rune {
	switch {
	case r < utf8.RuneSelf || r == utf8.RuneError:
	case unicode.IsDigit(r):
		return rune('0' + digitValue(r))
	case unicode.IsSpace(r):
		return ' '
	case r >= '！' && r <= '～' && !unicode.IsLetter(r): // the full-width forms of the marks of ASCII
		return r - '！' + '!'
	case r == '٫', r == '،': // the decimal and the comma of Arabic
		return ','
	}
	return r
}

// placeIn turns an offset in the plain form of s into that in s.
func placeIn(s, plain string, offset int) int {
	runes := utf8.RuneCountInString(plain[:offset])
	at := 0
	for ; runes > 0; runes-- {
		_, n := utf8.DecodeRuneInString(s[at:])
		at += n
	}
	return at
}
