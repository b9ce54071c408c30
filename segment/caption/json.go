package caption

import (
	"fmt"
	"strings"
	"unicode"
)

// Names under which recognisers write the same things.
var (
	jsonStart = []string{"start", "begin", "startTime", "start_time", "from", "ts", "start_s"}
	jsonEnd   = []string{"end", "endTime", "end_time", "to", "end_ts", "stop", "end_s"}
	jsonText  = []string{"text", "transcript", "punctuated_word", "word", "utf8", "content", "value", "body", "sentence"}
	jsonWords = []string{"words", "segs", "elements", "result", "word_timestamps"}
	jsonDoubt = []string{"probability", "confidence", "conf", "score", "avg_confidence"}
)

// readJSON reads what a speech recogniser wrote, by its shape: the first array of objects that have a text and a time.
func readJSON(r *reading) *Error {
	root, cut, deep := readTree(r.src)
	if deep {
		return &Error{Msg: fmt.Sprintf("this JSON file is no captions: it is nested more than %d deep", maxJSONDepth), Err: ErrNotText}
	}
	if cut {
		r.warn.add(0, "broken JSON; read as far as it goes")
	}
	r.language = findLanguage(root)
	if why := fromMillis(root); why != "" {
		r.warn.add(0, why)
	}
	list := findSegments(root)
	if list == nil {
		return &Error{Msg: nothingIn("json") + "; expected entries that each have a start and a text", Err: ErrNoTimes}
	}
	if isWordList(list) {
		return r.wordList(list)
	}
	for _, n := range list {
		if err := r.segment(n); err != nil {
			return err
		}
	}
	r.placeUntimed()
	return nil
}

func findLanguage(root *jsonNode) string {
	for _, n := range root.items {
		if s := n.str("language", "language_code", "lang"); s != "" {
			return s
		}
		if s := n.get("result").str("language"); s != "" {
			return s
		}
	}
	return ""
}

// findSegments returns the first array, from the outside in, most of whose objects have a text, and one of them a time.
func findSegments(root *jsonNode) []*jsonNode {
	level := []*jsonNode{root}
	for len(level) > 0 {
		var next []*jsonNode
		for _, n := range level {
			if n.kind == '[' && isSegments(n.items) {
				return n.items
			}
			for _, m := range n.items {
				if m.kind == '[' || m.kind == '{' {
					next = append(next, m)
				}
			}
		}
		level = next
	}
	return nil
}

func isSegments(items []*jsonNode) bool {
	texts, timed := 0, 0
	for _, n := range items {
		if segmentText(n) != "" {
			texts++
		}
		_, ok := jsonTime(n, true)
		if !ok {
			_, ok = firstTime(segmentWords(n))
		}
		if ok {
			timed++
		}
	}
	return timed > 0 && texts > 0 && texts*2 >= len(items)
}

// segmentText returns the text of a segment, put together from its words where it has none of its own.
func segmentText(n *jsonNode) string {
	if s := n.str(jsonText...); s != "" {
		return s
	}
	for _, alternative := range n.list("alternatives") {
		if s := alternative.str(jsonText...); s != "" {
			return s
		}
	}
	var b strings.Builder
	for _, line := range append(n.list("lines"), n.list(jsonText...)...) {
		if line.kind == 's' {
			b.WriteString(line.text + "\n")
		}
	}
	for _, w := range segmentWords(n) {
		b.WriteString(wordText(w))
	}
	return b.String()
}

func segmentWords(n *jsonNode) []*jsonNode {
	if words := n.list(jsonWords...); len(words) > 0 && words[0].kind == '{' {
		return words
	}
	for _, alternative := range n.list("alternatives") {
		return alternative.list(jsonWords...)
	}
	return nil
}

// wordText returns a word with a blank before it, unless the file gave it one or it is a mark.
func wordText(w *jsonNode) string {
	s := w.str(jsonText...)
	if s == "" {
		for _, alternative := range w.list("alternatives") {
			s = alternative.str(jsonText...)
			break
		}
	}
	if s == "" || s[0] == ' ' || w.get("utf8") != nil {
		return s
	}
	if first := []rune(s)[0]; !unicode.IsLetter(first) && !unicode.IsNumber(first) && len(s) < 3 {
		return s
	}
	return " " + s
}

