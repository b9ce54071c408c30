package announce

import (
	_ "embed"
	"fmt"
	"strconv"
	"strings"
	"sync"
)

//go:embed words.txt
var wordsFile string

//go:embed phrases.txt
var phrasesFile string

// standard is the lexicon of the two data files, read when it is first needed.
var standard = sync.OnceValue(func() *lexicon {
	l, err := newLexicon(wordsFile, phrasesFile)
	if err != nil {
		panic(err) // the files are part of the program, and a test reads them
	}
	return l
})

// A set of classes that a word belongs to, one bit a class.
type classes uint64

// An entry is what the lexicon knows of a word.
type entry struct {
	id      uint16 // from 1; 0 for a word that it does not know
	classes classes
}

// An element is one place of a phrase.
type element struct {
	kind    elementKind
	classes classes
	ids     []uint16
}

type elementKind uint8

const (
	oneWord  elementKind = iota // one word of the classes or ids
	optional                    // such a word, or none
	gap                         // up to three words of the same sentence
	farGap                      // up to eight words, over the ends of sentences
	edge                        // the end of a sentence, no word
)

// smallNumber is the largest number that "#s" stands for.
const smallNumber = 4

// A phrase is one line of phrases.txt.
type phrase struct {
	kind          Kind
	scope         Scope
	weight        float64   // added to the log odds of the kind
	timed, untime bool      // only for amounts with a unit of time, or only without
	small         bool      // only for amounts up to smallNumber
	number        bool      // has a number, between before and after
	before        []element // last word first
	after         []element // all of it for a phrase without a number
}

// A lexicon holds both data files in the form in which they are used.
type lexicon struct {
	words   map[string]entry
	classes map[string]classes
	numbers []phrase   // phrases around a number
	plain   []phrase   // phrases without
	byFirst [][]uint16 // plain phrases by the id of their first word
	index   index

	figures, plurals entry // of any word in figures; of plurals that stand in no list

	second, minute, secondHeard, minuteHeard, between, amount, move, each, those                                   classes
	left, right, sidenoun, sideway, adverb, nottheside, beforeLeft, both, alternating, article, plural, lots, limb classes
}

func newLexicon(words, phrases string) (*lexicon, error) {
	l := &lexicon{words: map[string]entry{}, classes: map[string]classes{}}
	if err := eachLine("words.txt", words, l.wordLine); err != nil {
		return nil, err
	}
	if err := eachLine("phrases.txt", phrases, l.phraseLine); err != nil {
		return nil, err
	}
	if err := l.named(); err != nil {
		return nil, err
	}
	l.figures, l.plurals = l.pseudo("0-9", l.amount), l.pseudo("-s", l.plural)
	entries := make([]entry, len(l.words)+1)
	for _, e := range l.words {
		entries[e.id] = e
	}
	l.index = newIndex(l, entries)
	l.byFirst = make([][]uint16, len(entries))
	for i := range l.plain {
		for _, e := range entries[1:] {
			if l.plain[i].after[0].fits(e) {
				l.byFirst[e.id] = append(l.byFirst[e.id], uint16(i))
			}
		}
	}
	return l, nil
}

// named looks up the classes that the program itself asks for.
func (l *lexicon) named() error {
	for name, c := range map[string]*classes{
		"second": &l.second, "minute": &l.minute, "second-heard": &l.secondHeard, "minute-heard": &l.minuteHeard, "between": &l.between, "amount": &l.amount, "move": &l.move, "each": &l.each, "those": &l.those,
		"left-word": &l.left, "right-word": &l.right, "sidenoun": &l.sidenoun, "sideway": &l.sideway, "adverb": &l.adverb,
		"nottheside": &l.nottheside, "before-left": &l.beforeLeft, "both": &l.both, "lots": &l.lots, "limb": &l.limb, "article": &l.article, "plural": &l.plural, "alternating": &l.alternating,
	} {
		if *c = l.classes[name]; *c == 0 {
			return fmt.Errorf("words.txt: no class %q", name)
		}
	}
	return nil
}

// eachLine calls do with the fields of every line that is neither empty nor a comment.
func eachLine(name, text string, do func(fields []string) error) error {
	n := 0
	for line := range strings.Lines(text) {
		n++
		f := strings.Fields(line)
		if len(f) == 0 || f[0][0] == '#' && len(f[0]) == 1 {
			continue
		}
		if err := do(f); err != nil {
			return fmt.Errorf("%s:%d: %w", name, n, err)
		}
	}
	return nil
}

