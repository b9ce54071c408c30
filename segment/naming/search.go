package naming

import (
	"slices"
	"strings"
)

// Limits of the search.
const (
	leastHeard  = 0.3  // score from which a name by its sound alone counts as said before another set
	lookBack    = 0.8  // a name this far below the best before a set is not being introduced there
	longLead    = 25   // words
	lastWords   = 10   // words before the count that are its utterance where nothing marks utterances
	nearWords   = 40   // a phrase for the same exercise counts half when it lies farther from the count
	leastFuller = -1   // score from which a fuller name counts as said before a set
	otherFuller = 0.6  // of the likeness that is left where another fuller name is said
	roomFor     = 1024 // content words of mentions that are allocated at a time
	kept        = 6    // candidates kept for each set
)

// A search is the choice of names over a session.
type search struct {
	*talk
	sets   []SetSpan
	leads  [][]mention // the best candidates for each set
	clear  []bool
	cues   []cues
	echo   []float64 // how well the last words before a set agree with those before the set before it, in [0,1]
	states []state   // what the exercise of a set can be; 0 is no name
	like   []float64 // like[i*len(states)+j] is how well the name of state i stands for that of j
	score  [][]float64
	from   [][]int // the candidate that gives the score; -1 for none
}

// cues are the weights of phrases before a set.
type cues struct{ same, new float64 }

// A state is a name that sets may have.
type state struct {
	ids         []int32
	first, last int
	base        float64     // score of its best mention
	name        *catalogued // set where its best mention only sounds like the name
	firstSet    int         // the first set before which it is said
}

func (s *search) collect() {
	n := len(s.sets)
	s.leads, s.cues, s.clear = make([][]mention, n), make([]cues, n), make([]bool, n)
	var ms []mention
	for k := range s.sets {
		lo, hi := s.leadIn(k)
		s.cues[k] = s.cuesIn(lo, hi)
		ms = s.mentions(ms[:0], lo, hi)
		for i := range ms {
			m := &ms[i]
			m.ids = s.contentOf(m.first, m.last)
			m.score += s.place(m.last, hi)
			if m.plain && m.score >= clearMention {
				s.clear[k] = true
			}
		}
		if s.rough > 0 && !s.clear[k] {
			exact := len(ms)
			ms = s.soundAlikes(ms, lo, hi, s.lex.packs, mostOff)
			for i := exact; i < len(ms); i++ {
				ms[i].score += s.place(ms[i].last, hi) + float64(table[cleanTalk].weight*float64(1-s.rough))
			}
		}
		said := len(ms)
		ms = s.descriptions(ms, lo, hi)
		for i := said; i < len(ms); i++ {
			ms[i].score += s.place(ms[i].last, hi)
		}
		s.leads[k] = best(ms)
		for i := range s.leads[k] {
			s.homophone(&s.leads[k][i])
		}
	}
	s.echo = s.echoes()
}

// listenAgain looks by sound for the names that are surely said in this session before the sets that lack a clear name.
func (s *search) listenAgain() bool {
	if s.rough == 0 {
		return false
	}
	var names []catalogued
	for i := 1; i < len(s.states); i++ {
		st := &s.states[i]
		if st.base < sureMention {
			continue
		}
		if st.name != nil {
			names = append(names, *st.name)
		} else if n := newCatalogued(s.wordsOf(st.first, st.last), s.stemsOf(st.ids)); len(n.sounds[0]) >= leastSounds {
			names = append(names, n)
		}
	}
	if len(names) == 0 {
		return false
	}
	packs := newPacks(names)
	for k := range s.sets {
		if s.clear[k] {
			continue
		}
		lo, hi := s.leadIn(k)
		n := len(s.leads[k])
		ms := s.soundAlikes(s.leads[k], lo, hi, packs, knownOff)
		for i := n; i < len(ms); i++ {
			ms[i].score += s.place(ms[i].last, hi) + table[saidBefore].weight
		}
		s.leads[k] = best(ms)
	}
	return true
}

