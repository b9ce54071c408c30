package caption

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"time"
)

// clockText writes a time as WebVTT and SubRip readers both take it but for the point: hh:mm:ss.ttt, rounded to the millisecond.
func clockText(t Time) string {
	ms := (int64(t) + int64(time.Millisecond)/2) / int64(time.Millisecond)
	return fmt.Sprintf("%02d:%02d:%02d.%03d", ms/3_600_000, ms/60_000%60, ms/1000%60, ms%1000)
}

// WriteVTT writes the track as clean WebVTT: a cue each, in order, 0 <= start < end, with the words as they were read, a voice
// where the speaker is known, and events in cues of their own text. Times between words are written where the words have
// times of their own. Cues without words or events are left out.
func (t *Track) WriteVTT(w io.Writer) error {
	b := bufio.NewWriter(w)
	b.WriteString("WEBVTT\n")
	if t.Language != "" && !strings.ContainsAny(t.Language, "\r\n") {
		b.WriteString("Language: " + t.Language + "\n")
	}
	event := 0
	for i, c := range t.Cues {
		last := i == len(t.Cues)-1
		first := event
		for event < len(t.Events) && (last || t.Events[event].At < t.Cues[i+1].Start) {
			event++
		}
		t.writeCue(b, c, t.Events[first:event])
	}
	return b.Flush()
}

// writeCue writes one cue: what was heard in it, and its words.
func (t *Track) writeCue(b *bufio.Writer, c Cue, events []Event) {
	words := t.Words[c.First:c.Last]
	if len(words) == 0 && len(events) == 0 {
		return
	}
	end := max(c.End, c.Start+Time(time.Millisecond))
	b.WriteString("\n" + clockText(c.Start) + " --> " + clockText(end) + "\n")
	for _, e := range events {
		b.WriteString(escapeVTT(e.Text) + "\n")
	}
	voice, line := "", 0
	for i, w := range words {
		switch {
		case i == 0:
		case w.Line != line:
			b.WriteByte('\n')
		default:
			b.WriteByte(' ')
		}
		if w.Speaker != voice || i > 0 && w.Line != line && voice != "" {
			b.WriteString(voiceTag(w.Speaker))
			voice = w.Speaker
		}
		line = w.Line
		if w.Time.From == OnWord && i > 0 && w.Time.At > c.Start && w.Time.At < end {
			b.WriteString("<" + clockText(w.Time.At) + ">")
		}
		b.WriteString(escapeVTT(w.Text + plainAfter(w.After)))
	}
	if len(words) > 0 {
		b.WriteByte('\n')
	}
}

// plainAfter leaves out marks from which an arrow could arise.
func plainAfter(after string) string {
	if strings.ContainsAny(after, ">→") {
		return ""
	}
	return after
}

func voiceTag(name string) string {
	name = strings.Map(func(r rune) rune {
		if r == '>' || r == '<' || r < ' ' {
			return ' '
		}
		return r
	}, name)
	return "<v " + strings.ReplaceAll(name, "&", "&amp;") + ">"
}

// escapeVTT writes the marks that WebVTT reads as its own (4.2.2) as references; so neither an arrow nor a tag can arise.
func escapeVTT(s string) string {
	if strings.IndexAny(s, "&<>") < 0 {
		return s
	}
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(s)
}
