package caption

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"time"
	"unicode"
)

// clockText writes a time as WebVTT and SubRip readers both take it but for the point: hh:mm:ss.ttt, rounded to the millisecond.
func clockText(t Time) string {
	ms := (int64(t) + int64(time.Millisecond)/2) / int64(time.Millisecond)
	return fmt.Sprintf("%02d:%02d:%02d.%03d", ms/3_600_000, ms/60_000%60, ms/1000%60, ms%1000)
}

// shortestCue is the shortest cue that is written; a shorter one could be taken for a filler between the steps of rolling captions.
const shortestCue = fillerLength + Time(time.Millisecond)

// WriteVTT writes the track as clean WebVTT: its cues in order, 0 <= start < end, those that begin together as one, each with its words
// on one line, as they were read, a voice where the speaker is known, and the time before each word that has one of its own. Events stand in cues of their own.
func (t *Track) WriteVTT(w io.Writer) error {
	b := bufio.NewWriter(w)
	b.WriteString("WEBVTT\n")
	if languageTag(t.Language) != "" {
		b.WriteString("Language: " + t.Language + "\n")
	}
	event := 0
	lines := lineWriter{b: b}
	for i := 0; i < len(t.Cues); i++ {
		c := t.Cues[i]
		for i+1 < len(t.Cues) && t.Cues[i+1].Start == c.Start { // what begins together stands together
			i++
			c.Last, c.End = t.Cues[i].Last, max(c.End, t.Cues[i].End)
		}
		last := i == len(t.Cues)-1
		for event < len(t.Events) && (last || t.Events[event].At < t.Cues[i+1].Start) {
			writeTimes(b, c)
			b.WriteString(eventText(t.Events[event].Text) + "\n")
			event++
		}
		t.writeWords(&lines, c)
	}
	return b.Flush()
}

func writeTimes(b *bufio.Writer, c Cue) {
	b.WriteString("\n" + clockText(c.Start) + " --> " + clockText(max(c.End, c.Start+shortestCue)) + "\n")
}

// A lineWriter writes the lines of cues so that they are not taken for one line that grows word by word, as isGrowing finds it.
type lineWriter struct {
	b      *bufio.Writer
	before string // letters of the line before
	grows  bool   // it began with all of the one before it
}

// put writes the line of a cue. The second running that begins with all of the line before gets an invisible mark.
func (l *lineWriter) put(line string) {
	letters := withoutMarks(line)
	grows := l.before != "" && len(letters) > len(l.before) && strings.HasPrefix(letters, l.before)
	if grows && l.grows {
		l.b.WriteString("\u2060") // WORD JOINER
		grows = false
	}
	l.before, l.grows = letters, grows
	l.b.WriteString(line + "\n")
}

// withoutMarks returns a line without its tags and blanks.
func withoutMarks(s string) string {
	var out strings.Builder
	for s = skipMarks(s); s != ""; s = skipMarks(s[1:]) {
		out.WriteByte(s[0])
	}
	return out.String()
}

// writeWords writes the words of one cue.
func (t *Track) writeWords(l *lineWriter, c Cue) {
	if c.First == c.Last {
		return
	}
	writeTimes(l.b, c)
	var b strings.Builder
	voice := ""
	for i, w := range t.Words[c.First:c.Last] {
		if i > 0 {
			b.WriteByte(' ')
		}
		if w.Speaker != voice {
			b.WriteString(voiceTag(w.Speaker))
			voice = w.Speaker
		}
		if w.Time.From == OnWord && w.Time.At > c.Start && w.Time.At < c.End {
			b.WriteString("<" + clockText(w.Time.At) + ">")
		}
		b.WriteString(escapeVTT(w.Text + plainAfter(w)))
	}
	l.put(b.String())
}

// plainAfter keeps of what follows a word the marks of a sentence, from which neither an arrow, a bracket nor a label can arise; behind an
// ampersand no semicolon, which would end a reference ("two&lrm"), and behind a time none that parts it from another.
func plainAfter(w Word) string {
	marks := ".,;?!…%°\"'”’»–—-"
	switch {
	case strings.IndexByte(w.Text, '&') >= 0:
		marks = ".,?!"
	case strings.IndexByte(w.Text, ':') >= 0:
		marks = ".?!"
	}
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(marks, r) {
			return r
		}
		return -1
	}, w.After)
}

// eventText writes an event so that it is read as one: a song between notes, anything else in square brackets.
func eventText(s string) string {
	song := strings.ContainsFunc(s, isNote)
	s = strings.TrimSpace(strings.Map(func(r rune) rune {
		if isNote(r) || strings.ContainsRune("[]()*#", r) {
			return ' '
		}
		return r
	}, s))
	switch {
	case s == "":
		return "[music]"
	case song || len(s) > asideMost/2 || !strings.ContainsFunc(s, unicode.IsLetter):
		return "♪ " + escapeVTT(s) + " ♪"
	}
	return "[" + escapeVTT(s) + "]"
}

// mostVoice is the longest name of a speaker that is written, in bytes, so that its tag is not taken for words.
const mostVoice = 80

func voiceTag(name string) string {
	if name == "" {
		return "</v>"
	}
	name = strings.Map(func(r rune) rune {
		if r == '>' || r == '<' || r < ' ' {
			return ' '
		}
		return r
	}, name)
	if len(name) > mostVoice {
		name = name[:mostVoice]
		name = strings.TrimSpace(strings.ToValidUTF8(name, ""))
	}
	return "<v " + strings.ReplaceAll(name, "&", "&amp;") + ">"
}

// escapeVTT writes the marks that WebVTT reads as its own (4.2.2) as references; so neither an arrow nor a tag can arise.
func escapeVTT(s string) string {
	if strings.IndexAny(s, "&<>") < 0 {
		return s
	}
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(s)
}
