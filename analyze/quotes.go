package analyze

import (
	"strings"

	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

func quotes(rs []segment.Remark) []Quote {
	out := []Quote{}
	for _, r := range rs {
		out = append(out, Quote{Text: r.Text, At: at(r.At)})
	}
	return out
}

func quoteOrNil(r *segment.Remark) *Quote {
	if r == nil || r.Text == "" {
		return nil
	}
	return &Quote{Text: r.Text, At: at(r.At)}
}

// written returns words [first, last) as the captions write them, with the punctuation between them.
func written(t *caption.Track, first, last int) string {
	if t == nil {
		return ""
	}
	first, last = max(first, 0), min(last, len(t.Words))
	var b strings.Builder
	for i := first; i < last; i++ {
		if i > first {
			b.WriteByte(' ')
		}
		b.WriteString(t.Words[i].Text)
		if i < last-1 {
			b.WriteString(t.Words[i].After)
		}
	}
	return b.String()
}

// quoteWords returns words [first, last) as one quote; ok is false where there are none.
func quoteWords(t *caption.Track, first, last int) (q Quote, ok bool) {
	text := written(t, first, last)
	if text == "" {
		return Quote{}, false
	}
	return Quote{Text: text, At: at(t.Words[max(first, 0)].Time.At)}, true
}

// quoteFrom returns what was said from the time when, up to the end of its sentence or six words.
func quoteFrom(t *caption.Track, when caption.Time) (q Quote, ok bool) {
	if t == nil {
		return Quote{}, false
	}
	first := 0
	for first < len(t.Words) && t.Words[first].Time.At < when {
		first++
	}
	last := first + 1
	for last < len(t.Words) && last < first+6 && !strings.ContainsAny(t.Words[last-1].After, ".?!") {
		last++
	}
	return quoteWords(t, first, last)
}

// A collector gathers the evidence of one finding.
type collector struct {
	track  *caption.Track
	quotes []Quote
}

func (c *collector) words(first, last int) {
	if q, ok := quoteWords(c.track, first, last); ok {
		c.quotes = append(c.quotes, q)
	}
}

func (c *collector) from(when caption.Time) {
	if q, ok := quoteFrom(c.track, when); ok {
		c.quotes = append(c.quotes, q)
	}
}

// announced quotes the dose of a set, where one was said, with a few words of its sentence on either side.
func (c *collector) announced(d segment.Dose) {
	if d.Last > d.First && c.track != nil {
		c.words(sentence(c.track, d.First, d.Last))
	}
}

// sentence widens words [first, last) by up to three on either side, within their sentence: not over a full stop, nor over a
// silence of two seconds.
func sentence(t *caption.Track, first, last int) (int, int) {
	const most = 3
	joined := func(i int) bool { // word i and the next
		return i >= 0 && i+1 < len(t.Words) && !strings.ContainsAny(t.Words[i].After, ".?!") && t.Words[i+1].Time.At-t.Words[i].Time.At < caption.At(2)
	}
	for n := 0; n < most && joined(first-1); n++ {
		first--
	}
	for n := 0; n < most && joined(last-1); n++ {
		last++
	}
	return first, last
}

// lastCounted quotes the last number of a set's count.
func (c *collector) lastCounted(s *segment.Set) {
	for i := len(s.Count) - 1; i >= 0; i-- {
		if w := s.Count[i].Word; w >= 0 && s.Count[i].Origin == segment.Heard {
			c.words(w, w+1)
			return
		}
	}
}

// around quotes the numbers of a slip, each with its own time, from the one before it to the one after it:
// the times show whether the numbers took the time of a repetition.
func (c *collector) around(s *segment.Set, slip segment.Slip) {
	first, last := slip.First, slip.Last
	before, after := -1, -1
	var inside []int
	for _, n := range s.Count {
		switch w := n.Word; {
		case w < 0:
		case w >= first && w < last:
			if len(inside) == 0 || inside[len(inside)-1] != w { // one word may stand for several numbers
				inside = append(inside, w)
			}
		case n.At.At <= slip.At.At && (last <= first || w < first):
			before = w
		case after < 0 && (last <= first || w >= last):
			after = w
		}
	}
	if before >= 0 {
		c.words(before, before+1)
	}
	if len(inside) == 0 && last > first {
		c.words(first, last)
	}
	for _, w := range inside {
		c.words(w, w+1)
	}
	if after >= 0 {
		c.words(after, after+1)
	}
}
