package announce

import (
	"math"

	"captally.example/captally/segment/caption"
)

// A SideGuess is the side that a set works.
type SideGuess struct {
	Side        BodySide
	First, Last int // the words that say it; empty where it follows from the sets around it
	Prob        float64
}

const (
	sidePerWord = -0.03 // log odds for each word between the mention and the set
	sideWords   = 90    // farther back than that a side is not taken for the set's
	sideStays   = -2.2  // log odds that an unmentioned side is that of the set before
	sideFlips   = -2.2  // or the other
	noSide      = -1.6  // that no side means both
	swapFlips   = 0.3   // after "other leg"
	sideBeside  = 0.8   // more, for a side beside the exercise's name
)

// Sides returns the side that each set works: what was said last before it, the other after "other leg", and both
// where nothing speaks of a side. Sets are in the order of their words.
func Sides(track *caption.Track, sets []SetSpan, mentions []Mention) []SideGuess {
	t := newText(track)
	out := make([]SideGuess, len(sets))
	n := 0
	for i := range sets {
		from := 0
		if i > 0 {
			from = sets[i-1].Last
		}
		for n < len(mentions) && mentions[n].First < from {
			n++
		}
		var before *SideGuess
		if i > 0 && sets[i-1].Exercise == sets[i].Exercise {
			before = &out[i-1]
		}
		out[i] = sideOf(t, &sets[i], mentions[n:], before, i > 0 && (out[i-1].Side == Left || out[i-1].Side == Right), prevSide(out, i))
	}
	return out
}

func prevSide(out []SideGuess, i int) BodySide {
	if i == 0 {
		return SideUnknown
	}
	return out[i-1].Side
}

// sideOf weighs all sides for one set. before is the guess of the set before if that is the same exercise, else nil.
func sideOf(t *text, s *SetSpan, mentions []Mention, before *SideGuess, sided bool, last BodySide) SideGuess {
	var odds [Alternate + 1]float64
	var from [Alternate + 1]*Mention
	for k := range odds {
		odds[k] = math.Inf(-1)
	}
	odds[Both] = noSide
	vote := func(side BodySide, o float64, m *Mention) {
		if o > odds[side] {
			odds[side], from[side] = o, m
		}
	}
	if before != nil {
		switch before.Side {
		case Left, Right:
			vote(before.Side, sideStays+1.6, nil)
			vote(before.Side.Other(), sideFlips+1.6, nil)
		default:
			vote(before.Side, 0, nil)
		}
	}
	start := s.First
	if s.Timed {
		start += inSetWords
	}
	for i := range mentions {
		m := &mentions[i]
		if m.First >= min(start, s.Last) {
			break
		}
		words := s.First - m.Last
		if words > sideWords {
			continue
		}
		o := math.Log(m.Weight) + sidePerWord*float64(max(words, 0))
		switch m.Kind {
		case Side:
			if m.Side == Both {
				o -= 1
			}
			vote(m.Side, o, m)
		case Swap:
			if sided {
				vote(last.Other(), o+swapFlips-0.7, m)
			}
		}
	}
	return pick(odds, from)
}

// pick returns the likeliest side.
func pick(odds [Alternate + 1]float64, from [Alternate + 1]*Mention) SideGuess {
	best, sum := Both, 0.0
	for k := Left; k <= Alternate; k++ {
		sum += math.Exp(odds[k])
		if odds[k] > odds[best] {
			best = k
		}
	}
	g := SideGuess{Side: best, Prob: math.Exp(odds[best]) / sum}
	if m := from[best]; m != nil {
		g.First, g.Last = m.First, m.Last
	}
	return g
}
