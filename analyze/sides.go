package analyze

import (
	"fmt"
	"math"
	"strings"

	"captally.example/captally/segment"
)

// A pair is the left and the right of one exercise in one round: indices into Session.Sets.
type pair struct{ left, right int }

// pairs matches the n-th left set of an exercise with its n-th right set.
func pairs(sets []segment.Set) []pair {
	type key struct {
		kind     segment.Kind
		exercise string
	}
	waiting := map[key][2][]int{}
	var out []pair
	for i := range sets {
		side := 0
		switch sets[i].Side {
		case segment.Left:
		case segment.Right:
			side = 1
		default:
			continue
		}
		k := key{sets[i].Kind, strings.ToLower(sets[i].Exercise.Text)}
		if k.exercise == "" {
			continue
		}
		w := waiting[k]
		if others := w[1-side]; len(others) > 0 {
			p := pair{left: others[0], right: i}
			if side == 0 {
				p = pair{left: i, right: others[0]}
			}
			out = append(out, p)
			w[1-side] = others[1:]
		} else {
			w[side] = append(w[side], i)
		}
		waiting[k] = w
	}
	return out
}

// sides tells where left and right of one exercise and round got different repetitions, or times that differ by more than
// the tolerance.
func (f *finder) sides() {
	for _, p := range pairs(f.session.Sets) {
		left, right := &f.session.Sets[p.left], &f.session.Sets[p.right]
		chance := differ(left, right, f.opt.Lengths)
		if chance > 0.5 && !(f.settled.Numbers[p.left] && f.settled.Numbers[p.right]) {
			chance = weigh(OddSides, f.ledger.sidesReasons(p.left, p.right, chance))
		}
		if chance <= 0.5 || f.eitherOff(p) <= 0.5 { // nobody need look: what is odd in one of the two is told of that set
			continue
		}
		gotLeft, gotRight := done(left), done(right)
		if !left.Counted {
			gotLeft, gotRight = length(left.Performed), length(right.Performed)
		}
		later, id := right, p.right
		if p.left > p.right {
			later, id = left, p.left
		}
		e := f.evidence()
		for _, i := range []int{min(p.left, p.right), max(p.left, p.right)} {
			e.lastCounted(&f.session.Sets[i])
		}
		f.add(Finding{
			Kind: "sides-uneven", Cause: causeSession, At: at(later.Start.At), Set: setID(id), Probability: chance,
			Text: fmt.Sprintf("The sides differ in %s: %s on the left, %s on the right.", later.Exercise.Text, gotLeft, gotRight),
		}, e)
	}
}

// eitherOff returns the probability that one of two sets with one dose went off it, which they must have for their sides to differ; 1 where
// they have none, or nothing is known to be off.
func (f *finder) eitherOff(p pair) float64 {
	left, right := &f.session.Sets[p.left], &f.session.Sets[p.right]
	most, known := 0.0, false
	if left.Announced.Reps != right.Announced.Reps || left.Announced.Seconds != right.Announced.Seconds {
		return 1
	}
	for _, i := range []int{p.left, p.right} {
		set := &f.session.Sets[i]
		if f.settled.Numbers[i] || f.settled.Doses[i] {
			return 1
		}
		if kind, p := offDose(set); kind != "" {
			if p > 0.5 {
				p = weigh(OddDose, f.ledger.doseReasons(i, p))
			}
			most, known = math.Max(most, p), true
		} else if want := set.Announced.Seconds; !set.Counted && want > 0 {
			if verdict, p := against(set.Performed, want, f.opt.Lengths); verdict != "kept" {
				most, known = math.Max(most, weigh(OddTime, f.ledger.timeReasons(i, p, f.opt.Lengths))), true
			}
		}
	}
	if !known {
		return 1
	}
	return most
}

// differ returns the probability, by the limits of both, that two sets were different; 0 where one was counted and the other was not.
func differ(a, b *segment.Set, tol Tolerance) float64 {
	switch {
	case a.Counted != b.Counted:
		return 0
	case a.Counted:
		return differentReps(a, b)
	}
	return differentTimes(a, b, tol)
}

// differentReps returns the probability that two counted sets had different numbers of repetitions; 0 where the likeliest
// numbers are equal.
func differentReps(a, b *segment.Set) float64 {
	if a.Reps == b.Reps {
		return 0
	}
	x, y := believeReps(a.Reps, a.RepsLow, a.RepsHigh), believeReps(b.Reps, b.RepsLow, b.RepsHigh)
	same := 0.0
	for n := max(0, min(a.RepsLow, b.RepsLow)-1); n <= max(a.RepsHigh, b.RepsHigh)+1; n++ {
		same += float64(x.is(n) * y.is(n))
	}
	return math.Max(0, 1-same)
}

// differentTimes returns the probability that two timed sets differ by more than the tolerance around the longer one; 0 where what was
// measured does not.
func differentTimes(a, b *segment.Set, tol Tolerance) float64 {
	t := tol.Of(math.Max(a.Performed.Value, b.Performed.Value))
	if math.Abs(a.Performed.Value-b.Performed.Value) <= t {
		return 0
	}
	d := believe(a.Performed).minus(believe(b.Performed))
	return d.above(t) + d.below(-t)
}
