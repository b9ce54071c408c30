package caption

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"sort"
	"strings"
)

// A Change puts Text in the place of one word of a track; an empty Text deletes the word, with the marks that follow it.
type Change struct {
	Word int // index into Track.Words
	Text string
}

// ErrSplice is wrapped by the errors of [Splice].
var ErrSplice = errors.New("captions cannot be changed")

// Splice returns the WebVTT or SubRip file src with some words changed and everything else untouched: headers, comments, settings,
// tags, times, numbers, line breaks. In captions that roll up, every showing of a word is changed. t is the track that [Parse] made
// of src. The result is UTF-8; it is read back, and an error is returned if it does not hold exactly the words that it should.
func Splice(src []byte, t *Track, changes []Change) ([]byte, error) {
	fail := func(format string, args ...any) ([]byte, error) {
		return nil, fmt.Errorf("%s: %s: %w", t.Name, fmt.Sprintf(format, args...), ErrSplice)
	}
	if t.Format != "webvtt" && t.Format != "subrip" {
		return fail("only WebVTT and SubRip files, not %s", t.Format)
	}
	r := &reading{maxCues: t.options.maxCues(), keepClock: t.options.KeepClock, copies: true}
	if err := r.readFormat(src); err != nil {
		return nil, err
	}
	if r.grown {
		return fail("the lines grow word by word")
	}
	again, lx := r.lex()
	if !slices.EqualFunc(again.Words, t.Words, func(a, b Word) bool { return a.Text == b.Text && a.Line == b.Line }) {
		return fail("it is not the file that was read")
	}
	sp := splicer{r: r, lx: lx}
	for i, c := range changes {
		if slices.ContainsFunc(changes[:i], func(before Change) bool { return before.Word == c.Word }) {
			return fail("two changes of word %d", c.Word)
		}
		if c.Word < 0 || c.Word >= len(t.Words) {
			return fail("no word %d", c.Word)
		}
		if strings.ContainsFunc(c.Text, func(r rune) bool { return r < ' ' || r == 0x7F || r == 0x85 || r == 0x2028 || r == 0x2029 }) {
			return fail("a line end or a control in %q", c.Text)
		}
		if err := sp.change(c); err != nil {
			return nil, fmt.Errorf("%s:%d: %w", t.Name, t.Words[c.Word].Line, err)
		}
	}
	out, err := sp.apply()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", t.Name, err)
	}
	if bytes.HasPrefix(src, []byte{0xEF, 0xBB, 0xBF}) {
		out = append([]byte{0xEF, 0xBB, 0xBF}, out...)
	}
	return out, sp.readBack(out, t, changes)
}

// An edit puts text in the place of src[from:to].
type edit struct {
	from, to int
	text     string
}

// A splicer collects edits.
type splicer struct {
	r     *reading
	lx    *lexer
	edits []edit
}

// change adds the edits for one word, in each line that shows it.
func (sp *splicer) change(c Change) error {
	l := sp.lx.spans[c.Word]
	from, to := int(sp.lx.origin.from[l.from]), int(sp.lx.origin.to[l.to-1])
	if c.Text == "" && l.afterTo > l.afterFrom {
		to = max(to, int(sp.lx.origin.to[l.afterTo-1]))
	}
	home := sort.Search(len(sp.r.rows), func(i int) bool { return sp.r.rows[i].to >= to })
	if home == len(sp.r.rows) || from < sp.r.rows[home].from {
		return fmt.Errorf("word %q goes over a line end: %w", sp.lx.track.Words[c.Word].Text, ErrSplice)
	}
	w := sp.r.rows[home]
	first, last := sp.visibleBefore(w, from), sp.visibleBefore(w, to)
	text := c.Text
	if sp.r.format == "webvtt" {
		text = escapeVTT(text)
	}
	for i, shown := range sp.r.shows {
		if shown == home {
			sp.editRow(sp.r.rows[i], first, last, text)
		}
	}
	return nil
}

