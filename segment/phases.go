package segment

import (
	"math"

	"captally.example/captally/segment/caption"
)

// sectionSure is the share of the seconds called warm-up, cool-down, opening or closing that are, in labelled sessions that were left
// out of the fit; by timing.
var sectionSure = map[caption.Timing]float64{caption.TimingWord: 0.94, caption.TimingCue: 0.92, caption.TimingBlock: 0.85}

// edgeShift is by how many seconds in all the ends of a phase are off, by timing; likewise.
var edgeShift = map[caption.Timing]float64{caption.TimingWord: 1, caption.TimingCue: 1.5, caption.TimingBlock: 5}

const (
	setSureScore  = 5.0 // nats by which a set's doubt falls to a third
	setLeastSure  = 0.85
	setMostSure   = 0.98
	mostShifted   = 0.5 // no larger share of a phase is in doubt for its ends
	shortestPhase = 0.2 // seconds
)

// A layout puts phases one after the other, without gaps or overlaps.
type layout struct{ phases []Phase }

// add appends a phase, as far as it lies after the phases before; sure is the probability of its kind, talkSure that of the talk that
// fills what lies between.
func (l *layout) add(k Kind, start, end, sure, talkSure float64, label string) {
	if n := len(l.phases); n > 0 {
		last := &l.phases[n-1]
		start = math.Max(start, last.End.Seconds())
		if end-start < shortestPhase {
			return
		}
		if start-last.End.Seconds() <= 0.001 {
			start = last.End.Seconds() // it is one instant
		} else if k != Talk {
			l.add(Talk, last.End.Seconds(), start, talkSure, talkSure, "")
			last = &l.phases[len(l.phases)-1]
			start = last.End.Seconds()
		}
		if last.Kind == k && (k == Talk || k == WarmUp || k == CoolDown) {
			a, b := (last.End - last.Start).Seconds(), end-start
			last.Confidence = (float64(last.Confidence*a) + float64(sure*b)) / (a + b)
			last.End = caption.At(end)
			return
		}
	} else if end-start < shortestPhase {
		return
	}
	l.phases = append(l.phases, Phase{Kind: k, Start: caption.At(start), End: caption.At(end), Confidence: sure, Label: label})
}

// phases lays the session out in time.
func (p *planner) phases() {
	s := p.session
	var t [sections + 1]float64
	for i := range t {
		t[i] = p.timeAt(p.cuts[i])
	}
	t[0], t[sections] = 0, p.end
	l := &layout{}
	timing := p.timing
	if timing == caption.TimingUnknown {
		timing = caption.TimingBlock
	}
	sure := sectionSure[timing]
	l.add(Talk, 0, t[warming], sure, sure, "")
	l.add(WarmUp, t[warming], t[main], sure, sure, "")
	r := 0
	rest := func(before, talkSure float64) {
		for ; r < len(s.Rests) && s.Rests[r].Start.At.Seconds() < before; r++ {
			l.add(Rest, s.Rests[r].Start.At.Seconds(), s.Rests[r].End.At.Seconds(), p.restSure[r], talkSure, "")
		}
	}
	for i := range s.Sets {
		set := &s.Sets[i]
		if set.Kind == WarmUp || set.Kind == CoolDown {
			continue
		}
		start := p.timeAt(p.leads[i])
		rest(start-0.5, p.talkSure[i])
		l.add(set.Kind, math.Min(start, set.Start.At.Seconds()), p.restStart(i), setSure(p.placed[i].score), p.talkSure[i], set.Exercise.Text)
	}
	rest(math.Inf(1), sure)
	if t[closing] > t[cooling] {
		l.add(CoolDown, t[cooling], t[closing], sure, sure, "")
	}
	l.add(Talk, t[closing], p.end, sure, sure, "")
	l.shift(edgeShift[timing])
	s.Phases = l.phases
}

// shift lowers the confidence of the phases for their ends being off by so many seconds.
func (l *layout) shift(seconds float64) {
	for i := range l.phases {
		ph := &l.phases[i]
		ph.Confidence *= 1 - math.Min(mostShifted, seconds/(ph.End-ph.Start).Seconds())
	}
}

// setSure is the probability that a set of that score, in nats, is one.
func setSure(score float64) float64 {
	return math.Min(setMostSure, math.Max(setLeastSure, 1-math.Exp(-score/setSureScore)))
}
