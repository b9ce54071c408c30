package segment

import (
	"math"

	"captally.example/captally/segment/announce"
	"captally.example/captally/segment/caption"
)

// A rest is silent like a set that nobody counts: what fills an announced rest from its announcement on is none.

const (
	lossInRest     = 5.0   // nats: of a set without a count that an announced rest of weight 1 accounts for
	restSurely     = 0.5   // weight of an announcement from which it is believed
	restStrays     = 0.25  // natural logarithm: how far a rest strays from what was announced
	leastAnnounced = 8.0   // seconds
	restBegins     = 0.4   // of an announced rest, by which what fills it has begun
	longestKnown   = 120.0 // seconds before the set within which a rest that it may fill was announced
	surelyGo       = 0.8   // weight of a go phrase after which it is a set all the same
)

// inRest is what speaks against a set without a count that begins at word first and lasts from start to end, in seconds: it is over
// when a rest would be that was announced just before.
func (x *text) inRest(first int, start, end float64) float64 {
	worst := 0.0
	if x.timing == caption.TimingBlock {
		return 0 // the words' own times do not tell
	}
	for k := x.saidBefore(first) - 1; k >= 0; k-- {
		m := &x.said[k]
		if start-x.w[m.First].t > longestKnown {
			break
		}
		if m.Kind != announce.Rest || m.Value < leastAnnounced || m.Weight < restSurely || m.Scope != announce.Here {
			continue
		}
		said := x.w[m.Last-1].end
		if start-said > restBegins*m.Value || x.goesAt(m.Last, first) {
			continue
		}
		z := math.Log((end-said)/m.Value) / restStrays
		worst = math.Max(worst, lossInRest*m.Weight*math.Exp(-0.5*z*z))
	}
	return worst
}

// goesAt reports whether a sure go phrase ends after word a, at word b at the latest.
func (x *text) goesAt(a, b int) bool {
	for _, m := range x.marks["go"] {
		if m.Last > a && m.Last <= b && m.Weight >= surelyGo && x.silence(min(m.Last, len(x.w)-1)) > 0.35 {
			return true
		}
	}
	return false
}
