package segment

import (
	"math"

	"captally.example/captally/segment/caption"
)

// phases lays the session out in time.
func (p *planner) phases() {
	s := p.session
	var out []Phase
	add := func(k Kind, start, end float64, label string) {
		if len(out) > 0 {
			start = math.Max(start, out[len(out)-1].End.Seconds())
		}
		if end-start < 0.2 {
			return
		}
		if n := len(out); n > 0 && out[n-1].End.Seconds() < start-0.001 {
			out = append(out, Phase{Kind: Talk, Start: out[n-1].End, End: caption.At(start), Confidence: 0.8})
		}
		if n := len(out); n > 0 && out[n-1].Kind == k && (k == Talk || k == WarmUp || k == CoolDown) {
			out[n-1].End = caption.At(end)
			return
		}
		out = append(out, Phase{Kind: k, Start: caption.At(start), End: caption.At(end), Confidence: 0.9, Label: label})
	}
	var t [sections + 1]float64
	for i := range t {
		t[i] = p.timeAt(p.cuts[i])
	}
	t[0], t[sections] = 0, p.end
	add(Talk, 0, t[1], "")
	add(WarmUp, t[1], t[2], "")
	r := 0
	for i := range s.Sets {
		set := &s.Sets[i]
		if set.Kind == WarmUp || set.Kind == CoolDown {
			continue
		}
		start := p.timeAt(p.leads[i])
		for r < len(s.Rests) && s.Rests[r].Start.At.Seconds() < start-0.5 {
			add(Rest, s.Rests[r].Start.At.Seconds(), s.Rests[r].End.At.Seconds(), "")
			r++
		}
		add(set.Kind, math.Min(start, set.Start.At.Seconds()), p.restStart(i), set.Exercise.Text)
	}
	for ; r < len(s.Rests); r++ {
		add(Rest, s.Rests[r].Start.At.Seconds(), s.Rests[r].End.At.Seconds(), "")
	}
	if t[4] > t[3] {
		add(CoolDown, t[3], t[4], "")
	}
	add(Talk, t[4], p.end, "")
	s.Phases = out
}
