package numeral

// The letters in which a word's sound is written: one byte a sound.
//
//	consonants  p b t d k g f v T (thin) D (then) s z S (shoe) Z (vision) C (chew) J (jaw) m n N (sing) l r w y h
//	vowels      i (see) I (sit) e (set) A (cat) a (far) o (for) u (two) U (put) V (cup, and any unstressed vowel)
//	            R (her) Y (my) E (day) O (go) W (now)
//
// Spelling gives an English word's sound only roughly. That is enough: a recogniser's mistakes are rough too.

// A rule turns letters into sounds. The first rule that fits applies.
type rule struct{ letters, sounds string }

// rules by first letter, longest first.
var rules = [26][]rule{
	'a' - 'a': {{"augh", "o"}, {"air", "er"}, {"are", "er"}, {"ai", "E"}, {"ay", "E"}, {"au", "o"}, {"aw", "o"}, {"al", "ol"}, {"ar", "ar"}, {"a", "A"}},
	'b' - 'a': {{"bb", "b"}, {"b", "b"}},
	'c' - 'a': {{"ch", "C"}, {"ck", "k"}, {"ce", "sV"}, {"ci", "sI"}, {"cy", "si"}, {"cc", "k"}, {"c", "k"}},
	'd' - 'a': {{"dge", "J"}, {"dd", "d"}, {"d", "d"}},
	'e' - 'a': {{"eigh", "E"}, {"ear", "ir"}, {"eer", "ir"}, {"ee", "i"}, {"ea", "i"}, {"ei", "E"}, {"ey", "i"}, {"ew", "u"}, {"er", "R"}, {"e", "e"}},
	'f' - 'a': {{"ff", "f"}, {"f", "f"}},
	'g' - 'a': {{"gg", "g"}, {"gh", ""}, {"ge", "JV"}, {"g", "g"}},
	'h' - 'a': {{"h", "h"}},
	'i' - 'a': {{"igh", "Y"}, {"ie", "i"}, {"ir", "R"}, {"i", "I"}},
	'j' - 'a': {{"j", "J"}},
	'k' - 'a': {{"kn", "n"}, {"kk", "k"}, {"k", "k"}},
	'l' - 'a': {{"ll", "l"}, {"l", "l"}},
	'm' - 'a': {{"mm", "m"}, {"m", "m"}},
	'n' - 'a': {{"ng", "N"}, {"nn", "n"}, {"n", "n"}},
	'o' - 'a': {{"ough", "o"}, {"oor", "or"}, {"our", "or"}, {"oo", "u"}, {"ou", "W"}, {"ow", "O"}, {"oa", "O"}, {"oi", "oI"}, {"oy", "oI"}, {"or", "or"}, {"o", "o"}},
	'p' - 'a': {{"ph", "f"}, {"pp", "p"}, {"p", "p"}},
	'q' - 'a': {{"qu", "kw"}, {"q", "k"}},
	'r' - 'a': {{"rr", "r"}, {"r", "r"}},
	's' - 'a': {{"sh", "S"}, {"sion", "SVn"}, {"ss", "s"}, {"s", "s"}},
	't' - 'a': {{"tch", "C"}, {"tion", "SVn"}, {"th", "T"}, {"tt", "t"}, {"t", "t"}},
	'u' - 'a': {{"ur", "R"}, {"ue", "u"}, {"u", "V"}},
	'v' - 'a': {{"v", "v"}},
	'w' - 'a': {{"wh", "w"}, {"wr", "r"}, {"w", "w"}},
	'x' - 'a': {{"x", "ks"}},
	'y' - 'a': {{"y", "y"}},
	'z' - 'a': {{"zz", "z"}, {"z", "z"}},
}

const longest = 12 // sounds; no number is nearly as long

