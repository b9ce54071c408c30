package announce

import (
	"math"
	"slices"
	"strings"

	"captally.example/captally/segment/caption"
)

// A SetSpan is a provisional set.
type SetSpan struct {
	First, Last int  // Track.Words[First:Last], from its first count, or from the command to start, to its last word
	Timed       bool // held or done for a time, not counted
	Balance     bool
	Exercise    string   // sets with the same name are the same exercise; empty where no name is known
	Side        BodySide // if known already
	Count       int      // repetitions done as far as known, else 0: people mostly do what they announce
	Seconds     float64  // length of a timed set as far as known, else 0
}

// A Dose is what was announced for a set.
type Dose struct {
	Value       float64 // repetitions, or seconds for a timed set; 0 for none
	Timed       bool
	First, Last int // the words that say it
	At          caption.Time
	Prob        float64 // that this was announced for the set
}

// The log odds with which a mention holds for a set, by where it was said, and what moves them. They order the sources
// (at the set, for the exercise, for the round, for the session); their size is judgement.
const (
	atSet         = 0.0    // between the set before and this one
	beforeGo      = 0.7    // more, right before the set
	goWords       = 5      // words before the set that are right before it
	inSet         = -0.3   // in the first words of a timed set
	changed       = 2.5    // said within the set, instead of the earlier dose
	named         = 1.2    // more, for a mention with the exercise's name beside it
	namedBefore   = -1.6   // said earlier, with the exercise's name
	sameExercise  = -1.4   // what held for the earlier set of the exercise
	stillHolds    = -2.4   // what held for the set before, of another exercise
	forRound      = -1.2   // said for this round
	listed        = -1.8   // the next of a list ("four, then six, then eight")
	sessionFades  = -0.5   // the most that distance takes from it
	forSession    = -1.8   // said for everything
	anotherRound  = -3.0   // said for a round that is not this one
	otherRound    = -0.5   // more, for the same exercise in another round
	notNext       = -0.3   // more, with other sets between
	changedBefore = 1.0    // more, for a change said before the set
	otherSide     = -1.0   // said for the other side
	perWord       = -0.012 // for each word between the mention and the set
	doubtful      = -2.2   // log odds of "nothing was announced"
	bareSeconds   = -0.6   // a number without a unit for a timed set
	ofRest        = -1.2   // a length that may be the rest's before a timed set
	restPlace     = 15     // words after the set before within which a rest is announced
	inSetWords    = 6      // words of a timed set in which its dose may still be said
	ofRange       = -2.0   // more, for "eight to twelve"
	restForSet    = -1.2   // more, for what sounds like a rest
	shortestSet   = 8      // seconds
	weakest       = 0.2    // weight of a mention from which on it may hold beyond its place
	leastProb     = 0.3    // of a dose that is worth telling
)

// Doses returns the dose that holds for each set; Value is 0 where none was found. Sets are in the order of their words.
func Doses(track *caption.Track, sets []SetSpan, mentions []Mention) []Dose {
	d := dosing{track: track, lexicon: standard(), poor: poor(track), sets: sets, mentions: mentions, out: make([]Dose, len(sets)), round: rounds(sets, mentions)}
	d.lists = findLists(track, mentions)
	for i := range sets {
		d.out[i] = d.dose(i)
	}
	return d.out
}

type dosing struct {
	track    *caption.Track
	lexicon  *lexicon
	poor     bool // a poor recogniser's track
	sets     []SetSpan
	mentions []Mention
	out      []Dose
	round    []int // of each set; 0 for unknown
	lists    [][]int
	votes    []vote // room for those on one set
}

func (d *dosing) dose(i int) Dose {
	s := &d.sets[i]
	b := ballot{votes: d.votes[:0], timed: s.Timed, seen: float64(s.Count), agrees: agrees}
	if s.Timed {
		b.seen = s.Seconds
	}
	from := 0
	if i > 0 {
		from = d.sets[i-1].Last
	}
	for n := range d.mentions {
		m := &d.mentions[n]
		if m.First >= s.Last {
			break
		}
		if odds, ok := d.fits(m, s); ok {
			if place, ok := d.place(m, i, from); ok {
				b.add(d.from(m, s), odds+place)
			}
		}
	}
	d.earlier(&b, i)
	d.heardAs(&b, i, from)
	d.fromLists(&b, i)
	d.votes = b.votes
	best := b.best(doubtful)
	if best.Prob < leastProb {
		return Dose{Timed: s.Timed}
	}
	return best
}

