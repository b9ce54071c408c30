package caption

import (
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// appendFold appends the form of a word for matching to dst: lower case, decimal digits of any script as 0-9, plain hyphens
// and apostrophes. same reports that the word is its own fold; then nothing is appended.
func appendFold(dst, word []byte) (folded []byte, same bool) {
	same = true
	for _, c := range word {
		if c >= utf8.RuneSelf || c >= 'A' && c <= 'Z' || c == '`' {
			same = false
			break
		}
	}
	if same {
		return dst, true
	}
	for _, r := range string(word) {
		if unicode.IsMark(r) {
			word = norm.NFC.Bytes(word) // an accent that is written apart
			break
		}
	}
	for i := 0; i < len(word); {
		r, n := decode1(word[i:])
		i += n
		switch {
		case r < utf8.RuneSelf:
			if r >= 'A' && r <= 'Z' {
				r += 'a' - 'A'
			} else if r == '`' {
				r = '\''
			}
			dst = append(dst, byte(r))
		case unicode.IsDigit(r):
			dst = append(dst, byte('0'+digitValue(r)))
		case isHyphen(r):
			dst = append(dst, '-')
		case r == '’' || r == '‘' || r == 'ʼ':
			dst = append(dst, '\'')
		case r >= 0xFE00 && r <= 0xFE0F, r == 0x20E3: // variation selectors, keycap
		default:
			dst = utf8.AppendRune(dst, unicode.ToLower(r))
		}
	}
	return dst, false
}

// digitValue returns the value of a decimal digit: digits of a script stand in a row of ten, and 0 is the first of its row.
func digitValue(r rune) int {
	for _, t := range unicode.Nd.R16 {
		if r <= rune(t.Hi) {
			return int(r-rune(t.Lo)) % 10
		}
	}
	for _, t := range unicode.Nd.R32 {
		if r <= rune(t.Hi) {
			return int(r-rune(t.Lo)) % 10
		}
	}
	return 0
}
