// Package numeral reads and writes English numbers in words and figures, and says which numbers a
// speech recogniser may have heard as another word.
//
// Words come folded: lower case, figures as 0-9, plain hyphens and apostrophes, no punctuation around them.
package numeral

import "strings"

// Form says how a number was written.
type Form uint8

const (
	Digits  Form = iota // "12", "1,500", "3rd"
	Spelled             // "twelve", "a dozen", "third"
	Mixed               // "2 hundred", "3 dozen"
)

// A Number is a number read from consecutive words.
type Number struct {
	Value   int
	Words   int // how many consecutive words it used, at least 1
	Form    Form
	Ordinal bool // "third", "3rd"
}

// kind is the part that a word plays within a number.
type kind uint8

const (
	none     kind = iota
	nought        // 0
	unit          // 1 to 9
	teen          // 10 to 19
	tens          // 20, 30 ... 90
	hundred       // multiplies what stands before it
	thousand      // multiplies what stands before it; also a million
	dozen         // multiplies what stands before it by 12
	figures       // written in digits
)

// A token is one part of a number: a word, or a piece of a hyphenated word.
type token struct {
	kind    kind
	value   int
	ordinal bool
}

var cardinals = [...]string{
	"zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine",
	"ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
}

var tensNames = [...]string{"", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"}

var ordinals = [...]string{
	"", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth",
	"tenth", "eleventh", "twelfth", "thirteenth", "fourteenth", "fifteenth", "sixteenth", "seventeenth", "eighteenth", "nineteenth",
}

// lexicon holds every word that can be part of a number.
var lexicon = makeLexicon()

func makeLexicon() map[string]token {
	m := map[string]token{
		"nought": {nought, 0, false}, "naught": {nought, 0, false}, "nil": {nought, 0, false},
		"fourty": {tens, 40, false}, "fourtieth": {tens, 40, true}, // common misspellings
		"hundred": {hundred, 100, false}, "hundredth": {hundred, 100, true},
		"thousand": {thousand, 1000, false}, "thousandth": {thousand, 1000, true},
		"million": {thousand, 1000000, false},
		"dozen":   {dozen, 12, false},
	}
	for i := range cardinals {
		k := unit
		if i == 0 {
			k = nought
		} else if i > 9 {
			k = teen
		}
		m[cardinals[i]] = token{k, i, false}
		if i > 0 {
			m[ordinals[i]] = token{k, i, true}
		}
	}
	for i := 2; i < len(tensNames); i++ {
		m[tensNames[i]] = token{tens, 10 * i, false}
		m[strings.TrimSuffix(tensNames[i], "y")+"ieth"] = token{tens, 10 * i, true}
	}
	return m
}

// At returns the longest number that starts at words[i], and whether there is one.
//
// "twenty one" is read as 21 although in a count it may well be two numbers, as "one two" always is;
// where that matters ask [Single] for each word. "second" after a tens word with a space between
// ("a twenty second hold") is left alone: it is far more often the unit than the ordinal. "1,500" is 1500;
// "1.5", "10:30" and "30s" are no whole numbers, and "oh" and a lone "a" are none at all.
func At(words []string, i int) (Number, bool) {
	if i < 0 || i >= len(words) {
		return Number{}, false
	}
	switch words[i] {
	case "a", "half":
		return withArticle(words, i)
	}
	var p parser
	best := p.run(words, i)
	return best, best.Words > 0
}

// withArticle reads "a dozen", "a hundred and ten", "half a dozen".
func withArticle(words []string, i int) (Number, bool) {
	if words[i] == "half" {
		if i+2 < len(words) && words[i+1] == "a" && words[i+2] == "dozen" {
			return Number{Value: 6, Words: 3, Form: Spelled}, true
		}
		return Number{}, false
	}
	if i+1 >= len(words) {
		return Number{}, false
	}
	switch words[i+1] {
	case "dozen", "hundred", "thousand", "million":
		p := parser{part: 1, started: true, last: unit}
		n := p.run(words, i+1)
		n.Words++
		n.Form = Spelled
		return n, n.Words > 1
	}
	return Number{}, false
}

// Single returns the cardinal number that exactly one word is: in figures, spelled, or spelled with hyphens.
func Single(word string) (int, bool) {
	if t := tokenOf(word); t.kind != none {
		return t.value, !t.ordinal && t.kind != dozen
	}
	if strings.IndexByte(word, '-') < 0 {
		return 0, false
	}
	var p parser
	n := p.run([]string{word}, 0)
	return n.Value, n.Words == 1 && !n.Ordinal
}

// A parser adds up the tokens of one number.
type parser struct {
	total, part   int // finished thousands; what stands before the next multiplier
	started       bool
	last          kind
	lastValue     int
	ordinal       bool
	digits, words bool
}

// run reads words from i on and returns the longest number that ends at the end of a word.
func (p *parser) run(words []string, i int) Number {
	var best Number
	for j := i; j < len(words) && !p.ordinal; j++ {
		w := words[j]
		if w == "and" {
			if p.last != hundred && p.last != thousand {
				break
			}
			if j+1 >= len(words) || words[j+1] == "a" {
				break
			}
			if t := firstToken(words[j+1]); t.kind != unit && t.kind != teen && t.kind != tens {
				break
			}
			continue
		}
		if p.last == tens && w == "second" {
			break
		}
		if !p.word(w) {
			break
		}
		best = Number{Value: p.total + p.part, Words: j - i + 1, Form: p.form(), Ordinal: p.ordinal}
	}
	return best
}

func (p *parser) form() Form {
	switch {
	case p.digits && p.words:
		return Mixed
	case p.digits:
		return Digits
	}
	return Spelled
}

// word takes in one word, all its hyphenated pieces or none.
func (p *parser) word(w string) bool {
	if t := tokenOf(w); t.kind != none {
		return p.add(t)
	}
	if strings.IndexByte(w, '-') < 0 {
		return false
	}
	q := *p
	for piece := range strings.SplitSeq(w, "-") {
		if piece == "and" && (q.last == hundred || q.last == thousand) {
			continue
		}
		if q.ordinal || !q.add(tokenOf(piece)) {
			return false
		}
	}
	*p = q
	return true
}

// add takes in one token if it can follow what has been read.
func (p *parser) add(t token) bool {
	switch t.kind {
	case nought, figures:
		if p.started {
			return false
		}
		p.part = t.value
	case unit:
		if p.started && p.last != tens && p.last != hundred && p.last != thousand {
			return false
		}
		p.part += t.value
	case teen, tens:
		if p.started && p.last != hundred && p.last != thousand {
			return false
		}
		p.part += t.value
	case hundred:
		if p.part > 99 || p.started && (p.last == nought || p.last == hundred || p.last == thousand || p.last == dozen) {
			return false
		}
		p.part = max(p.part, 1) * 100
	case thousand:
		if p.total > 0 && p.part == 0 || p.part > 999 || p.last == nought || p.last == dozen {
			return false
		}
		p.total += max(p.part, 1) * t.value
		p.part = 0
	case dozen:
		if p.total > 0 || p.part > 99 || p.last == nought || p.last == hundred || p.last == dozen {
			return false
		}
		p.part = max(p.part, 1) * 12
	default:
		return false
	}
	p.started, p.last, p.ordinal = true, t.kind, t.ordinal
	if t.kind == figures {
		p.digits = true
	} else {
		p.words = true
	}
	return true
}

func firstToken(w string) token {
	if h := strings.IndexByte(w, '-'); h > 0 {
		w = w[:h]
	}
	return tokenOf(w)
}

// tokenOf returns the part that a word without hyphens plays in a number.
func tokenOf(w string) token {
	if w == "" {
		return token{}
	}
	if c := w[0]; c >= '0' && c <= '9' {
		return figuresOf(w)
	}
	return lexicon[w]
}

// figuresOf reads "12", "1,500", "3rd". Nine digits are the most it takes.
func figuresOf(w string) token {
	end := len(w)
	ordinal := false
	if end > 2 {
		switch w[end-2:] {
		case "st", "nd", "rd", "th":
			end, ordinal = end-2, true
		}
	}
	v, digits, group := 0, 0, -1
	for _, c := range []byte(w[:end]) {
		switch {
		case c >= '0' && c <= '9':
			v = v*10 + int(c-'0')
			digits++
			if group >= 0 {
				group++
			}
		case c == ',':
			if digits == 0 || digits > 3 && group < 0 || group >= 0 && group != 3 {
				return token{}
			}
			group = 0
		default:
			return token{}
		}
		if digits > 9 {
			return token{}
		}
	}
	if digits == 0 || group >= 0 && group != 3 {
		return token{}
	}
	return token{figures, v, ordinal}
}
