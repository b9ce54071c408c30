// Package naming finds the names of exercises as they are said.
//
// It works in three steps:
//  1. the track is cut into utterances, and every word gets the part it may play in a name and the phrases around it (talk);
//  2. every stretch of up to a handful of words that could be a name gets a score, a weighted sum of named features (mentions);
//  3. over the whole session the best sequence of names is chosen, one a set: a name that was said before several sets
//     gains from each, a set with nothing said takes the name of the set before it (Names).
//
// The vocabulary and the phrases are data files, to which a therapist may add.
package naming

import (
	"math"
	"slices"
	"strings"

	"captally.example/captally/segment/caption"
)

// Kind is what a set belongs to.
type Kind uint8

const (
	Work Kind = iota
	Balance
	WarmUp
	CoolDown
)

// A SetSpan is a set as far as it is known before it has a name.
type SetSpan struct {
	First, Last int // Track.Words[First:Last], from the first count or "go" to the last word of the set
	After       int // index of the first word after the set before it; 0 for the first set
	Kind        Kind
	Counted     bool         // counted, not timed
	Start       caption.Time // when the set starts
}

// A Name is the name of one set's exercise.
type Name struct {
	Text        string  // as said, lower case, without article; empty where no name was found
	First, Last int     // where it is said for this set, or else where it was said best: Track.Words[First:Last]
	Carried     bool    // nothing was said for this set: the name is that of another set
	Confidence  float64 // in [0,1]
}

// Costs and gains of a sequence of names, in the units of the weights.
const (
	changeCost = 1.6  // of another name than the set before
	unnamed    = -0.3 // the score of no name at all
	sameGain   = 1.1  // for staying, by the weight of phrases for the same exercise
	newCost    = 0.8  // of staying, by the weight of phrases for another exercise
	orderGain  = 1.0  // for a name that has followed the name before it in an earlier round
	kindCost   = 1.5  // of staying, when work turns to balance or the like
	lookBack   = 0.8  // a name this far below the best before a set is not being introduced there
	quietCost  = 0.7  // of staying after a long lead-in without a phrase for the same exercise
	longLead   = 25   // words
	nearWords  = 40   // a phrase for the same exercise counts half when it lies farther from the count
	kept       = 8    // candidates kept for each set
)

// Names returns a name for each set. The sets stand in order. Sets of the same exercise get the same name.
func Names(track *caption.Track, sets []SetSpan) []Name {
	if len(sets) == 0 {
		return nil
	}
	t := newTalk(track)
	s := &search{talk: t, sets: sets}
	s.collect()
	s.makeStates()
	path := s.best(nil)
	path = s.best(path)
	return s.names(path)
}

// A search is the choice of names over a session.
type search struct {
	*talk
	sets   []SetSpan
	leads  [][]mention // the best candidates for each set
	cues   []cues
	states []state // what the exercise of a set can be; 0 is no name
	score  [][]float64
	from   [][]int // the candidate that gives the score; -1 for none
}

// cues are the weights of phrases before a set.
type cues struct{ same, new float64 }

// A state is a name that sets may have.
type state struct {
	ids         []string
	first, last int
	base        float64 // score of its best mention
	firstSet    int     // the first set before which it is said
}

func (s *search) collect() {
	s.leads = make([][]mention, len(s.sets))
	s.cues = make([]cues, len(s.sets))
	for k := range s.sets {
		lo, hi := s.leadIn(k)
		ms := s.mentions(lo, hi)
		for i := range ms {
			m := &ms[i]
			m.ids = s.contentOf(m.first, m.last)
			m.score += s.place(m.last, hi)
		}
		slices.SortStableFunc(ms, func(a, b mention) int {
			switch {
			case a.score > b.score:
				return -1
			case a.score < b.score:
				return 1
			}
			return b.first - a.first
		})
		s.leads[k] = distinct(ms, kept)
		for i := lo; i < hi; i++ {
			same := float64(s.toks[i].same)
			if hi-i > nearWords {
				same /= 2
			}
			s.cues[k].same = max(s.cues[k].same, same)
			s.cues[k].new = max(s.cues[k].new, float64(s.toks[i].new))
		}
	}
}

