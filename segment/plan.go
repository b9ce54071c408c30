package segment

import (
	"math"

	"captally.example/captally/segment/announce"
	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/chain"
)

// What speaks for a count being a set, in nats, besides the count itself.
const (
	gainDose       = 3.0  // it ends at the number that was announced
	gainLeadIn     = 1.5  // a go phrase stands just before it
	lossBreath     = 60.0 // it counts breaths
	lossShort      = 1.5  // per number that it has fewer than four
	lossBrief      = 1.0  // per second that it is shorter than briefest,
	lossBriefBlock = 0.8  // where only a block has a time
	briefest       = 8.0  // seconds
	lossHasty      = 6.0  // it is said at the speed of talk, not of movement:
	hasteUp        = 0.75 // seconds a number below which that begins,
	hasteSteps     = 1.2  // and where it counts by twos or more ("the dose climbs: four, then six, then eight")
	gainOnBeat     = 4.0  // it began, by its pace, just after a go phrase of weight 1
	gainRestart    = 2.5  // it is said to begin anew just after
	doseWithin     = 100.0
)

// asStretch makes a candidate set of a count.
func (x *text) asStretch(r *run) stretch {
	s := stretch{first: r.first().first, last: r.last().last, start: r.first().t, end: r.last().t, score: r.score, run: r}
	n := len(r.items)
	if r.silentFrom > 0 {
		s.first, s.start, s.end = r.silentFrom, r.begin, r.end
		s.score -= x.inRest(s.first, s.start, s.end)
	} else if r.hold == nil {
		s.score -= float64(lossShort * math.Max(0, float64(4-max(n, x.repsIn(r)))))
		s.score -= x.lossSeconds(r)
		if n > 2 {
			slow := hasteUp
			if r.rule.step > 1 {
				slow = hasteSteps
			}
			if pace := (s.end - s.start) / float64(n-1); pace < slow && r.rule.step > 0 {
				s.score -= float64(lossHasty * math.Min(1, (slow-pace)/0.3))
			}
		}
	}
	s.score -= float64(lossBreath * math.Max(0, x.breathing(r)-0.2))
	s.score += x.beginsOnBeat(r)
	if x.restartsAfter(r) {
		s.score += gainRestart
	}
	brief := lossBrief
	if x.timing == caption.TimingBlock {
		brief = lossBriefBlock // the words' own times say less
	}
	s.score -= float64(brief * math.Max(0, briefest-(s.end-s.start)))
	s.score += x.doseGain(r)
	if r.silentFrom == 0 {
		s.score += x.leadIn(s.first)
	}
	return s
}

// beginsOnBeat is what it speaks for a count of few numbers that it began, by its own pace, where a go phrase or a silence
// ends: "go ... five ... ten".
func (x *text) beginsOnBeat(r *run) float64 {
	if r.hold != nil || r.silentFrom > 0 || r.rule.step < 0 || r.first().v < 3 {
		return 0
	}
	span := float64(r.last().v - r.first().v)
	pace := (r.last().t - r.first().t) / span
	if len(r.items) >= r.last().v/2 || pace < 0.9 || pace > 9 {
		return 0
	}
	best := 0.0
	for _, g := range x.goMarks {
		if g.last > r.first().first {
			break
		}
		z := math.Log((r.first().t-x.goTime(g.last))/(pace*float64(r.first().v))) / 0.3
		best = math.Max(best, gainOnBeat*g.weight*math.Exp(-0.5*z*z))
	}
	return best
}

// restartsAfter reports whether the count is said to begin anew just after.
func (x *text) restartsAfter(r *run) bool {
	for _, m := range x.marks["restart"] {
		if m.First >= r.last().last && m.First < r.last().last+8 {
			return true
		}
	}
	return false
}

// repsIn returns how many repetitions a count of few numbers plausibly stands for: as many as its numbers say, if its pace
// is one of movement.
func (x *text) repsIn(r *run) int {
	total := abs(r.last().v-r.first().v) + 1
	if pace := (r.last().t - r.first().t) / float64(max(1, total-1)); pace < 1 || pace > 8 {
		return 0
	}
	return total
}

// breathing is the share of a count's beginnings (its own, or those of its cycles) that follow a word for a breath at once.
func (x *text) breathing(r *run) float64 {
	follows := func(i int) bool {
		return i > 0 && breathWord[x.w[i-1].fold] && (x.timing != caption.TimingWord || x.silence(i) < 1.2)
	}
	if r.hold != nil {
		n, all := 0, 0
		for i := range r.hold.cycles {
			if c := &r.hold.cycles[i]; !c.silent() {
				all++
				if follows(c.inner[0].first) {
					n++
				}
			}
		}
		return float64(n) / float64(all)
	}
	if pace := (r.last().t - r.first().t) / float64(max(1, len(r.items)-1)); pace > 1.8 {
		return 0
	}
	if follows(r.first().first) {
		return 1
	}
	return 0
}

var breathWord = wordSet("in", "out", "breathe", "breath", "inhale", "exhale")

// doseGain is what an announced dose speaks for a count that ends there.
func (x *text) doseGain(r *run) float64 {
	total := r.last().v
	if r.rule.step < 0 {
		total = r.first().v
	}
	best := 0.0
	begin := r.first().first
	if r.silentFrom > 0 {
		begin = r.silentFrom
	}
	for _, value := range [...]int{total, total + 1} {
		for _, m := range x.repsSaid[value] {
			if m.First >= r.last().last {
				break
			}
			if m.First >= begin && (m.Scope != announce.Change || m.Last > r.last().first) {
				continue
			}
			w := m.Weight
			if value != total {
				w *= 0.5 // its last number may be lost
			}
			if m.Scope != announce.Everything && m.Scope != announce.Change {
				dt := r.first().t - x.w[m.First].t
				w *= math.Max(0.2, 1-dt/doseWithin)
			}
			best = math.Max(best, w)
		}
	}
	return gainDose * best
}

// leadIn is what a go phrase just before word i speaks for a set that begins there.
func (x *text) leadIn(i int) float64 {
	best := 0.0
	for _, m := range x.marks["go"] {
		if m.Last <= i && m.Last >= i-6 {
			best = math.Max(best, m.Weight*(1-float64(0.12*float64(i-m.Last))))
		}
	}
	return gainLeadIn * best
}

// interval returns what a candidate takes up, in words and the silences before them: word i is 2i+1, the silence before it 2i. A set
// without a count begins with a silence, and a timed one ends with one.
func (s *stretch) interval() chain.Interval {
	out := chain.Interval{First: 2*s.first + 1, Last: 2 * s.last, Score: s.score}
	if s.run == nil || s.run.silentFrom > 0 {
		out.First--
	}
	if s.run == nil {
		out.Last++
	}
	return out
}

// pick chooses, among candidates that overlap, those that together speak best, in order of time.
func pick(all []stretch) []stretch {
	intervals := make([]chain.Interval, len(all))
	for i := range all {
		intervals[i] = all[i].interval()
	}
	chosen := chain.Choose(intervals)
	out := make([]stretch, len(chosen))
	for i, k := range chosen {
		out[i] = all[k]
	}
	return out
}
