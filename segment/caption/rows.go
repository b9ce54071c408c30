package caption

import "strings"

// A row is one line of the file: src[from:to], without its line end.
type row struct {
	from, to int
	line     int // from 1
}

// A rowScanner cuts a text into lines, which end with LF, CR or CRLF.
type rowScanner struct {
	src  string
	pos  int
	line int
	lf   int // offset of the next LF, or len(src); so that a file with CR alone is not searched again and again
}

func scanRows(src string) rowScanner { return rowScanner{src: src, lf: -1} }

func (s *rowScanner) next() (row, bool) {
	if s.pos >= len(s.src) {
		return row{}, false
	}
	if s.lf < s.pos {
		if i := strings.IndexByte(s.src[s.pos:], '\n'); i >= 0 {
			s.lf = s.pos + i
		} else {
			s.lf = len(s.src)
		}
	}
	s.line++
	r := row{from: s.pos, to: s.lf, line: s.line}
	s.pos = s.lf + 1
	if i := strings.IndexByte(s.src[r.from:r.to], '\r'); i >= 0 {
		r.to = r.from + i
		s.pos = r.to + 1
		if s.pos == s.lf && s.lf < len(s.src) {
			s.pos++
		}
	}
	return r, true
}

func isBlank(s string) bool {
	for i := 0; i < len(s); i++ {
		switch s[i] {
		case ' ', '\t', '\v', '\f', 0:
		default:
			return strings.TrimLeft(s[i:], " \t\u00a0\u200b\ufeff\u200e\u200f") == ""
		}
	}
	return true
}

func isDigits(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return len(s) > 0
}

// rareLineEnds returns a text whose lines end with none but a line separator, a paragraph separator or NEL (Unicode, section 5.8), with LF
// in their place; beside the usual line ends these are only blanks.
func rareLineEnds(s string) string {
	if strings.ContainsAny(strings.Trim(s, "\ufeff \t\r\n"), "\r\n") {
		return s
	}
	return strings.NewReplacer("\u2028", "\n", "\u2029", "\n", "\u0085", "\n").Replace(s)
}
