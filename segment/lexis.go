package segment

import (
	"math"

	"captally.example/captally/segment/announce"
	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/numeral"
	"captally.example/captally/segment/phrases"
)

// Speech: how long a word takes and what counts as a pause. Seconds.
// Fitted to read speech of some 150 words a minute; the reader uses the same two figures.
const (
	wordBase   = 0.17  // of every word
	wordLetter = 0.052 // of every letter
	fastest    = 0.75  // no speaker is faster than this share of the usual length
)

// A spoken word, ready for the models. Times are seconds.
type spoken struct {
	fold   string
	t      float64 // begins
	end    float64 // ends, as estimated from its letters, never after the next begins
	num    int     // the number that the word alone is, else -1
	lexeme int32   // its place among the lexemes
	stop   uint8   // what follows it: see below
}

// What follows a word.
const (
	runsOn   uint8 = iota
	clause         // a comma or the like
	sentence       // a full stop, or a pause that ends an utterance
)

// A lexeme is a word as a text has it once or many times.
type lexeme struct {
	num     int             // the number that it alone is, else -1
	common  float64         // how common it is, as a logarithm; 0 for what is not among the commonest
	guesses []numeral.Guess // what numbers it may be misheard for, once asked
	asked   bool
}

// A text is a track prepared for the models.
type text struct {
	track      *caption.Track
	timing     caption.Timing
	punctuated bool // the captions have punctuation
	w          []spoken
	end        float64 // of the recording
	marks      map[phrases.Kind][]phrases.Match
	said       []announce.Mention          // doses, rests, sides and remarks on the time
	forAll     []int                       // which of them hold for all that follows
	over       *passing                    // what it costs a count to pass over the numbers
	repsSaid   map[int][]*announce.Mention // of them the numbers of repetitions, by the number
	deaf       float64                     // see deafness
	careless   float64                     // nats by which the captions' faults are likelier than in careful ones, at least 0
	lexemes    []lexeme                    // the different words
	pairs      *numeral.Pairs              // what two words may be misheard for
	guesses    []numeral.Guess             // room for those of the lexemes
	numbers    []item                      // the readings of words as numbers of a count
	cross      []float64                   // see crossing
	goMarks    []goMark                    // see gos
	flows      []float64                   // see flow; of a transcript
	leads      map[string]bool             // words that stand before the numbers of repetitions in this session,
	leadsHolds map[string]bool             // and before those of repetitions with a hold
	topics     topics                      // what the words speak for
}

func newText(tr *caption.Track) *text {
	x := &text{track: tr, timing: tr.Timing, end: tr.Duration.Seconds()}
	n, stops := len(tr.Words), 0
	places := make(map[string]int32, n/4)
	x.lexemes = make([]lexeme, 0, n/4)
	x.w = make([]spoken, n)
	for i := range tr.Words {
		w := &tr.Words[i]
		s := &x.w[i]
		place, ok := places[w.Fold]
		if !ok {
			place = int32(len(x.lexemes))
			places[w.Fold] = place
			x.lexemes = append(x.lexemes, newLexeme(w.Fold))
		}
		s.fold, s.lexeme, s.num = w.Fold, place, x.lexemes[place].num
		s.t = w.Time.At.Seconds()
		s.stop = stopOf(w.After)
		if s.stop != runsOn {
			stops++
		}
	}
	x.pairs = numeral.NewPairs(len(x.lexemes))
	x.punctuated = stops*20 > n
	for i := range x.w {
		s := &x.w[i]
		s.end = s.t + wordLength(s)
		if i+1 < n {
			next := x.w[i+1].t
			if s.end > next {
				s.end = next
			}
			if s.stop != sentence && x.timing == caption.TimingWord && next-s.end > 0.55 {
				s.stop = max(s.stop, clause)
				if next-s.end > 0.9 {
					s.stop = sentence
				}
			}
			if s.stop == runsOn && tr.Words[i+1].Cue != tr.Words[i].Cue && next-s.end > 0.9 {
				s.stop = sentence
			}
		} else {
			s.stop = sentence
		}
	}
	if n > 0 && x.end < x.w[n-1].end {
		x.end = x.w[n-1].end
	}
	x.findMarks()
	x.said = announce.Find(tr)
	for k := range x.said {
		if x.said[k].Scope == announce.Everything {
			x.forAll = append(x.forAll, k)
		}
	}
	x.repsSaid = map[int][]*announce.Mention{}
	for i := range x.said {
		if m := &x.said[i]; m.Kind == announce.Reps {
			x.repsSaid[int(m.Value)] = append(x.repsSaid[int(m.Value)], m)
		}
	}
	x.numbers = x.items()
	x.cross, x.goMarks = x.crossing(), x.gos()
	if x.timing == caption.TimingBlock {
		x.flows = x.flow()
	}
	return x
}

func newLexeme(word string) lexeme {
	l := lexeme{num: -1, common: math.Log1p(numeral.Commonness(word))}
	if v, ok := numeral.Single(word); ok {
		l.num = v
	}
	return l
}

func stopOf(after string) uint8 {
	for _, r := range after {
		switch r {
		case '.', '?', '!', '…', ':', ';':
			return sentence
		case ',', '—', '–', '-':
			return clause
		}
	}
	return runsOn
}

// wordLength returns how long the word takes to say, in seconds; a number counts as its spelled letters.
func wordLength(s *spoken) float64 {
	letters := len(s.fold)
	if s.num >= 0 && s.fold[0] <= '9' {
		letters = len(numeral.Spell(s.num))
	}
	return wordBase + float64(wordLetter*float64(letters))
}

func (x *text) findMarks() {
	x.marks = map[phrases.Kind][]phrases.Match{}
	book := phrases.English()
	fold := func(i int) string { return x.w[i].fold }
	number := func(i int) bool { return x.w[i].num >= 0 }
	all := make([]phrases.Match, 0, len(x.w)/4)
	heads := make([]phrases.Head, 0, len(x.lexemes)) // of the lexemes, which are in the order of their first words
	for i := range x.w {
		if int(x.w[i].lexeme) == len(heads) {
			heads = append(heads, book.Head(x.w[i].fold))
		}
		all = book.FindAt(all, heads[x.w[i].lexeme], i, len(x.w), fold, number)
	}
	count := map[phrases.Kind]int{}
	for i := range all {
		count[all[i].Kind]++
	}
	room := make([]phrases.Match, len(all))
	for kind, n := range count {
		x.marks[kind], room = room[:0:n], room[n:]
	}
	for _, m := range all {
		x.marks[m.Kind] = append(x.marks[m.Kind], m)
	}
}

// first returns the index of the first word that begins at or after t.
func (x *text) first(t float64) int {
	lo, hi := 0, len(x.w)
	for lo < hi {
		mid := (lo + hi) / 2
		if x.w[mid].t < t {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return lo
}

// bounds returns the earliest and the latest that word i can begin, in seconds.
func (x *text) bounds(i int) (lo, hi float64) {
	s := &x.track.Words[i].Time
	return s.Low.Seconds(), s.High.Seconds()
}

// silence returns the pause before word i, in seconds.
func (x *text) silence(i int) float64 {
	if i == 0 {
		return x.w[0].t
	}
	return x.w[i].t - x.w[i-1].end
}

func markKind(s string) phrases.Kind { return phrases.Kind(s) }
