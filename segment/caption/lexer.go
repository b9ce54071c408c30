package caption

import (
	"html"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A lexer cuts the text of the cues into words. All text goes into one buffer, of which the words become parts, so that
// a word costs no allocation of its own.
type lexer struct {
	r     *reading
	track *Track
	text  []byte   // clean text of all cues: references decoded, controls and invisible characters gone
	marks []mark   // of the cue at hand
	spans []lexeme // parallel to track.Words
	folds []byte   // folded forms of the words that are not their own
}

// A mark says from where in the clean text a piece begins.
type mark struct {
	at    int
	piece int
}

// A lexeme is the place of a word in lexer.text, of its fold in lexer.folds, and of what follows it.
type lexeme struct {
	from, to           int
	foldFrom, foldTo   int // 0, 0 where the fold is the word itself
	afterFrom, afterTo int
	until              Time // end of the word where the file gives one, else 0
}

// cue reads the words of one cue.
func (lx *lexer) cue(i int) {
	c := lx.r.cues[i]
	from := len(lx.text)
	lx.marks = lx.marks[:0]
	for p := c.first; p < c.last; p++ {
		if lx.r.pieces[p].newline {
			lx.text = append(lx.text, '\n')
		}
		lx.marks = append(lx.marks, mark{len(lx.text), p})
		lx.clean(lx.r.pieces[p].text)
	}
	lx.words(i, from, len(lx.text))
}

// clean appends a piece of text to the buffer.
func (lx *lexer) clean(s string) {
	if lx.r.refs && strings.IndexByte(s, '&') >= 0 {
		s = html.UnescapeString(s)
	}
	for i := 0; i < len(s); {
		if b := s[i]; b < utf8.RuneSelf {
			if b < ' ' {
				b = ' '
			}
			lx.text = append(lx.text, b)
			i++
			continue
		}
		r, n := utf8.DecodeRuneInString(s[i:])
		switch {
		case unicode.IsSpace(r), r == utf8.RuneError:
			lx.text = append(lx.text, ' ')
		case !isInvisible(r):
			lx.text = append(lx.text, s[i:i+n]...)
		}
		i += n
	}
}

// isInvisible: marks of direction, joiners, soft hyphens and byte order marks, which are no part of a word.
func isInvisible(r rune) bool {
	return r >= 0x200B && r <= 0x200F || r >= 0x202A && r <= 0x202E || r >= 0x2060 && r <= 0x2069 || r == 0xFEFF || r == 0xAD
}

// words cuts the clean text [from,to) of a cue into words.
func (lx *lexer) words(cue, from, to int) {
	m := 0
	var fresh bool // a mark was passed and no word since
	for i := from; i < to; {
		if lx.text[i] == ' ' || lx.text[i] == '\n' {
			i++
			continue
		}
		j := i
		for j < to && lx.text[j] != ' ' && lx.text[j] != '\n' {
			j++
		}
		lx.chunk(cue, i, j, &m, &fresh)
		i = j
	}
}

// chunk cuts what stands between two blanks into words.
func (lx *lexer) chunk(cue, from, to int, m *int, fresh *bool) {
	for from < to {
		start, end, next := nextWord(lx.text[from:to])
		if start < 0 {
			lx.after(cue, from, to)
			return
		}
		if start > 0 {
			lx.after(cue, from, from+start)
		}
		for *m < len(lx.marks) && lx.marks[*m].at <= from+start {
			*m++
			*fresh = true
		}
		lx.word(cue, from+start, from+end, *m-1, *fresh)
		*fresh = false
		lx.after(cue, from+end, from+next)
		from += next
	}
}

// after takes the marks that follow a word.
func (lx *lexer) after(cue, from, to int) {
	n := len(lx.track.Words)
	if from == to || n == 0 || lx.track.Words[n-1].Cue != cue {
		return
	}
	l := &lx.spans[n-1]
	if l.afterTo == from && l.afterFrom < l.afterTo {
		l.afterTo = to
	} else if l.afterFrom == l.afterTo && l.to == from {
		l.afterFrom, l.afterTo = from, to
	}
}

// word takes text[from:to] as a word.
func (lx *lexer) word(cue, from, to, m int, fresh bool) {
	p := &lx.r.pieces[lx.marks[m].piece]
	w := Word{Cue: cue, Line: p.line, Speaker: p.speaker, Doubt: p.doubt}
	if fresh && p.timed {
		w.Time = Spread{At: p.at, From: OnWord}
	}
	l := lexeme{from: from, to: to}
	f := len(lx.folds)
	if folded, same := appendFold(lx.folds, lx.text[from:to]); !same {
		lx.folds = folded
		l.foldFrom, l.foldTo = f, len(folded)
	}
	lx.track.Words = append(lx.track.Words, w)
	lx.spans = append(lx.spans, l)
}

// finish gives the words their text.
func (lx *lexer) finish() {
	text, folds := string(lx.text), string(lx.folds)
	for i, l := range lx.spans {
		w := &lx.track.Words[i]
		w.Text = text[l.from:l.to]
		w.Fold = w.Text
		if l.foldTo > l.foldFrom {
			w.Fold = folds[l.foldFrom:l.foldTo]
		}
		w.After = text[l.afterFrom:l.afterTo]
	}
}
