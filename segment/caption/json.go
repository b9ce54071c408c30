package caption

import (
	"fmt"
	"strconv"
	"strings"
	"time"
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
		return &Error{Msg: fmt.Sprintf("JSON nested more than %d deep", maxJSONDepth), Err: ErrNotText}
	}
	if cut {
		r.warn.add(0, "broken JSON; read as far as it goes")
	}
	r.language = findLanguage(root)
	list := findSegments(root)
	if list == nil {
		return &Error{Msg: "JSON without timed text; expected an array of objects with a start and a text", Err: ErrNoTimes}
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
	for _, w := range segmentWords(n) {
		b.WriteString(wordText(w))
	}
	return b.String()
}

func segmentWords(n *jsonNode) []*jsonNode {
	if words := n.list(jsonWords...); len(words) > 0 {
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

// jsonTime reads the start or the end of a segment or a word.
func jsonTime(n *jsonNode, start bool) (Time, bool) {
	names, pair := jsonEnd, 1
	if start {
		names, pair = jsonStart, 0
	}
	for _, name := range names {
		if m := n.get(name); m != nil {
			if t, ok := jsonValue(m, 1); ok {
				return t, true
			}
		}
		for _, ms := range [...]string{name + "_ms", name + "Ms", name + "Millis"} {
			if m := n.get(ms); m != nil {
				return jsonValue(m, 1000)
			}
		}
	}
	if m := n.get("offsets"); m != nil { // in ms
		return jsonValue(m.get([]string{"from", "to"}[pair]), 1000)
	}
	if m := n.get("timestamps"); m != nil && m.kind == '{' { // clock text
		return jsonValue(m.get([]string{"from", "to"}[pair]), 1)
	}
	if list := n.list("timestamp"); len(list) == 2 {
		return jsonValue(list[pair], 1)
	}
	if m := n.get("tStartMs"); m != nil {
		t, ok := jsonValue(m, 1000)
		if !start {
			d, okLength := jsonValue(n.get("dDurationMs"), 1000)
			return t + d, ok && okLength
		}
		return t, ok
	}
	if !start {
		if d, ok := jsonValue(n.get("duration", "dur"), 1); ok {
			t, ok := jsonTime(n, true)
			return t + d, ok
		}
	}
	return 0, false
}

// jsonValue reads a number, a number in quotes, "1.2s", or a clock time; unit is how many of it make a second.
func jsonValue(n *jsonNode, unit float64) (Time, bool) {
	if n == nil || n.kind != 'n' && n.kind != 's' {
		return 0, false
	}
	if strings.IndexByte(n.text, ':') > 0 {
		t, k, fault := readClock(strings.TrimSpace(n.text))
		return t, k > 0 && fault&clockTooLate == 0
	}
	v, err := strconv.ParseFloat(strings.TrimSuffix(strings.TrimSpace(n.text), "s"), 64)
	if err != nil {
		return 0, false
	}
	return seconds(v / unit)
}

// jsonDoubtOf returns the recogniser's doubt of a word, 0 where it gives none.
func jsonDoubtOf(n *jsonNode) float64 {
	m := n.get(jsonDoubt...)
	if m == nil {
		return 0
	}
	v, err := strconv.ParseFloat(m.text, 64)
	if err != nil || !(v >= 0) {
		return 0
	}
	if v > 1 && v <= 100 {
		v /= 100
	}
	return 1 - min(v, 1)
}

func speakerOf(n *jsonNode) string {
	m := n.get("speaker", "speaker_label", "speakerTag")
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
			r.warn.add(n.line, "segment without a time; placed between its neighbours")
		}
	}
	if err := r.addCue(c); err != nil {
		return err
	}
	p := piece{pos: -1, line: n.line, newline: true, speaker: speakerOf(n)}
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
		r.addPiece(wp)
		p.newline = false
		rest = afterText(rest, s)
	}
	if len(words) == 0 || rest != "" && rest != text && strings.TrimSpace(rest) != "" { // more text than words
		p.text = rest
		p.doubt = jsonDoubtOf(n)
		r.addPiece(p)
	}
	return nil
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
	p.loose = true
	if strings.TrimSpace(p.text) != "" {
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
		}
		last = max(last, c.start)
		if c.hasEnd {
			last = max(last, c.end)
		} else if c.loose {
			last = c.start + r.readingTime(*c)
		}
	}
}

// isWordList reports whether the objects of a list are single words and not segments.
func isWordList(list []*jsonNode) bool {
	single := 0
	for _, n := range list {
		if len(segmentWords(n)) > 0 {
			return false
		}
		if n.get("word", "punctuated_word", "alternatives", "value") != nil {
			single++
		}
	}
	return single*2 > len(list)
}

// Where a list of single words is cut into cues: at a silence, at the end of a sentence, or after so many words.
const (
	wordListSilence = Time(1500 * time.Millisecond)
	wordListMost    = 12
)

// wordList reads a plain list of timed words.
func (r *reading) wordList(list []*jsonNode) *Error {
	last, n := Time(-1), 0
	open, loose := false, false
	for _, w := range list {
		s := wordText(w)
		if strings.TrimSpace(s) == "" {
			continue
		}
		start, timed := jsonTime(w, true)
		if !open || n >= wordListMost || timed && !loose && start > last+wordListSilence {
			if !timed {
				start = max(last, 0)
			}
			if err := r.addCue(rawCue{start: start, line: w.line}); err != nil {
				return err
			}
			open, n = true, 0
		}
		p := piece{text: s, pos: -1, line: w.line, newline: n == 0, speaker: speakerOf(w)}
		r.timeJSONWord(&p, w, 0)
		r.addPiece(p)
		n++
		loose = p.loose
		c := &r.cues[len(r.cues)-1]
		if p.timed {
			last = max(last, p.at, p.until)
		}
		if p.until > c.start {
			c.end, c.hasEnd = p.until, true
		}
		if m := pauseMark(s); m == '.' && n > 2 {
			open = false
		}
	}
	return nil
}
