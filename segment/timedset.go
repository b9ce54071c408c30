package segment

import (
	"captally.example/captally/segment/announce"
	"captally.example/captally/segment/caption"
)

// timedSet turns a timed stretch into a set, without its name, side and dose.
func (x *text) timedSet(s *stretch) Set {
	b := x.lengthBelief(s)
	// the best length may not be that between the two words as the file has them: each gives way as far as it is unsure
	a, e := x.begin(s.first), x.endSpread(s.last)
	start, end := s.start, s.end
	if v := float64(a.sd*a.sd) + float64(e.sd*e.sd); v > 0 {
		d := b.Value - (end - start)
		start -= d * a.sd * a.sd / v
		end += d * e.sd * e.sd / v
	}
	start = max(0, start)
	set := Set{Span: Span{around(start, a.sd, x.evidence()), around(end, e.sd, x.evidence())}, Performed: b, Tension: b}
	set.TimeCues = x.timeCues(s, end)
	return set
}

// timeCues lists what was said within a timed set on the time left. Remarks on what is gone are turned round by the announced
// length, where there is one.
func (x *text) timeCues(s *stretch, end float64) []TimeCue {
	var out []TimeCue
	for _, c := range s.cues {
		left, gone := c.v, 0.0
		switch {
		case c.weight < 0.5:
			continue
		case c.kind == announce.Halfway && s.seconds > 0:
			left = s.seconds / 2
		case c.kind == announce.Gone && s.seconds > 0:
			left, gone = s.seconds-c.v, c.v
		case c.kind != announce.Remaining:
			continue
		}
		if left <= 0 || s.seconds > 0 && left > s.seconds {
			continue
		}
		w := &x.track.Words[c.word]
		actual := max(0, end-w.Time.At.Seconds())
		out = append(out, TimeCue{At: w.Time, Said: left, Actual: actual, Gone: gone, Half: c.kind == announce.Halfway, First: c.word, Last: c.last})
	}
	return out
}

// An instant is a time with its standard deviation, in seconds.
type instant struct{ t, sd float64 }

const leastInstant = 0.3 // seconds: nobody begins or stops quite on the word

// endSpread is when a timed set ends that the word i follows.
func (x *text) endSpread(i int) instant {
	return instant{x.w[i].t, wordSD(x.track.Words[i].Time)}
}

// wordSD is the standard deviation of the time of a word, in seconds.
func wordSD(s caption.Spread) float64 {
	return max(leastInstant, (s.High-s.Low).Seconds()/(2*1.645))
}