// leadIn returns the words in which the name of set k is looked for.
func (s *search) leadIn(k int) (lo, hi int) {
	hi = min(max(s.sets[k].First, 0), len(s.words))
	lo = min(max(s.sets[k].After, 0), hi)
	return lo, hi
}

// place scores where a mention stands before the count.
func (s *search) place(last, hi int) float64 {
	var f features
	f[distance] = min(float32(hi-last)/10, maxDistance)
	f[inLastUtterance] = 1
	for i := last - 1; i < hi-1; i++ {
		if s.toks[i].cut == full {
			f[inLastUtterance] = 0
			break
		}
	}
	return f.score()
}

// distinct keeps the first n mentions that differ in their content words.
func distinct(ms []mention, n int) []mention {
	var out []mention
	for _, m := range ms {
		if len(out) == n {
			break
		}
		if !slices.ContainsFunc(out, func(o mention) bool { return slices.Equal(o.ids, m.ids) }) {
			out = append(out, m)
		}
	}
	return out
}

// contentOf returns the stems of the words of a name that carry its meaning.
func (t *talk) contentOf(first, last int) []string {
	ids := make([]string, 0, last-first)
	for i := first; i < last; i++ {
		w := t.words[i].Fold
		if c := t.toks[i].class; c&(inner|common) != 0 && c&content == 0 {
			continue
		}
		if strings.IndexByte(w, '-') >= 0 {
			for part := range strings.SplitSeq(w, "-") {
				if part != "to" && part != "" {
					ids = append(ids, stem(part))
				}
			}
			continue
		}
		ids = append(ids, t.toks[i].stem)
	}
	return ids
}

func (s *search) makeStates() {
	s.states = []state{{firstSet: 0}}
	for k, lead := range s.leads {
		for _, m := range lead {
			if len(m.ids) == 0 {
				continue
			}
			i := slices.IndexFunc(s.states, func(st state) bool { return slices.Equal(st.ids, m.ids) })
			if i < 0 {
				s.states = append(s.states, state{ids: m.ids, first: m.first, last: m.last, base: m.score, firstSet: k})
				continue
			}
			if m.score > s.states[i].base {
				st := &s.states[i]
				st.first, st.last, st.base = m.first, m.last, m.score
			}
		}
	}
	s.score = make([][]float64, len(s.sets))
	s.from = make([][]int, len(s.sets))
	for k := range s.sets {
		s.score[k], s.from[k] = s.emissions(k)
	}
	s.reinforce()
}

// emissions scores every state by the candidates before set k.
func (s *search) emissions(k int) (score []float64, from []int) {
	score, from = make([]float64, len(s.states)), make([]int, len(s.states))
	for i := range s.states {
		from[i] = -1
		if i == 0 {
			score[i] = unnamed
			continue
		}
		for j := range s.leads[k] {
			m := &s.leads[k][j]
			if v := m.score * likeness(m.ids, s.states[i].ids); v > score[i] {
				score[i], from[i] = v, j
			}
		}
	}
	return score, from
}

// reinforce adds to the score of a name what it gains from being said before other sets too.
func (s *search) reinforce() {
	for i := 1; i < len(s.states); i++ {
		n := 0
		for k := range s.sets {
			if s.introduced(k, i) {
				n++
			}
		}
		gain := weights[repeated] * float64(min(n-1, maxRepeats))
		for k := range s.sets {
			if n > 1 && s.introduced(k, i) {
				s.score[k][i] += gain
			}
		}
	}
}

