package segment

import "math"

const (
	lengthStep = 0.5  // seconds
	withinCue  = 0.55 // the times of words that lie near each other go wrong together: their difference is so much surer
)

// lengthBelief weighs how long a timed set lasted, in seconds: for each way to read its beginning and end, what the times of the
// two words allow, and of that what is usual for what was announced. The range holds 9 in 10.
func (x *text) lengthBelief(s *stretch) Length {
	longest := 0.0
	for i := range s.ways {
		longest = math.Max(longest, s.ways[i].end-s.ways[i].start)
	}
	n := int(1.5*longest/lengthStep) + 20
	usual := make([]float64, n)
	for i := range usual {
		usual[i] = commonLength(float64(i)*lengthStep, s.said, 0)
	}
	sum := make([]float64, n)
	value := 0.0
	for i := range s.ways {
		w := &s.ways[i]
		weight := math.Exp(w.score - s.best)
		if weight < 1e-3 {
			continue
		}
		mean := x.addWay(sum, usual, w, weight)
		if w.first == s.first && w.last == s.last {
			value = mean
		}
	}
	lo, hi := middle(sum, 0.9)
	return Length{value, math.Min(value, lo), math.Max(value, hi)}
}

// addWay adds what one way allows to the weights of the lengths and returns its mean.
func (x *text) addWay(sum, usual []float64, w *way, weight float64) float64 {
	sd := withinCue * math.Hypot(x.begin(w.first).sd, x.endSpread(w.last).sd)
	sd = math.Max(sd, leastInstant)
	length := w.end - w.start
	own := make([]float64, len(sum))
	total, mean := 0.0, 0.0
	for i := range own {
		z := (float64(i)*lengthStep - length) / sd
		if z*z > 36 {
			continue
		}
		own[i] = math.Exp(-0.5*z*z) * usual[i]
		total += own[i]
		mean += own[i] * float64(i) * lengthStep
	}
	if total == 0 {
		return length
	}
	for i := range own {
		sum[i] += own[i] * weight / total
	}
	return mean / total
}

// commonLength is how usual a length is for what was announced, as a density over its logarithm, where the clock strays by so
// many seconds.
func commonLength(seconds float64, said []length, clock float64) float64 {
	if seconds < 1 {
		return 0
	}
	z := math.Log(seconds/timedTypical) / timedBroad
	sum, rest := 0.0, 1.0
	broad := math.Exp(-0.5*z*z)/timedBroad + 0.02
	for _, n := range said {
		far := math.Log(seconds / n.seconds)
		w := math.Min(n.weight, rest)
		rest -= w
		spread := math.Hypot(timedSpread, clock/n.seconds)
		if far > 0 {
			spread *= timedOver
		}
		z, z2 := far/spread, far/timedStray
		sum += w * (0.8*math.Exp(-0.5*z*z)/spread + 0.2*math.Exp(-0.5*z2*z2)/timedStray)
	}
	return sum + rest*broad
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
				return (float64(i) + (q*total-s)/math.Max(v, 1e-300) - 0.5) * lengthStep
			}
			s += v
		}
		return float64(len(weights)) * lengthStep
	}
	return math.Max(0, at((1-p)/2)), at((1 + p) / 2)
}