func (d *dosing) from(m *Mention, s *SetSpan) Dose {
	return Dose{Value: m.Value, Timed: s.Timed, First: m.First, Last: m.Last, At: m.At}
}

// fits says whether a mention's kind can be the dose of such a set, and with what log odds.
func (d *dosing) fits(m *Mention, s *SetSpan) (float64, bool) {
	w := math.Log(m.Weight)
	if m.High > m.Value {
		w += ofRange
	}
	switch {
	case m.Kind == Reps && !s.Timed:
		return w, true
	case m.Kind == Seconds && s.Timed:
		return w, true
	case m.Kind == Rest && s.Timed && m.Timed:
		return w + restForSet, true // a bare length weighs as much for a rest as for a set
	case m.Kind == Hold && s.Timed && m.Timed && m.Value >= shortestSet:
		return w, true
	case m.Kind == Reps && s.Timed && isUsual(int(m.Value)) && m.Value >= shortestSet:
		return w + bareSeconds, true
	}
	return 0, false
}

// place says with what log odds a mention holds for set i by where it was said.
func (d *dosing) place(m *Mention, i, from int) (float64, bool) {
	s := &d.sets[i]
	if m.First >= s.First {
		switch {
		case m.Scope == Change:
			return changed, true
		case s.Timed && m.First < s.First+inSetWords:
			return inSet, true
		}
		return 0, false
	}
	near := float64(perWord * float64(s.First-m.Last))
	isNamed := (m.First >= from || m.Weight > weakest && m.First < d.firstOf(i) && !d.counts(m, i)) && d.isNamed(m, s.Exercise)
	odds := 0.0
	switch {
	case m.First >= from:
		odds = atSet + near
		if s.First-m.Last <= goWords {
			odds += beforeGo
		}
		if isNamed {
			odds += named
		}
		if m.Scope == Change {
			odds += changedBefore
		}
		if s.Timed && m.First-from < restPlace && s.First-m.Last > 2*(m.First-from) {
			odds += ofRest
		}
	case m.Scope == Everything && m.Round > 0 && m.Round == d.round[i]:
		odds = forRound
	case m.Scope == Everything && m.Round == 0:
		odds = forSession + max(sessionFades, near/4)
	case isNamed && m.Scope != Change:
		odds = namedBefore
	case m.Round > 0 && m.Round == d.round[i] && !d.betweenSets(m):
		odds = forRound
	default:
		return 0, false
	}
	if m.Round > 0 && d.round[i] > 0 && m.Round != d.round[i] {
		odds += anotherRound
	}
	if m.Side != SideUnknown && m.Side.Other() == s.Side && m.Side != s.Side {
		odds += otherSide
	}
	return odds, true
}

// firstOf returns the first word of the first set of set i's exercise.
func (d *dosing) firstOf(i int) int {
	for j := range i {
		if d.sets[j].Exercise == d.sets[i].Exercise {
			return d.sets[j].First
		}
	}
	return d.sets[i].First
}

// counts reports whether a mention stands among the numbers of a counted set before set i, behind its first words.
func (d *dosing) counts(m *Mention, i int) bool {
	for j := i - 1; j >= 0 && d.sets[j].Last > m.First; j-- {
		if s := &d.sets[j]; !s.Timed && m.First >= s.First+inSetWords {
			return true
		}
	}
	return false
}

// betweenSets reports whether a mention was made after the first set began: then it belongs to a set.
func (d *dosing) betweenSets(m *Mention) bool { return len(d.sets) > 0 && m.First >= d.sets[0].First }