// best returns the best mentions that differ, the best first. A mention before a likely later one loses by that.
func best(ms []mention) []mention {
	supersede(ms)
	slices.SortStableFunc(ms, func(a, b mention) int {
		switch {
		case a.score > b.score:
			return -1
		case a.score < b.score:
			return 1
		}
		return b.first - a.first
	})
	return distinct(ms, kept)
}

// supersede takes from every mention after which another name is said that is nearly as likely.
func supersede(ms []mention) {
	for i := range ms {
		m := &ms[i]
		if m.superseded || m.score < leastMention {
			continue
		}
		m.superseded = slices.ContainsFunc(ms, func(o mention) bool {
			return o.first >= m.last && o.score >= max(leastMention, m.score-lookBack) && likeness(o.ids, m.ids) == 0 && likeness(m.ids, o.ids) == 0
		})
	}
	for i := range ms {
		if m := &ms[i]; m.superseded && !m.lowered {
			m.score += table[superseded].weight
			m.lowered = true
		}
	}
}

// echoWords is how many of the last words before a count are compared with those before another.
const echoWords = 3

// echoes returns for each set how many of its last words before the count, which say what is done ("and hinge"), are the last
// words of the set before it too. A word counts less the more sets it is said before.
func (s *search) echoes() []float64 {
	out := make([]float64, len(s.sets))
	said := make([]int, len(s.stems)) // by id: before how many sets
	last := make([][]int32, len(s.sets))
	for k := range s.sets {
		last[k] = s.lastWords(k)
		for _, id := range last[k] {
			said[id]++
		}
	}
	for k := 1; k < len(s.sets); k++ {
		for _, id := range last[k] {
			if slices.Contains(last[k-1], id) {
				out[k] = max(out[k], 1-float64(said[id]-2)/float64(len(s.sets)))
			}
		}
	}
	return out
}

// lastWords returns the words right before set k that may say what is done, each once.
func (s *search) lastWords(k int) []int32 {
	lo, hi := s.leadIn(k)
	var out []int32
	for i := hi - 1; i >= max(lo, hi-echoWords); i-- {
		if s.toks[i].class&(common|number|side) != 0 && s.toks[i].class&content == 0 {
			continue
		}
		if id := s.toks[i].id; !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	return out
}

// cuesIn returns the strongest phrases for the same and for another exercise.
func (s *search) cuesIn(lo, hi int) (c cues) {
	for i := lo; i < hi; i++ {
		same := float64(s.toks[i].same)
		if hi-i > nearWords {
			same /= 2
		}
		c.same, c.new = max(c.same, same), max(c.new, float64(s.toks[i].new))
	}
	return c
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
		if s.toks[i].cut == full || s.unmarked() && hi-last > lastWords {
			f[inLastUtterance] = 0
			break
		}
	}
	return f.score()
}

// distinct keeps the first n mentions that differ in their content words and may stand for a name.
func distinct(ms []mention, n int) []mention {
	out := make([]mention, 0, n)
	for _, m := range ms {
		if len(out) == n || m.score < leastFuller {
			break
		}
		if !slices.ContainsFunc(out, func(o mention) bool { return slices.Equal(o.ids, m.ids) }) {
			out = append(out, m)
		}
	}
	return out
}

// contentOf returns the stems of the words of a name that carry its meaning.
func (t *talk) contentOf(first, last int) []int32 {
	if cap(t.room)-len(t.room) < 2*(last-first) {
		t.room = make([]int32, 0, roomFor)
	}
	from := len(t.room)
	ids := t.room
	for i := first; i < last; i++ {
		w := t.words[i].Fold
		if c := t.toks[i].class; c&(inner|common) != 0 && c&content == 0 {
			continue
		}
		if strings.IndexByte(w, '-') >= 0 {
			for part := range strings.SplitSeq(w, "-") {
				if part != "to" && part != "" {
					ids = append(ids, t.id(stem(part)))
				}
			}
			continue
		}
		ids = append(ids, t.toks[i].id)
	}
	t.room = ids
	return ids[from:len(ids):len(ids)]
}

