package naming

import (
	"slices"
	"strings"
)

// A catalogued name is one of the lexicon, with its sound.
type catalogued struct {
	words   []string
	ids     []string  // stems of its content words
	sounds  [2][]byte // in the singular and the plural
	pattern pattern   // of the singular
}

// Limits of a search by sound.
const (
	soundWords    = 45   // words before the count that are searched
	leastSounds   = 6    // of a name, below which too much sounds like it
	mostOff       = 0.22 // cost of a match for each sound of the name, in [0,1]
	knownOff      = 0.30 // the same for a name that is said in this session
	skeletonOff   = 0.34 // share of a name's consonants that may be off
	clearMention  = 3.0  // score of an exact mention that makes a search by sound needless
	sureMention   = 3.2  // score from which a name counts as surely said
	clearShare    = 0.5  // share of the sets with a clear mention from which no search by sound is made
	longestInText = 6    // words of the text that may stand for a name
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

// soundAlikes returns stretches of words [lo, hi) that sound like one of the names and are at most off away from it.
func (t *talk) soundAlikes(lo, hi int, names []catalogued, off float64) []mention {
	lo = max(lo, hi-soundWords)
	var sounds []byte
	starts := make([]int, 0, hi-lo+1) // of each word in sounds
	for i := lo; i < hi; i++ {
		starts = append(starts, len(sounds))
		sounds = appendSounds(sounds, t.words[i].Fold)
	}
	starts = append(starts, len(sounds))
	var text []uint8
	var word []int // of each consonant
	for w := range hi - lo {
		for _, s := range sounds[starts[w]:starts[w+1]] {
			if c := skeletonOf[s]; c != 0 {
				text, word = append(text, c), append(word, w)
			}
		}
	}
	have := classSet(text)
	var out []mention
	for n := range names {
		name := &names[n]
		limit := int(skeletonOff * float64(name.pattern.n))
		if missing(&name.pattern, have) > limit {
			continue
		}
		last := -1
		name.pattern.search(text, limit, func(end int) {
			w := word[end-1]
			if w == last {
				return
			}
			last = w
			if m, ok := t.fit(name, sounds, starts, lo, w, off); ok {
				m.ids = t.idsOf(name.ids)
				t.contextOf(&m, lo, hi)
				out = append(out, m)
			}
		})
	}
	return out
}

// fit returns the stretch ending with word w that sounds most like a name.
func (t *talk) fit(name *catalogued, sounds []byte, starts []int, lo, w int, off float64) (mention, bool) {
	best := mention{off: off}
	ok := false
	end := w + 1
	first := max(0, end-longestInText)
	for _, of := range name.sounds {
		// Each sound too many costs at least lostWeak, so that no longer text can be near enough.
		reach := min(starts[end]-starts[first], len(of)+int(off*float64(100*len(of))/lostWeak)+1, longestSound)
		cost := t.lex.costs.suffixes(of, sounds[starts[end]-reach:starts[end]])
		for start := end - 1; start >= first && starts[end]-starts[start] <= reach; start-- {
			d := float64(cost[starts[end]-starts[start]]) / 100 / float64(len(of))
			if d < best.off && !t.plain(lo+start, lo+end) {
				best = mention{first: lo + start, last: lo + end, off: d, name: name}
				ok = true
			}
		}
	}
	return best, ok
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
func (t *talk) contextOf(m *mention, lo, hi int) {
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
	name.pattern = newPattern(sounds)
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
