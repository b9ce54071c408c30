package caption

import "unicode/utf8"

// origins says for each byte of the clean text which stretch of the source it comes from.
type origins struct {
	from, to []int32
}

// cleanTracked does what clean does, and keeps where each byte comes from.
func (lx *lexer) cleanTracked(p *piece) {
	for i := 0; i < len(p.text); {
		n := referenceLength(p.text[i:])
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

// referenceLength returns the length of the character reference, line break or terminal's mark at the start of s, else of its first rune. A reference
// may be written twice over ("&amp;#39;"), or without its semicolon ("&copy").
func referenceLength(s string) int {
	switch s[0] {
	case '&':
		n := nameLength(s)
		for unescape(s[:n]) != s[:n] {
			more := n + nameLength(s[n:])
			if more == n || unescape(s[:more]) == unescape(s[:n])+unescape(s[n:more]) {
				return n
			}
			n = more
		}
	case 0x1B:
		return escapeLength(s)
	case '\\':
		if slashBreak(s) {
			return 2
		}
	}
	_, n := utf8.DecodeRuneInString(s)
	return n
}

// nameLength returns the length of what may be the name of a reference at the start of s, with its signs.
func nameLength(s string) int {
	n := 0
	for n < len(s) && n < 34 && (n == 0 && s[0] == '&' || s[n] == '#' || s[n] < utf8.RuneSelf && isWordRune(rune(s[n]))) {
		n++
	}
	if n > 0 && n < len(s) && s[n] == ';' {
		n++
	}
	return n
}
