package segment

import "captally.example/captally/segment/announce"

// A therapist may count one set in several goes: up to ten and back down, or from one again for the last five, or anew after
// losing the thread. The goes follow each other at once, with nothing announced between.

const (
	mergeBeats = 2.6 // paces between the goes at most
	mergeFlat  = 3.0 // and seconds besides
)

// merge joins candidate counts that are goes of one set.
func (x *text) merge(all []stretch) []stretch {
	var out []stretch
	for _, s := range all {
		if n := len(out); n > 0 && x.sameSet(&out[n-1], &s) {
			a := &out[n-1]
			a.more = append(a.more, s.run)
			a.last, a.end, a.score = s.last, s.end, a.score+s.score
			continue
		}
		out = append(out, s)
	}
	return out
}

func (x *text) sameSet(a, b *stretch) bool {
	if a.run == nil || b.run == nil || a.run.hold != nil || b.run.hold != nil || a.run.silentFrom > 0 || b.run.silentFrom > 0 {
		return false
	}
	if len(a.run.items) < 3 || len(b.run.items) < 3 {
		return false
	}
	last := a.run
	if n := len(a.more); n > 0 {
		last = a.more[n-1]
	}
	pace := (last.last().t - last.first().t) / float64(max(1, abs(last.last().v-last.first().v)))
	gap := b.start - a.end
	switch turn := last.rule.step*b.run.rule.step < 0; {
	case x.startsAgain(a.last, b.first):
		gap -= 8
	case !turn: // another count upwards is another set unless something says otherwise
		return false
	}
	if gap > mergeBeats*pace+mergeFlat {
		return false
	}
	cross := x.crossing()
	if cross[b.first]-cross[a.last] > 2 {
		return false
	}
	for k := range x.said {
		m := &x.said[k]
		if m.First >= a.last && m.First < b.first && m.Weight > 0.4 {
			switch m.Kind {
			case announce.Reps, announce.Seconds, announce.Side, announce.Swap, announce.Round:
				return m.Kind == announce.Reps && m.Scope == announce.Change
			}
		}
	}
	return true
}

// startsAgain reports whether the words [a, b) say that the count begins anew.
func (x *text) startsAgain(a, b int) bool {
	for _, m := range x.marks["restart"] {
		if m.First >= a && m.Last <= b {
			return true
		}
	}
	return false
}
