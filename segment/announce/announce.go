// Package announce reads from the words of a session what was announced: doses, rests, sides, rounds, and remarks on the time.
//
// The way through it:
//
//  1. [Find] lists every mention in the track, each with a weight that says how sure the words alone make it.
//     The phrases stand in phrases.txt, one a line; words that belong together in words.txt.
//  2. [Doses], [RestDoses] and [Sides] take provisional sets and rests and say which mentions hold for which:
//     what is said at a set goes before what was said for the same exercise, that before a round's,
//     and that before what was said for the whole session.
package announce

import "captally.example/captally/segment/caption"

// Kind is what a mention speaks of.
type Kind uint8

const (
	None      Kind = iota // a number that announces nothing; never the kind of a Mention
	Reps                  // repetitions of a set
	Seconds               // length of a timed set, in seconds
	Rest                  // length of a rest, in seconds; 0 for a rest of no stated length
	Hold                  // seconds of a hold inside a repetition
	Remaining             // seconds, or repetitions, that are left
	Gone                  // seconds, or repetitions, that are done
	Halfway               // half of a set is done
	Side                  // left, right, both
	Swap                  // the other side from now on
	Round                 // the round or set that begins; -1 for the last round, 0 for one without a number
	Rounds                // how many rounds or sets there are
	Again                 // as before
	Single                // one leg, or arm, works, whichever
	kinds                 // number of kinds
)

var kindNames = [kinds]string{"none", "reps", "seconds", "rest", "hold", "remaining", "gone", "halfway", "side", "swap", "round", "rounds", "again", "single"}

// String returns the kind's name in phrases.txt.
func (k Kind) String() string {
	if k < kinds {
		return kindNames[k]
	}
	return "unknown"
}

// Scope says how far a mention reaches.
type Scope uint8

const (
	Here             Scope = iota // the set or rest at hand
	EachSide                      // the set at hand, on either side
	Everything                    // every exercise from here on
	Change                        // the set at hand, instead of what was announced before
	BetweenSets                   // every rest between two sets of one exercise
	BetweenExercises              // every rest between two exercises
)

var scopeNames = [...]string{"here", "each", "all", "change", "sets", "exercises"}

// BodySide is a side of the body.
type BodySide uint8

const (
	SideUnknown BodySide = iota
	Left
	Right
	Both
	Alternate
)

// Other returns the opposite side; what is not left or right stays as it is.
func (s BodySide) Other() BodySide {
	switch s {
	case Left:
		return Right
	case Right:
		return Left
	}
	return s
}

// String returns "left", "right", "both", "alternate", or "" where the side is not known.
func (s BodySide) String() string { return [...]string{"", "left", "right", "both", "alternate"}[s] }

// A Mention is one thing that was announced. The same words may carry two mentions of different kinds:
// "thirty seconds" may be a rest or a set.
type Mention struct {
	First, Last int // Track.Words[First:Last], with the number but without all the words that gave its meaning
	At          caption.Time
	Kind        Kind
	Value       float64  // repetitions, seconds, or the number of the round; 0 where none was said
	High        float64  // upper end where a range was said ("eight to twelve"), else equal to Value
	Timed       bool     // Value is in seconds
	Scope       Scope    // how far it reaches
	Side        BodySide // the side it speaks of, or which stands close by it
	Round       int      // the round for which it holds, where one was named; else 0
	Weight      float64  // in (0,1]: how sure the words alone make it
}
