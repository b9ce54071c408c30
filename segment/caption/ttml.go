package caption

import (
	"encoding/xml"
	"io"
	"slices"
	"strconv"
	"strings"
)

// maxXMLDepth is how deep elements may stand in each other and still be told apart; deeper ones only lend their text.
const maxXMLDepth = 64

// A ttmlReader walks over the elements of a TTML file (also IMSC, EBU-TT-D, DFXP) or of plain timed XML, any of whose elements
// may hold times. In TTML they add up: begin and end count from the begin of the parent (TTML2 12.4).
type ttmlReader struct {
	*reading
	dec      *xml.Decoder
	clock    ttmlClock
	stack    []ttmlFrame
	deep     int               // elements open beyond maxXMLDepth
	mute     int               // elements open whose text is no speech
	agents   map[string]string // name by xml:id of ttm:agent
	entities map[string]string // texts that the file declares itself, by name
	agent    string            // id of the agent whose name is being read
	naming   bool
	newline  bool
	lazy     bool // the cue at hand took its time from its first words
}

// A ttmlFrame is one open element.
type ttmlFrame struct {
	name       string
	begin, end Time // absolute
	hasBegin   bool // it, or an element around it, gives a begin
	hasEnd     bool
	own        bool // it gives a time itself
	fresh      bool // it is a span whose own time is not used yet
	isCue      bool
	speaker    string
	seq        Time // end of the child before, for timeContainer="seq"
	isSeq      bool
}

func readTTML(r *reading) *Error {
	t := ttmlReader{reading: r, clock: newTTMLClock(), agents: map[string]string{}, entities: map[string]string{}}
	src := strings.ReplaceAll(strings.ReplaceAll(r.src, "\r\n", "\n"), "\r", "\n")
	t.dec = xml.NewDecoder(strings.NewReader(plainAngles(src)))
	t.dec.Strict = false
	t.dec.CharsetReader = func(_ string, in io.Reader) (io.Reader, error) { return in, nil }
	for {
		from, _ := t.dec.InputPos()
		tok, err := t.dec.RawToken()
		line, _ := t.dec.InputPos()
		if err == io.EOF {
			if len(t.stack) > 0 {
				r.warn.add(line, "the file ends inside an element; if it was cut off, words are missing")
				t.dropCutReference()
			}
			break
		}
		if err != nil {
			r.warn.add(line, "broken XML; read up to here")
			break
		}
		switch tok := tok.(type) {
		case xml.Directive:
			t.declare(string(tok))
		case xml.StartElement:
			if e := t.start(tok, line); e != nil {
				return e
			}
		case xml.EndElement:
			t.endElement(tok.Name.Local)
		case xml.CharData:
			s := string(tok)
			blanks := len(s) - len(strings.TrimLeft(s, " \t\n"))
			if e := t.text(s, min(line, from+strings.Count(s[:blanks], "\n"))); e != nil {
				return e
			}
		}
	}
	if !slices.ContainsFunc(r.cues, func(c rawCue) bool { return c.start != untimedCue }) {
		r.cues = nil // no times at all
	}
	r.placeUntimed()
	return nil
}

// dropCutReference drops the beginning of a character reference at the end of a file that was cut off.
func (t *ttmlReader) dropCutReference() {
	if n := len(t.pieces); n > 0 {
		p := &t.pieces[n-1]
		p.text = p.text[:len(p.text)-cutReference(p.text)]
	}
}

// attr returns an attribute by its local name.
func attr(e xml.StartElement, name string) (string, bool) {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value, true
		}
	}
	return "", false
}

func (t *ttmlReader) start(e xml.StartElement, line int) *Error {
	name := strings.ToLower(e.Name.Local)
	if len(t.stack) >= maxXMLDepth {
		if t.deep == 0 {
			t.warn.add(line, "elements nested more than "+strconv.Itoa(maxXMLDepth)+" deep; their times are not read")
		}
		t.deep++
		return nil
	}
	f := ttmlFrame{name: name}
	if n := len(t.stack); n > 0 {
		f = t.stack[n-1]
		f.name, f.own, f.fresh, f.isCue, f.isSeq = name, false, false, false, false
		f.seq = f.begin
	}
	if isMuteElement(name) {
		t.mute++
	}
	switch name {
	case "tt", "timedtext", "transcript":
		t.clock.read(e)
		if v, ok := attr(e, "lang"); ok {
			t.language = v
		}
	case "agent":
		t.agent, _ = attr(e, "id")
	case "name":
		t.naming = t.agent != ""
	case "br":
		t.newline = true
	}
	if v, ok := attr(e, "agent"); ok {
		if named, known := t.agents[strings.TrimPrefix(v, "#")]; known {
			f.speaker = named
		} else {
			f.speaker = v
		}
	}
	if t.mute == 0 {
		t.times(&f, e, line)
	}
	if v, ok := attr(e, "timeContainer"); ok && v == "seq" {
		f.isSeq, f.seq = true, f.begin
	}
	if isCueElement(name) && t.mute == 0 {
		t.newline = true
		if f.own {
			if err := t.addCue(rawCue{start: f.begin, end: f.end, hasEnd: f.hasEnd, line: line}); err != nil {
				return err
			}
			f.isCue, f.fresh, t.lazy = true, false, false
		}
	}
	t.stack = append(t.stack, f)
	return nil
}