// visibleBefore counts the visible bytes of a line before an offset in the source. What a tag is can depend on the rest of its line.
func (sp *splicer) visibleBefore(w row, offset int) int {
	n := 0
	for s := skipMarks(sp.r.src[w.from:w.to]); s != "" && w.to-len(s) < offset; s = skipMarks(s[1:]) {
		n++
	}
	return n
}

// editRow puts text in the place of the visible bytes [first,last) of a line and leaves the tags among them.
func (sp *splicer) editRow(w row, first, last int, text string) {
	src := sp.r.src
	deleted := text == ""
	n := 0
	for s := skipMarks(src[w.from:w.to]); s != "" && n < last; s = skipMarks(s[1:]) {
		at := w.to - len(s)
		if n >= first {
			if k := len(sp.edits) - 1; n > first && sp.edits[k].to == at {
				sp.edits[k].to++
			} else {
				sp.edits = append(sp.edits, edit{at, at + 1, text})
				text = ""
			}
		}
		n++
	}
	if k := len(sp.edits) - 1; deleted && last > first && k >= 0 {
		sp.dropBlank(&sp.edits[k], w)
	}
}

// dropBlank takes one of the two blanks beside a word that is deleted.
func (sp *splicer) dropBlank(e *edit, w row) {
	switch {
	case e.from > w.from && sp.r.src[e.from-1] == ' ':
		e.from--
	case e.to < w.to && sp.r.src[e.to] == ' ':
		e.to++
	}
}

// apply makes the new text.
func (sp *splicer) apply() ([]byte, error) {
	slices.SortStableFunc(sp.edits, func(a, b edit) int { return a.from - b.from })
	var out []byte
	pos := 0
	for i, e := range sp.edits {
		e.from, e.to = max(e.from, pos), max(e.to, pos) // two deletions can share a blank
		out = append(out, sp.r.src[pos:e.from]...)
		out = append(out, e.text...)
		pos = e.to
		lastOfLine := i+1 == len(sp.edits) || sp.edits[i+1].from > pos
		if lastOfLine && emptied(out) && (pos == len(sp.r.src) || sp.r.src[pos] == '\n' || sp.r.src[pos] == '\r') {
			out = append(out, ' ') // an empty line would end the cue
		}
	}
	return append(out, sp.r.src[pos:]...), nil
}

// emptied reports whether b ends with a line end.
func emptied(b []byte) bool {
	return len(b) > 0 && (b[len(b)-1] == '\n' || b[len(b)-1] == '\r')
}

// readBack reads the result and compares its words with those that it should have.
func (sp *splicer) readBack(out []byte, t *Track, changes []Change) error {
	text := map[int]string{}
	for _, c := range changes {
		text[c.Word] = c.Text
	}
	var want []string
	for i, w := range t.Words {
		if s, ok := text[i]; ok {
			want = append(want, wordsOf(s)...)
		} else {
			want = append(want, w.Text)
		}
	}
	back, err := Parse(out, t.Name, t.options)
	if err != nil && len(want) > 0 {
		return fmt.Errorf("what was written cannot be read: %w", err)
	}
	var got []string
	if back != nil {
		for _, w := range back.Words {
			got = append(got, w.Text)
		}
	}
	for i := range max(len(got), len(want)) {
		if i >= len(got) || i >= len(want) || got[i] != want[i] {
			return fmt.Errorf("%s: what was written reads %q where %q was meant: %w", t.Name, from(got, i), from(want, i), ErrSplice)
		}
	}
	return nil
}

// from returns a few words from place i on.
func from(words []string, i int) []string { return words[min(i, len(words)):min(i+3, len(words))] }

// wordsOf cuts a text into words as a cue's text is cut.
func wordsOf(s string) []string {
	r := &reading{format: "subrip", cues: []rawCue{{last: 1}}, pieces: []piece{{text: s}}}
	t, _ := r.lex()
	var out []string
	for _, w := range t.Words {
		out = append(out, w.Text)
	}
	return out
}
