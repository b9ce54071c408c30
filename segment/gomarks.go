package segment

import (
	"math"

	"captally.example/captally/segment/announce"
)

const (
	gainGo   = 2.5 // nats: what a go phrase of weight 1 speaks for a set in silence
	lossTalk = 1.2 // nats: what fluent talk within speaks against it
)

// A goMark is a place where a set in silence may begin.
type goMark struct {
	last   int // the word after the phrase
	weight float64
}

// gos lists the go phrases, the longest at each end, and silences, in the order of their ends.
func (x *text) gos() []goMark {
	weights := make([]float64, len(x.w)+1) // by the word after it; 0 for none
	for _, m := range x.marks["go"] {
		if m.Last < len(x.w) && x.w[m.Last-1].stop == runsOn && x.silence(m.Last) < 0.35 {
			m.Weight *= 0.4 // the talk goes on
		}
		weights[m.Last] = math.Max(weights[m.Last], m.Weight)
	}
	sides := make([]bool, len(x.w)+1)
	for k := range x.said {
		if m := &x.said[k]; m.Kind == announce.Side {
			sides[m.Last] = true
		}
	}
	for i := 1; i < len(x.w); i++ {
		if gap := x.silence(i); gap > 3.5 || x.w[i-1].stop == sentence && gap > 2 {
			weight := 0.4
			if sides[i] {
				weight = 0.8
			}
			if weights[i] < weight {
				weights[i] = weight
			} else {
				weights[i] = math.Min(1, weights[i]+0.2)
			}
		}
	}
	out := make([]goMark, 0, 1+len(x.w)/8)
	for i, w := range weights {
		if w > 0 {
			out = append(out, goMark{i, w})
		}
	}
	return out
}

// goTime is when a set begins whose go phrase ends before word i.
func (x *text) goTime(i int) float64 { return x.w[i-1].end }
