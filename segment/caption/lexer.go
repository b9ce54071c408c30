package caption

import (
	"bytes"
	"html"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A lexer cuts the text of the cues into words. All text goes into one buffer, of which the words become parts, so that
// a word costs no allocation of its own.
type lexer struct {
	r      *reading
	track  *Track
	text   []byte         // clean text of all cues: references decoded, controls and invisible characters gone
	marks  []mark         // of the cue at hand
	spans  []lexeme       // parallel to track.Words
	folds  []byte         // folded forms of the words that are not their own
	origin *origins       // where the clean text comes from, if that is asked for; else nil
	labels map[string]int // how many lines begin with this label

	shouting bool // all letters are capitals
	tags     bool // the pieces can hold tags: the format has none of its own

	cueIndex  int
	hot       bool    // the cue holds a bracket, an asterisk or a note
	aside     []aside // stretches of the cue that are no words
	song      bool    // a song goes on from the cue before
	speaker   string  // from a mark in the text of the cue
	changed   bool    // such a mark was met
	mark      int     // the last mark passed
	freshMark bool    // and no word since
}

// A mark says from where in the clean text a piece begins.
type mark struct {
	at    int
	piece int
}

// A lexeme is the place of a word in lexer.text, of its fold in lexer.folds, and of what follows it.
type lexeme struct {
	from, to           int32
	foldFrom, foldTo   int32 // 0, 0 where the fold is the word itself
	afterFrom, afterTo int32
	until              Time // end of the word where the file gives one, else 0
}

func newLexer(r *reading, t *Track) *lexer {
	lx := &lexer{r: r, track: t, labels: countLabels(r), shouting: isShouting(r), tags: r.format != "webvtt" && r.format != "subrip"}
	size, words := 0, len(r.cues) // words: hardly ever more
	for i := range r.pieces {
		p := &r.pieces[i]
		size += len(p.text) + 1
		words += strings.Count(p.text, " ")
		if p.newline {
			words++
		}
	}
	lx.text = make([]byte, 0, size)
	lx.spans = make([]lexeme, 0, words)
	t.Words = make([]Word, 0, words)
	return lx
}

// cue reads the words of one cue.
func (lx *lexer) cue(i int) {
	c := lx.r.cues[i]
	from := len(lx.text)
	lx.cueIndex, lx.hot, lx.speaker, lx.changed = i, lx.song, "", false
	lx.marks, lx.aside = lx.marks[:0], lx.aside[:0]
	for p := c.first; p < c.last; p++ {
		pc := &lx.r.pieces[p]
		switch {
		case pc.newline:
			lx.text = append(lx.text, '\n')
		case p > c.first && pc.speaker != lx.r.pieces[p-1].speaker:
			lx.text = append(lx.text, ' ')
		}
		lx.marks = append(lx.marks, mark{len(lx.text), p})
		if lx.origin != nil {
			lx.cleanTracked(pc)
		} else {
			lx.clean(pc.text)
		}
	}
	if lx.hot {
		lx.asides(from, len(lx.text))
	}
	lx.words(from, len(lx.text))
}

// clean appends a piece of text to the buffer.
func (lx *lexer) clean(s string) {
	if strings.IndexByte(s, '&') >= 0 {
		s = unescape(s)
	}
	for i := 0; i < len(s); {
		b := s[i]
		if b < utf8.RuneSelf {
			if n := plainRun(s[i:]); n > 0 {
				lx.text = append(lx.text, s[i:i+n]...)
				i += n
				continue
			}
			switch {
			case b == 0x1B:
				i += escapeLength(s[i:])
				lx.text = append(lx.text, ' ')
				continue
			case b == '<' && lx.tags:
				if n, kind, _ := readTag(s[i:]); n > 0 {
					i += n
					if kind == tagBreak {
						lx.text = append(lx.text, ' ')
					}
					continue
				}
			case b == '\\' && slashBreak(s[i:]):
				i++
				b = ' '
			case b < ' ' || b == 0x7F:
				b = ' '
			case b == '[' || b == '(' || b == '*' || b == '#':
				lx.hot = true
			}
			lx.text = append(lx.text, b)
			i++
			continue
		}
		r, n := utf8.DecodeRuneInString(s[i:])
		switch {
		case r == utf8.RuneError, unicode.IsSpace(r), unicode.IsControl(r):
			lx.text = append(lx.text, ' ')
		case !isInvisible(r):
			lx.hot = lx.hot || isNote(r) || shutOf(r) != ""
			lx.text = append(lx.text, s[i:i+n]...)
		}
		i += n
	}
}

// unescape undoes character references, also those that were written twice over ("&amp;#39;").
func unescape(s string) string {
	for range 3 {
		plain := html.UnescapeString(s)
		if plain == s {
			break
		}
		s = plain
	}
	return s
}

// plainRun returns how many bytes at the start of s are letters, digits, blanks and usual marks.
func plainRun(s string) int {
	n := 0
	for n < len(s) && s[n] >= '+' && s[n] <= 'Z' && s[n] != '<' || n < len(s) && s[n] >= 'a' && s[n] <= 'z' || n < len(s) && s[n] == ' ' {
		n++
	}
	return n
}

// slashBreak: a line break or a hard space as SubStation Alpha writes it, left where captions were turned into another format.
func slashBreak(s string) bool { return len(s) > 1 && (s[1] == 'N' || s[1] == 'n' || s[1] == 'h') }

// escapeLength returns the length of a terminal's colour mark such as ESC [31m, at least 1.
func escapeLength(s string) int {
	if len(s) < 2 || s[1] != '[' {
		return 1
	}
	for i := 2; i < len(s) && i < 16; i++ {
		if s[i] >= '@' && s[i] <= '~' {
			return i + 1
		}
	}
	return 2
}

// isInvisible: marks of direction, joiners, soft hyphens and byte order marks, which are no part of a word.
func isInvisible(r rune) bool {
	return r >= 0x200B && r <= 0x200F || r >= 0x202A && r <= 0x202E || r >= 0x2060 && r <= 0x2069 || r == 0xFEFF || r == 0xAD
}

// words cuts the clean text [from,to) of the cue into words.
func (lx *lexer) words(from, to int) {
	lx.mark, lx.freshMark = -1, false
	skip := lx.aside
	lineStart := true
	for i := from; i < to; {
		if len(skip) > 0 && i >= skip[0].from {
			if skip[0].censored {
				lx.word(skip[0].from, skip[0].to)
			}
			i = skip[0].to
			skip = skip[1:]
			continue
		}
		switch lx.text[i] {
		case '\n':
			lineStart = true
			i++
			continue
		case ' ':
			i++
			continue
		}
		end := to
		if len(skip) > 0 {
			end = skip[0].from
		}
		if n := lx.speakerMark(lx.text[i:end], lineStart); n > 0 {
			i += n
			continue
		}
		lineStart = false
		j := i
		for j < end && lx.text[j] != ' ' && lx.text[j] != '\n' {
			j++
		}
		lx.chunk(i, j)
		i = j
	}
}

// chunk cuts what stands between two blanks into words.
func (lx *lexer) chunk(from, to int) {
	chunk := lx.text[from:to]
	for pos := 0; pos < len(chunk); {
		start, end, next := pos, len(chunk), len(chunk)
		if !isPlainWord(chunk[pos:]) {
			start, end, next = nextWord(chunk, pos)
		}
		if start < 0 {
			if first, n := censored(chunk[pos:]); n > 0 {
				lx.word(from+pos+first, from+pos+first+n)
				pos += first + n
			}
			lx.after(from+pos, to)
			return
		}
		lx.after(from+pos, from+start)
		if n := lx.timeInside(from+start, from+end); n > 0 {
			end, next = n-from, n-from
		}
		lx.word(from+start, from+end)
		lx.after(from+end, from+next)
		pos = next
	}
}

// isPlainWord: nothing but letters without accents, as most words are.
func isPlainWord(b []byte) bool {
	for _, c := range b {
		if c|0x20 < 'a' || c|0x20 > 'z' {
			return false
		}
	}
	return true
}

// censored finds asterisks that stand for a word, three at least; n is their number, 0 for none.
func censored(b []byte) (first, n int) {
	first = bytes.Index(b, []byte("***"))
	if first < 0 {
		return 0, 0
	}
	return first, len(b[first:]) - len(bytes.TrimLeft(b[first:], "*"))
}

// timeInside returns where a word's digits are parted by the time of a next word, as in "1<00:00:02.000>2"; 0 for nowhere.
func (lx *lexer) timeInside(from, to int) int {
	for m := lx.mark + 1; m < len(lx.marks) && lx.marks[m].at < to; m++ {
		at := lx.marks[m].at
		if at > from && lx.r.pieces[lx.marks[m].piece].timed && isDigits(string(lx.text[at-1:at+1])) {
			return at
		}
	}
	return 0
}

// after takes the marks that follow a word.
func (lx *lexer) after(from, to int) {
	n := len(lx.track.Words)
	if from == to || n == 0 || lx.track.Words[n-1].Cue != lx.cueIndex {
		return
	}
	l := &lx.spans[n-1]
	switch {
	case l.afterFrom == l.afterTo && int(l.to) == from:
		l.afterFrom, l.afterTo = int32(from), int32(to)
	case int(l.afterTo) == from && l.afterFrom < l.afterTo:
		l.afterTo = int32(to)
	case l.afterFrom == l.afterTo && isStop(lx.text[from:to]): // a dash or stop that stands alone, after a blank
		l.afterFrom, l.afterTo = int32(from), int32(to)
	}
}

// isStop reports whether marks after a blank belong to the word before: dashes and stops do, an opening bracket does not.
func isStop(b []byte) bool {
	r, _ := decode1(b)
	return pauseMark(string(r)) != 0 || r == '-'
}

// pass moves on to the last mark at or before a place in the text.
func (lx *lexer) pass(at int) *piece {
	for lx.mark+1 < len(lx.marks) && lx.marks[lx.mark+1].at <= at {
		lx.mark++
		lx.freshMark = true
	}
	return &lx.r.pieces[lx.marks[max(lx.mark, 0)].piece]
}

// word takes text[from:to] as a word.
func (lx *lexer) word(from, to int) {
	p := lx.pass(from)
	w := Word{Cue: lx.cueIndex, Line: p.line, Speaker: p.speaker, Doubt: p.doubt}
	if lx.changed {
		w.Speaker = lx.speaker
	}
	l := lexeme{from: int32(from), to: int32(to)}
	if lx.freshMark && p.timed {
		w.Time = Spread{At: p.at, From: OnWord}
		l.until = p.until
	}
	if p.loose {
		w.Time.From = WithinCue // however the cue begins
	}
	lx.freshMark = false
	f := len(lx.folds)
	if folded, same := appendFold(lx.folds, lx.text[from:to]); !same {
		lx.folds = folded
		l.foldFrom, l.foldTo = int32(f), int32(len(folded))
		if isDoubtful(lx.text[from:to]) {
			w.Doubt = max(w.Doubt, oddNumberDoubt)
			lx.r.warn.add(w.Line, "circled, Roman, raised or broken number; read as written, its value is doubtful")
		}
	}
	lx.track.Words = append(lx.track.Words, w)
	lx.spans = append(lx.spans, l)
}

// oddNumberDoubt is the doubt of a number in signs that are no plain digits.
const oddNumberDoubt = 0.5

// isDoubtful reports whether a word holds a number in signs that are no plain digits: "②", "Ⅲ", "10²", "4" in a keycap.
func isDoubtful(b []byte) bool {
	for i := 0; i < len(b); {
		r, n := decode1(b[i:])
		if r >= utf8.RuneSelf && (r == 0x20E3 || unicode.IsNumber(r) && !unicode.IsDigit(r)) {
			return true
		}
		i += n
	}
	return false
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
