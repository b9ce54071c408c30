// Package phrases holds the cue phrases of a session as data and finds them in words.
//
// A phrase file is line-based: "[kind]" opens the phrases of one kind; every other line is a weight in (0, 1],
// blanks, and the phrase in folded words. "#" begins a comment. In a phrase, "_" stands for any one word and "<n>" for any one
// number word. The weight is how surely the words mean the kind: 1 where they hardly ever mean anything else.
package phrases

import (
	"embed"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"sync"
)

//go:embed *.txt
var files embed.FS

// Kind is what a phrase marks. The kinds are those named in the files' headers.
type Kind string

// A Match is one phrase found in the words [First, Last).
type Match struct {
	Kind        Kind
	First, Last int
	Weight      float64
}

// A Book is a set of phrases, ready to be searched for. It does not change after it was read. Its parts point to each other by number, since
// the garbage collector goes through all pointers each time.
type Book struct {
	kinds []Kind
	heads map[string]int32 // the nodes to which the first words of phrases lead
	ids   map[string]int32 // the numbers of the others
	nodes []node           // the first is where all phrases begin
	steps []step           // from one node to another, in the order of the nodes
	marks []mark
}

// A node is a place within phrases, after some of their words. Nodes that it leads to are 0 for none.
type node struct {
	from, to int32 // the words that lead on from it are steps[from:to]
	any      int32 // where "_" leads
	num      int32 // where "<n>" leads
	mark     int32 // of the phrases that end there, counted from 1; 0 for none
}

// A step leads from a node over a word to another node.
type step struct{ node, word, to int32 }

// A mark is one phrase.
type mark struct {
	kind   int32
	before int32 // the mark of the phrase that was read before it and ends at the same node
	weight float64
}

// English returns the built-in English phrases.
func English() *Book { return english() }

var english = sync.OnceValue(func() *Book {
	b, err := load("en.txt")
	if err != nil {
		panic(err) // the file is part of the program; its test reads it
	}
	return b
})

func load(name string) (*Book, error) {
	f, err := files.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return Read(f, name)
}

// Read reads a phrase file. Errors name the file and the line.
func Read(r io.Reader, name string) (*Book, error) {
	text, err := io.ReadAll(r)
	if err != nil {
		return nil, err
	}
	b := &Book{heads: map[string]int32{}, ids: map[string]int32{}, nodes: make([]node, 1)}
	known := map[step]int32{} // the steps so far, where to is left out
	line := 0
	for s := range strings.Lines(string(text)) { // of which the words stay parts
		line++
		s, _, _ = strings.Cut(s, "#")
		s = strings.TrimSpace(s)
		if s == "" {
			continue
		}
		if strings.HasPrefix(s, "[") && strings.HasSuffix(s, "]") {
			b.kinds = append(b.kinds, Kind(s[1:len(s)-1]))
			continue
		}
		w, phrase, _ := strings.Cut(s, " ")
		weight, err := strconv.ParseFloat(w, 64)
		words := strings.Fields(phrase)
		switch {
		case len(b.kinds) == 0:
			return nil, fmt.Errorf("%s:%d: phrase before any [kind]", name, line)
		case err != nil || weight <= 0 || weight > 1:
			return nil, fmt.Errorf("%s:%d: want a weight above 0 and at most 1 before the phrase, found %q", name, line, w)
		case len(words) == 0:
			return nil, fmt.Errorf("%s:%d: no words after the weight", name, line)
		}
		at := int32(0)
		for _, w := range words {
			at = b.child(at, w, known)
		}
		b.marks = append(b.marks, mark{int32(len(b.kinds) - 1), b.nodes[at].mark, weight}) // of the kind that was read last
		b.nodes[at].mark = int32(len(b.marks))
	}
	slices.SortStableFunc(b.steps, func(a, c step) int { return int(a.node - c.node) })
	for k, s := range b.steps {
		n := &b.nodes[s.node]
		if n.to == 0 {
			n.from = int32(k)
		}
		n.to = int32(k + 1)
	}
	return b, nil
}

// child returns the node to which a word of a phrase leads, a new one where there is none; known are the steps so far.
func (b *Book) child(at int32, w string, known map[step]int32) int32 {
	n, made := &b.nodes[at], int32(len(b.nodes))
	switch {
	case w == "_":
		if n.any != 0 {
			return n.any
		}
		n.any = made
	case w == "<n>":
		if n.num != 0 {
			return n.num
		}
		n.num = made
	case at == 0:
		if c := b.heads[w]; c != 0 {
			return c
		}
		b.heads[w] = made
	default:
		id, ok := b.ids[w]
		if !ok {
			id = int32(len(b.ids))
			b.ids[w] = id
		}
		s := step{node: at, word: id}
		if c, ok := known[s]; ok {
			return c
		}
		known[s] = made
		b.steps = append(b.steps, step{at, id, made})
	}
	b.nodes = append(b.nodes, node{})
	return made
}

// Find returns every phrase that begins at word i of n words. fold gives a word's folded text and number whether it is a
// number. Longer phrases come after shorter ones.
func (b *Book) Find(dst []Match, i, n int, fold func(int) string, number func(int) bool) []Match {
	if i >= n {
		return dst
	}
	return b.FindAt(dst, b.Head(fold(i)), i, n, fold, number)
}

// A Head is where the phrases that begin with some word go on.
type Head int32

// Head returns that of a word.
func (b *Book) Head(word string) Head { return Head(b.heads[word]) }

// FindAt is [Book.Find] for those who know the head of word i, since the same words come again and again.
func (b *Book) FindAt(dst []Match, head Head, i, n int, fold func(int) string, number func(int) bool) []Match {
	if head != 0 {
		dst = b.find(dst, int32(head), i, i+1, n, fold, number)
	}
	return b.findOthers(dst, 0, i, i, n, fold, number)
}

func (b *Book) find(dst []Match, at int32, first, i, n int, fold func(int) string, number func(int) bool) []Match {
	here := &b.nodes[at]
	dst = b.addMarks(dst, here.mark, first, i)
	if i >= n {
		return dst
	}
	if here.from < here.to {
		if c := b.after(here, fold(i)); c != 0 {
			dst = b.find(dst, c, first, i+1, n, fold, number)
		}
	}
	return b.findOthers(dst, at, first, i, n, fold, number)
}

// findOthers goes on from a node where any word, or any number, may stand.
func (b *Book) findOthers(dst []Match, at int32, first, i, n int, fold func(int) string, number func(int) bool) []Match {
	here := &b.nodes[at]
	if here.num != 0 && number(i) {
		dst = b.find(dst, here.num, first, i+1, n, fold, number)
	}
	if here.any != 0 {
		dst = b.find(dst, here.any, first, i+1, n, fold, number)
	}
	return dst
}

// after returns the node to which a word leads from node n, 0 for none.
func (b *Book) after(n *node, word string) int32 {
	id, ok := b.ids[word]
	if !ok {
		return 0
	}
	for _, s := range b.steps[n.from:n.to] {
		if s.word == id {
			return s.to
		}
	}
	return 0
}

// addMarks adds the phrases [first, last) that end with a mark, in the order in which they were read.
func (b *Book) addMarks(dst []Match, k int32, first, last int) []Match {
	if k == 0 {
		return dst
	}
	m := &b.marks[k-1]
	dst = b.addMarks(dst, m.before, first, last)
	return append(dst, Match{b.kinds[m.kind], first, last, m.weight})
}
