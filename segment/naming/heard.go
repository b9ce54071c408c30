package naming

import (
	"slices"
	"strings"
)

// A catalogued name is one of the lexicon, with its sound.
type catalogued struct {
	words    []string
	ids      []string  // stems of its content words
	sounds   [2][]byte // in the singular and the plural
	skeleton []uint8   // of the singular
	talk     int       // the explanation that belongs to it, 0 for none
}

// Limits of a search by sound.
const (
	soundWords      = 45   // words before the count that are searched
	leastSounds     = 6    // of a name, below which too much sounds like it
	mostOff         = 0.16 // cost of a match for each sound of the name, in [0,1]
	knownOff        = 0.30 // the same for a name that is said in this session
	skeletonOff     = 0.34 // share of a name's consonants that may be off
	strangerOff     = 0.22 // the same for a name of which little is explained
	littleExplained = 0.5  // how much of an explanation is little, in the weight of its words
	clearMention    = 3.0  // score of an exact mention that makes a search by sound needless
	sureMention     = 2.4  // score from which a name counts as surely said
	mostExplained   = 3.4  // how much of an explanation counts at most, in the weight of its words
	explainedOff    = 0.02 // what mostOff and knownOff grow for each of it
	longestInText   = 6    // words of the text that may stand for a name
)

// homophone gives a mention that sounds exactly like a name of the lexicon, but is written otherwise, that name: "heal raises".
func (t *talk) homophone(m *mention) {
	if m.last-m.first < 2 || m.name != nil {
		return
	}
	var buf [longestSound]byte
	sounds := buf[:0]
	for i := m.first; i < m.last; i++ {
		sounds = appendSounds(sounds, t.words[i].Fold)
	}
	name := t.lex.sound[string(sounds)]
	if name == nil {
		return
	}
	if ids := t.idsOf(name.ids); !slices.Equal(ids, m.ids) {
		m.name, m.ids = name, ids
	}
}

// An ear holds the sounds of a talk's words, and apart from them their consonants.
type ear struct {
	sounds     []byte
	starts     []int32 // of each word in sounds, and one more
	text       []uint8 // the classes of the consonants
	word       []int32 // of each of these
	consonants []int32 // of each word in text, and one more
}

func newEar(t *talk) *ear {
	n := len(t.words)
	e := &ear{starts: make([]int32, 0, n+1), consonants: make([]int32, 0, n+1)}
	e.sounds, e.text, e.word = make([]byte, 0, 6*n), make([]uint8, 0, 4*n), make([]int32, 0, 4*n)
	for i := range t.words {
		from := len(e.sounds)
		e.starts = append(e.starts, int32(from))
		e.consonants = append(e.consonants, int32(len(e.text)))
		e.sounds = appendSounds(e.sounds, t.words[i].Fold)
		for _, s := range e.sounds[from:] {
			if c := skeletonOf[s]; c != 0 {
				e.text, e.word = append(e.text, c), append(e.word, int32(i))
			}
		}
	}
	e.starts = append(e.starts, int32(len(e.sounds)))
	e.consonants = append(e.consonants, int32(len(e.text)))
	return e
}

// soundAlikes appends the stretches of words [lo, hi) that sound like one of the names and are at most off away from it.
func (t *talk) soundAlikes(out []mention, lo, hi int, packs []pack, off float64) []mention {
	if t.ear == nil {
		t.ear = newEar(t)
	}
	e := t.ear
	lo = max(lo, hi-soundWords)
	from, to := e.consonants[lo], e.consonants[hi]
	explained := t.explained(lo, hi)
	for i := range packs {
		p := &packs[i]
		var limits [lanes]int
		last := [lanes]int32{-1, -1, -1, -1}
		for lane := range p.names {
			share := skeletonOff
			if off == mostOff && explained[p.names[lane].talk] < littleExplained {
				share = strangerOff
			}
			limits[lane] = int(share * float64(len(p.names[lane].skeleton)))
		}
		p.search(e.text[from:to], limits, func(lane, end int) {
			w := e.word[int(from)+end-1]
			if w == last[lane] {
				return
			}
			last[lane] = w
			name := &p.names[lane]
			how := explained[name.talk]
			if m, ok := t.fit(name, lo, int(w)+1, off+float64(explainedOff*min(how, mostExplained))); ok {
				m.ids = t.idsOf(name.ids)
				t.contextOf(&m, lo, hi, how)
				out = append(out, m)
			}
		})
	}
	return out
}