// times reads the times of an element; the frame holds those of its parent.
func (t *ttmlReader) times(f *ttmlFrame, e xml.StartElement, line int) {
	var parent *ttmlFrame
	base := f.begin
	if n := len(t.stack); n > 0 {
		parent = &t.stack[n-1]
		if parent.isSeq {
			base = parent.seq
		}
	}
	get := func(names ...string) (Time, bool) {
		for _, name := range names {
			if v, ok := attr(e, name); ok {
				at, ok := t.clock.time(v, name == "t" || name == "d")
				if !ok {
					t.warn.add(line, "time not understood: expected a TTML time such as 00:01:02.500 or 62.5s")
				}
				return at, ok
			}
		}
		return 0, false
	}
	begin, okBegin := get("begin", "start", "t")
	end, okEnd := get("end")
	dur, okDur := get("dur", "d")
	if okBegin || okEnd || okDur {
		f.own, f.fresh, f.hasBegin = true, true, true
		f.begin = min(base+begin, maxClock)
	} else if parent != nil && parent.isSeq {
		f.begin = base
	}
	limit, hasLimit := f.end, f.hasEnd
	switch {
	case okEnd && okDur:
		f.end, f.hasEnd = min(base+end, f.begin+dur), true
	case okEnd:
		f.end, f.hasEnd = base+end, true
	case okDur:
		f.end, f.hasEnd = f.begin+dur, true
	}
	if hasLimit && f.end > limit && limit > f.begin {
		f.end = limit
	}
	if parent != nil && f.hasEnd && (okEnd || okDur) {
		parent.seq = f.end
	}
}

func (t *ttmlReader) endElement(name string) {
	if t.deep > 0 {
		t.deep--
		return
	}
	name = strings.ToLower(name)
	for n := len(t.stack) - 1; n >= 0; n-- { // an element left open ends with the one around it
		if t.stack[n].name != name {
			continue
		}
		for len(t.stack) > n {
			t.pop()
		}
		return
	}
}

func (t *ttmlReader) pop() {
	f := t.stack[len(t.stack)-1]
	t.stack = t.stack[:len(t.stack)-1]
	if isMuteElement(f.name) {
		t.mute--
	}
	switch f.name {
	case "agent":
		t.agent = ""
	case "name":
		t.naming = false
	}
	if f.own && isWordElement(f.name) {
		t.closeSpan(f)
	}
}

// isMuteElement: what stands in such an element is no speech; ruby text (rt) only repeats the base.
func isMuteElement(name string) bool {
	switch name {
	case "head", "metadata", "styling", "layout", "style", "title", "desc", "copyright", "rt", "rp":
		return true
	}
	return false
}

// isCueElement: its text is speech.
func isCueElement(name string) bool { return name == "p" || name == "text" || name == "cue" }

// isWordElement: its times are those of words.
func isWordElement(name string) bool { return name == "span" || name == "s" }

// closeSpan ends the last word of a span with a time of its own.
func (t *ttmlReader) closeSpan(f ttmlFrame) {
	if n := len(t.pieces); n > 0 && f.hasEnd && t.pieces[n-1].timed && t.pieces[n-1].at == f.begin {
		t.pieces[n-1].until = f.end
	}
}

