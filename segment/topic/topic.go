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
	weights map[[2]string]*[places][]float64 // by the words of a feature
}

// New returns a table without words.
func New(classes ...string) *Table {
	return &Table{Classes: classes, weights: map[[2]string]*[places][]float64{}}
}

// Set gives a feature its weights: one for each class, in nats. The table keeps the slice.
func (t *Table) Set(f Feature, weights []float64) {
	key := [2]string{f.First, f.Second}
	if t.weights[key] == nil {
		t.weights[key] = new([places][]float64)
	}
	t.weights[key][f.Place] = weights
}

// of returns the weights of a feature, nil for none.
func (t *Table) of(f Feature) []float64 {
	if w := t.weights[[2]string{f.First, f.Second}]; w != nil {
		return w[f.Place]
	}
	return nil
}

// Add adds to dst, which has an element for each class, what word i says: the sum over [Features].
func (t *Table) Add(dst []float64, words []string, i int) {
	if w := t.weights[[2]string{words[i], ""}]; w != nil && words[i] != number {
		add(dst, w[Here])
	}
	if i == 0 || words[i] == number && words[i-1] == number {
		return
	}
	if w := t.weights[[2]string{words[i-1], words[i]}]; w != nil {
		add(dst, w[Here])
	}
}

func add(dst, weights []float64) {
	for k, w := range weights {
		dst[k] += w
	}
}

// Edges weighs what begins at the places between the words of one track.
type Edges struct {
	all   []weighted // what has weights, word by word
	first []int32    // where that of each word begins, and one more
}

// A weighted feature of a word: a single word, or the pair that the word ends.
type weighted struct {
	place   Place
	pair    bool
	weights []float64
}

// Edges looks up the words once, since the windows around the places overlap.
func (t *Table) Edges(words []string) *Edges {
	e := &Edges{all: make([]weighted, 0, 3*len(words)), first: make([]int32, 0, len(words)+1)}
	put := func(first, second string, from, to Place) {
		w := t.weights[[2]string{first, second}]
		for place := from; w != nil && place <= to; place++ {
			if w[place] != nil {
				e.all = append(e.all, weighted{place, second != "", w[place]})
			}
		}
	}
	for i, w := range words {
		e.first = append(e.first, int32(len(e.all)))
		put(w, "", Ahead, Last)
		if i > 0 {
			put(words[i-1], w, Ahead, Behind)
		}
	}
	e.first = append(e.first, int32(len(e.all)))
	return e
}

// Add adds to dst what the words around the place before word i say: the sum over [EdgeFeatures].
func (e *Edges) Add(dst []float64, i int) {
	var seen [2*(wordsAhead+wordsBehind) + 2]*float64 // features met, by their weights
	n, words := 0, len(e.first)-1
	window := func(place Place, from, to int) {
		for k := from; k < to; k++ {
			for _, f := range e.all[e.first[k]:e.first[k+1]] {
				if f.place != place || f.pair && k == from || slices.Contains(seen[:n], &f.weights[0]) {
					continue
				}
				seen[n] = &f.weights[0]
				n++
				add(dst, f.weights)
			}
		}
	}
	if i < words {
		window(Next, i, i+1)
	}
	if i > 0 {
		window(Last, i-1, i)
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
	lines := make(map[string][]float64, len(t.weights))
	for words, at := range t.weights {
		for place, w := range at {
			if w != nil {
				lines[Feature{Place(place), words[0], words[1]}.String()] = w
			}
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