// explained returns for each explanation how much of it is said in words [lo, hi), every word once.
func (t *talk) explained(lo, hi int) []float64 {
	out := make([]float64, t.lex.talks+1)
	for i := lo; i < hi; i++ {
		id := t.toks[i].id
		if slices.ContainsFunc(t.toks[lo:i], func(o token) bool { return o.id == id }) {
			continue
		}
		for _, a := range t.lex.about[t.toks[i].stem] {
			out[a.talk] += a.weight
		}
	}
	return out
}

// fit returns the stretch of words that ends before word end and sounds most like a name.
func (t *talk) fit(name *catalogued, lo, end int, off float64) (mention, bool) {
	e := t.ear
	best := mention{off: off}
	found := false
	first := max(lo, end-longestInText)
	stop := int(e.starts[end])
	hisses := skeletonOf[e.sounds[max(stop-1, 0)]] == skeletonOf['s']
	for i, of := range name.sounds {
		if i > 0 && !hisses { // the singular is nearer
			break
		}
		// Each sound too many costs at least lostWeak, so that no longer text can be near enough.
		reach := min(stop-int(e.starts[first]), len(of)+int(off*float64(100*len(of))/lostWeak)+1, longestSound)
		cost, ok := t.lex.costs.suffixes(of, e.sounds[stop-reach:stop], uint16(off*float64(100*len(of))))
		if !ok {
			continue
		}
		for start := end - 1; start >= first && stop-int(e.starts[start]) <= reach; start-- {
			d := float64(cost[stop-int(e.starts[start])]) / 100 / float64(len(of))
			if d < best.off && !t.plain(start, end) {
				best = mention{first: start, last: end, off: d, name: name}
				found = true
			}
		}
	}
	return best, found
}

// plain says whether a stretch is likely to be what it is written as: it has a number or a side, or is one everyday word.
func (t *talk) plain(first, last int) bool {
	for i := first; i < last; i++ {
		if t.toks[i].class&side != 0 || t.toks[i].class&number != 0 && t.toks[i].class&(manner|content) == 0 {
			return true
		}
	}
	return last-first == 1 && t.toks[first].class != 0
}

// contextOf scores a stretch that only sounds like a name.
func (t *talk) contextOf(m *mention, lo, hi int, explained float64) {
	var f features
	f[knownName], f[soundsLike], f[soundOff] = 1, 1, float32(m.off)
	for i := m.first; i < m.last; i++ {
		if c := t.toks[i].class; c&content != 0 {
			if slices.Contains(m.name.ids, t.toks[i].stem) {
				f[ownWords]++
			} else {
				f[foreignWords]++
			}
		}
	}
	f[bodyWords] = min(float32(len(m.ids)-1), mostMore)
	f[explainedIt] = float32(min(explained, mostExplained))
	t.leftSide(&f, m.first, lo)
	t.rightSide(&f, m.last, hi)
	f[cutOffLeft], f[cutOffRight] = 0, 0
	m.score = f.score()
}

// newCatalogued returns a name with its sound.
func newCatalogued(words, ids []string) catalogued {
	name := catalogued{words: words, ids: ids}
	var sounds []byte
	for _, w := range words {
		sounds = appendSounds(sounds, w)
	}
	name.sounds = [2][]byte{sounds, plural(sounds)}
	name.skeleton = skeletonOfName(sounds)
	return name
}

// plural returns the sounds of a plural: "presses", "raises", "curls".
func plural(sounds []byte) []byte {
	n := len(sounds)
	if n > 0 && strings.IndexByte("szSCJ", sounds[n-1]) >= 0 {
		return append(sounds[:n:n], 'i', 's')
	}
	return append(sounds[:n:n], 's')
}

// wordsOf returns the folded words [first, last).
func (t *talk) wordsOf(first, last int) []string {
	var out []string
	for i := first; i < last; i++ {
		out = append(out, t.words[i].Fold)
	}
	return out
}
