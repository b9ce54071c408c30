package naming

import (
	"math/bits"
	"strings"
)

// The sounds in which words are compared, one byte each: consonants p b t d k g f v s z S(hoe) C(hew) J(aw) T(hin) m n N(sing) l r w h y;
// vowels i (see, sit, set, day), a (far, cat, cup, my), o (for, two, now). Spelling gives a word's sound only roughly;
// a recogniser's mistakes are rough too.

// spelling lists groups of letters and their sounds; of those that fit, the first counts.
var spelling = []struct{ letters, sounds string }{
	{"tch", "C"}, {"dge", "J"}, {"igh", "a"}, {"eigh", "i"}, {"ough", "o"}, {"augh", "o"}, {"tion", "Sin"}, {"sion", "Sin"}, {"cious", "Sis"},
	{"ch", "C"}, {"sh", "S"}, {"th", "T"}, {"ph", "f"}, {"gh", ""}, {"ck", "k"}, {"qu", "kw"}, {"wh", "w"}, {"wr", "r"}, {"kn", "n"}, {"ng", "N"},
	{"ce", "si"}, {"ci", "si"}, {"cy", "si"}, {"ge", "Ji"}, {"ss", "s"}, {"ll", "l"}, {"pp", "p"}, {"tt", "t"}, {"bb", "b"}, {"dd", "d"}, {"gg", "g"}, {"ff", "f"}, {"mm", "m"}, {"nn", "n"}, {"rr", "r"}, {"zz", "z"}, {"cc", "k"},
	{"ee", "i"}, {"ea", "i"}, {"ie", "i"}, {"ei", "i"}, {"ey", "i"}, {"ai", "i"}, {"ay", "i"}, {"oo", "o"}, {"ou", "o"}, {"ow", "o"}, {"oa", "o"}, {"oi", "oi"}, {"oy", "oi"}, {"au", "o"}, {"aw", "o"}, {"ew", "o"}, {"ue", "o"}, {"al", "ol"},
	{"a", "a"}, {"b", "b"}, {"c", "k"}, {"d", "d"}, {"e", "i"}, {"f", "f"}, {"g", "g"}, {"h", "h"}, {"i", "i"}, {"j", "J"}, {"k", "k"}, {"l", "l"}, {"m", "m"},
	{"n", "n"}, {"o", "o"}, {"p", "p"}, {"q", "k"}, {"r", "r"}, {"s", "s"}, {"t", "t"}, {"u", "a"}, {"v", "v"}, {"w", "w"}, {"x", "ks"}, {"y", "i"}, {"z", "z"},
}

// spellingOf holds the entries of spelling by their first letter, in their order.
var spellingOf = func() (t [26][]struct{ letters, sounds string }) {
	for _, s := range spelling {
		i := s.letters[0] - 'a'
		t[i] = append(t[i], s)
	}
	return t
}()

// appendSounds appends the sounds of a folded word.
func appendSounds(dst []byte, word string) []byte {
	start := len(dst)
	for i := 0; i < len(word); {
		if word[i] == 'e' && i+1 == len(word) && len(dst) > start+1 { // silent
			break
		}
		if word[i] < 'a' || word[i] > 'z' {
			i++
			continue
		}
		n := 1
		for _, s := range spellingOf[word[i]-'a'] {
			if strings.HasPrefix(word[i:], s.letters) {
				dst, n = append(dst, s.sounds...), len(s.letters)
				break
			}
		}
		i += n
	}
	return dst
}

const vowels = "iao"

// alike are groups of consonants that are taken for one another, and the cost of it; a pair counts with the first that holds both.
var alike = []struct {
	sounds string
	cost   uint8
}{
	{"pb", 25}, {"td", 25}, {"kg", 25}, {"fv", 25}, {"sz", 15}, {"CJS", 25}, {"mnN", 30}, {"sSzCJ", 35}, {"Tfv", 35}, {"Tsz", 40}, {"Ttd", 40},
	{"tCJ", 45}, {"lrw", 50}, {"vwb", 50}, {"ptk", 60}, {"bdg", 60}, {"nl", 70}, {"mbv", 70},
}

// Costs of a comparison, in hundredths.
const (
	otherVowel     = 25
	lostVowel      = 35
	lostWeak       = 35 // h, w, y, r
	lostConsonant  = 70
	otherConsonant = 100
)

// costs are the costs of taking one sound for another, and of losing or adding one.
type costs struct {
	apart [128][128]uint8
	lost  [128]uint8
}

func newCosts() *costs {
	c := new(costs)
	const all = "pbtdkgfvszSCJTmnNlrwhy" + vowels
	for i := range len(all) {
		a := all[i]
		c.lost[a] = lostConsonant
		if strings.IndexByte(vowels, a) >= 0 {
			c.lost[a] = lostVowel
		} else if strings.IndexByte("hwyr", a) >= 0 {
			c.lost[a] = lostWeak
		}
		for j := range len(all) {
			b := all[j]
			switch {
			case a == b:
			case c.isVowel(a) && c.isVowel(b):
				c.apart[a][b] = otherVowel
			default:
				c.apart[a][b] = otherConsonant
			}
		}
	}
	for i := len(alike) - 1; i >= 0; i-- {
		for _, a := range []byte(alike[i].sounds) {
			for _, b := range []byte(alike[i].sounds) {
				if a != b {
					c.apart[a][b] = alike[i].cost
				}
			}
		}
	}
	return c
}

