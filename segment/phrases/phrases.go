// Package phrases holds the cue phrases of a session as data and finds them in words.
//
// A phrase file is line-based: "[kind]" opens the phrases of one kind; every other line is a weight in (0, 1],
// blanks, and the phrase in folded words. "#" begins a comment. In a phrase, "_" stands for any one word and "<n>" for any one
// number word. The weight is how surely the words mean the kind: 1 where they hardly ever mean anything else.
package phrases

import (
	"bufio"
	"embed"
	"fmt"
	"io"
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

// A Book is a set of phrases, ready to be searched for. It does not change after it was read.
type Book struct{ root *node }

type node struct {
	next  map[string]*node
	any   *node // "_"
	num   *node // "<n>"
	marks []mark
}

type mark struct {
	kind   Kind
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
	b := &Book{root: &node{}}
	sc := bufio.NewScanner(r)
	var kind Kind
	for line := 1; sc.Scan(); line++ {
		s, _, _ := strings.Cut(sc.Text(), "#")
		s = strings.TrimSpace(s)
		if s == "" {
			continue
		}
		if strings.HasPrefix(s, "[") && strings.HasSuffix(s, "]") {
			kind = Kind(s[1 : len(s)-1])
			continue
		}
		w, phrase, _ := strings.Cut(s, " ")
		weight, err := strconv.ParseFloat(w, 64)
		words := strings.Fields(phrase)
		switch {
		case kind == "":
			return nil, fmt.Errorf("%s:%d: phrase before any [kind]", name, line)
		case err != nil || weight <= 0 || weight > 1:
			return nil, fmt.Errorf("%s:%d: want a weight above 0 and at most 1 before the phrase, found %q", name, line, w)
		case len(words) == 0:
			return nil, fmt.Errorf("%s:%d: no words after the weight", name, line)
		}
		b.add(words, mark{kind, weight})
	}
	return b, sc.Err()
}

func (b *Book) add(words []string, m mark) {
	n := b.root
	for _, w := range words {
		n = n.child(w)
	}
	n.marks = append(n.marks, m)
}

func (n *node) child(w string) *node {
	var at **node
	switch w {
	case "_":
		at = &n.any
	case "<n>":
		at = &n.num
	default:
		c := n.next[w]
		if c == nil {
			if n.next == nil {
				n.next = map[string]*node{}
			}
			c = &node{}
			n.next[w] = c
		}
		return c
	}
	if *at == nil {
		*at = &node{}
	}
	return *at
}

// Find returns every phrase that begins at word i of n words. fold gives a word's folded text and number whether it is a
// number. Longer phrases come after shorter ones.
func (b *Book) Find(dst []Match, i, n int, fold func(int) string, number func(int) bool) []Match {
	return find(dst, b.root, i, i, n, fold, number)
}

func find(dst []Match, at *node, first, i, n int, fold func(int) string, number func(int) bool) []Match {
	for _, m := range at.marks {
		dst = append(dst, Match{m.kind, first, i, m.weight})
	}
	if i >= n {
		return dst
	}
	if c := at.next[fold(i)]; c != nil {
		dst = find(dst, c, first, i+1, n, fold, number)
	}
	if at.num != nil && number(i) {
		dst = find(dst, at.num, first, i+1, n, fold, number)
	}
	if at.any != nil {
		dst = find(dst, at.any, first, i+1, n, fold, number)
	}
	return dst
}
