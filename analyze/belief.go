package analyze

import (
	"math"

	"captally.example/captally/segment"
)

// A belief is what is believed of a quantity that is known as a value with limits: a two-piece normal distribution whose
// mode is the value and whose halves are scaled so that each limit lies where the 5 % and 95 % points of a normal
// distribution with that half's spread would. (Wallis KF 2014, "The two-piece normal, binormal, or double Gaussian
// distribution", Statistical Science 29(1):106-12, gives the density and its mass on each side; from memory.)
type belief struct {
	mode, low, high float64 // mode, and the spread of each half; 0 for a half without doubt
}

// point95 is the 95 % point of the standard normal distribution (any printed table: 1.645).
const point95 = 1.6448536269514722

func believe(l segment.Length) belief {
	return belief{
		mode: l.Value,
		low:  math.Max(0, l.Value-l.Low) / point95,
		high: math.Max(0, l.High-l.Value) / point95,
	}
}

// believeReps widens a whole number's limits by half a repetition each way, so that 12, certain, leaves 5 % to each neighbour.
func believeReps(reps, low, high int) belief {
	return believe(segment.Length{Value: float64(reps), Low: float64(low) - 0.5, High: float64(high) + 0.5})
}

// below returns the probability that the quantity is less than x.
func (b belief) below(x float64) float64 {
	total := b.low + b.high
	switch {
	case x == b.mode && total == 0:
		return 0.5
	case x <= b.mode && b.low == 0:
		return 0
	case x <= b.mode:
		return 2 * b.low / total * normal((x-b.mode)/b.low)
	case b.high == 0:
		return 1
	}
	return 1 - float64(2*b.high/total*normal((b.mode-x)/b.high))
}

// above returns the probability that the quantity is more than x.
func (b belief) above(x float64) float64 { return 1 - b.below(x) }

// is returns the probability that a whole number is n.
func (b belief) is(n int) float64 {
	return b.below(float64(n)+0.5) - b.below(float64(n)-0.5)
}

// minus returns the difference of two independent beliefs; the halves combine in quadrature.
func (b belief) minus(o belief) belief {
	return belief{mode: b.mode - o.mode, low: math.Hypot(b.low, o.high), high: math.Hypot(b.high, o.low)}
}

// normal is the standard normal distribution function.
func normal(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
