package corpus

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"captally.example/captally/analyze"
	"captally.example/captally/segment/caption"
)

// A Verdict is what is believed of one odd place of a labelled file, and whether that is right.
type Verdict struct {
	Session string         // its name
	Hand    int            // whose sessions it is one of, from 0
	Heard   bool           // written down by a recogniser
	Timing  caption.Timing // of the file
	Odd     analyze.Odd
	Right   bool
}

// Judge says whether a count finding has its cause right, and whether the labels can tell. That the session is the cause is right near a
// miscount of the truth, in the way of [Score]'s precision, but that a lost count too must be near one; that the captions are, near a
// fault of the captioner, where these are listed. Nothing tells what is rightly unsure.
func Judge(truth *Truth, timing caption.Timing, f analyze.Finding) (right, known bool) {
	s := &scoring{Tally: NewTally(timing), truth: truth, tolerance: tolerances[timing]}
	switch {
	case !strings.HasPrefix(f.Kind, "count-") && !strings.HasPrefix(f.Kind, "caption-"):
		return false, false
	case f.Cause == "session":
		told := func(m Miscount) bool { return !m.AfterSilence && s.tells(f, m) }
		return s.afterSilence(f) || slices.ContainsFunc(truth.Miscounts, told), true
	case f.Cause == "captions" && truth.Faults != nil:
		near := func(q Fault) bool { return math.Abs(f.At-q.At) <= s.near }
		return slices.ContainsFunc(truth.Faults.of(timing), near), true
	}
	return false, false
}

// JudgeLength says whether a finding of a timed set, a rest or two sides is right by the labels; what it tells of begins at its time and ends at
// until, in seconds. It is wrong where there was no such set or rest, nothing was announced, or the two sides did not belong together.
func JudgeLength(truth *Truth, f analyze.Finding, until float64) bool {
	found := span{f.At, until}
	if strings.HasPrefix(f.Kind, "rest-") {
		best, most := Rest{}, 0.0
		for _, r := range truth.Rests {
			if o := overlap(span{r.Start, r.End}, found); o > most {
				best, most = r, o
			}
		}
		return most >= leastOverlap && best.announced() > 0 && verdict(best.Actual, best.announced()) == strings.TrimPrefix(f.Kind, "rest-")
	}
	best, most := -1, 0.0
	for i, t := range truth.Sets {
		if o := overlap(span{t.begin(), t.End}, found); o > most {
			best, most = i, o
		}
	}
	if most < leastOverlap {
		return false
	}
	set := truth.Sets[best]
	if f.Kind == "sides-uneven" {
		other := truth.otherSide(best)
		return other >= 0 && different(set, truth.Sets[other])
	}
	return set.Prescribed != nil && set.Prescribed.Seconds > 0 &&
		verdict(set.End-set.begin(), set.Prescribed.Seconds) == strings.TrimPrefix(f.Kind, "time-")
}

// otherSide returns the place of the nearest set that does the exercise of set i on the other side, -1 for none.
func (t *Truth) otherSide(i int) int {
	best := -1
	for k, o := range t.Sets {
		other := o.Side == "left" && t.Sets[i].Side == "right" || o.Side == "right" && t.Sets[i].Side == "left"
		if other && o.Exercise == t.Sets[i].Exercise && (best < 0 || math.Abs(o.Start-t.Sets[i].Start) < math.Abs(t.Sets[best].Start-t.Sets[i].Start)) {
			best = k
		}
	}
	return best
}

// different reports whether two sets had different repetitions, or times of which one would not be called kept for the other.
func different(a, b Set) bool {
	if a.Performed.Reps != nil && b.Performed.Reps != nil {
		return *a.Performed.Reps != *b.Performed.Reps
	}
	m, n := a.End-a.begin(), b.End-b.begin()
	return verdict(min(m, n), max(m, n)) != "kept"
}

// Verdicts judges the odd places of all labelled sessions; odds finds those of a file.
func Verdicts(odds func(File) ([]analyze.Odd, error)) ([]Verdict, error) {
	var out []Verdict
	for i, list := range [][]Session{Sessions(), Recognised(), More(), MoreRecognised()} {
		for _, s := range list {
			for _, f := range s.Files() {
				found, err := odds(f)
				if err != nil {
					return nil, fmt.Errorf("measuring %s: %w", f.Name, err)
				}
				for _, odd := range found {
					right, known := Judge(s.Truth, f.Timing, odd.Finding)
					if odd.Until > 0 {
						right, known = JudgeLength(s.Truth, odd.Finding, odd.Until), true
					}
					if known {
						out = append(out, Verdict{s.Name, i / 2, i%2 == 1, f.Timing, odd, right})
					}
				}
			}
		}
	}
	return out, nil
}

// Weights are what the reasons of each [analyze.OddKind] speak for, in nats.
type Weights map[analyze.OddKind][]float64

// of returns the probability of what is believed of v.
func (w Weights) of(v Verdict) float64 { return chance(w[v.Odd.Kind], v.Odd.Reasons) }

// ridge holds the weights back, as if each were known to lie around nothing with a spread of 1/sqrt(ridge) nats. Of 1, 2, 3, 4 and 6
// the one with the lowest Brier score of sessions left out.
const ridge = 2

// FitOdds fits the weights on all verdicts but those left out; nil for none.
func FitOdds(list []Verdict, leftOut func(Verdict) bool) Weights {
	w := Weights{}
	for _, kind := range analyze.OddKinds() {
		var x [][]float64
		var y []bool
		for _, v := range list {
			if v.Odd.Kind == kind && (leftOut == nil || !leftOut(v)) {
				x, y = append(x, v.Odd.Reasons), append(y, v.Right)
			}
		}
		w[kind] = logistic(x, y, ridge)
	}
	return w
}

// LeftOut returns, for each verdict, its probability by weights fitted on the verdicts of the other groups.
func LeftOut[K comparable](list []Verdict, group func(Verdict) K) []float64 {
	fitted := map[K]Weights{}
	out := make([]float64, len(list))
	for i, v := range list {
		g := group(v)
		if fitted[g] == nil {
			fitted[g] = FitOdds(list, func(o Verdict) bool { return group(o) == g })
		}
		out[i] = fitted[g].of(v)
	}
	return out
}

// Fitted returns, for each verdict, its probability by weights fitted on all.
func Fitted(list []Verdict) []float64 {
	w := FitOdds(list, nil)
	out := make([]float64, len(list))
	for i, v := range list {
		out[i] = w.of(v)
	}
	return out
}

// Brier returns the mean squared distance of the stated probabilities from what came true; NaN for none.
//
// Brier GW 1950, Verification of forecasts expressed in terms of probability, Monthly Weather Review 78:1-3.
func Brier(list []Judgement) float64 {
	var d []float64
	for _, j := range list {
		miss := j.Probability
		if j.Right {
			miss--
		}
		d = append(d, float64(miss*miss))
	}
	return mean(d)
}

// ByChance returns the calibration error that judgements would have on average if every stated probability were exact:
// with n in a bin, their share that is right strays from the mean by sqrt(2/pi) standard deviations on average.
func ByChance(list []Judgement) float64 {
	var variance [10]float64
	for _, j := range list {
		variance[max(0, min(9, int(j.Probability*10)))] += float64(j.Probability * (1 - j.Probability))
	}
	sum := 0.0
	for _, v := range variance {
		sum += math.Sqrt(2 * v / math.Pi)
	}
	return sum / float64(max(1, len(list)))
}
