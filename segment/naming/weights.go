package naming

// A feature is one thing that speaks for or against a stretch of words being the name of an exercise.
type feature uint8

const (
	endsInHead       feature = iota // ends in a noun that ends names and is hardly said otherwise
	endsInWeak                      // ends in a noun that ends names, but is an everyday word too
	knownName                       // is, or ends in, a whole name of the lexicon
	openEnd                         // ends in none of these
	bodyWords                       // number of other words that are parts of the body
	kitWords                        // number of other words that are things
	mannerWords                     // number of other words that say how or which way
	unknownWords                    // number of other words that the lexicon does not know
	weakWithMore                    // ends in an everyday noun, but has other words of names before it
	bareVerb                        // may be a command: no plural, no article before it, no other word of names
	command                         // ends in "and" or "then" and a bare verb, or is one right before the count: "tighten and lift", "kick"
	pluralInside                    // number of other words that are parts of the body or things in the plural
	restWords                       // number of words for what people do in a rest
	commonWords                     // number of everyday words inside
	broken                          // number of short pauses inside
	innerWords                      // number of inner words ("to", "over") outside a whole known name
	oneWord                         // is a single word
	afterIntro                      // follows an introducing phrase
	afterAgain                      // follows a repeating phrase
	afterArticle                    // follows an article
	afterNumber                     // follows a number
	afterSide                       // follows "left" or "right"
	beginsUtterance                 // an utterance begins with it
	endsUtterance                   // an utterance ends with it
	aloneInUtterance                // is an utterance of its own
	announced                       // begins an utterance, and after a comma or pause the side or the dose follows
	announcedInner                  // number of inner words in such a one
	beforeNumber                    // a number follows
	beforeSide                      // "left" or "right" follows
	beforePhrase                    // a phrase follows that follows names
	cutOffLeft                      // the word before would belong to it
	beforeTail                      // a word follows after which a noun was a verb: "slide it"
	cutOffRight                     // the word after would belong to it
	negated                         // a word of denial stands right before
	afterClosing                    // follows a phrase that looks back
	distance                        // words to the first count, in tens, at most maxDistance
	inLastUtterance                 // no utterance ends between it and the first count
	superseded                      // another name, nearly as likely, is said between it and the first count
	repeated                        // number of other sets that it is named before, at most maxRepeats
	soundsLike                      // only sounds like a known name
	soundOff                        // how far its sound is off, in [0,1]
	ownWords                        // number of words of names that are the name's too, for one that only sounds like a name
	foreignWords                    // number of words of names that are not
	saidBefore                      // sounds like a name that is surely said in the session
	clearSession                    // share of the sets before which a name stands clearly, for one that only sounds like a name
	// Of a whole sequence of names.
	changes       // another name than the set before
	unsaidChange  // another name than the set before, without a word of it
	noName        // a set without a name
	staysOnSame   // the name of the set before, by the weight of a phrase for the same exercise
	staysOnNew    // the name of the set before, by the weight of a phrase for another exercise
	staysInQuiet  // the name of the set before, after a long lead-in without a phrase for the same exercise
	staysOverKind // the name of the set before, where work turns to balance or the like
	followsOrder  // a name that followed the name before it in an earlier round
	nFeatures
)

// featureNames are the names used in explanations.
var featureNames = [nFeatures]string{
	"ends in a head noun", "ends in an everyday noun", "known name", "open end", "body words", "kit words", "manner words",
	"unknown words", "an everyday noun with more", "a bare verb", "a command", "plurals inside", "rest words", "common words", "short pauses inside", "inner words", "one word", "after an introduction", "after a repeating phrase",
	"after an article", "after a number", "after a side", "begins an utterance", "ends an utterance", "alone in an utterance",
	"announced with its dose", "inner words in such a one", "before a number", "before a side", "before a following phrase", "cut off on the left", "before a verb's object", "cut off on the right",
	"denied", "after a look back", "distance to the count", "in the last utterance", "superseded", "repeated before other sets", "sounds like a known name", "sound off", "own words in a sound", "foreign words in a sound", "sounds like a sure name", "in a clear session",
	"changes the name", "changes it unsaid", "no name", "stays on a phrase for the same", "stays on a phrase for another", "stays after a long lead-in",
	"stays over a change of kind", "follows the order of an earlier round",
}

// weights say how much each feature counts. Set by hand on labelled sessions; only their ratios matter.
var weights = [nFeatures]float64{
	endsInHead: 2.4, endsInWeak: 0.5, knownName: 2.6, openEnd: -1.6,
	bodyWords: 0.3, kitWords: 0.4, mannerWords: 0.5, unknownWords: -0.4, weakWithMore: 0.9, bareVerb: -2.1, command: -2.5, pluralInside: -0.8, restWords: -1.8,
	commonWords: -1.5, broken: -0.3, innerWords: -2.0, oneWord: -0.7,
	afterIntro: 2.4, afterAgain: 1.4, afterArticle: 0.2, afterNumber: 0.6, afterSide: 0.2,
	beginsUtterance: 0.8, endsUtterance: 0.7, aloneInUtterance: 0.3, announced: 1.8, announcedInner: 1.8, beforeNumber: 0.7, beforeSide: 0.7, beforePhrase: 0.7,
	cutOffLeft: -0.9, cutOffRight: -0.4, beforeTail: -0.8, negated: -1.5, afterClosing: -1.5,
	distance: -0.22, inLastUtterance: 0.9, superseded: -0.8, repeated: 0.5, soundsLike: -0.6, ownWords: 0.8, foreignWords: -0.3, saidBefore: 0.6, clearSession: -1,
	changes: -1.6, unsaidChange: -0.8, noName: -0.3, staysOnSame: 1.1, staysOnNew: -0.8, staysInQuiet: -0.7, staysOverKind: -1.5, followsOrder: 1.0, soundOff: -12,
}

const (
	longestName = 6 // words
	maxDistance = 8 // tens of words
	maxRepeats  = 3
)

// features are the values of the features of one candidate.
type features [nFeatures]float32

func (f *features) score() float64 {
	sum := 0.0
	for i, v := range f {
		if v != 0 {
			sum += float64(weights[i] * float64(v))
		}
	}
	return sum
}
