package segment

import (
	"math"

	"captally.example/captally/segment/announce"
)

// leadStart returns the word at which the announcement of set i begins: the last utterance before its first count, or its go.
func (p *planner) leadStart(i int) int {
	s := &p.placed[i]
	floor := 0
	if i > 0 {
		floor = p.placed[i-1].last
	}
	at := s.first
	for k := s.first - 1; k > floor; k-- {
		if s.start-p.w[k].t > 12 {
			break
		}
		if k == 0 || p.w[k-1].stop == sentence || p.silence(k) > 1.2 {
			at = k
			if p.silence(k) > 1.2 {
				break
			}
		}
	}
	return at
}

// rests finds the rests between the sets.
func (p *planner) rests() {
	var spans []announce.RestSpan
	for i := 1; i < len(p.session.Sets); i++ {
		a, b := &p.session.Sets[i-1], &p.session.Sets[i]
		if a.Kind == WarmUp || a.Kind == CoolDown || b.Kind == WarmUp || b.Kind == CoolDown {
			continue
		}
		from, to := p.placed[i-1].last, p.leadStart(i)
		t0, t1 := p.restStart(i-1), p.timeAt(to)
		t1 = math.Min(t1, b.Start.At.Seconds())
		if t1-t0 < 4 {
			continue
		}
		owed := 0.0
		for k := range p.said {
			m := &p.said[k]
			if m.Kind != announce.Rest {
				continue
			}
			if m.Scope == announce.BetweenSets || m.Scope == announce.BetweenExercises {
				continue
			}
			if m.First >= from && m.First < p.placed[i].first && m.Weight > owed {
				owed = m.Weight
			}
		}
		for _, m := range p.marks["rest"] {
			if m.First >= from && m.First < to {
				owed = math.Max(owed, m.Weight)
			}
		}
		if owed < 0.5 {
			continue
		}
		pause := Pause{Span: Span{around(t0, p.clockSD(), p.evidence()), around(t1, p.clockSD(), p.evidence())}}
		spans = append(spans, announce.RestSpan{First: from, Last: p.placed[i].first, Seconds: t1 - t0})
		sd := 1.645 * 1.4 * p.clockSD()
		pause.Length = Length{t1 - t0, math.Max(0, t1-t0-sd), t1 - t0 + sd}
		p.session.Rests = append(p.session.Rests, pause)
	}
	for i, d := range announce.RestDoses(p.track, p.spans, spans, p.said) {
		p.session.Rests[i].Announced, p.session.Rests[i].At = d.Value, d.At
	}
}

// restStart returns when the pause after set i begins, in seconds.
func (p *planner) restStart(i int) float64 {
	s := &p.placed[i]
	end := p.session.Sets[i].End.At.Seconds()
	if s.run != nil && s.last > 0 {
		return math.Max(end, p.w[s.last-1].end)
	}
	return end
}
