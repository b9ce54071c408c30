package announce

import "captally.example/captally/segment/caption"

// A SideGuess is the side that a set works.
type SideGuess struct {
	Side        BodySide
	First, Last int // the words that say it; empty where it follows from the sets around it
	Prob        float64
}

// Sides returns the side that each set works. Sets are in the order of their words.
//
// What is said of sides before each set and in its first words, what leads from each set to the next, and what the same exercise
// was in another round are weighed together over all sets (sideplace.go, sidepath.go). The weights are fitted on labelled
// sessions (sidefitted.go).
func Sides(track *caption.Track, sets []SetSpan, mentions []Mention) []SideGuess {
	places := sidePlaces(track, sets, mentions)
	out := make([]SideGuess, len(sets))
	for i, odds := range likelySides(places, &sideFitted) {
		out[i] = places[i].guess(odds)
		if g := &out[i]; i > 0 && g.Side == Both && places[i].same && places[i].both == 0 && out[i-1].Side == Alternate {
			g.Side = Alternate
		}
	}
	return out
}
