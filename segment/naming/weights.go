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
	headline                        // opens an utterance, ends at a comma or before the dose that the same utterance gives
	gloss                           // stands after the first comma of an utterance that opens like a name
	gerund                          // is one word that is a name only without its "-ing"
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
	explainedIt                     // how much of its explanation is said before the count, for one that only sounds like a name
	saidBefore                      // sounds like a name that is surely said in the session
	cleanTalk                       // how surely the words are a captioner's, in [0,1], for one that only sounds like a name
	unknownRough                    // number of unknown words, by how surely a recogniser guessed the words
	openRough                       // ends in none of the nouns and known names, by the same
	knownRough                      // is, or ends in, a whole known name, by the same
	// Of a whole sequence of names.
	changes       // another name than the set before
	changesClear  // the same in clean talk, by how surely the words are a captioner's
	unsaidChange  // another name than the set before, without a word of it
	noName        // a set without a name
	staysOnSame   // the name of the set before, by the weight of a phrase for the same exercise
	staysOnNew    // the name of the set before, by the weight of a phrase for another exercise
	staysInQuiet  // the name of the set before, after a long lead-in without a phrase for the same exercise
	staysOnEcho   // the name of the set before, by the share of the last words before the count that were its last words too
	staysOverKind // the name of the set before, where work turns to balance or the like
	followsOrder  // a name that followed the name before it in an earlier round
	nFeatures
)

// A row is one line of the table.
type row struct {
	name   string // in words, for a person who reads the table or a message about it
	weight float64
}

// table holds the weights of the features; only their ratios matter. They were set by hand and then changed one at a time, as long
// as the names of the labelled sessions got better by it; those of the words of a name itself were left as set, since the vocabulary
// was gathered from the same sessions.
var table = [nFeatures]row{
	endsInHead:       {"ends in a head noun", 2.7},
	endsInWeak:       {"ends in an everyday noun", 0.5},
	knownName:        {"known name", 2.4},
	openEnd:          {"open end", -1.9},
	bodyWords:        {"body words", 0.3},
	kitWords:         {"kit words", 0.4},
	mannerWords:      {"manner words", 0.5},
	unknownWords:     {"unknown words", -0.4},
	weakWithMore:     {"an everyday noun with more", 0.9},
	bareVerb:         {"a bare verb", -2.1},
	command:          {"a command", -3.1},
	pluralInside:     {"plurals inside", -0.6},
	restWords:        {"rest words", -2.2},
	commonWords:      {"common words", -2.1},
	broken:           {"short pauses inside", -0.3},
	innerWords:       {"inner words", -2.2},
	oneWord:          {"one word", -0.7},
	afterIntro:       {"after an introduction", 2},
	afterAgain:       {"after a repeating phrase", 1.8},
	afterArticle:     {"after an article", -0.2},
	afterNumber:      {"after a number", 1.3},
	afterSide:        {"after a side", 0.05},
	beginsUtterance:  {"begins an utterance", 1.2},
	endsUtterance:    {"ends an utterance", 1.1},
	aloneInUtterance: {"alone in an utterance", 0.1},
	announced:        {"announced with its dose", 1.4},
	announcedInner:   {"inner words in such a one", 3.6},
	headline:         {"a headline with its dose", 2.7},
	gloss:            {"after a likely headline", -1.4},
	gerund:           {"a gerund", -2.7},
	beforeNumber:     {"before a number", 0.3},
	beforeSide:       {"before a side", 2},
	beforePhrase:     {"before a following phrase", 0.3},
	cutOffLeft:       {"cut off on the left", -0.1},
	beforeTail:       {"before a verb's object", -1.2},
	cutOffRight:      {"cut off on the right", -0.1},
	negated:          {"denied", -0.5},
	afterClosing:     {"after a look back", -1.5},
	distance:         {"distance to the count", -0.22},
	inLastUtterance:  {"in the last utterance", 0.9},
	superseded:       {"superseded", -0.4},
	repeated:         {"repeated before other sets", 0.5},
	soundsLike:       {"sounds like a known name", -0.6},
	soundOff:         {"sound off", -12.9},
	ownWords:         {"own words in a sound", 1.2},
	foreignWords:     {"foreign words in a sound", -1.1},
	explainedIt:      {"explained", 0.4},
	saidBefore:       {"sounds like a sure name", 0.6},
	cleanTalk:        {"a sound in clean talk", -2.2},
	unknownRough:     {"unknown words in rough talk", -1.2},
	openRough:        {"open end in rough talk", 0.4},
	knownRough:       {"known name in rough talk", 0.4},
	changes:          {"changes the name", -1.6},
	changesClear:     {"changes the name in clean talk", 0.3},
	unsaidChange:     {"changes it unsaid", -0.8},
	noName:           {"no name", -1.1},
	staysOnSame:      {"stays on a phrase for the same", 1.5},
	staysOnNew:       {"stays on a phrase for another", -0.8},
	staysInQuiet:     {"stays after a long lead-in", -0.7},
	staysOnEcho:      {"stays on the same last words", 1.5},
	staysOverKind:    {"stays over a change of kind", -1.5},
	followsOrder:     {"follows the order of an earlier round", 2.0},
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
			sum += float64(table[i].weight * float64(v))
		}
	}
	return sum
}
