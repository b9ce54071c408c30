package notes

import (
	"fmt"
	"math"
	"strings"
)

// A cue is one cue of a WebVTT file.
type cue struct {
	start, end float64 // seconds
	text       string
}

// webvtt writes cues by WebVTT (W3C, w3.org/TR/webvtt1, section 4: file structure): UTF-8, a signature line, times with three
// decimals, and text in which & and < are escaped and neither a line end nor "-->" can stand.
func webvtt(cues []cue) []byte {
	var b strings.Builder
	b.WriteString("WEBVTT\n")
	for i, c := range cues {
		fmt.Fprintf(&b, "\n%d\n%s --> %s\n%s\n", i+1, stamp(c.start), stamp(c.end), escapeVTT(c.text))
	}
	return []byte(b.String())
}

// stamp writes a WebVTT timestamp with hours: 00:12:40.000.
func stamp(seconds float64) string {
	ms := int64(math.Round(seconds * 1000))
	return fmt.Sprintf("%02d:%02d:%02d.%03d", ms/3600000, ms/60000%60, ms/1000%60, ms%1000)
}

var vttEscapes = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")

func escapeVTT(text string) string {
	return vttEscapes.Replace(oneLine(text))
}

// Chapters writes the chapters as a WebVTT chapters file: one cue a chapter, each ending where the next begins, the last at
// the end of the recording.
func Chapters(n *Notes) []byte {
	cues := make([]cue, len(n.Chapters))
	for i, c := range n.Chapters {
		end := math.Max(n.duration, c.Start+1)
		if i+1 < len(n.Chapters) {
			end = n.Chapters[i+1].Start
		}
		cues[i] = cue{c.Start, end, c.Title}
	}
	return webvtt(cues)
}

// shown is how long a correction stays on the picture, in seconds: six, the usual most for one caption (common practice, no
// source).
const shown = 6

// Overlay writes the corrections as WebVTT captions, to be shown over the video where they belong.
func Overlay(n *Notes) []byte {
	var cues []cue
	for i, c := range n.Corrections {
		end := c.At + shown
		if i+1 < len(n.Corrections) && n.Corrections[i+1].At > c.At {
			end = math.Min(end, n.Corrections[i+1].At)
		}
		cues = append(cues, cue{c.At, end, upper(c.clause)})
	}
	return webvtt(cues)
}
