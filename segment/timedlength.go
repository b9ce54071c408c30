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
	usual := make([]float64, n)
	for i := range usual {
		if t := float64(i) * lengthStep; t >= 1 {
			u, _ := commonLength(math.Log(t), s.said)
			usual[i] = math.Exp(u)
		}
	}
	sum := make([]float64, n)
	value := 0.0
	for i := range s.ways {
		w := &s.ways[i]
		weight := math.Exp(w.score - s.best)
		if weight < 1e-3 || !own.like(w) {
			continue
		}
		mean := x.addWay(sum, usual, w, weight)
		if w.first == s.first && w.last == s.last {
			value = mean
		}
	}
	lo, hi := middle(sum, 0.9)
	return Length{value, min(value, lo), max(value, hi)}
}

// addWay adds what one way allows to the weights of the lengths and returns its mean.
func (x *text) addWay(sum, usual []float64, w *way, weight float64) float64 {
	sd := withinCue * math.Hypot(x.begin(w.first).sd, x.endSpread(w.last).sd)
	sd = max(sd, leastInstant)
	length := w.end - w.start
	own := make([]float64, len(sum))
	total, mean := 0.0, 0.0
	for i := range own {
		z := (float64(float64(i)*lengthStep) - length) / sd
		if z*z > 36 {
			continue
		}
		own[i] = float64(math.Exp(-0.5*z*z) * usual[i])
		total += own[i]
		mean += float64(own[i] * float64(i) * lengthStep)
	}
	if total == 0 {
		return length
	}
	for i := range own {
		sum[i] += own[i] * weight / total
	}
	return mean / total
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
