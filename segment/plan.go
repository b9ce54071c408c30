package segment

import (
	"math"
	"sort"

	"captally.example/captally/segment/announce"
)

// What speaks for a count being a set, in nats, besides the count itself.
const (
	gainDose      = 3.0 // it ends at the number that was announced
	gainLeadIn    = 1.5 // a go phrase stands just before it
	lossBreath    = 9.0 // it counts breaths
	lossShort     = 1.5 // per number that it has fewer than four
	lossHasty     = 6.0 // it is said at the speed of talk, not of movement
	lossCountdown = 4.0 // it only counts down a few seconds
	gainThats     = 1.5 // "that's", "makes" before a lone last number
	leadWords     = 70  // words before a count in which its dose is looked for
	doseWithin    = 100.0
)

// asStretch makes a candidate set of a count.
func (x *text) asStretch(r *run) stretch {
	s := stretch{first: r.first().first, last: r.last().last, start: r.first().t, end: r.last().t, score: r.score, run: r}
	n := len(r.items)
	if r.silentFrom > 0 {
		s.first, s.start = r.silentFrom, x.w[r.silentFrom-1].end
	} else if r.hold == nil {
		s.score -= lossShort * math.Max(0, float64(4-n))
		if r.rule.step < 0 && r.first().v <= 5 {
			s.score -= lossCountdown
		}
		if n > 2 {
			if pace := (s.end - s.start) / float64(n-1); pace < 0.75 && r.rule.step > 0 {
				s.score -= lossHasty * math.Min(1, (0.75-pace)/0.3)
			}
		}
	}
	s.score -= lossBreath * x.breathing(s.first, s.last)
	s.score += x.doseGain(r) + x.leadIn(s.first)
	return s
}

// breathing is how surely the words [a, b) count breaths, in [0, 1].
func (x *text) breathing(a, b int) float64 {
	w := 0.0
	for _, m := range x.marks["breath"] {
		if m.First >= a-2 && m.First < b {
			w += m.Weight
		}
	}
	return math.Min(1, w/2)
}

// doseGain is what an announced dose speaks for a count that ends there.
func (x *text) doseGain(r *run) float64 {
	total := r.last().v
	if r.rule.step < 0 {
		total = r.first().v
	}
	best := 0.0
	for k := range x.said {
		m := &x.said[k]
		if m.First >= r.last().last {
			break
		}
		if m.Kind != announce.Reps || int(m.Value) != total {
			continue
		}
		w := m.Weight
		if m.Scope != announce.Everything && m.Scope != announce.Change {
			dt := r.first().t - x.w[m.First].t
			w *= math.Max(0.2, 1-dt/doseWithin)
		}
		best = math.Max(best, w)
	}
	return gainDose * best
}

// leadIn is what a go phrase just before word i speaks for a set that begins there.
func (x *text) leadIn(i int) float64 {
	best := 0.0
	for _, m := range x.marks["go"] {
		if m.Last <= i && m.Last >= i-6 {
			best = math.Max(best, m.Weight*(1-0.12*float64(i-m.Last)))
		}
	}
	return gainLeadIn * best
}

// silentCounts finds sets of which only the last number is said: "and that's ten".
func (x *text) silentCounts(items []item) []run {
	var out []run
	for k := range items {
		it := &items[k]
		if it.cost > 0 || it.v < 4 || it.first < 2 {
			continue
		}
		marked := false
		switch x.w[it.first-1].fold {
		case "that's", "is", "makes", "that'll":
			marked = true
		}
		r := run{rule: rule{1}, items: []item{*it}}
		dose := x.doseGain(&r)
		if !marked && (dose < 0.6*gainDose || it.gain < gainHalf) {
			continue
		}
		from := x.silentFrom(it.first)
		length := it.t - x.w[from-1].end
		pace := length / float64(it.v)
		if from >= it.first || pace < 0.9 || pace > 9 {
			continue
		}
		z := math.Log(pace/3.2) / 0.5
		r.score = 1.0 - 0.4*z*z
		if marked {
			r.score += gainThats
		}
		r.silentFrom = from
		out = append(out, r)
	}
	return out
}

// silentFrom returns the word after the go phrase of a set whose only number is word i; i where there is none.
func (x *text) silentFrom(i int) int {
	best, weight := i, 0.0
	for _, m := range x.marks["go"] {
		if m.Last >= i || x.w[i].t-x.w[m.Last-1].t > 120 {
			continue
		}
		gap := x.silence(m.Last)
		w := m.Weight + math.Min(1, gap/3)
		if x.w[m.Last-1].stop == runsOn && gap < 0.35 {
			w -= 0.6
		}
		if w >= weight {
			best, weight = m.Last, w
		}
	}
	return best
}

// pick chooses, among candidates that overlap, those that together speak best, in order of time.
func pick(all []stretch) []stretch {
	sort.SliceStable(all, func(a, b int) bool {
		if all[a].last != all[b].last {
			return all[a].last < all[b].last
		}
		return all[a].first < all[b].first
	})
	n := len(all)
	best := make([]float64, n+1)
	take := make([]bool, n)
	prev := make([]int, n)
	for i := range all {
		prev[i] = sort.Search(i, func(j int) bool { return all[j].last > all[i].first })
		best[i+1] = best[i]
		if s := best[prev[i]] + all[i].score; s > best[i] {
			best[i+1], take[i] = s, true
		}
	}
	var out []stretch
	for i := n - 1; i >= 0; {
		if take[i] {
			out = append(out, all[i])
			i = prev[i] - 1
		} else {
			i--
		}
	}
	for a, b := 0, len(out)-1; a < b; a, b = a+1, b-1 {
		out[a], out[b] = out[b], out[a]
	}
	return out
}
