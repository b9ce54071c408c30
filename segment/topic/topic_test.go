package topic

import (
	"math"
	"strings"
	"testing"
)

func TestReadWrite(t *testing.T) {
	const in = "classes: a b\n0.50 -0.25 <<stop\n1.00 0.00 >knee lift\n0.10 0.20 march\n"
	table, err := Read(strings.NewReader("# a comment\n\n"+in), "x.txt")
	if err != nil {
		t.Fatal(err)
	}
	var out strings.Builder
	if err := table.Write(&out); err != nil {
		t.Fatal(err)
	}
	if out.String() != in {
		t.Errorf("wrote\n%s, want\n%s", out.String(), in)
	}
	if w := table.of(Feature{Ahead, "knee", "lift"}); len(w) != 2 || w[0] != 1 {
		t.Errorf("the pair ahead weighs %v, want [1 0]", w)
	}
}

func TestReadErrors(t *testing.T) {
	for in, want := range map[string]string{
		"0.5 march\n":                     `x.txt:1: want "classes:"`,
		"classes: a b\n\n0.5 march\n":     "x.txt:3: want 2 weights",
		"classes: a b\n0.5 x march\n":     `x.txt:2: want a weight, found "x"`,
		"classes: a\n0.5 one two three\n": "x.txt:2: want 1 weights",
	} {
		if _, err := Read(strings.NewReader(in), "x.txt"); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%q: got %v, want %s...", in, err, want)
		}
	}
}

// The windows share their look-ups; that must give what looking up every feature of every place gives.
func TestEdgesAreSumsOfTheirFeatures(t *testing.T) {
	words := strings.Fields("and rest now rest 0 seconds and rest now drink up and rest then next the next one is the squat and rest")
	table := New("a", "b")
	n := 0.0
	for i := range words {
		for _, f := range EdgeFeatures(words, i) {
			if table.of(f) == nil && int(n)%3 != 1 {
				table.Set(f, []float64{math.Sin(n), math.Cos(n)})
			}
			n++
		}
	}
	text := make([]int32, len(words))
	for i := range text {
		text[i] = int32(i)
	}
	r := table.Of(words, text)
	for i := 0; i <= len(words); i++ {
		got, want := make([]float64, 2), make([]float64, 2)
		r.AddEdge(got, i)
		for _, f := range EdgeFeatures(words, i) {
			add(want, table.of(f))
		}
		for k := range want {
			if math.Abs(got[k]-want[k]) > 1e-9 {
				t.Errorf("before word %d: class %s weighs %g, want %g", i, table.Classes[k], got[k], want[k])
			}
		}
	}
}

func TestFittedTables(t *testing.T) {
	for name, c := range map[string]struct {
		table         *Table
		classes, word string
		class         int
	}{
		"sections": {Fitted().Sections, "opening warm-up main cool-down closing", "stretch", 3},
		"edges":    {Fitted().Edges, "none warm-up main cool-down closing rest talk lead", ">rest", 5},
	} {
		if got := strings.Join(c.table.Classes, " "); got != c.classes {
			t.Errorf("%s: classes %q, want %q", name, got, c.classes)
		}
		w := c.table.of(parse(c.word))
		if len(w) == 0 || w[c.class] <= 0 {
			t.Errorf("%s: %q weighs %v, want more than 0 for %s", name, c.word, w, c.table.Classes[c.class])
		}
	}
}
