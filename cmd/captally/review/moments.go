package review

import (
	"fmt"
	"html"
	"strings"

	"captally.example/captally/cmd/captally/figures"
	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// lead is how many seconds before a finding the video starts: long enough to hear the count come.
const lead = 4

// playFrom is where to start hearing a moment.
func playFrom(at float64) float64 { return max(0, at-lead) }

// A said is what was said in a session, for reading along.
type said struct {
	Cues  []cueLine `json:"cues"`
	Words [][2]any  `json:"words"` // text with its punctuation, seconds
}

// A cueLine is one caption, or one block of a transcript.
type cueLine struct {
	Start float64 `json:"start_s"`
	Clock string  `json:"clock"`
	First int     `json:"first"` // its words are Words[First:Last]
	Last  int     `json:"last"`
}

func saidIn(t *caption.Track) said {
	s := said{Cues: []cueLine{}, Words: [][2]any{}}
	for _, c := range t.Cues {
		if c.First < c.Last {
			s.Cues = append(s.Cues, cueLine{c.Start.Seconds(), c.Start.String(), c.First, c.Last})
		}
	}
	for _, w := range t.Words {
		s.Words = append(s.Words, [2]any{w.Text + w.After, w.Time.At.Seconds()})
	}
	return s
}

// A mark says what a word is in a count.
type mark struct {
	Word   int    `json:"word"`
	Origin string `json:"origin"`
	Text   string `json:"text"` // "repetition 5 of straight leg raise"
}

func marksOf(s *segment.Session) []mark {
	out := []mark{}
	for i := range s.Sets {
		set := &s.Sets[i]
		for _, n := range set.Count {
			if n.Word < 0 {
				continue
			}
			out = append(out, mark{Word: n.Word, Origin: n.Origin.String(), Text: markText(i+1, n)})
		}
	}
	return out
}

func markText(set int, n segment.Number) string {
	text := fmt.Sprintf("Set %d: ", set)
	if n.Said > 0 {
		text += fmt.Sprintf("“%d”, ", n.Said)
	}
	switch {
	case n.Origin == segment.CaptionRepeat:
		return text + "in the captions twice, said once"
	case n.Origin == segment.CaptionMisheard:
		return text + "written otherwise by the captioner"
	case n.Rep == 0:
		return text + "no repetition"
	}
	return text + fmt.Sprintf("repetition %d", n.Rep)
}

// ticks are the marks of time beneath the strip, some eight of them.
func ticks(duration float64) []tick {
	out := []tick{}
	step := 60.0
	for _, s := range []float64{60, 120, 300, 600, 900, 1800, 3600} {
		if step = s; duration/s <= 8 {
			break
		}
	}
	for at := 0.0; at < duration-step/4; at += step {
		out = append(out, tick{at, figures.Clock(at)})
	}
	return out
}

type tick struct {
	At   float64 `json:"at_s"`
	Text string  `json:"text"`
}

// rich returns the notes as HTML for pasting into a word processor or a page: lines that end in a colon are headings, lines
// that begin with a dash a list. It takes the text as the therapist left it.
func rich(text string) string {
	var b strings.Builder
	inList := false
	list := func(open bool) {
		if open != inList {
			b.WriteString(map[bool]string{true: "<ul>\n", false: "</ul>\n"}[open])
			inList = open
		}
	}
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\r\n")
		item, isItem := strings.CutPrefix(line, "- ")
		plain := html.EscapeString(strings.TrimSpace(line))
		switch {
		case isItem:
			list(true)
			b.WriteString("<li>" + html.EscapeString(item) + "</li>\n")
		case inList && strings.HasPrefix(line, "  ") && plain != "": // belongs to the item above
			b.WriteString("<li>" + plain + "</li>\n")
		case plain == "":
			list(false)
		case strings.HasSuffix(plain, ":"):
			list(false)
			b.WriteString("<h3>" + plain + "</h3>\n")
		default:
			list(false)
			b.WriteString("<p>" + plain + "</p>\n")
		}
	}
	list(false)
	return b.String()
}
