package main

import (
	"strings"
	"testing"

	"captally.example/captally/corpus"
	"captally.example/captally/segment/topic"
)

// Words that only one class has must speak for it, words that all have for none, words of few sessions not at all;
// and the same examples must give the same table.
func TestFit(t *testing.T) {
	word := func(s ...string) (out []topic.Feature) {
		for _, w := range s {
			out = append(out, topic.Feature{First: w})
		}
		return out
	}
	var all []*labelled
	for _, name := range []string{"a", "b", "c", "d"} {
		l := &labelled{Session: &corpus.Session{Name: name}}
		l.sections = []example{{word("hello", "and"), 0}, {word("stretch", "and"), 1}}
		if name == "a" {
			l.sections = append(l.sections, example{word("rare"), 1})
		}
		all = append(all, l)
	}
	table := func(without string) *topic.Table {
		return fit(all, without, []string{"first", "second"}, sparing{3, 0.003}, func(l *labelled) []example { return l.sections })
	}
	weigh := func(tab *topic.Table, w string) float64 {
		dst := make([]float64, 2)
		tab.Of([]string{w}, []int32{0}).Add(dst, 0)
		return dst[0] - dst[1]
	}
	full := table("")
	if h, s := weigh(full, "hello"), weigh(full, "stretch"); h < 0.5 || s > -0.5 {
		t.Errorf("hello speaks for the first class by %.2f, stretch by %.2f; want more than 0.5 and less than -0.5", h, s)
	}
	if v := weigh(full, "and"); v > 0.3 || v < -0.3 {
		t.Errorf("a word of both classes speaks by %.2f", v)
	}
	if v := weigh(full, "rare"); v != 0 {
		t.Errorf("a word of one session speaks by %.2f", v)
	}
	var first, second, left strings.Builder
	for _, w := range []struct {
		to  *strings.Builder
		tab *topic.Table
	}{{&first, full}, {&second, table("")}, {&left, table("b")}} {
		if err := w.tab.Write(w.to); err != nil {
			t.Fatal(err)
		}
	}
	if first.String() != second.String() {
		t.Error("the same examples gave two tables")
	}
	if first.String() == left.String() {
		t.Error("leaving a session out changed nothing")
	}
}
