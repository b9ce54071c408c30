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
	weights map[Feature][]float64
}

// New returns a table without words.
func New(classes ...string) *Table { return &Table{Classes: classes, weights: map[Feature][]float64{}} }

// Set gives a feature its weights: one for each class, in nats. The table keeps the slice.
func (t *Table) Set(f Feature, weights []float64) { t.weights[f] = weights }

// Add adds to dst, which has an element for each class, what word i says: alone, and with the word before it.
func (t *Table) Add(dst []float64, words []string, i int) {
	for _, f := range Features(words, i) {
		add(dst, t.weights[f])
	}
}

func add(dst, weights []float64) {
	for k, w := range weights {
		dst[k] += w
	}
}

// Edges weighs what begins at the places between the words of one track.
type Edges struct {
	at [][]weighted // for each word, what of it has weights
}

// A weighted feature of a word: a single word, or the pair that the word ends.
type weighted struct {
	place   Place
	pair    bool
	weights []float64
}

// Edges looks up the words once, since the windows around the places overlap.
func (t *Table) Edges(words []string) *Edges {
	e := &Edges{make([][]weighted, len(words))}
	for i, w := range words {
		put := func(place Place, first, second string) {
			if v := t.weights[Feature{place, first, second}]; v != nil {
				e.at[i] = append(e.at[i], weighted{place, second != "", v})
			}
		}
		for place := Ahead; place <= Last; place++ {
			put(place, w, "")
		}
		if i > 0 {
			put(Ahead, words[i-1], w)
			put(Behind, words[i-1], w)
		}
	}
	return e
}

// Add adds to dst what the words around the place before word i say: the sum over [EdgeFeatures].
func (e *Edges) Add(dst []float64, i int) {
	var seen [2*(wordsAhead+wordsBehind) + 2]*float64 // features met, by their weights
	n := 0
	window := func(place Place, from, to int) {
		for k := from; k < to; k++ {
			for _, f := range e.at[k] {
				if f.place != place || f.pair && k == from || slices.Contains(seen[:n], &f.weights[0]) {
					continue
				}
				seen[n] = &f.weights[0]
				n++
				add(dst, f.weights)
			}
		}
	}
	if i < len(e.at) {
		window(Next, i, i+1)
	}
	if i > 0 {
		window(Last, i-1, i)
	}
	window(Ahead, i, min(i+wordsAhead, len(e.at)))
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
	for f, w := range t.weights {
		lines[f.String()] = w
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