// wordLine reads "CLASS: word word ...".
func (l *lexicon) wordLine(f []string) error {
	name, ok := strings.CutSuffix(f[0], ":")
	if !ok || name == "" {
		return fmt.Errorf("expected CLASS: words, found %q", f[0])
	}
	c, ok := l.classes[name]
	if !ok {
		if len(l.classes) == 64 {
			return fmt.Errorf("more than 64 classes")
		}
		c = 1 << len(l.classes)
		l.classes[name] = c
	}
	for _, w := range f[1:] {
		e := l.intern(w)
		e.classes |= c
		l.words[w] = e
	}
	return nil
}

// intern returns the entry of a word, new if need be.
func (l *lexicon) intern(w string) entry {
	e, ok := l.words[w]
	if !ok {
		e.id = uint16(len(l.words) + 1)
		l.words[w] = e
	}
	return e
}

// pseudo returns an entry that stands for many words.
func (l *lexicon) pseudo(name string, c classes) entry {
	e := l.intern(name)
	e.classes = c
	l.words[name] = e
	return e
}

// phraseLine reads "KIND[+SCOPE] WEIGHT PATTERN ...".
func (l *lexicon) phraseLine(f []string) error {
	if len(f) < 3 {
		return fmt.Errorf("expected KIND WEIGHT PATTERN, found %q", strings.Join(f, " "))
	}
	var p phrase
	var err error
	if p.kind, p.scope, err = kindAndScope(f[0]); err != nil {
		return err
	}
	if p.weight, err = strconv.ParseFloat(f[1], 64); err != nil {
		return fmt.Errorf("expected a weight, found %q", f[1])
	}
	for _, w := range f[2:] {
		switch w {
		case "#", "#t", "#n", "#s":
			if p.number {
				return fmt.Errorf("a second number in one phrase")
			}
			p.number, p.timed, p.untime, p.small = true, w == "#t", w == "#n" || w == "#s", w == "#s"
			p.before, p.after = reversed(p.after), nil
			continue
		}
		e, err := l.element(w)
		if err != nil {
			return err
		}
		p.after = append(p.after, e)
	}
	switch {
	case p.number && len(l.numbers) == 64*len(phraseSet{}):
		return fmt.Errorf("more than %d phrases around a number", len(l.numbers))
	case p.number:
		l.numbers = append(l.numbers, p)
	case p.after[0].kind != oneWord:
		return fmt.Errorf("a phrase without a number begins with a word")
	default:
		l.plain = append(l.plain, p)
	}
	return nil
}

func kindAndScope(s string) (Kind, Scope, error) {
	name, scope, scoped := strings.Cut(s, "+")
	for k, kn := range kindNames {
		if kn != name {
			continue
		}
		if !scoped {
			return Kind(k), Here, nil
		}
		for i, sn := range scopeNames {
			if sn == scope {
				return Kind(k), Scope(i), nil
			}
		}
		return 0, 0, fmt.Errorf("%q is no scope", scope)
	}
	return 0, 0, fmt.Errorf("%q is no kind", name)
}

// element reads "word", "word|word", "{class}", "{class}|word", any of them with "?" behind, "..", "...", "/".
func (l *lexicon) element(w string) (element, error) {
	switch w {
	case "..":
		return element{kind: gap}, nil
	case "...":
		return element{kind: farGap}, nil
	case "/":
		return element{kind: edge}, nil
	}
	var e element
	if s, ok := strings.CutSuffix(w, "?"); ok {
		e.kind, w = optional, s
	}
	for part := range strings.SplitSeq(w, "|") {
		if name, ok := strings.CutPrefix(part, "{"); ok {
			c, ok := l.classes[strings.TrimSuffix(name, "}")]
			if !ok {
				return e, fmt.Errorf("%s is no class of words.txt", part)
			}
			e.classes |= c
			continue
		}
		if part == "" {
			return e, fmt.Errorf("an empty word in %q", w)
		}
		e.ids = append(e.ids, l.intern(part).id)
	}
	return e, nil
}

func reversed(e []element) []element {
	out := make([]element, 0, len(e))
	for i := len(e) - 1; i >= 0; i-- {
		out = append(out, e[i])
	}
	return out
}

// fits says whether a word can stand at this place.
func (e *element) fits(w entry) bool {
	if e.classes&w.classes != 0 {
		return true
	}
	for _, id := range e.ids {
		if id == w.id {
			return true
		}
	}
	return false
}
