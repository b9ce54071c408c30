package announce

import "math"

// A sideState is what one set may work: left, right, or both sides, together or by turns.
type sideState uint8

const (
	onLeft sideState = iota
	onRight
	onBoth
	sideStates
)

func (s sideState) single() bool { return s != onBoth }

// A sideFeature is one thing that speaks for a side, or for a way from side to side.
type sideFeature uint8

const (
	fNear sideFeature = iota // the side is named, by where
	fSoon
	fFar
	fDistant
	fTail
	fInside
	fWithin
	fLast       // it is named last before the set
	fPairFirst  // it is named first of a pair
	fPairSecond // and second
	fOne        // one side alone
	fOneEach    // where a dose is for either side
	fOneSingle  // where one leg, or arm, is spoken of
	fOneLimb    // where one leg, or arm, stands in the words before
	fOneLimbs   // where legs, or arms
	fBoth       // both, where "both" is said
	fByTurns    // where sides are named by turns
	fCarried    // the side that the set has to which it answers
	fBothAgain  // both, as there
	fLeftFirst  // the left one, where another exercise begins
	fStaySame   // from set to set, of the same exercise at once, or later; of another at once, or later
	fStaySameLater
	fStayOther
	fStayOtherLater
	fFlipSame
	fFlipSameLater
	fFlipOther
	fFlipOtherLater
	fEnterSame // from both to one
	fEnterSameLater
	fEnterOther
	fEnterOtherLater
	fLeaveSame // from one to both
	fLeaveSameLater
	fLeaveOther
	fLeaveOtherLater
	fSwapFlip // the other side, where it is called for
	fSwapStay
	fSwapEnter
	fAgainStay
	fAgainFlip
	fRoundStay
	fRoundFlip
	fRestStay
	fRestFlip
	fEvenStay
	fEvenFlip
	fSilentStay // the same side, where nothing is said of any
	fSilentFlip
	fRunStay // nor at the set before or after
	fRunFlip
	fSilentLeave // both, where nothing is said, of the same exercise
	fRunLeave
	fTurnTurn // left, right, left
	fStayStay // left, left, left
	fStayTurn // left, left, right
	fLone     // one side, and both before and after
	sideFeatures
)

// link says how a set stands to the one before: of the same exercise or not, at once or not.
func (p *sidePlace) link() sideFeature {
	k := sideFeature(0)
	if !p.same {
		k += 2
	}
	if !p.close {
		k++
	}
	return k
}

// sideWeights are what each feature speaks, in nats.
type sideWeights [sideFeatures]float64

// sideEach calls add with every feature that has a value where sets i-2, i-1 and i of places work sides a, b and c. carried are
// the probabilities of the sides of all sets as far as known, nil for none.
func sideEach(places []sidePlace, i int, a, b, c sideState, carried [][sideStates]float64, add func(sideFeature, float64)) {
	p := &places[i]
	p.ownFeatures(c, add)
	p.carriedFeatures(c, carried, add)
	if i > 0 {
		p.stepFeatures(b, c, add)
	}
	if i > 1 {
		if f, ok := turnFeature(p.same || places[i-1].same, a, b, c); ok {
			add(f, 1)
		}
	}
}

// turnFeature is that of three sets on end, if there is one; same says that two of them are of one exercise.
func turnFeature(same bool, a, b, c sideState) (f sideFeature, ok bool) {
	switch {
	case !a.single() && b.single() && !c.single():
		return fLone, true
	case !a.single() || !b.single() || !c.single() || !same || a != b && b == c:
		return 0, false
	case a != b:
		return fTurnTurn, true
	case b == c:
		return fStayStay, true
	}
	return fStayTurn, true
}

// carriedFeatures are those of the set to which this one answers in another round.
func (p *sidePlace) carriedFeatures(c sideState, carried [][sideStates]float64, add func(sideFeature, float64)) {
	switch {
	case p.other < 0 || carried == nil:
	case c.single():
		add(fCarried, carried[p.other][c])
	default:
		add(fBothAgain, carried[p.other][c])
	}
}

// ownFeatures are those of one set alone.
func (p *sidePlace) ownFeatures(c sideState, add func(sideFeature, float64)) {
	if !c.single() {
		add(fBoth, p.both)
		add(fByTurns, p.byTurns)
		return
	}
	for w, v := range p.named[c] {
		add(fNear+sideFeature(w), v)
	}
	add(fLast, p.last[c])
	add(fPairFirst, p.first[c])
	add(fPairSecond, p.second[c])
	add(fOne, 1)
	add(fOneEach, p.each)
	add(fOneSingle, p.single)
	add(fOneLimb, p.limb)
	add(fOneLimbs, p.limbs)
	if p.begins {
		add(fEnterOtherLater, 1)
		if c == onLeft {
			add(fLeftFirst, 1)
		}
	}
}

// stepFeatures are those of the step from the set before.
func (p *sidePlace) stepFeatures(b, c sideState, add func(sideFeature, float64)) {
	link := p.link()
	if !p.same && c == onLeft {
		add(fLeftFirst, 1)
	}
	switch {
	case b.single() && b == c:
		add(fStaySame+link, 1)
		add(fSwapStay, p.swap)
		add(fAgainStay, p.again)
		add(fRoundStay, p.round)
		add(fRestStay, p.rest)
		if p.even {
			add(fEvenStay, 1)
		}
		if p.silent && p.same {
			add(fSilentStay, 1)
		}
		if p.run && p.same {
			add(fRunStay, 1)
		}
	case b.single() && c.single():
		add(fFlipSame+link, 1)
		add(fSwapFlip, p.swap)
		add(fAgainFlip, p.again)
		add(fRoundFlip, p.round)
		add(fRestFlip, p.rest)
		if p.even {
			add(fEvenFlip, 1)
		}
		if p.silent && p.same {
			add(fSilentFlip, 1)
		}
		if p.run && p.same {
			add(fRunFlip, 1)
		}
	case c.single():
		add(fEnterSame+link, 1)
		add(fSwapEnter, p.swap)
	case b.single():
		add(fLeaveSame+link, 1)
		if p.silent && p.same {
			add(fSilentLeave, 1)
		}
		if p.run && p.same {
			add(fRunLeave, 1)
		}
	}
}