// key writes the sound of a word, or of words with spaces or hyphens between, into buf and returns it.
// It reports false for words that are too long to be a number.
func key(word string, buf *[longest]byte) ([]byte, bool) {
	out := buf[:0]
	start := 0 // of the word within out
	for i := 0; i < len(word); {
		c := word[i]
		if c == ' ' || c == '-' {
			start = len(out)
			i++
			continue
		}
		if c < 'a' || c > 'z' {
			i++
			continue
		}
		last := i+1 == len(word) || word[i+1] == ' ' || word[i+1] == '-'
		sounds, n := soundsAt(word, i, last, len(out) > start)
		if len(out)+len(sounds) > longest {
			return nil, false
		}
		out = append(out, sounds...)
		i += n
	}
	return out, true
}

// soundsAt returns the sounds of the letters at word[i] and how many letters they are.
func soundsAt(word string, i int, last, inside bool) (string, int) {
	c := word[i]
	if last {
		switch {
		case c == 'e' && inside:
			if i > 0 && isVowel(word[i-1]) || i == 1 || i == 2 && word[1] == 'h' {
				return "i", 1
			}
			return "", 1 // silent
		case c == 'y' && inside:
			if i <= 2 {
				return "Y", 1
			}
			return "i", 1
		case c == 'o' && i <= 1:
			return "u", 1
		}
	}
	if long := longVowel(word, i); long != "" {
		return long, 1
	}
	for _, r := range rules[c-'a'] {
		n := len(r.letters)
		if n == 1 || len(word)-i >= n && word[i+1] == r.letters[1] && word[i:i+n] == r.letters { // their first letter is c
			return r.sounds, n
		}
	}
	return "", 1
}

// longVowel returns the long sound of a vowel before one consonant and a final e, as in "fine".
func longVowel(word string, i int) string {
	if !isVowel(word[i]) || i+2 >= len(word) || word[i+2] != 'e' || isVowel(word[i+1]) || word[i+1] == 'r' {
		return ""
	}
	if i+3 < len(word) && word[i+3] != ' ' && word[i+3] != '-' && word[i+3] != 's' {
		return ""
	}
	switch word[i] {
	case 'a':
		return "E"
	case 'e':
		return "i"
	case 'i':
		return "Y"
	case 'o':
		return "O"
	}
	return "u"
}

func isVowel(c byte) bool { return c == 'a' || c == 'e' || c == 'i' || c == 'o' || c == 'u' }

// sounds are all letters in use; a sound's place here is its code.
const sounds = "pbtdkgfvTDszSZCJmnNlrwyhiIeAaouUVRYEOW"

// groups of sounds that are taken for one another, and how far apart two of a group are, in hundredths.
// A pair counts with the first group that holds both. What stands in no common group is 100 apart.
var groups = []struct {
	sounds string
	apart  int32
}{
	{"pb", 25}, {"td", 25}, {"kg", 25}, {"fv", 25}, {"sz", 20}, {"CJ", 20}, {"SZ", 20}, {"TD", 20}, {"mnN", 25}, // voice; nose
	{"sSzC", 35}, {"SCJt", 45}, {"Tft", 35}, {"Ts", 35}, {"TDtd", 40}, {"DvT", 40}, {"fsS", 60}, {"fh", 50}, // hisses
	{"lrwy", 50}, {"vwb", 50}, {"ptk", 60}, {"bdg", 60}, {"nld", 65}, {"mbv", 70}, {"td", 70},
	{"iIye", 20}, {"eAE", 25}, {"VAUaoRI", 25}, {"eVIR", 30}, {"uUOo", 25}, {"YEa", 35}, {"YiI", 40}, {"Wao", 30},
	{"iIeAaouUVRYEOW", 50},
}

// lost is what it costs, in hundredths, when a sound is missing or added.
func lost(sound byte) int32 {
	switch sound {
	case 'V', 'h', 'r':
		return 30
	case 'I', 'i', 'y', 'w', 'e', 'R':
		return 50
	case 't', 'd':
		return 55
	case 'n', 'N', 'm', 'z', 's':
		return 65
	}
	return 80
}

// leastLost is the least of lost.
const leastLost = 30

// A measure holds the distances between sounds, by code and in hundredths.
type measure struct {
	code  [128]uint8
	apart [len(sounds)][len(sounds)]int32
	gone  [len(sounds)]int32
}

