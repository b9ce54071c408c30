package announce

import (
	"math"
	"slices"

	"captally.example/captally/segment/caption"
)

// A SideGuess is the side that a set works.
type SideGuess struct {
	Side        BodySide
	First, Last int // the words that say it; empty where it follows from the sets around it
	Prob        float64
}

// The log odds with which a side holds for a set, and what moves them; as those of doses.go they are judgement.
const (
	sidePerWord = -0.03 // log odds for each word between the mention and the set
	sideWords   = 90    // farther back than that a side is not taken for the set's
	sideStays   = -0.8  // log odds that an unmentioned side is that of the set before
	sideFlips   = -0.6  // or the other
	sideSaid    = -1.0  // for either, where a side is named right before the set
	sideAgain   = 0.8   // more for staying after a rest or "same again"
	beforeDose  = -0.8  // a side named before a dose that is for both
	sideRuns    = 0.5   // more for staying, where a side goes unmentioned over several sets
	noSide      = -1.6  // that no side means both
	inPair      = -1.5  // a side named together with the other
	alternates  = 1.0   // more, for "left, right, left, right"
	swapFlips   = 0.3   // after "other leg"
)

// Sides returns the side that each set works: what was said last before it, the other after "other leg", and both
// where nothing speaks of a side. Sets are in the order of their words.
func Sides(track *caption.Track, sets []SetSpan, mentions []Mention) []SideGuess {
	out := make([]SideGuess, len(sets))
	spoken := spokenSides(sets, mentions)
	for i := range sets {
		v := sideVotes{}
		v.add(Both, noSide, nil)
		if i > 0 {
			stays, flips := unspoken(sets, spoken, mentions, i)
			v.fromBefore(out[i-1].Side, same(&sets[i-1], &sets[i]), stays, flips)
		}
		for j := range spoken[i] {
			m := &spoken[i][j]
			odds := math.Log(m.Weight) + float64(sidePerWord*float64(max(sets[i].First-m.Last, 0)))
			switch {
			case m.Kind == Side:
				v.add(m.Side, odds+besides(track, spoken[i], j, mentions, sets[i].First), m)
			case i > 0 && (out[i-1].Side == Left || out[i-1].Side == Right):
				v.add(out[i-1].Side.Other(), odds+swapFlips, m)
			}
		}
		out[i] = v.best()
	}
	return out
}

// spokenSides returns for each set what is said of sides between the set before and it.
func spokenSides(sets []SetSpan, mentions []Mention) [][]Mention {
	spoken := make([][]Mention, len(sets))
	n := 0
	for i := range sets {
		from, to := 0, sets[i].First
		if i > 0 {
			from = sets[i-1].Last
		}
		if sets[i].Timed {
			to = min(to+inSetWords, sets[i].Last)
		}
		for ; n < len(mentions) && mentions[n].First < to; n++ {
			m := &mentions[n]
			if (m.Kind == Side || m.Kind == Swap) && m.First >= from && sets[i].First-m.Last <= sideWords {
				spoken[i] = append(spoken[i], *m)
			}
		}
	}
	return spoken
}

// unspoken returns the log odds that the side of set i is that of the set before, or the other, as far as no side is named.
func unspoken(sets []SetSpan, spoken [][]Mention, mentions []Mention, i int) (stays, flips float64) {
	stays, flips = sideStays, sideFlips
	if silentAfter(sets, spoken, i) {
		stays += sideRuns
	}
	if saidAgain(mentions, sets[i-1].Last, sets[i].First) {
		stays += sideAgain
	}
	if sideRightBefore(spoken[i], sets[i].First) {
		stays, flips = stays+sideSaid, flips+sideSaid
	}
	return stays, flips
}

// besides returns what the words around a side change in its log odds.
func besides(track *caption.Track, spoken []Mention, j int, mentions []Mention, first int) float64 {
	odds := 0.0
	if paired(track, spoken, j) {
		odds += inPair
	}
	if spoken[j].Side == Alternate {
		odds += alternates
	}
	if doseAfter(mentions, spoken[j].Last, first) {
		odds += beforeDose
	}
	return odds
}