func speakerOf(n *jsonNode) string {
	m := n.get("speaker", "speaker_label", "speakerTag")
	if m != nil && m.kind == '{' {
		m = m.get("name", "label", "id")
	}
	if m == nil {
		return ""
	}
	return m.text
}

// untimedCue marks the start of a segment without a time, until placeUntimed finds one.
const untimedCue = Time(-1)

// segment takes one segment, with its words where it has any.
func (r *reading) segment(n *jsonNode) *Error {
	text := segmentText(n)
	if strings.TrimSpace(text) == "" {
		return nil
	}
	c := rawCue{line: n.line}
	start, ok := jsonTime(n, true)
	c.start = start
	c.end, c.hasEnd = jsonTime(n, false)
	words := segmentWords(n)
	if !ok {
		if at, timed := firstTime(words); timed {
			c.start = at
		} else {
			c.start, c.hasEnd = untimedCue, false
		}
	}
	if err := r.addCue(c); err != nil {
		return err
	}
	p := piece{pos: -1, line: n.line, newline: true, speaker: speakerOf(n)}
	stuck := r.segmentDoubt(n)
	rest := text
	for _, w := range words {
		s := wordText(w)
		if s == "" {
			continue
		}
		wp := p
		wp.text, wp.line = s, w.line
		if sp := speakerOf(w); sp != "" {
			wp.speaker = sp
		}
		r.timeJSONWord(&wp, w, c.start)
		wp.doubt = max(wp.doubt, stuck)
		r.addPiece(wp)
		r.reachTo(wp)
		p.newline = false
		rest = afterText(rest, s)
	}
	if len(words) == 0 || rest != "" && rest != text && strings.TrimSpace(rest) != "" { // more text than words
		p.text = rest
		p.doubt = max(jsonDoubtOf(n), stuck)
		r.addPiece(p)
	}
	return nil
}

// reachTo makes the last cue last until a word in it has been said.
func (r *reading) reachTo(p piece) {
	c := &r.cues[len(r.cues)-1]
	end := p.until
	switch {
	case end > p.at:
	case c.hasEnd && p.at < c.end:
		return
	default:
		end = p.at + At(wordBase+float64(letterTime*float64(len(p.text))))
	}
	if p.timed && end > c.end {
		c.end, c.hasEnd = end, true
	}
}

func firstTime(words []*jsonNode) (Time, bool) {
	for _, w := range words {
		if t, ok := jsonTime(w, true); ok {
			return t, true
		}
	}
	return 0, false
}

// timeJSONWord gives a piece the times and the doubt of its word.
func (r *reading) timeJSONWord(p *piece, w *jsonNode, start Time) {
	p.doubt = jsonDoubtOf(w)
	if m := w.get("tOffsetMs"); m != nil || w.get("utf8") != nil { // counted from the segment's start
		t, _ := jsonValue(m, 1000)
		p.at, p.timed, r.tagged = start+t, true, true
		return
	}
	if t, ok := jsonTime(w, true); ok {
		p.at, p.timed, r.tagged = t, true, true
		p.until, _ = jsonTime(w, false)
		return
	}
	if strings.ContainsFunc(p.text, isWordRune) {
		p.loose = true
		r.warn.add(p.line, "word without a time among words that have one; placed between its neighbours")
	}
}

// afterText returns what of text follows word, "" where text does not go on with it.
func afterText(text, word string) string {
	text, word = strings.TrimSpace(text), strings.TrimSpace(word)
	rest, ok := strings.CutPrefix(text, word)
	if !ok {
		return ""
	}
	return rest
}

// placeUntimed gives segments without a time the end of the segment before as their start, and reading time as their length.
func (r *reading) placeUntimed() {
	last := Time(0)
	for i := range r.cues {
		c := &r.cues[i]
		if c.start == untimedCue {
			c.start, c.loose = last, true
			r.warn.add(c.line, "segment without a time; placed between its neighbours")
		}
		last = max(last, c.start)
		if c.hasEnd {
			last = max(last, c.end)
		} else if c.loose {
			last = c.start + r.readingTime(*c)
		}
	}
}
