package caption

import (
	"bytes"
	"fmt"
	"strings"
	"time"

	"github.com/asticode/go-astisub"
)

// guard calls the subtitle library and turns a panic in it into an error.
func guard(read func() (*astisub.Subtitles, error)) (s *astisub.Subtitles, err error) {
	defer func() {
		if p := recover(); p != nil {
			s, err = nil, fmt.Errorf("%v", p)
		}
	}()
	return read()
}

// ssaEvent is one Dialogue line.
type ssaEvent struct {
	text string
	line int
}

// readSSA reads SubStation Alpha (SSA, ASS). The library gets only the lines that bear on the words, in one go; where it stops
// at one of them, it gets them one by one, so that the others are kept.
func readSSA(r *reading) *Error {
	format, events := ssaEvents(r.src)
	if len(events) > r.maxCues {
		return &Error{Msg: tooMany(r.maxCues), Err: ErrTooBig}
	}
	all, err := readEvents(format, events)
	if err == nil && len(all) == len(events) {
		for i, item := range all {
			r.addSSA(item, ssaField(format, events[i].text), events[i].line)
		}
		return nil
	}
	for i := range events {
		one, err := readEvents(format, events[i:i+1])
		if err != nil || len(one) != 1 {
			r.warn.add(events[i].line, "Dialogue line not understood; left out")
			continue
		}
		r.addSSA(one[0], ssaField(format, events[i].text), events[i].line)
	}
	return nil
}

