// Package topic weighs what words speak for: which part of a session they belong to, say.
//
// A table gives, for each of some classes, a weight to single words and to pairs of neighbours. The tables stand in text files
// beside this one and are written by a program (corpus/fit), since nobody would weigh a thousand words by hand.
//
// A file is line-based: "classes:" and the names of the classes, then on each line one weight for each class, in nats, and the
// word or the pair. "#" begins a comment.
package topic

import (
	"bufio"
	"embed"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"sync"

	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/numeral"
)

//go:embed *.txt
var files embed.FS

// A Table weighs words and pairs of words. It does not change after it was read.
type Table struct {
	Classes []string
	weights map[string][]float64
}

// New returns a table without words.
func New(classes ...string) *Table { return &Table{Classes: classes, weights: map[string][]float64{}} }

// Set gives a word, or two separated by a blank, its weights: one for each class, in nats. The table keeps the slice.
func (t *Table) Set(words string, weights []float64) { t.weights[words] = weights }

// Words returns the words of a track as tables know them: folded, every number as "<n>".
func Words(track *caption.Track) []string {
	out := make([]string, len(track.Words))
	for i := range track.Words {
		out[i] = track.Words[i].Fold
		if _, ok := numeral.Single(out[i]); ok {
			out[i] = number
		}
	}
	return out
}

// Add adds to dst, which has an element for each class, what word i says: alone, and with the word before it.
func (t *Table) Add(dst []float64, words []string, i int) { t.add(dst, Features(words, i)) }

// AddEdge adds to dst what the words around the place before word i say for something that begins there.
func (t *Table) AddEdge(dst []float64, words []string, i int) { t.add(dst, EdgeFeatures(words, i)) }

func (t *Table) add(dst []float64, features []string) {
	for _, f := range features {
		for k, w := range t.weights[f] {
			dst[k] += w
		}
	}
}

// Features returns what of word i may have a weight: the word, and the pair that it makes with the one before. Numbers alone have
// none, since counts speak for themselves.
func Features(words []string, i int) []string {
	var out []string
	if words[i] != number {
		out = append(out, words[i])
	}
	if i > 0 && (words[i] != number || words[i-1] != number) {
		out = append(out, words[i-1]+" "+words[i])
	}
	return out
}

// How many words around an edge are looked at.
const (
	edgeAhead = 8
	edgeBack  = 5
)

// EdgeFeatures returns what around the place before word i may have a weight, each once: the next words and pairs marked ">", the
// words and pairs before marked "<", and the very next and last word marked twice.
func EdgeFeatures(words []string, i int) []string {
	out := []string{}
	put := func(f string) {
		if !slices.Contains(out, f) {
			out = append(out, f)
		}
	}
	if i < len(words) {
		put(">>" + words[i])
	}
	if i > 0 {
		put("<<" + words[i-1])
	}
	for k := i; k < min(i+edgeAhead, len(words)); k++ {
		put(">" + words[k])
		if k > i {
			put(">" + words[k-1] + " " + words[k])
		}
	}
	for k := max(0, i-edgeBack); k < i; k++ {
		put("<" + words[k])
		if k > max(0, i-edgeBack) {
			put("<" + words[k-1] + " " + words[k])
		}
	}
	return out
}

const number = "<n>"

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
			t.Set(strings.Join(fields[n:], " "), w)
		}
	}
	return t, sc.Err()
}

// Write writes the table so that Read reads it again, words sorted, weights to two decimals.
func (t *Table) Write(w io.Writer) error {
	out := bufio.NewWriter(w)
	fmt.Fprintf(out, "classes: %s\n", strings.Join(t.Classes, " "))
	words := make([]string, 0, len(t.weights))
	for k := range t.weights {
		words = append(words, k)
	}
	slices.Sort(words)
	for _, k := range words {
		for _, v := range t.weights[k] {
			fmt.Fprintf(out, "%.2f ", v)
		}
		fmt.Fprintln(out, k)
	}
	return out.Flush()
}

// Len returns how many words and pairs have weights.
func (t *Table) Len() int { return len(t.weights) }

// Sections returns the built-in weights of the sections of a session.
func Sections() *Table { return sections() }

// Edges returns the built-in weights of what begins at a place between two words. Its first class is nothing.
func Edges() *Table { return edges() }

// Tables are the tables that a session is read with.
type Tables struct{ Sections, Edges *Table }

// Fitted returns the built-in tables.
func Fitted() Tables { return Tables{Sections(), Edges()} }

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
