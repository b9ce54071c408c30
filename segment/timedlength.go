package segment

import "math"

const (
	leastAny   = -4.0 // logarithm of the density of lengths of which nothing is known
	strays     = 0.2  // share of the sets that stray far from what was announced
	lengthStep = 0.5  // seconds
	withinCue  = 0.55 // the times of words that lie near each other go wrong together: their difference is so much surer
)

var lnTypical, lnBroad = math.Log(timedTypical), math.Log(timedBroad)

// lengthBelief weighs how long a timed set lasted, in seconds: for each way to read its beginning and end, what the times of the
// two words allow, and of that what is usual for what was announced. The range holds 9 in 10.
func (x *text) lengthBelief(s *stretch) Length {
	longest := 0.0
	own := way{start: s.start, end: s.end}
	for i := range s.ways {
		longest = max(longest, s.ways[i].end-s.ways[i].start)
	}
	n := int(float64(1.5*longest)/lengthStep) + 20
	all := make([]float64, 3*n)
	b := &lengthBeliefs{said: s.said, usual: all[:n], own: all[n : 2*n], sum: all[2*n:]}
	for i := range b.usual {
		b.usual[i] = -1
	}
	value := 0.0
	for i := range s.ways {
		w := &s.ways[i]
		weight := math.Exp(w.score - s.best)
		if weight < 1e-3 || !own.like(w) {
			continue
		}
		sd := withinCue * math.Hypot(x.begin(w.first).sd, x.endSpread(w.last).sd)
		mean := b.add(w.end-w.start, max(sd, leastInstant), weight)
		if w.first == s.first && w.last == s.last {
			value = mean
		}
	}
	lo, hi := middle(b.sum, 0.9)
	return Length{value, min(value, lo), max(value, hi)}
}

// lengthBeliefs are the weights of the lengths of one set, by steps.
type lengthBeliefs struct {
	said  []length
	usual []float64 // what is usual for what was announced, less than 0 as long as nobody asked
	own   []float64 // what the way at hand allows
	sum   []float64
}

// add adds what a way of some length, give or take sd, allows to the weights of the lengths and returns its mean; all in seconds.
func (b *lengthBeliefs) add(length, sd, weight float64) float64 {
	const reach = 6 // standard deviations
	lo := max(0, int((length-float64(reach*sd))/lengthStep)-1)
	hi := min(len(b.own), int((length+float64(reach*sd))/lengthStep)+2)
	total, mean := 0.0, 0.0
	for i := lo; i < hi; i++ {
		b.own[i] = 0
		z := (float64(float64(i)*lengthStep) - length) / sd
		if z*z > reach*reach {
			continue
		}
		b.own[i] = float64(math.Exp(-0.5*z*z) * b.howUsual(i))
		total += b.own[i]
		mean += float64(b.own[i] * float64(i) * lengthStep)
	}
	if total == 0 {
		return length
	}
	for i := lo; i < hi; i++ {
		b.sum[i] += b.own[i] * weight / total
	}
	return mean / total
}

func (b *lengthBeliefs) howUsual(i int) float64 {
	if b.usual[i] < 0 {
		b.usual[i] = 0
		if t := float64(i) * lengthStep; t >= 1 {
			u, _ := commonLength(math.Log(t), b.said)
			b.usual[i] = math.Exp(u)
		}
	}
	return b.usual[i]
}

// commonLength is how usual a length is for what was announced, and how usual it is of any timed set: logarithms of densities
// over the length's logarithm, which is given. What is likeliest of the announced ones counts.
func commonLength(ln float64, said []length) (announced, any float64) {
	z := (ln - lnTypical) / timedBroad
	any = max(float64(-0.5*z*z)-lnBroad, leastAny)
	announced = any
	for i := range said {
		n := &said[i]
		far := ln - n.ln
		z := far / n.spread
		if far > 0 {
			z /= timedOver
		}
		stray := far / timedStray
		announced = max(announced, n.keeps-float64(0.5*z*z), n.strays-float64(0.5*stray*stray))
	}
	return announced, any
}

// middle returns the bounds, in seconds, between which the share p of the weights lies, with as much below as above.
func middle(weights []float64, p float64) (lo, hi float64) {
	total := 0.0
	for _, v := range weights {
		total += v
	}
	at := func(q float64) float64 {
		s := 0.0
		for i, v := range weights {
			if s+v >= q*total {
				return (float64(i) + (float64(q*total)-s)/max(v, 1e-300) - 0.5) * lengthStep
			}
			s += v
		}
		return float64(len(weights)) * lengthStep
	}
	return max(0, at((1-p)/2)), at((1 + p) / 2)
}