func newMeasure() *measure {
	m := new(measure)
	for i, s := range []byte(sounds) {
		m.code[s] = uint8(i)
		m.gone[i] = lost(s)
		for j := range m.apart[i] {
			if i != j {
				m.apart[i][j] = 100
			}
		}
	}
	for i := len(groups) - 1; i >= 0; i-- {
		for _, a := range []byte(groups[i].sounds) {
			for _, b := range []byte(groups[i].sounds) {
				if a != b {
					m.apart[m.code[a]][m.code[b]] = groups[i].apart
				}
			}
		}
	}
	return m
}

// encode turns a key's letters into codes, in place.
func (m *measure) encode(key []byte) {
	for i, c := range key {
		key[i] = m.code[c]
	}
}

// A need is what each sound costs at least in a comparison with one word: that of its loss, or of taking it for the word's
// sound that is nearest to it.
type need [len(sounds)]int32

// needs returns what sounds need beside a word of codes.
func (m *measure) needs(codes []byte) (n need) {
	n = m.gone
	for _, c := range codes {
		for s, d := range &m.apart[c] {
			n[s] = min(n[s], d)
		}
	}
	return n
}

// atLeast is a bound from below on what the sounds of a word cost beside another word, both of codes: each of them is lost or taken
// for another.
func (m *measure) atLeast(word, other []byte) int32 {
	sum := int32(0)
	for _, c := range word {
		least, apart := m.gone[c], &m.apart[c]
		for _, o := range other {
			least = min(least, apart[o])
		}
		sum += least
	}
	return sum
}

// lanes is how many sums of needs one word of the machine holds, 16 bits each; the highest bit of each is free.
const lanes = 4

const highest = 1<<15 | 1<<31 | 1<<47 | 1<<63

// A sums holds a sum for each number of the data file, in lanes.
type sums [mostSaid / lanes]uint64

// put writes the sum of number i, or 0 for one below it.
func (s *sums) put(i int, sum int32) { s[i/lanes] |= uint64(max(sum, 0)) << (16 * (i % lanes)) }

// within returns the highest bits of those lanes whose sum is no more than there is room for.
func within(sums, room uint64) uint64 { return ((room | highest) - sums) & highest }

// A needTable holds the needs beside many words at once: by sound, in lanes.
type needTable [len(sounds)]sums

// put writes the needs beside word i.
func (t *needTable) put(i int, n *need) {
	for s, v := range n {
		t[s].put(i, v)
	}
}

// atLeast adds up the bounds of a word of codes to all the words, into out; longest sounds at 100 each stay within a lane.
func (t *needTable) atLeast(codes []byte, out *sums) {
	for _, c := range codes {
		for i, v := range &t[c] {
			out[i] += v
		}
	}
}

// A comparison holds the distances between beginnings of a word and beginnings of a number: row i column j is that of
// the number's first i sounds from the word's first j. Numbers that begin alike share their rows.
type comparison struct {
	rows [longest + 1][longest + 1]int32
	done int // rows that hold for the number compared last
}

// start begins the comparisons of one word.
func (c *comparison) start(m *measure, word []byte) {
	for j, s := range word {
		c.rows[0][j+1] = c.rows[0][j] + m.gone[s]
	}
	c.done = 0
}

// distance is the least sum of changes, in hundredths, that turns word into number, or more than limit.
// The rows done are those of number's beginning.
func (c *comparison) distance(m *measure, word, number []byte, limit int32) int32 {
	for i := c.done; i < len(number); i++ {
		above, row := c.rows[i][:len(word)+1], c.rows[i+1][:len(word)+1]
		gone, apart := m.gone[number[i]], &m.apart[number[i]]
		left := above[0] + gone
		row[0] = left
		least := left
		for j, s := range word {
			left = min(above[j]+apart[s], left+m.gone[s], above[j+1]+gone)
			row[j+1] = left
			least = min(least, left)
		}
		c.done = i + 1
		if least > limit {
			return limit + 1
		}
	}
	return c.rows[len(number)][len(word)]
}
