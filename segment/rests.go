package segment

import (
	"math"

	"captally.example/captally/segment/announce"
	"captally.example/captally/segment/caption"
)

const shortestRest = 4.0 // seconds: a shorter pause is none

// rests finds the rests, and where the announcement of each set begins.
func (p *planner) rests() {
	gaps := p.gaps()
	spans := make([]announce.RestSpan, len(gaps))
	for i := range gaps {
		spans[i] = announce.RestSpan{First: gaps[i].first, Last: gaps[i].last}
	}
	p.leads = make([]int, len(p.placed))
	p.talkSure = make([]float64, len(p.placed))
	p.restSure = nil
	for i := range p.placed {
		p.leads[i], p.talkSure[i] = p.placed[i].first, 1
	}
	doses := announce.RestDosesBeside(p.spans, spans, p.said, p.doses)
	spans = spans[:0]
	w := &weighing{planner: p, starts: p.introduces()}
	for i := range gaps {
		g := &gaps[i]
		g.dose = doses[i]
		a := w.explain(g)
		if g.set >= 0 {
			p.leads[g.set], p.talkSure[g.set] = a.lead, a.talkSure(g)
		}
		if a.rest == g.first {
			continue
		}
		end := g.end
		if a.rest < g.last {
			end = math.Min(end, p.timeAt(a.rest))
		}
		if end-g.start < shortestRest {
			continue
		}
		p.restSure = append(p.restSure, a.sure)
		p.session.Rests = append(p.session.Rests, p.pause(g, &a, end))
		spans = append(spans, announce.RestSpan{First: g.first, Last: g.last, Seconds: end - g.start})
	}
	for i, d := range announce.RestDosesBeside(p.spans, spans, p.said, p.doses) {
		p.session.Rests[i].Announced, p.session.Rests[i].At = d.Value, d.At
	}
}

// talkSure is the probability that what the account calls talk is: it rests on there being no rest, or on the rest having ended.
func (a *account) talkSure(g *gap) float64 {
	if a.rest == g.first {
		return 1 - a.sure
	}
	return a.sure
}

// pause makes a rest of a gap's account. How far its ends are known comes from the words there and from the other accounts of the gap.
func (p *planner) pause(g *gap, a *account, end float64) Pause {
	out := Pause{Span: Span{Start: p.near(g.first-1, g.start, 0), End: p.near(a.rest, end, a.restSD)}}
	length := end - g.start
	low := math.Hypot((out.End.At - out.End.Low).Seconds(), (out.Start.High - out.Start.At).Seconds())
	high := math.Hypot((out.End.High - out.End.At).Seconds(), (out.Start.At - out.Start.Low).Seconds())
	out.Length = Length{length, math.Max(0, length-low), length + high}
	return out
}

// near returns the time t as far as word i's own time lets it be known, and give or take sd seconds besides.
func (p *planner) near(i int, t, sd float64) caption.Spread {
	out := around(t, p.clockSD(), p.evidence())
	if i >= 0 && i < len(p.track.Words) {
		w := p.track.Words[i].Time
		out.Low, out.High = out.At-(w.At-w.Low), out.At+(w.High-w.At)
	}
	more := 1.645 * sd
	out.Low = caption.At(math.Max(0, t-math.Hypot((out.At-out.Low).Seconds(), more)))
	out.High = caption.At(t + math.Hypot((out.High-out.At).Seconds(), more))
	return out
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