// text takes the text inside the innermost open element.
func (t *ttmlReader) text(s string, line int) *Error {
	if t.naming {
		t.agents[t.agent] = strings.TrimSpace(s)
		return nil
	}
	if t.mute > 0 || isBlankText(s) && !t.inCue() {
		return nil
	}
	if t.agent != "" {
		return nil
	}
	n := len(t.stack)
	if n == 0 {
		return nil
	}
	f := &t.stack[n-1]
	if !t.inCue() {
		if !f.hasBegin && !t.inParagraph() {
			t.warn.add(line, "text without a time outside the paragraphs; left out")
			return nil
		}
		c := rawCue{start: f.begin, end: f.end, hasEnd: f.hasEnd, line: line}
		if !f.hasBegin { // until a span brings a time
			c.start, c.hasEnd = untimedCue, false
		}
		if err := t.addCue(c); err != nil {
			return err
		}
		t.openCueFrame()
		t.lazy = true
	}
	c := &t.cues[len(t.cues)-1]
	if t.lazy && c.start == untimedCue && f.hasBegin {
		c.start = f.begin
	}
	if t.lazy && f.hasEnd && f.end > c.end {
		c.end, c.hasEnd = f.end, true // the paragraph gives no time, so it lasts as long as its spans
	} else if t.lazy && !f.hasEnd && f.begin >= c.end {
		c.hasEnd = false
	}
	if strings.IndexByte(s, '&') >= 0 {
		s = t.dropEntities(s, line)
	}
	p := piece{text: s, pos: -1, line: line, newline: t.newline, speaker: f.speaker}
	if f.fresh && !isBlankText(s) {
		if isWordElement(f.name) {
			p.at, p.timed, t.tagged = f.begin, true, true
		}
		f.fresh = false
	}
	t.newline = false
	t.addPiece(p)
	return nil
}

// mostEntity is the longest text, in bytes, that a file can declare for a reference of its own.
const mostEntity = 40

// declare takes the plain texts for which a file declares references (XML 1.0, 4.2). Those with references in them are not followed, since
// they can grow without end.
func (t *ttmlReader) declare(directive string) {
	for {
		var ok bool
		if _, directive, ok = strings.Cut(directive, "<!ENTITY"); !ok {
			return
		}
		field := strings.Fields(directive[:min(len(directive), 200)])
		if len(field) < 2 || len(t.entities) > 100 {
			continue
		}
		_, text, _ := strings.Cut(directive, field[0])
		text = strings.TrimSpace(text[:min(len(text), 200)])
		end := strings.IndexByte(text[1:], text[0])
		if text[0] != '"' && text[0] != '\'' || end < 0 || end > mostEntity || strings.ContainsAny(text[1:1+end], "&%<") {
			continue
		}
		t.entities[field[0]] = text[1 : 1+end]
	}
}

// plainAngles writes "<" as a reference where it opens neither an element nor anything else of XML: "a < b".
func plainAngles(src string) string {
	var out strings.Builder
	done := 0
	for i := 0; i < len(src)-1; i++ {
		n := strings.IndexByte(src[i:len(src)-1], '<')
		if n < 0 {
			break
		}
		i += n
		if next := src[i+1]; next == ' ' || next == '\n' || next == '<' || next == '=' || next >= '0' && next <= '9' {
			out.WriteString(src[done:i])
			out.WriteString("&lt;")
			done = i + 1
		}
	}
	if done == 0 {
		return src
	}
	out.WriteString(src[done:])
	return out.String()
}

// dropEntities leaves out the references to what the file declares itself and declare did not take.
func (t *ttmlReader) dropEntities(s string, line int) string {
	var out strings.Builder
	for {
		i := strings.IndexByte(s, '&')
		if i < 0 {
			break
		}
		n := nameLength(s[i:])
		out.WriteString(s[:i])
		if ref := s[i : i+n]; n < 3 || ref[n-1] != ';' || unescape(ref) != ref {
			out.WriteString(ref)
		} else if text, ok := t.entities[ref[1:n-1]]; ok {
			out.WriteString(text)
		} else {
			t.warn.add(line, "reference to text that the file declares itself; left out")
		}
		s = s[i+n:]
	}
	out.WriteString(s)
	return out.String()
}

// inParagraph reports whether an element whose text is speech is open.
func (t *ttmlReader) inParagraph() bool {
	for i := range t.stack {
		if isCueElement(t.stack[i].name) {
			return true
		}
	}
	return false
}

// inCue reports whether an open element has opened a cue.
func (t *ttmlReader) inCue() bool {
	for i := len(t.stack) - 1; i >= 0; i-- {
		if t.stack[i].isCue {
			return true
		}
	}
	return false
}

// openCueFrame makes the outermost paragraph, or else the innermost element, the owner of the cue at hand.
func (t *ttmlReader) openCueFrame() {
	for i := range t.stack {
		if t.stack[i].name == "p" {
			t.stack[i].isCue = true
			return
		}
	}
	t.stack[len(t.stack)-1].isCue = true
}

func isBlankText(s string) bool { return strings.TrimSpace(s) == "" }