// between returns the mentions whose first word is in [first, last).
func between(mentions []Mention, first, last int) []Mention {
	i, _ := slices.BinarySearchFunc(mentions, first, func(m Mention, w int) int { return m.First - w })
	j := i
	for j < len(mentions) && mentions[j].First < last {
		j++
	}
	return mentions[i:j]
}

// saidAgain reports whether a rest, another round or "same again" is spoken of between two sets: then the second is
// more likely the same once more than the other side.
func saidAgain(mentions []Mention, first, last int) bool {
	for _, m := range between(mentions, first, last) {
		if (m.Kind == Again || m.Kind == Round || m.Kind == Rest) && m.Weight > 0.5 {
			return true
		}
	}
	return false
}

// sideRightBefore reports whether a side is named within some words of the set.
func sideRightBefore(spoken []Mention, first int) bool {
	for i := range spoken {
		if m := &spoken[i]; m.Kind == Side && (m.Side == Left || m.Side == Right) && m.Weight >= 0.4 && first-m.Last <= 12 {
			return true
		}
	}
	return false
}

// doseAfter reports whether a dose for no side in particular is announced after word first and before the set.
func doseAfter(mentions []Mention, first, last int) bool {
	for _, m := range between(mentions, first, last) {
		if (m.Kind == Reps || m.Kind == Seconds) && m.Weight > 0.6 && m.Scope == Here && m.Side == SideUnknown && m.First > first+3 {
			return true
		}
	}
	return false
}

// paired reports whether a side is named together with the other, as in "left and right".
func paired(track *caption.Track, spoken []Mention, i int) bool {
	for _, j := range [2]int{i - 1, i + 1} {
		if j < 0 || j >= len(spoken) || spoken[i].Side == spoken[j].Side || spoken[j].Kind != Side {
			continue
		}
		if joined(track.Words[spoken[min(i, j)].Last:max(spoken[min(i, j)].Last, spoken[max(i, j)].First)]) {
			return true
		}
	}
	return false
}

// joined reports whether the words between two sides only put them together: "and", "then the", "or".
func joined(words []caption.Word) bool {
	if len(words) > 3 {
		return false
	}
	for _, w := range words {
		switch w.Fold {
		case "and", "or", "then", "the", "look", "your", "to", "on":
		default:
			return false
		}
	}
	return len(words) > 0
}

// same reports whether two sets are known to be of the same exercise.
func same(a, b *SetSpan) bool { return a.Exercise != "" && a.Exercise == b.Exercise }

// silentAfter reports whether no side is spoken of at set i nor at the next one, all of the same exercise.
func silentAfter(sets []SetSpan, spoken [][]Mention, i int) bool {
	if len(spoken[i]) > 0 || i == 0 || !same(&sets[i-1], &sets[i]) {
		return false
	}
	before := i > 1 && same(&sets[i-2], &sets[i]) && len(spoken[i-1]) == 0
	after := i+1 < len(sets) && same(&sets[i+1], &sets[i]) && len(spoken[i+1]) == 0
	return before || after
}

// sideVotes are the weights of the sides of one set, and the strongest mention of each.
type sideVotes struct {
	sum  [Alternate + 1]float64
	top  [Alternate + 1]float64
	from [Alternate + 1]*Mention
}

func (v *sideVotes) add(side BodySide, odds float64, m *Mention) {
	w := math.Exp(odds)
	v.sum[side] += w
	if w > v.top[side] {
		v.top[side], v.from[side] = w, m
	}
}

// fromBefore adds what follows from the side of the set before.
func (v *sideVotes) fromBefore(side BodySide, same bool, stays, flips float64) {
	switch {
	case !same || side == SideUnknown:
	case side == Left || side == Right:
		v.add(side, stays, nil)
		v.add(side.Other(), flips, nil)
	default:
		v.add(side, 0, nil)
	}
}

func (v *sideVotes) best() SideGuess {
	best, sum := Both, 0.0
	for k := Left; k <= Alternate; k++ {
		sum += v.sum[k]
		if v.sum[k] > v.sum[best] {
			best = k
		}
	}
	g := SideGuess{Side: best, Prob: v.sum[best] / sum}
	if m := v.from[best]; m != nil {
		g.First, g.Last = m.First, m.Last
	}
	return g
}
