// Package topic weighs what words speak for: which part of a session they belong to, say.
//
// A table gives, for each of some classes, a weight to single words and to pairs of neighbours. The tables stand in text files
// beside this one and are written by a program (corpus/fit), since nobody would weigh a thousand words by hand.
//
// A file is line-based: "classes:" and the names of the classes, then on each line one weight for each class, in nats, and the
// word or the pair. "#" begins a comment. Before a word, ">" means that it stands among the
// next words after a place, "<" among the last before it; doubled, that it is the very next or last. "0" is any number.
package topic

import (
	"bufio"
	"embed"
	"fmt"
	"io"
	"maps"
	"slices"
	"strconv"
	"strings"
	"sync"
)

//go:embed *.txt
var files embed.FS

// A Table weighs words and pairs of words. It does not change after it was read.
type Table struct {
	Classes []string
	words   map[string]*entry
}

// An entry is what a table has on a word, and on the pairs that it begins, by the second word.
type entry struct {
	alone weights
	pairs map[string]*weights
}

// weights are those of a word or a pair: for each place one for each class, nil for none.
type weights [places][]float64

// New returns a table without words.
func New(classes ...string) *Table {
	return &Table{Classes: classes, words: map[string]*entry{}}
}

// Set gives a feature its weights: one for each class, in nats. The table keeps the slice.
func (t *Table) Set(f Feature, w []float64) {
	e := t.words[f.First]
	if e == nil {
		e = &entry{}
		t.words[f.First] = e
	}
	if f.Second == "" {
		e.alone[f.Place] = w
		return
	}
	if e.pairs == nil {
		e.pairs = map[string]*weights{}
	}
	if e.pairs[f.Second] == nil {
		e.pairs[f.Second] = &weights{}
	}
	e.pairs[f.Second][f.Place] = w
}

// of returns the weights of a feature, nil for none.
func (t *Table) of(f Feature) []float64 {
	e := t.words[f.First]
	switch {
	case e == nil:
		return nil
	case f.Second == "":
		return e.alone[f.Place]
	case e.pairs[f.Second] == nil:
		return nil
	}
	return e.pairs[f.Second][f.Place]
}

// A Reading is what a table has on the words of one track, looked up once.
type Reading struct {
	words   []string   // the different words
	text    []int32    // the track's words by their places among them
	entries []*entry   // beside the different words, nil for nothing
	pairs   []*weights // beside the text, of the pair that each word ends, nil for nothing
}

// Of looks up the words of a track. Each stands once or more in words, numbers as [Number]; text gives their places there, in the order of
// the track.
func (t *Table) Of(words []string, text []int32) *Reading {
	r := &Reading{words, text, make([]*entry, len(words)), make([]*weights, len(text))}
	for k, w := range words {
		r.entries[k] = t.words[w]
	}
	for i := 1; i < len(text); i++ {
		if e := r.entries[text[i-1]]; e != nil && e.pairs != nil {
			r.pairs[i] = e.pairs[words[text[i]]]
		}
	}
	return r
}

// Add adds to dst, which has an element for each class, what word i says: the sum over [Features].
func (r *Reading) Add(dst []float64, i int) {
	plain := r.words[r.text[i]] != Number
	if e := r.entries[r.text[i]]; e != nil && plain {
		add(dst, e.alone[Here])
	}
	if p := r.pairs[i]; p != nil && (plain || r.words[r.text[i-1]] != Number) {
		add(dst, p[Here])
	}
}

func add(dst, weights []float64) {
	for k, w := range weights {
		dst[k] += w
	}
}

// AddEdge adds to dst what the words around the place before word i say: the sum over [EdgeFeatures].
func (r *Reading) AddEdge(dst []float64, i int) {
	var seen [2*(wordsAhead+wordsBehind) + 2]*float64 // features met, by their weights
	n := 0
	put := func(w []float64) {
		if w == nil || slices.Contains(seen[:n], &w[0]) {
			return
		}
		seen[n] = &w[0]
		n++
		add(dst, w)
	}
	alone := func(k int, place Place) {
		if e := r.entries[r.text[k]]; e != nil {
			put(e.alone[place])
		}
	}
	window := func(place Place, from, to int) {
		for k := from; k < to; k++ {
			alone(k, place)
			if k > from && r.pairs[k] != nil {
				put(r.pairs[k][place])
			}
		}
	}
	words := len(r.text)
	if i < words {
		alone(i, Next)
	}
	if i > 0 {
		alone(i-1, Last)
	}
	window(Ahead, i, min(i+wordsAhead, words))
	window(Behind, max(0, i-wordsBehind), i)
}

// Read reads a table. Errors name the file and the line.
func Read(r io.Reader, name string) (*Table, error) {
	t := New()
	sc := bufio.NewScanner(r)
	for line := 1; sc.Scan(); line++ {
		s, _, _ := strings.Cut(sc.Text(), "#")
		fields := strings.Fields(s)
		n := len(t.Classes)
		switch {
		case len(fields) == 0:
		case fields[0] == "classes:":
			t.Classes = fields[1:]
		case n == 0:
			return nil, fmt.Errorf("%s:%d: want \"classes:\" before the first word", name, line)
		case len(fields) < n+1 || len(fields) > n+2:
			return nil, fmt.Errorf("%s:%d: want %d weights and one word or two, found %d fields", name, line, n, len(fields))
		default:
			w := make([]float64, n)
			for k := range w {
				v, err := strconv.ParseFloat(fields[k], 64)
				if err != nil {
					return nil, fmt.Errorf("%s:%d: want a weight, found %q", name, line, fields[k])
				}
				w[k] = v
			}
			t.Set(parse(strings.Join(fields[n:], " ")), w)
		}
	}
	return t, sc.Err()
}

// Write writes the table so that Read reads it again, words sorted, weights to two decimals.
func (t *Table) Write(w io.Writer) error {
	out := bufio.NewWriter(w)
	fmt.Fprintf(out, "classes: %s\n", strings.Join(t.Classes, " "))
	lines := make(map[string][]float64, len(t.words))
	put := func(first, second string, at *weights) {
		for place, w := range at {
			if w != nil {
				lines[Feature{Place(place), first, second}.String()] = w
			}
		}
	}
	for first, e := range t.words {
		put(first, "", &e.alone)
		for second, at := range e.pairs {
			put(first, second, at)
		}
	}
	for _, f := range slices.Sorted(maps.Keys(lines)) {
		for _, v := range lines[f] {
			fmt.Fprintf(out, "%.2f ", v)
		}
		fmt.Fprintln(out, f)
	}
	return out.Flush()
}

// Tables are the tables that a session is read with.
type Tables struct{ Sections, Edges *Table }

// Fitted returns the built-in tables: what words speak for being in a section of a session, and for what begins at a place between two
// words. The first class of edges is nothing.
func Fitted() Tables { return Tables{sections(), edges()} }

var (
	sections = sync.OnceValue(func() *Table { return load("sections.txt") })
	edges    = sync.OnceValue(func() *Table { return load("edges.txt") })
)

// load reads a built-in table; it panics on a fault, since the file is part of the program and its test reads it.
func load(name string) *Table {
	f, err := files.Open(name)
	if err != nil {
		panic(err)
	}
	defer f.Close()
	t, err := Read(f, name)
	if err != nil {
		panic(err)
	}
	return t
}
