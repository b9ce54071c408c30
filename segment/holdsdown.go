package segment

import (
	"slices"

	"captally.example/captally/segment/announce"
	"captally.example/captally/segment/caption"
)

// Repetitions of which each is held while the seconds are counted down: "bend, five, four, three, two, one, and let go. Again".
// Nothing else numbers the repetitions; several such counts that follow each other are one set.

const (
	shortestHold    = 3    // seconds that are so counted within a repetition, at least
	longestHold     = 12   // and at most
	holdBreak       = 5.0  // nats of words between two that speak for another set
	betweenDowns    = 10.0 // seconds from the end of one to the beginning of the next at most
	leastDowns      = 3    // of them, where no hold of so many seconds was announced
	holdAnnouncedBy = 0.4  // weight of such a mention
)

// holdsDown makes sets of the counts down among those found, which follow each other as repetitions do.
func (x *text) holdsDown(counted []run) []run {
	var downs []run
	for _, r := range counted {
		if x.holdsOnce(&r) {
			downs = append(downs, r)
		}
	}
	slices.SortStableFunc(downs, func(a, b run) int { return a.first().first - b.first().first })
	var out []run
	for i := 0; i < len(downs); {
		j := i + 1
		for j < len(downs) && x.nextHold(&downs[j-1], &downs[j]) {
			j++
		}
		if n := j - i; n >= leastDowns || n > 1 && x.holdAnnounced(&downs[i]) {
			out = append(out, heldRun(downs[i:j]))
		}
		i = j
	}
	return out
}

// holdsOnce reports whether a count goes down to one in about seconds; a number or two at its ends may be lost.
func (x *text) holdsOnce(r *run) bool {
	top := r.first().v
	if r.rule.step != -1 || r.hold != nil || top < shortestHold || top > longestHold || r.last().v > 2 || len(r.items) < max(shortestHold, top-1) {
		return false
	}
	return x.timing == caption.TimingBlock || r.last().t-r.first().t < float64(slowestSecond*float64(top))
}

// nextHold reports whether count b holds the repetition after that of count a.
func (x *text) nextHold(a, b *run) bool {
	from, to := a.last().last, b.first().first
	return abs(a.first().v-b.first().v) <= 1 && from <= to && b.first().t-a.last().t < betweenDowns && x.cross[to]-x.cross[from] < holdBreak && !x.sidesChange(from, to)
}

// holdAnnounced reports whether a hold of as many seconds as a count has was announced before it.
func (x *text) holdAnnounced(r *run) bool {
	return slices.ContainsFunc(x.said, func(m announce.Mention) bool {
		return m.Kind == announce.Hold && int(m.Value) == r.first().v && m.First < r.first().first && m.Weight > holdAnnouncedBy && r.first().t-x.w[m.First].t < doseWithin
	})
}

// heldRun makes one count of several that go down: each a repetition, its seconds as if counted up.
func heldRun(downs []run) run {
	top := 0
	for i := range downs {
		top = max(top, downs[i].first().v)
	}
	h := &holds{to: top, down: true}
	out := run{rule: rule{1}, hold: h}
	for _, d := range downs {
		var inner []item
		for _, it := range d.items {
			it.v = top + 1 - it.v
			inner = append(inner, it)
		}
		h.cycles = append(h.cycles, cycle{inner: inner})
		out.items = append(out.items, inner...)
		out.score += d.score
	}
	h.place()
	return out
}
