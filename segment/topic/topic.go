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

// A Table weighs words and pairs of words. It does not change after it was read. What it holds lies in few pieces, since the garbage
// collector goes through all of them each time.
type Table struct {
	Classes []string
	ids     map[string]int32 // the numbers of its words
	alone   []rows           // by word
	leads   []bool           // by word: it begins a pair
	pairs   map[pair]int32   // places in paired
	paired  []rows
	weights []float64 // one for each class, row after row
}

// A pair is the numbers of two words.
type pair struct{ first, second int32 }

// rows are the rows of weights of a word or a pair by place, counted from 1; 0 for none.
type rows [places]int32

// New returns a table without words.
func New(classes ...string) *Table {
	return &Table{Classes: classes, ids: map[string]int32{}, pairs: map[pair]int32{}}
}

// Set gives a feature its weights: one for each class, in nats.
func (t *Table) Set(f Feature, w []float64) {
	t.weights = append(t.weights, w...)
	row := int32(len(t.weights) / len(t.Classes))
	first := t.id(f.First)
	if f.Second == "" {
		t.alone[first][f.Place] = row
		return
	}
	t.leads[first] = true
	both := pair{first, t.id(f.Second)}
	k, ok := t.pairs[both]
	if !ok {
		k = int32(len(t.paired))
		t.pairs[both] = k
		t.paired = append(t.paired, rows{})
	}
	t.paired[k][f.Place] = row
}

// id returns the number of a word, a new one if it has none.
func (t *Table) id(word string) int32 {
	id, ok := t.ids[word]
	if !ok {
		id = int32(len(t.alone))
		t.ids[word] = id
		t.alone, t.leads = append(t.alone, rows{}), append(t.leads, false)
	}
	return id
}

// row returns the weights of a row, nil for none.
func (t *Table) row(r int32) []float64 {
	if r == 0 {
		return nil
	}
	n := len(t.Classes)
	return t.weights[int(r-1)*n : int(r)*n]
}

// of returns the weights of a feature, nil for none.
func (t *Table) of(f Feature) []float64 {
	first, ok := t.ids[f.First]
	if f.Second == "" {
		if !ok {
			return nil
		}
		return t.row(t.alone[first][f.Place])
	}
	second, too := t.ids[f.Second]
	k, known := t.pairs[pair{first, second}]
	if !ok || !too || !known {
		return nil
	}
	return t.row(t.paired[k][f.Place])
}

// A Reading is what a table has on the words of one track, looked up once.
type Reading struct {
	*Table
	words []string // the different words
	text  []int32  // the track's words by their places among them
	known []int32  // beside the different words, their numbers in the table, -1 for none
	ends  []int32  // beside the text, the place in paired of the pair that each word ends, -1 for none
}

// Of looks up the words of a track. Each stands once or more in words, numbers as [Number]; text gives their places there, in the order of
// the track.
func (t *Table) Of(words []string, text []int32) *Reading {
	r := &Reading{t, words, text, make([]int32, len(words)), make([]int32, len(text))}
	for k, w := range words {
		id, ok := t.ids[w]
		if !ok {
			id = -1
		}
		r.known[k] = id
	}
	for i := range text {
		r.ends[i] = -1
		if i == 0 {
			continue
		}
		first, second := r.known[text[i-1]], r.known[text[i]]
		if first < 0 || second < 0 || !t.leads[first] {
			continue
		}
		if k, ok := t.pairs[pair{first, second}]; ok {
			r.ends[i] = k
		}
	}
	return r
}

// ofWord returns the row of a place for word i alone, and ofPair that for the pair that it ends; 0 for none.
func (r *Reading) ofWord(i int, place Place) int32 {
	if id := r.known[r.text[i]]; id >= 0 {
		return r.alone[id][place]
	}
	return 0
}

func (r *Reading) ofPair(i int, place Place) int32 {
	if k := r.ends[i]; k >= 0 {
		return r.paired[k][place]
	}
	return 0
}

// Add adds to dst, which has an element for each class, what word i says: the sum over [Features].
func (r *Reading) Add(dst []float64, i int) {
	plain := r.words[r.text[i]] != Number
	if plain {
		add(dst, r.row(r.ofWord(i, Here)))
	}
	if plain || i > 0 && r.words[r.text[i-1]] != Number {
		add(dst, r.row(r.ofPair(i, Here)))
	}
}

func add(dst, weights []float64) {
	for k, w := range weights {
		dst[k] += w
	}
}

// AddEdge adds to dst what the words around the place before word i say: the sum over [EdgeFeatures].
func (r *Reading) AddEdge(dst []float64, i int) {
	var seen [2*(wordsAhead+wordsBehind) + 2]int32 // features met, by their rows
	n := 0
	put := func(row int32) {
		if row == 0 || slices.Contains(seen[:n], row) {
			return
		}
		seen[n] = row
		n++
		add(dst, r.row(row))
	}
	window := func(place Place, from, to int) {
		for k := from; k < to; k++ {
			put(r.ofWord(k, place))
			if k > from {
				put(r.ofPair(k, place))
			}
		}
	}
	words := len(r.text)
	if i < words {
		put(r.ofWord(i, Next))
	}
	if i > 0 {
		put(r.ofWord(i-1, Last))
	}
	window(Ahead, i, min(i+wordsAhead, words))
	window(Behind, max(0, i-wordsBehind), i)
}

// Read reads a table. Errors name the file and the line.
func Read(r io.Reader, name string) (*Table, error) {
	text, err := io.ReadAll(r)
	if err != nil {
		return nil, err
	}
	t := New()
	var w []float64
	line := 0
	for s := range strings.Lines(string(text)) { // of which the words stay parts
		line++
		s, _, _ = strings.Cut(s, "#")
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
			w = w[:0]
			for _, field := range fields[:n] {
				v, err := strconv.ParseFloat(field, 64)
				if err != nil {
					return nil, fmt.Errorf("%s:%d: want a weight, found %q", name, line, field)
				}
				w = append(w, v)
			}
			f := parse(fields[n])
			if len(fields) > n+1 {
				f.Second = fields[n+1]
			}
			t.Set(f, w)
		}
	}
	return t, nil
}

// Write writes the table so that Read reads it again, words sorted, weights to two decimals.
func (t *Table) Write(w io.Writer) error {
	out := bufio.NewWriter(w)
	fmt.Fprintf(out, "classes: %s\n", strings.Join(t.Classes, " "))
	lines := make(map[string][]float64, len(t.alone))
	words := make([]string, len(t.alone))
	put := func(first, second string, at rows) {
		for place, row := range at {
			if row != 0 {
				lines[Feature{Place(place), first, second}.String()] = t.row(row)
			}
		}
	}
	for word, id := range t.ids {
		words[id] = word
		put(word, "", t.alone[id])
	}
	for both, k := range t.pairs {
		put(words[both.first], words[both.second], t.paired[k])
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
