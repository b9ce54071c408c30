package caption

import (
	"html"
	"strings"
	"unicode/utf8"
)

// origins says for each byte of the clean text which stretch of the source it comes from.
type origins struct {
	from, to []int32
}

// cleanTracked does what clean does, and keeps where each byte comes from.
func (lx *lexer) cleanTracked(p *piece) {
	for i := 0; i < len(p.text); {
		n := referenceLength(p.text[i:], lx.r.refs)
		before := len(lx.text)
		lx.clean(p.text[i : i+n])
		lx.origin.fill(before)
		for k := before; k < len(lx.text); k++ {
			lx.origin.from = append(lx.origin.from, int32(p.pos+i))
			lx.origin.to = append(lx.origin.to, int32(p.pos+i+n))
		}
		i += n
	}
}

// fill pads the table up to a place in the clean text: line ends and blanks between pieces come from nowhere.
func (o *origins) fill(to int) {
	for len(o.from) < to {
		o.from, o.to = append(o.from, -1), append(o.to, -1)
	}
}

// referenceLength returns the length of the character reference or terminal's mark at the start of s, else of its first rune.
func referenceLength(s string, refs bool) int {
	switch {
	case s[0] == '&' && refs:
		if end := strings.IndexByte(s[:min(len(s), 34)], ';'); end > 0 && html.UnescapeString(s[:end+1]) != s[:end+1] {
			return end + 1
		}
	case s[0] == 0x1B:
		return escapeLength(s)
	}
	_, n := utf8.DecodeRuneInString(s)
	return n
}
