package segment

import (
	"math"
	"sort"

	"captally.example/captally/segment/announce"
)

const (
	gainGo   = 2.5 // nats: what a go phrase of weight 1 speaks for a set in silence
	lossTalk = 1.2 // nats: what fluent talk within speaks against it
)

// A goMark is a place where a set in silence may begin.
type goMark struct {
	first, last int // words of the phrase
	weight      float64
}

// gos lists the go phrases, the longest at each end, and silences.
func (x *text) gos() []goMark {
	byEnd := map[int]goMark{}
	for _, m := range x.marks["go"] {
		if m.Last < len(x.w) && x.w[m.Last-1].stop == runsOn && x.silence(m.Last) < 0.35 {
			m.Weight *= 0.4 // the talk goes on
		}
		if old, ok := byEnd[m.Last]; !ok || m.Weight > old.weight {
			byEnd[m.Last] = goMark{m.First, m.Last, m.Weight}
		}
	}
	sides := map[int]bool{}
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
			if old, ok := byEnd[i]; !ok || old.weight < weight {
				byEnd[i] = goMark{i - 1, i, weight}
			} else {
				old.weight = math.Min(1, old.weight+0.2)
				byEnd[i] = old
			}
		}
	}
	out := make([]goMark, 0, len(byEnd))
	for _, g := range byEnd {
		out = append(out, g)
	}
	sort.Slice(out, func(a, b int) bool { return out[a].last < out[b].last })
	return out
}

// goTime is when a set begins whose go phrase ends before word i.
func (x *text) goTime(i int) float64 { return x.w[i-1].end }