// A sideTrellis holds the ways through the sides of all sets: the logarithms of the weights of the sides of each set and the two
// before it.
type sideTrellis struct {
	log           [][sideStates][sideStates][sideStates]float64
	ahead, behind [][sideStates][sideStates]float64 // of all ways to, and from, the sides of a set and the one before it
	total         float64
}

// newSideTrellis weighs the ways. allowed, if not nil, says which sides each set may have.
func newSideTrellis(places []sidePlace, w *sideWeights, carried [][sideStates]float64, allowed [][sideStates]bool) *sideTrellis {
	n := len(places)
	t := &sideTrellis{make([][sideStates][sideStates][sideStates]float64, n), make([][sideStates][sideStates]float64, n), make([][sideStates][sideStates]float64, n), 0}
	for i := range places {
		own, step := w.ofSet(&places[i], carried)
		for a := range sideStates {
			for b := range sideStates {
				for c := range sideStates {
					sum := own[c]
					if i > 0 {
						sum += step[b][c]
					}
					if i > 1 {
						if f, ok := turnFeature(places[i].same || places[i-1].same, a, b, c); ok {
							sum += w[f]
						}
					}
					if i == 0 && (a != onBoth || b != onBoth) || i == 1 && a != onBoth || allowed != nil && !allowed[i][c] {
						sum = math.Inf(-1)
					}
					t.log[i][a][b][c] = sum
				}
			}
		}
	}
	t.sweep()
	return t
}

// ofSet returns what the features speak that belong to a set alone, and to the step from the one before.
func (w *sideWeights) ofSet(p *sidePlace, carried [][sideStates]float64) (own [sideStates]float64, step [sideStates][sideStates]float64) {
	sum := 0.0
	add := func(f sideFeature, v float64) { sum += float64(w[f] * v) }
	for c := range sideStates {
		sum = 0
		p.ownFeatures(c, add)
		p.carriedFeatures(c, carried, add)
		own[c] = sum
		for b := range sideStates {
			sum = 0
			if !p.begins {
				p.stepFeatures(b, c, add)
			}
			step[b][c] = sum
		}
	}
	return own, step
}

// sweep goes forth and back over the sets.
func (t *sideTrellis) sweep() {
	n := len(t.log)
	for i := range n {
		for b := range sideStates {
			for c := range sideStates {
				sum := [sideStates]float64{}
				for a := range sideStates {
					sum[a] = t.log[i][a][b][c]
					if i > 0 {
						sum[a] += t.ahead[i-1][a][b]
					}
				}
				t.ahead[i][b][c] = logSum(sum[:])
			}
		}
	}
	for i := n - 2; i >= 0; i-- {
		for b := range sideStates {
			for c := range sideStates {
				sum := [sideStates]float64{}
				for d := range sideStates {
					sum[d] = t.log[i+1][b][c][d] + t.behind[i+1][c][d]
				}
				t.behind[i][b][c] = logSum(sum[:])
			}
		}
	}
	if n > 0 {
		var sum [sideStates * sideStates]float64
		for b := range sideStates {
			for c := range sideStates {
				sum[b*sideStates+c] = t.ahead[n-1][b][c]
			}
		}
		t.total = logSum(sum[:])
	}
}

// odds returns the probability of each side of set i.
func (t *sideTrellis) odds(i int) (p [sideStates]float64) {
	for b := range sideStates {
		for c := range sideStates {
			p[c] += math.Exp(t.ahead[i][b][c] + t.behind[i][b][c] - t.total)
		}
	}
	return p
}

// logSum returns the logarithm of the sum of what log are the logarithms of.
func logSum(log []float64) float64 {
	most := log[0]
	for _, l := range log {
		most = max(most, l)
	}
	if math.IsInf(most, -1) {
		return most
	}
	sum := 0.0
	for _, l := range log {
		sum += math.Exp(l - most)
	}
	return most + math.Log(sum)
}

// likelySides returns the probability of each side of each set. It goes over them twice: the second time each set knows how the
// one turned out to which it answers in another round.
func likelySides(places []sidePlace, w *sideWeights) [][sideStates]float64 {
	var carried [][sideStates]float64
	for range 2 {
		t := newSideTrellis(places, w, carried, nil)
		odds := make([][sideStates]float64, len(places))
		for i := range odds {
			odds[i] = t.odds(i)
		}
		carried = odds
	}
	return carried
}

// leastByTurns is the weight of "alternating" from which on a set of both sides does them by turns.
const leastByTurns = 0.3

// guess makes a side of the probabilities of a set's sides.
func (p *sidePlace) guess(odds [sideStates]float64) SideGuess {
	best := onBoth
	for s := range sideStates {
		if odds[s] > odds[best] {
			best = s
		}
	}
	g := SideGuess{Side: Both, Prob: odds[best]}
	switch {
	case best.single():
		g.Side = Left + BodySide(best)
	case p.byTurns >= leastByTurns && p.byTurns > p.both:
		g.Side = Alternate
	}
	if m := p.strongest[g.Side]; m != nil {
		g.First, g.Last = m.First, m.Last
	}
	return g
}