func (s *search) makeStates() {
	s.states = []state{{firstSet: 0}}
	for k, lead := range s.leads {
		for j := range lead {
			m := &lead[j]
			if m.state = 0; len(m.ids) == 0 {
				continue
			}
			i := slices.IndexFunc(s.states, func(st state) bool { return slices.Equal(st.ids, m.ids) })
			if i < 0 {
				i = len(s.states)
				s.states = append(s.states, state{ids: m.ids, first: m.first, last: m.last, base: m.score, firstSet: k, name: m.name})
			}
			m.state = i
			if st := &s.states[i]; m.score > st.base {
				st.first, st.last, st.base, st.name = m.first, m.last, m.score, m.name
			}
		}
	}
	s.compare()
	n, m := len(s.sets), len(s.states)
	s.score, s.from = make([][]float64, n), make([][]int, n)
	scores, froms := make([]float64, n*m), make([]int, n*m)
	for k := range s.sets {
		s.score[k], s.from[k] = scores[k*m:(k+1)*m], froms[k*m:(k+1)*m]
		s.emissions(k, s.score[k], s.from[k])
	}
	s.reinforce()
}

// compare fills in how well the states stand for one another.
func (s *search) compare() {
	n := len(s.states)
	s.like = make([]float64, n*n)
	for i := 1; i < n; i++ {
		for j := 1; j < n; j++ {
			s.like[i*n+j] = likeness(s.states[i].ids, s.states[j].ids)
		}
	}
}

// akin says whether states i and j may be one exercise.
func (s *search) akin(i, j int) bool {
	n := len(s.states)
	return s.like[i*n+j] > 0 || s.like[j*n+i] > 0
}

// emissions scores every state by the candidates before set k.
func (s *search) emissions(k int, score []float64, from []int) {
	for i := range s.states {
		from[i] = -1
	}
	score[0] = table[noName].weight
	lead, n := s.leads[k], len(s.states)
	for j := range lead {
		if lead[j].state == 0 || lead[j].score <= 0 {
			continue
		}
		for i, v := range s.like[lead[j].state*n : (lead[j].state+1)*n] {
			if v == 0 || lead[j].score*v <= score[i] && v == 1 {
				continue
			}
			if v := lead[j].score * s.standsFor(lead, j, i, v); v > score[i] {
				score[i], from[i] = v, j
			}
		}
	}
}

// standsFor says how well mention j of a lead-in stands for state i, in [0,1], where v is how well its name alone does. Where a fuller
// name is said before the same set, a short mention stands for that one: "single leg hops ... ten hops".
func (s *search) standsFor(lead []mention, j, i int, v float64) float64 {
	m := &lead[j]
	if v == 1 || len(m.ids) > len(s.states[i].ids) {
		return v
	}
	other := false
	for o := range lead {
		f := &lead[o]
		if len(f.ids) <= len(m.ids) || f.score < leastFuller || s.like[m.state*len(s.states)+f.state] == 0 {
			continue
		}
		if f.state == i {
			return 1
		}
		other = true
	}
	if other {
		v *= otherFuller
	}
	return v
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
		gain := float64(table[repeated].weight * float64(min(n-1, maxRepeats)))
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
	if j < 0 {
		return false
	}
	least := leastMention
	if s.leads[k][j].name != nil {
		least = leastHeard
	}
	return s.score[k][i] > least && s.leads[k][j].score > s.leads[k][0].score-lookBack &&
		s.like[s.leads[k][j].state*len(s.states)+i] > 0.8
}

// likeness says how well a mention stands for a name, in [0,1].
func likeness(mention, name []int32) float64 {
	if len(mention) == 0 || len(name) == 0 {
		return 0
	}
	sameEnd := mention[len(mention)-1] == name[len(name)-1]
	if !sameEnd && len(mention) != len(name) {
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
	case !sameEnd:
		return 0
	case shared == len(mention): // "heel raises" for "single leg heel raises"
		return 0.75 + float64(0.1*float64(min(len(mention)-1, 2)))
	case shared == len(name) && len(name) > 1:
		return 0.6
	}
	return 0
}
