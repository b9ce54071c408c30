package corpus

import "math"

// What intervals are stated of.
const (
	IntervalReps    = "repetitions"
	IntervalTension = "time under tension (s)"
	IntervalRest    = "length of rests (s)"
)

// Alpha is the probability with which a stated interval may miss the truth: what is stated is meant to hold it 9 times in 10.
const Alpha = 0.1

// An Interval is a stated interval [Low, High] and what was true.
type Interval struct{ Low, High, Truth float64 }

// Holds reports whether the truth lies in the interval, its ends included.
func (i Interval) Holds() bool { return i.Low <= i.Truth && i.Truth <= i.High }

// Score returns the interval's Winkler score: its width, and 2/alpha times the distance to a truth outside. Lower is better; stating the
// quantiles that one believes in is the best strategy, so neither wide nor narrow intervals win by themselves.
//
// Gneiting T, Raftery AE 2007, Strictly proper scoring rules, prediction, and estimation, Journal of the American Statistical Association 102:359-378, eq. 43.
func (i Interval) Score(alpha float64) float64 {
	score := i.High - i.Low
	if i.Truth < i.Low {
		score += float64(2 / alpha * (i.Low - i.Truth))
	}
	if i.Truth > i.High {
		score += float64(2 / alpha * (i.Truth - i.High))
	}
	return score
}

// Coverage returns the share of intervals that hold the truth, their mean width and their mean score for [Alpha]. All are NaN for no intervals.
func Coverage(list []Interval) (share, width, score float64) {
	var held, widths, scores []float64
	for _, i := range list {
		h := 0.0
		if i.Holds() {
			h = 1
		}
		held, widths, scores = append(held, h), append(widths, i.High-i.Low), append(scores, i.Score(Alpha))
	}
	return mean(held), mean(widths), mean(scores)
}

// Honest returns the numbers of n intervals between which the number that hold the truth lies 95 times in 100 if each holds it with probability 1 - [Alpha]:
// the central range of the binomial distribution. A number outside speaks against the intervals; one inside says little where n is small.
func Honest(n int) (low, high int) {
	const tail = 0.025
	low = -1
	below := 0.0 // probability of at most k
	for k := range n + 1 {
		logChoose, _ := math.Lgamma(float64(n + 1))
		a, _ := math.Lgamma(float64(k + 1))
		b, _ := math.Lgamma(float64(n - k + 1))
		below += math.Exp(logChoose - a - b + float64(float64(k)*math.Log(1-Alpha)) + float64(float64(n-k)*math.Log(Alpha)))
		if low < 0 && below > tail {
			low = k
		}
		if below >= 1-tail {
			return low, k
		}
	}
	return low, n
}

// A Judgement is a stated cause of a finding: the probability that went with it, and whether it was right.
type Judgement struct {
	Probability float64
	Right       bool
}

// A Bin is one bar of a reliability diagram.
type Bin struct {
	N      int     // statements whose probability lies in the bin
	Stated float64 // mean of their probabilities; 0 for none
	Right  float64 // share of them that were right; 0 for none
}

// Reliability returns a reliability diagram of ten bins, [0, 0.1) to [0.9, 1], and the expected calibration error:
// the mean distance between what was stated and what was right over the bins, each weighted by its number. It is 0 for no judgements.
//
// Naeini MP, Cooper GF, Hauskrecht M 2015, Obtaining well calibrated probabilities using Bayesian binning, AAAI, p. 2901-2907.
func Reliability(list []Judgement) (bins [10]Bin, ece float64) {
	for _, j := range list {
		b := &bins[max(0, min(9, int(j.Probability*10)))]
		b.N++
		b.Stated += j.Probability
		if j.Right {
			b.Right++
		}
	}
	for i := range bins {
		b := &bins[i]
		if b.N == 0 {
			continue
		}
		n := float64(b.N)
		b.Stated /= n
		b.Right /= n
		ece += float64(n / float64(len(list)) * math.Abs(b.Stated-b.Right))
	}
	return bins, ece
}
