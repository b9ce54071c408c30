package announce

import (
	"strings"

	"captally.example/captally/segment/caption"
)

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
	for i := range out {
		if g := &out[i]; g.Side == Both && places[i].both == 0 && alternating(sets[i].Exercise) {
			*g = SideGuess{Side: Alternate, Prob: sessionSideSure}
		}
	}
	if side := sessionSide(track, sets, mentions); side != Both {
		for i := range out {
			if g := &out[i]; g.Side == Both && places[i].both == 0 && places[i].limbs == 0 && !pairedMove(sets[i].Exercise) {
				*g = SideGuess{Side: side, Prob: sessionSideSure}
			}
		}
	}
	return out
}

const (
	sessionSideSure = 0.6 // how sure a side is that is said once for the whole session; common practice, no source
	ifWithin        = 14  // words after "if" that a side belongs to
	showWords       = 6   // from "showing" to the side at most
	needWords       = 5   // from such a word to the side
	othersRare      = 5   // of so many sets one may be about the other side
	swapsRare       = 4   // of so many sets one may be followed by a change of sides
)

// sessionSide returns the side that a session is said to be about before its first set: "we pretend the right knee is the new one", "I'm
// showing on my left shoulder". Where one is only spoken of ("if yours is the left"), where both are, or where sets have sides of their
// own, it returns Both.
func sessionSide(track *caption.Track, sets []SetSpan, mentions []Mention) BodySide {
	if len(sets) == 0 {
		return Both
	}
	named := [Alternate + 1]int{} // how often each side is named from the first set on
	spoken, needy := Both, Both
	clear, swaps := true, 0
	for i := range mentions {
		m := &mentions[i]
		switch {
		case m.Weight < 0.5:
		case m.Kind == Swap:
			swaps++
		case m.Kind != Side:
		case m.First >= sets[0].First:
			named[m.Side]++
		case conditional(track, m.First):
		case m.Side != Left && m.Side != Right || spoken != Both && spoken != m.Side:
			clear = false
		default:
			spoken = m.Side
		}
		if m.Kind != Side || m.Side != Left && m.Side != Right || m.First >= sets[0].First {
			continue
		}
		switch {
		case shownOn(track, m.First):
			return m.Side
		case needy == Both && ownSide(track, m):
			needy = m.Side
		}
	}
	few := len(sets) / othersRare
	switch {
	case swaps*swapsRare > len(sets):
	case needy != Both && named[needy.Other()] <= few:
		return needy
	case clear && named[Left]+named[Right]+named[Both]+named[Alternate] == 0:
		return spoken
	}
	return Both
}

// ownSide reports whether the side of a mention is said to be the one in need: "today's operated leg is the right leg", "mine's the right".
func ownSide(track *caption.Track, m *Mention) bool {
	if conditional(track, m.First) {
		return false
	}
	for k := max(0, m.First-needWords); k < min(len(track.Words), m.Last+needWords); k++ {
		switch track.Words[k].Fold {
		case "operated", "affected", "injured", "sore", "bad", "surgical", "stiff", "mine's", "mine", "poorly":
			return true
		}
	}
	return false
}

// shownOn reports whether the therapist says before word i that the exercises are shown on that side: "I'm showing on my left shoulder".
func shownOn(track *caption.Track, i int) bool {
	mine := false
	for k := i - 1; k >= max(0, i-showWords); k-- {
		switch fold := track.Words[k].Fold; fold {
		case "my":
			mine = true
		case "show", "showing", "demonstrate", "demonstrating", "demo", "use", "using":
			return mine
		}
	}
	return false
}

// conditional reports whether "if" stands shortly before word i.
func conditional(track *caption.Track, i int) bool {
	for k := max(0, i-ifWithin); k < i; k++ {
		if track.Words[k].Fold == "if" {
			return true
		}
	}
	return false
}

// alternating reports whether an exercise is done by turns on the left and on the right by its name. Common practice, no source.
func alternating(name string) bool {
	name = strings.ToLower(name)
	for _, part := range [...]string{"bird dog", "dead bug", "knee lift", "side step", "step touch", "toe tap", "leg kick"} {
		if strings.Contains(name, part) {
			return true
		}
	}
	return false
}

// pairedMove reports whether an exercise takes both sides at once by its name. Common practice, no source.
func pairedMove(name string) bool {
	name = strings.NewReplacer("push up", "push-up", "press up", "press-up").Replace(strings.ToLower(name))
	for _, word := range strings.Fields(name) {
		if bothSided[strings.TrimSuffix(word, "s")] {
			return true
		}
	}
	return false
}

var bothSided = map[string]bool{"squat": true, "bridge": true, "stand": true, "sit": true, "march": true, "marching": true, "breath": true, "breathing": true,
	"chin": true, "plank": true, "press-up": true, "push-up": true, "jack": true, "jump": true, "walk": true, "walking": true, "row": true, "swing": true}
