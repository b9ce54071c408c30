package segment

import (
	"math"
	"math/rand/v2"
	"testing"
)

// The search for the sections against plain enumeration of all divisions.
func TestDivideAgainstEnumeration(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 50 {
		const n = 9 // places
		d := &division{}
		for u := range n {
			d.at = append(d.at, u)
			d.time = append(d.time, 60*float64(u)+20*r.Float64())
			var turn, sum [sections]float64
			for s := range sections {
				turn[s] = r.Float64()
				if u > 0 {
					sum[s] = d.sum[u-1][s] + 4*r.NormFloat64()
				}
			}
			d.turn, d.sum = append(d.turn, turn), append(d.sum, sum)
		}
		cuts := d.search()
		got := d.score(cuts)
		best := math.Inf(-1)
		var try func(c [sections + 1]int, s section)
		try = func(c [sections + 1]int, s section) {
			if s == sections-1 {
				c[sections] = n - 1
				best = math.Max(best, d.score(c))
				return
			}
			for u := c[s]; u < n; u++ {
				c[s+1] = u
				try(c, s+1)
			}
		}
		try([sections + 1]int{}, 0)
		if math.Abs(got-best) > 1e-9 {
			t.Fatalf("found %v scoring %g, the best scores %g", cuts, got, best)
		}
	}
}

// score weighs one division.
func (d *division) score(cuts [sections + 1]int) float64 {
	total := 0.0
	for s := range sections {
		a, b := cuts[s], cuts[s+1]
		switch {
		case a == b:
			total -= skipCost(s)
		default:
			total += d.sum[b][s] - d.sum[a][s] - d.turn[a][s]
			if s == warming || s == cooling {
				total -= lengthCost(d.time[b] - d.time[a])
			}
		}
	}
	return total
}

func TestLikeliestRuns(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	const costOn, costOff = 2.0, 1.5
	for range 100 {
		odds := make([]float64, 8)
		for i := range odds {
			odds[i] = 3 * r.NormFloat64()
		}
		score := func(on func(i int) bool) float64 {
			total, before := 0.0, false
			for i, o := range odds {
				switch {
				case on(i) && !before:
					total -= costOn
				case !on(i) && before:
					total -= costOff
				}
				if before = on(i); before {
					total += o
				}
			}
			return total
		}
		best := math.Inf(-1)
		for bits := range 1 << len(odds) {
			best = math.Max(best, score(func(i int) bool { return bits>>i&1 == 1 }))
		}
		found := likeliestRuns(odds, costOn, costOff)
		if got := score(func(i int) bool { return found[i] }); math.Abs(got-best) > 1e-9 {
			t.Errorf("%v: %v scores %g, the best %g", odds, found, got, best)
		}
	}
}