// isNamed reports whether the exercise's name, or most of it, stands within four words of the mention.
func (d *dosing) isNamed(m *Mention, exercise string) bool {
	if exercise == "" {
		return false
	}
	hits, n := 0, 0
	for w := range strings.FieldsSeq(exercise) {
		if len(w) < 3 {
			continue
		}
		n++
		for i := max(0, m.First-5); i < min(len(d.track.Words), m.Last+5); i++ {
			if alike(d.track.Words[i].Fold, w) {
				hits++
				break
			}
		}
	}
	return n > 0 && 2*hits > n
}

// alike reports whether two words are the same but for a plural s.
func alike(a, b string) bool {
	return strings.TrimSuffix(a, "s") == strings.TrimSuffix(b, "s")
}

// earlier adds what held for the last set of the same exercise before. Sets without a name count as one exercise.
func (d *dosing) earlier(b *ballot, i int) {
	s := &d.sets[i]
	for j := i - 1; j >= 0; j-- {
		if d.sets[j].Timed != s.Timed || d.out[j].Value == 0 || d.sets[j].Exercise != s.Exercise {
			continue
		}
		odds := sameExercise + math.Log(d.out[j].Prob)
		if d.round[i] > 0 && d.round[j] > 0 && d.round[i] != d.round[j] {
			odds += otherRound
		}
		if i-j > 1 {
			odds += notNext
		}
		b.add(d.out[j], odds)
		return
	}
	d.goesOn(b, i)
}

// goesOn adds the dose of the last set of any exercise, if that is just what was done: people say a dose once and mean it until
// they say another.
func (d *dosing) goesOn(b *ballot, i int) {
	for j := i - 1; j >= 0; j-- {
		if d.sets[j].Timed != d.sets[i].Timed || d.out[j].Value == 0 {
			continue
		}
		if b.agreement(d.out[j].Value) == b.agrees {
			b.add(d.out[j], stillHolds+math.Log(d.out[j].Prob))
		}
		return
	}
}

// rounds returns the round of each set: that which was last announced, 0 before any was.
func rounds(sets []SetSpan, mentions []Mention) []int {
	out := make([]int, len(sets))
	n, round, last := 0, 0, false
	for i, s := range sets {
		from := 0
		if i > 0 {
			from = sets[i-1].First
		}
		for ; n < len(mentions) && mentions[n].First < s.First; n++ {
			m := &mentions[n]
			switch {
			case m.Kind != Round || m.First < from || m.Weight <= 0.5:
			case m.Value > 0:
				round = int(m.Value)
			case m.Value < 0 && !last:
				round, last = round+1, true
			}
		}
		out[i] = round
	}
	return out
}

// findLists finds doses said one after the other: "ten, eight, six"; "four, then six, then eight, then ten".
// Each list holds indices of mentions.
func findLists(track *caption.Track, mentions []Mention) [][]int {
	var out [][]int
	var list []int
	flush := func() {
		if len(list) >= 3 {
			out = append(out, slices.Clone(list))
		}
		list = list[:0]
	}
	for i := range mentions {
		m := &mentions[i]
		if m.Kind != Reps || m.Timed {
			continue
		}
		if len(list) > 0 {
			last := &mentions[list[len(list)-1]]
			if m.First == last.First {
				continue
			}
			if m.First-last.Last > 1 || m.First-last.Last == 1 && track.Words[last.Last].Fold != "then" && track.Words[last.Last].Fold != "and" {
				flush()
			}
		}
		list = append(list, i)
	}
	flush()
	return out
}

// fromLists adds the place of each list that is this set's turn: by its round, or by how many sets of the exercise came before.
func (d *dosing) fromLists(b *ballot, i int) {
	s := &d.sets[i]
	if s.Timed {
		return
	}
	for _, list := range d.lists {
		first := &d.mentions[list[0]]
		if first.First >= s.First {
			continue
		}
		turn := d.round[i]
		if d.betweenSets(first) || turn == 0 {
			turn = 1
			for j := range i {
				if d.sets[j].Exercise == s.Exercise && d.sets[j].First > first.First {
					turn++
				}
			}
		}
		if turn <= len(list) {
			b.add(d.from(&d.mentions[list[turn-1]], s), listed)
		}
	}
}
