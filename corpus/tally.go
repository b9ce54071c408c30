package corpus

import (
	"maps"
	"math"
	"slices"
	"strconv"

	"captally.example/captally/segment/caption"
)

// A Tally holds the scores of one or more sessions in one timing. Figures are worked out from all of them together,
// so a session with twenty sets weighs twice as much in the set figures as one with ten.
type Tally struct {
	Timing    caption.Timing
	Intervals map[string][]Interval // by what is stated: IntervalReps, IntervalTension, IntervalRest
	Causes    []Judgement           // stated causes of findings and whether they were right
	Errors    []string              // what was wrong, one line each, for a person

	values map[string][]float64
	counts map[string][]hits
}

// hits are the outcomes of matching what was found with what is true.
type hits struct{ found, spurious, missed int }

// f1 returns the harmonic mean of precision and recall, and whether there was anything to find or found.
func (h hits) f1() (float64, bool) {
	all := 2*h.found + h.spurious + h.missed
	if all == 0 {
		return 0, false
	}
	return float64(2*h.found) / float64(all), true
}

// NewTally returns a tally without scores.
func NewTally(timing caption.Timing) *Tally {
	return &Tally{Timing: timing, Intervals: map[string][]Interval{}, values: map[string][]float64{}, counts: map[string][]hits{}}
}

// Add adds the scores of another tally to t.
func (t *Tally) Add(o *Tally) {
	appendAll(t.Intervals, o.Intervals)
	appendAll(t.values, o.values)
	appendAll(t.counts, o.counts)
	t.Causes = append(t.Causes, o.Causes...)
	t.Errors = append(t.Errors, o.Errors...)
}

func appendAll[E any](to, from map[string][]E) {
	for key, list := range from {
		to[key] = append(to[key], list...)
	}
}

// Figures are named results, each rounded to four decimals. A figure for which there was nothing to score is absent.
type Figures map[string]float64

// Names returns the names of the figures, sorted.
func (f Figures) Names() []string { return slices.Sorted(maps.Keys(f)) }

// Figures works out the figures of all the scores together.
func (t *Tally) Figures() Figures {
	out := Figures{}
	for key, list := range t.values {
		out[key] = round4(mean(list))
	}
	for _, name := range []string{"sets", "rests"} {
		if f1, any := t.total(name).f1(); any {
			out[name+" F1"] = round4(f1)
		}
	}
	var kinds []float64
	for _, kind := range Kinds {
		h := t.total("phase " + kind)
		if f1, any := h.f1(); any && h.found+h.missed > 0 { // a kind that the truth has not is left out
			kinds = append(kinds, f1)
			out["phase F1 "+kind] = round4(f1)
		}
	}
	if len(kinds) > 0 {
		out["phase macro F1"] = round4(mean(kinds))
	}
	if _, scored := t.counts["sets"]; scored {
		out["miscount F1"] = harmonic(out, "miscount findings right (precision)", "miscounts found (recall)")
	}
	if _, any := out["captioner's faults told (recall)"]; any {
		out["captioner's faults F1"] = harmonic(out, "captioner's faults told (precision)", "captioner's faults told (recall)")
	}
	return out
}

// total sums the hits of one name over the sessions.
func (t *Tally) total(name string) hits {
	var sum hits
	for _, h := range t.counts[name] {
		sum.found += h.found
		sum.spurious += h.spurious
		sum.missed += h.missed
	}
	return sum
}

// harmonic returns the harmonic mean of two of the figures as rounded, 0 where one is absent or 0.
func harmonic(f Figures, precision, recall string) float64 {
	p, r := f[precision], f[recall]
	if p == 0 || r == 0 {
		return 0
	}
	return round4(2 * p * r / (p + r))
}

func (t *Tally) add(name string, value float64) { t.values[name] = append(t.values[name], value) }

// share adds 1 for yes and 0 for no, so that the figure is the share of yes.
func (t *Tally) share(name string, yes bool) {
	if yes {
		t.add(name, 1)
	} else {
		t.add(name, 0)
	}
}

// mean sums with Neumaier's correction, so that the order of the sessions does not show in the fourth decimal.
func mean(list []float64) float64 {
	sum, lost := 0.0, 0.0
	for _, x := range list {
		s := sum + x
		if math.Abs(sum) >= math.Abs(x) {
			lost += (sum - s) + x
		} else {
			lost += (x - s) + sum
		}
		sum = s
	}
	return (sum + lost) / float64(len(list))
}

// round4 rounds to four decimals, a true half to the even digit.
func round4(x float64) float64 {
	r, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'f', 4, 64), 64)
	return r
}