// ssaEvents collects the Dialogue lines and the Format line of the events; a usual one where it is missing.
func ssaEvents(src string) (format string, events []ssaEvent) {
	format = "Format: Layer, Start, End, Style, Name, MarginL, MarginR, MarginV, Effect, Text"
	inEvents := true
	sc := scanRows(src)
	for {
		w, ok := sc.next()
		if !ok {
			return format, events
		}
		s := strings.Trim(src[w.from:w.to], " \t\ufeff")
		switch {
		case strings.HasPrefix(s, "["):
			inEvents = strings.EqualFold(s, "[events]")
		case inEvents && strings.HasPrefix(s, "Format:"):
			format = s
		case strings.HasPrefix(s, "Dialogue:"):
			if i := strings.LastIndex(s, `{\`); w.to == len(src) && i > strings.LastIndexByte(s, '}') {
				s = s[:i] // marks that were cut off
			}
			events = append(events, ssaEvent{s, w.line})
		}
	}
}

// ssaField returns the text of a Dialogue line: the last of its fields, which may hold commas.
func ssaField(format, line string) string {
	field := strings.SplitN(line, ",", strings.Count(format, ",")+1)
	return strings.TrimSpace(field[len(field)-1])
}

func readEvents(format string, events []ssaEvent) ([]*astisub.Item, error) {
	var b bytes.Buffer
	b.WriteString("[Events]\n" + format + "\n")
	for _, e := range events {
		b.WriteString(e.text)
		b.WriteByte('\n')
	}
	s, err := guard(func() (*astisub.Subtitles, error) {
		return astisub.ReadFromSSAWithOptions(bytes.NewReader(b.Bytes()), astisub.SSAOptions{
			OnUnknownSectionName: func(string) {},
			OnInvalidLine:        func(string) {},
		})
	})
	if err != nil {
		return nil, err
	}
	return s.Items, nil
}

// addSSA takes one Dialogue line; karaoke marks {\k} in it are times of words.
func (r *reading) addSSA(item *astisub.Item, text string, line int) {
	for i := range item.Lines {
		if item.Lines[i].VoiceName == "NTP" { // no name: so some programs fill the field
			item.Lines[i].VoiceName = ""
		}
	}
	start, end := Time(item.StartAt), Time(item.EndAt)
	if start < 0 || start > maxClock {
		r.warn.add(line, tooLate)
		return
	}
	if r.addCue(rawCue{start: start, end: end, hasEnd: true, line: line}) != nil {
		return // their number was checked before
	}
	if ssaWords(item) != wordCount(plainSSA(text)) {
		r.warn.add(line, "unknown marks in braces; the line read without them")
		for _, l := range strings.Split(plainSSA(text), "\n") {
			r.addPiece(piece{text: l, pos: -1, line: line, newline: true, speaker: item.Lines[0].VoiceName})
		}
		return
	}
	at := start
	drawing := false
	for _, l := range item.Lines {
		newline := true
		for _, it := range l.Items {
			p := piece{text: ssaText(it.Text), pos: -1, line: line, newline: newline, speaker: l.VoiceName}
			if it.InlineStyle != nil {
				drawing = isDrawing(it.InlineStyle.SSAEffect, drawing)
				if since, ok := karaokeStart(it.InlineStyle.SSAEffect); ok {
					at = start + since
				}
				if length, ok := karaoke(it.InlineStyle.SSAEffect); ok {
					p.at, p.timed, r.tagged = at, true, true
					at += length
				}
			}
			newline = false
			if !drawing {
				r.addPiece(p)
			}
		}
	}
}

// isDrawing reports whether the text behind an effect such as {\p1} is a drawing; it stays so until {\p0}.
func isDrawing(effect string, before bool) bool {
	for _, part := range strings.Split(strings.Trim(effect, "{}"), `\`) {
		if scale, ok := strings.CutPrefix(part, "p"); ok && isDigits(scale) {
			before = strings.Trim(scale, "0") != ""
		}
	}
	return before
}

// ssaWords counts the words that the library found in a Dialogue line, with those of drawings.
func ssaWords(item *astisub.Item) int {
	n := 0
	for _, l := range item.Lines {
		var line strings.Builder
		for _, it := range l.Items {
			line.WriteString(it.Text)
		}
		n += wordCount(ssaText(line.String()))
	}
	return n
}

func wordCount(s string) int { return len(strings.Fields(s)) }

// plainSSA returns the text of a Dialogue line without what stands in braces.
func plainSSA(s string) string {
	s = strings.NewReplacer(`\N`, "\n", `\n`, "\n", `\h`, " ").Replace(s)
	var out strings.Builder
	for {
		i := strings.IndexByte(s, '{')
		n := strings.IndexByte(s[max(i, 0):], '}')
		if i < 0 || n < 0 {
			out.WriteString(s)
			return out.String()
		}
		out.WriteString(s[:i])
		s = s[i+n+1:]
	}
}

// ssaText undoes the hard space.
func ssaText(s string) string {
	if strings.IndexByte(s, '\\') < 0 {
		return s
	}
	return strings.ReplaceAll(s, `\h`, " ")
}

// karaokeStart returns the time since the start of the line in {\kt250}, in 1/100 s.
func karaokeStart(effect string) (since Time, ok bool) {
	for _, part := range strings.Split(strings.Trim(effect, "{}"), `\`) {
		if d, is := strings.CutPrefix(part, "kt"); is && isDigits(d) && len(d) < 7 {
			since, ok = Time(number(d))*Time(10*time.Millisecond), true
		}
	}
	return since, ok
}

// karaoke returns the sum of the lengths in {\k100}, {\kf50}, {\ko50} or {\K50}, in 1/100 s.
func karaoke(effect string) (sum Time, ok bool) {
	for _, part := range strings.Split(strings.Trim(effect, "{}"), `\`) {
		if part == "" || part[0] != 'k' && part[0] != 'K' {
			continue
		}
		if strings.HasPrefix(part, "kt") {
			ok = true
			continue
		}
		d := strings.TrimSpace(strings.TrimLeft(part, "kKfo"))
		if isDigits(d) && len(d) < 7 {
			sum += Time(number(d)) * Time(10*time.Millisecond)
			ok = true
		}
	}
	return sum, ok
}

const brokenSTL = "this EBU STL file is broken; export the captions as WebVTT or SubRip and give that file"

// Sizes of the blocks of an EBU STL file (EBU Tech 3264).
const (
	stlHead  = 1024
	stlBlock = 128
)

// readSTL reads an EBU STL file, the binary exchange format of broadcasters.
func readSTL(r *reading, b []byte) *Error {
	if len(b) < stlHead+stlBlock {
		return &Error{Msg: nothingIn("stl"), Err: ErrNoTimes}
	}
	if rest := (len(b) - stlHead) % stlBlock; rest != 0 {
		r.warn.add(0, "file ends in the middle of a block; read without it")
		b = b[:len(b)-rest]
	}
	if n := (len(b) - stlHead) / stlBlock; n > r.maxCues {
		return &Error{Msg: tooMany(r.maxCues), Err: ErrTooBig}
	}
	s, err := guard(func() (*astisub.Subtitles, error) {
		return astisub.ReadFromSTL(bytes.NewReader(b), astisub.STLOptions{IgnoreTimecodeStartOfProgramme: true})
	})
	if err != nil {
		return &Error{Msg: brokenSTL + " (" + err.Error() + ")", Err: ErrNotText}
	}
	if s.Metadata != nil {
		r.title = strings.TrimSpace(s.Metadata.Title)
	}
	raw := stlTexts(b)
	if len(raw) != len(s.Items) {
		return &Error{Msg: fmt.Sprintf("%s (%d captions, of which %d can be read)", brokenSTL, len(raw), len(s.Items)), Err: ErrNotText}
	}
	for i, item := range s.Items {
		block := i + 1 // an STL file has no lines; its blocks are counted instead
		start, end := Time(item.StartAt), Time(item.EndAt)
		if start < 0 || start > maxClock {
			r.warn.add(block, tooLate)
			continue
		}
		if err := r.addCue(rawCue{start: start, end: end, hasEnd: true, line: block}); err != nil {
			return err
		}
		r.addSTL(item, raw[i], block)
	}
	return nil
}

// addSTL takes the text of one block; raw is what stands in it, against which the words that the library found are counted.
func (r *reading) addSTL(item *astisub.Item, raw string, block int) {
	var text strings.Builder
	for _, l := range item.Lines {
		text.WriteByte('\n')
		for _, it := range l.Items {
			text.WriteString(it.Text)
		}
	}
	if wordCount(text.String()) < wordCount(raw) {
		r.warn.add(block, "unknown marks among the words of a block; read without them")
		r.addPiece(piece{text: raw, pos: -1, line: block, newline: true})
		return
	}
	for _, l := range item.Lines {
		newline := true
		for _, it := range l.Items {
			r.addPiece(piece{text: it.Text, pos: -1, line: block, newline: newline})
			newline = false
		}
	}
}

// stlTexts returns the plain letters of the text blocks that the library reads, with blanks for marks and without accents (EBU Tech 3264:
// the text is the last 112 bytes of a block; an extension number of FE marks user data).
func stlTexts(b []byte) []string {
	var texts []string
	for at := stlHead; at+stlBlock <= len(b); at += stlBlock {
		if b[at+3] == 0xFE {
			continue
		}
		var text strings.Builder
		for _, c := range b[at+16 : at+stlBlock] {
			switch {
			case c > ' ' && c <= '~':
				text.WriteByte(c)
			case c < 0xA0:
				text.WriteByte(' ')
			}
		}
		texts = append(texts, text.String())
	}
	return texts
}