func (c *costs) isVowel(s byte) bool { return strings.IndexByte(vowels, s) >= 0 }

const longestSound = 48

// suffixes returns, for each n up to len(text), the least sum of costs that turns name into the last n sounds of text, as far as
// it is at most most; a greater one may be any number above that. Of a longer text only the last longestSound count.
func (c *costs) suffixes(name, text []byte, most uint16) (row [longestSound + 1]uint16, ok bool) {
	for i := range row {
		row[i] = 1 << 14
	}
	n := min(len(text), longestSound)
	text = text[len(text)-n:]
	// Each sound too many or too few costs at least lostWeak, so that sound i of the name stands within so many places of its own.
	band := int(most/lostWeak) + 1
	row[0] = 0
	for j := range min(n, band) {
		row[j+1] = row[j] + uint16(c.lost[text[n-1-j]])
	}
	for i := len(name) - 1; i >= 0; i-- {
		s := name[i]
		lost, apart := uint16(c.lost[s]), &c.apart[s]
		at := len(name) - 1 - i
		from, to := max(0, at-band), min(n, at+1+band)
		diagonal := row[from]
		row[from] += lost
		least := row[from]
		left := row[from]
		for j := from; j < to; j++ {
			r := text[n-1-j]
			v := min(diagonal+uint16(apart[r]), left+uint16(c.lost[r]), row[j+1]+lost)
			diagonal, row[j+1], left = row[j+1], v, v
			least = min(least, v)
		}
		if least > most {
			return row, false
		}
	}
	return row, true
}

// skeleton classes of consonants; 0 for what is left out.
var skeletonOf = func() (t [128]uint8) {
	for i, group := range []string{"pb", "tdT", "kg", "fv", "szSCJ", "mnN", "l", "r", "w"} {
		for _, s := range []byte(group) {
			t[s] = uint8(i + 1)
		}
	}
	return t
}()

const skeletonClasses = 10

// Four names are searched for at once, each in a lane of 16 bits: its last 15 consonants at most, the last one in bit 14, and a bit
// to spare, in which nothing carries over into the next lane.
const (
	lanes       = 4
	laneBits    = 16
	longestLane = laneBits - 1
	lowBits     = 0x0001_0001_0001_0001
	spareBits   = 0x8000_8000_8000_8000
)

// A pack is the consonants of up to four names, ready for an approximate search (Myers 1999, "A fast bit-vector algorithm for
// approximate string matching based on dynamic programming", J. ACM 46:395-415).
type pack struct {
	names []catalogued // at most lanes
	at    [skeletonClasses]uint64
	body  uint64 // the bits of the consonants
}

// newPacks returns the names in packs, which keep the slice.
func newPacks(names []catalogued) []pack {
	packs := make([]pack, 0, (len(names)+lanes-1)/lanes)
	for first := 0; first < len(names); first += lanes {
		p := pack{names: names[first:min(first+lanes, len(names))]}
		for lane := range p.names {
			skeleton := p.names[lane].skeleton
			for i, c := range skeleton {
				bit := uint64(1) << (lane*laneBits + longestLane - len(skeleton) + i)
				p.at[c] |= bit
				p.body |= bit
			}
		}
		packs = append(packs, p)
	}
	return packs
}

// skeletonOfName returns the classes of the consonants of a name, the last longestLane of them.
func skeletonOfName(sounds []byte) []uint8 {
	var out []uint8
	for _, s := range sounds {
		if c := skeletonOf[s]; c != 0 {
			out = append(out, c)
		}
	}
	return out[max(0, len(out)-longestLane):]
}

// search calls found with the lane of a name and the end, in text, of every place where the name lies within its limit of single
// changes. text holds classes, none of them 0. A name of vowels alone is found nowhere.
func (p *pack) search(text []uint8, limits [lanes]int, found func(lane, end int)) {
	left := uint64(0) // in each lane the changes that are left to the limit, and 1<<15
	for lane := range p.names {
		if n := len(p.names[lane].skeleton); n > 0 {
			left |= uint64(1<<longestLane+min(limits[lane], n-1)-n) << (lane * laneBits)
		}
	}
	pv, mv := p.body, uint64(0)
	for i, c := range text {
		eq := p.at[c]
		xv := eq | mv
		xh := ((((eq & pv) + pv) ^ pv) | eq) & p.body
		ph, mh := (mv|^(xh|pv))&p.body, pv&xh
		left = left - ph>>(longestLane-1)&lowBits + mh>>(longestLane-1)&lowBits
		ph, mh = ph<<1&p.body, mh<<1&p.body
		pv, mv = (mh|^(xv|ph))&p.body, ph&xv
		for hit := left & spareBits; hit != 0; hit &= hit - 1 {
			found(bits.TrailingZeros64(hit)/laneBits, i+1)
		}
	}
}