// introduced says whether state i is the best that is said before set k, or nearly so.
func (s *search) introduced(k, i int) bool {
	j := s.from[k][i]
	return j >= 0 && s.score[k][i] > leastMention && s.leads[k][j].score > s.leads[k][0].score-lookBack &&
		likeness(s.leads[k][j].ids, s.states[i].ids) > 0.8
}

// likeness says how well a mention stands for a name, in [0,1].
func likeness(mention, name []string) float64 {
	if len(mention) == 0 || len(name) == 0 {
		return 0
	}
	shared := 0
	for _, m := range mention {
		if slices.Contains(name, m) {
			shared++
		}
	}
	switch {
	case shared == len(name) && shared == len(mention):
		return 1
	case mention[len(mention)-1] != name[len(name)-1]:
		return 0
	case shared == len(mention): // "heel raises" for "single leg heel raises"
		return 0.75 + 0.1*float64(min(len(mention)-1, 2))
	case shared == len(name) && len(name) > 1:
		return 0.6
	}
	return 0
}

// best returns the best sequence of states. With the sequence of an earlier run it knows what followed what.
func (s *search) best(earlier []int) []int {
	n, m := len(s.sets), len(s.states)
	total := make([]float64, m)
	back := make([][]int, n)
	for i := range total {
		total[i] = s.score[0][i]
		if i > 0 {
			total[i] -= changeCost
		}
		if s.states[i].firstSet > 0 {
			total[i] = math.Inf(-1)
		}
	}
	for k := 1; k < n; k++ {
		back[k] = make([]int, m)
		top := 0
		for i := range total {
			if total[i] > total[top] {
				top = i
			}
		}
		next := make([]float64, m)
		for i := range total {
			from, v := top, total[top]-changeCost
			if i == top {
				v = math.Inf(-1)
			}
			if stay := total[i] + s.stay(k); stay >= v {
				from, v = i, stay
			}
			if p := s.precursor(earlier, k, i); p >= 0 {
				if w := total[p] - changeCost + orderGain; w > v {
					from, v = p, w
				}
			}
			next[i], back[k][i] = v+s.score[k][i], from
			if s.states[i].firstSet > k {
				next[i] = math.Inf(-1)
			}
		}
		total = next
	}
	path := make([]int, n)
	for i := range total {
		if total[i] > total[path[n-1]] {
			path[n-1] = i
		}
	}
	for k := n - 1; k > 0; k-- {
		path[k-1] = back[k][path[k]]
	}
	return path
}

// stay is what it gains or costs that set k has the name of the set before.
func (s *search) stay(k int) float64 {
	c := s.cues[k]
	v := sameGain*c.same - newCost*c.new
	if c.same == 0 && s.sets[k].First-s.sets[k].After > longLead {
		v -= quietCost
	}
	if s.sets[k].Kind != s.sets[k-1].Kind {
		v -= kindCost
	}
	return v
}

// precursor returns the state that came right before state i in an earlier round, -1 where there is none.
func (s *search) precursor(earlier []int, k, i int) int {
	if earlier == nil {
		return -1
	}
	for q := 1; q < k-1; q++ {
		if earlier[q] == i && earlier[q-1] != i {
			return earlier[q-1]
		}
	}
	return -1
}

func (s *search) names(path []int) []Name {
	out := make([]Name, len(path))
	for k, i := range path {
		if i == 0 {
			continue
		}
		st := &s.states[i]
		n := Name{Text: s.text(st.first, st.last), First: st.first, Last: st.last, Carried: true, Confidence: 0.5}
		if j := s.from[k][i]; j >= 0 {
			m := &s.leads[k][j]
			n.First, n.Last, n.Carried = m.first, m.last, false
		}
		out[k] = n
	}
	return out
}

func (t *talk) text(first, last int) string {
	var b strings.Builder
	for i := first; i < last; i++ {
		if i > first {
			b.WriteByte(' ')
		}
		b.WriteString(t.words[i].Fold)
	}
	return b.String()
}
