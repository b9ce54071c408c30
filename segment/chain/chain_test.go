package chain

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestChooseIsBest compares the choice with trying every set of intervals.
func TestChooseIsBest(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for round := 0; round < 500; round++ {
		all := make([]Interval, rng.IntN(11))
		for i := range all {
			first := rng.IntN(20)
			all[i] = Interval{First: first, Last: first + 1 + rng.IntN(8), Score: float64(rng.IntN(21) - 5)}
		}
		best := 0.0
		for set := 0; set < 1<<len(all); set++ {
			sum, ok := 0.0, true
			for i := range all {
				if set>>i&1 == 0 {
					continue
				}
				sum += all[i].Score
				for j := range all[:i] {
					if set>>j&1 == 1 && all[i].First < all[j].Last && all[j].First < all[i].Last {
						ok = false
					}
				}
			}
			if ok {
				best = math.Max(best, sum)
			}
		}
		sum, last := 0.0, 0
		for _, k := range Choose(all) {
			if all[k].First < last {
				t.Fatalf("%v: chosen %v overlap", all, Choose(all))
			}
			sum += all[k].Score
			last = all[k].Last
		}
		if sum != best {
			t.Fatalf("%v: chosen %v, together %g; the best are %g", all, Choose(all), sum, best)
		}
	}
}

// counted returns boxes of numbers that come reps[k] repetitions apart at pace p, with what clock shows of their times.
func counted(clock Clock, reps []int, p float64) []Box {
	length := 3.0
	if clock == InBlocks {
		length = 30
	}
	at := 103.0
	boxes := []Box{{At: at}}
	for _, n := range reps {
		at += float64(n) * p
		boxes = append(boxes, Box{At: at})
	}
	for i := range boxes {
		b := &boxes[i]
		b.From = math.Floor(b.At/length) * length
		b.To = b.From + length
		b.Low, b.High, b.Lead, b.Tail = b.From, b.To, -1, -1
		if clock == OnWords {
			b.Low, b.High = b.At, b.At
		}
	}
	return boxes
}

// TestEvidencePeaksAtThePace counts twelve at a known pace and asks which pace of the grid the times speak for.
func TestEvidencePeaksAtThePace(t *testing.T) {
	reps := []int{1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1}
	for _, c := range []struct {
		clock Clock
		off   float64   // how far the best may lie from the true one, as a ratio
		paces []float64 // of a count of twelve within one block nothing is known
	}{{OnWords, 1.06, []float64{1.5, 2.5, 4, 6}}, {InCues, 1.1, []float64{1.5, 2.5, 4, 6}}, {InBlocks, 1.6, []float64{3, 4, 6}}} {
		for _, p := range c.paces {
			l := NewLattice(c.clock, counted(c.clock, reps, p))
			best, at := math.Inf(-1), 0.0
			for _, q := range l.Paces(11, 11) {
				if e := l.Evidence(reps, q); e > best {
					best, at = e, q
				}
			}
			if at > p*c.off || at < p/c.off {
				t.Errorf("clock %d: a count of %g s a repetition speaks most for %.2f s", c.clock, p, at)
			}
		}
	}
}

// TestEvidenceTellsASilentRepetition leaves a number out of a count: its times must speak for two repetitions there, in a
// file with word times or cues, and must not speak for them where nothing is left out.
func TestEvidenceTellsASilentRepetition(t *testing.T) {
	even := []int{1, 1, 1, 1, 1, 1, 1, 1}
	silent := []int{1, 1, 1, 2, 1, 1, 1, 1}
	most := func(l *Lattice, reps []int) float64 {
		best := math.Inf(-1)
		for _, q := range l.Paces(8, 9) {
			best = math.Max(best, l.Evidence(reps, q))
		}
		return best
	}
	for _, clock := range []Clock{OnWords, InCues} {
		gap := NewLattice(clock, counted(clock, silent, 5))
		if a, b := most(gap, silent), most(gap, even); a < b+1 {
			t.Errorf("clock %d: a silent repetition has evidence %.2f, none %.2f", clock, a, b)
		}
		none := NewLattice(clock, counted(clock, even, 5))
		if a, b := most(none, even), most(none, silent); a < b+1 {
			t.Errorf("clock %d: an even count has evidence %.2f, a silent repetition in it %.2f", clock, a, b)
		}
	}
}

// TestOnBinsIsTheSum compares the forward pass over the bins with the sum over every way to place three numbers.
func TestOnBinsIsTheSum(t *testing.T) {
	reps := []int{1, 2}
	boxes := []Box{
		{Low: 10, High: 13, From: 10, To: 13, Lead: 0.4, Tail: -1, Still: 0.2},
		{Low: 13, High: 16, From: 13, To: 16, Lead: -1, Tail: -1, Talk: 0.5},
		{Low: 16, High: 22, From: 16, To: 22, Lead: -1, Tail: 0.8, Talk: 1},
	}
	for _, clock := range []Clock{InCues, InBlocks} {
		l := NewLattice(clock, boxes)
		const p = 2.4
		step := func(k, from, to int) float64 {
			mean, sd := due(reps[k], p, fastest*boxes[k+1].Talk)
			sd = math.Max(math.Hypot(sd, 0.1), 0.6*l.bin)
			reach := 3.5*sd + 2.5 + 1.5*boxes[k+1].Talk
			d := float64(to - from)
			if to < from || d < math.Floor((mean-3.5*sd)/l.bin) || d > math.Ceil((mean+reach)/l.bin) {
				return 0
			}
			return beatDensity(d*l.bin-mean, sd, boxes[k+1].Talk) * l.bin
		}
		sum := 0.0
		for i, wi := range l.w[0] {
			for j, wj := range l.w[1] {
				for k, wk := range l.w[2] {
					sum += wi * wj * wk * step(0, l.lo[0]+i, l.lo[1]+j) * step(1, l.lo[1]+j, l.lo[2]+k)
				}
			}
		}
		if got := math.Exp(l.Evidence(reps, p)); math.Abs(got-sum) > 1e-9*sum {
			t.Errorf("clock %d: evidence %g, the sum over all ways %g", clock, got, sum)
		}
	}
}
