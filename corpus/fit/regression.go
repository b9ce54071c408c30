package main

import (
	"math"
	"slices"

	"captally.example/captally/segment/topic"
)

// Multinomial logistic regression with a ridge, by stochastic descent with a step of its own for each weight
// (Duchi, Hazan, Singer 2011, J Mach Learn Res 12:2121-59).
const (
	rounds     = 30 // times through the examples
	stepSize   = 0.15
	negligible = 0.25 // weights all below this are not written, nats
)

// A sparing says how little a table may learn from one session.
type sparing struct {
	leastSessions int     // a word or pair that fewer sessions have is left out
	ridge         float64 // of each weight, per example
}

var (
	sectionSparing = sparing{4, 0.003}
	edgeSparing    = sparing{6, 0.010}
)

// fitAll fits the tables on all sessions but the one named.
func fitAll(all []*labelled, without string) topic.Tables {
	known := topic.Fitted()
	return topic.Tables{
		Sections: fit(all, without, known.Sections.Classes, sectionSparing, func(l *labelled) []example { return l.sections }),
		Edges:    fit(all, without, known.Edges.Classes, edgeSparing, func(l *labelled) []example { return l.edges }),
	}
}

// A row is an example with its features as numbers.
type row struct {
	features []int
	class    int
	weight   float64
}

func fit(all []*labelled, without string, classes []string, by sparing, of func(*labelled) []example) *topic.Table {
	names, index := vocabulary(all, without, by.leastSessions, of)
	rows := rowsOf(all, without, len(classes), index, of)
	k := len(classes)
	w := make([]float64, k*(len(names)+1)) // the last is each class's own
	sq := make([]float64, len(w))
	score := make([]float64, k)
	for range rounds {
		for _, r := range rows {
			copy(score, w[k*len(names):])
			for _, f := range r.features {
				for c := range k {
					score[c] += w[f*k+c]
				}
			}
			softmax(score)
			score[r.class]--
			for _, f := range append(r.features, len(names)) {
				for c := range k {
					i := f*k + c
					g := float64(r.weight*score[c]) + float64(by.ridge*r.weight*w[i])
					sq[i] += g * g
					if sq[i] > 0 {
						w[i] -= stepSize * g / math.Sqrt(sq[i])
					}
				}
			}
		}
	}
	t := topic.New(classes...)
	for f, name := range names {
		own := slices.Clone(w[f*k : f*k+k])
		most := 0.0
		for _, v := range own {
			most = math.Max(most, math.Abs(v))
		}
		if most > negligible {
			t.Set(name, own)
		}
	}
	return t
}

// vocabulary numbers the words and pairs that enough sessions have, in order of their first appearance.
func vocabulary(all []*labelled, without string, least int, of func(*labelled) []example) ([]topic.Feature, map[topic.Feature]int) {
	seen := map[topic.Feature]map[string]bool{}
	var order []topic.Feature
	for _, l := range all {
		if l.Name == without {
			continue
		}
		for _, e := range of(l) {
			for _, f := range e.features {
				if seen[f] == nil {
					seen[f] = map[string]bool{}
					order = append(order, f)
				}
				seen[f][l.Name] = true
			}
		}
	}
	var names []topic.Feature
	index := map[topic.Feature]int{}
	for _, f := range order {
		if len(seen[f]) >= least {
			index[f] = len(names)
			names = append(names, f)
		}
	}
	return names, index
}

// rowsOf spreads the examples of the sessions among each other, and gives each class of each session the same weight in all.
func rowsOf(all []*labelled, without string, classes int, index map[topic.Feature]int, of func(*labelled) []example) []row {
	var out []row
	for _, l := range all {
		if l.Name == without {
			continue
		}
		size := make([]float64, classes)
		for _, e := range of(l) {
			size[e.class]++
		}
		for _, e := range of(l) {
			r := row{class: e.class, weight: 10 / size[e.class]}
			for _, f := range e.features {
				if i, ok := index[f]; ok {
					r.features = append(r.features, i)
				}
			}
			out = append(out, r)
		}
	}
	mixed := make([]row, len(out))
	const stride = 7919 // a prime: every example comes once
	for i := range out {
		mixed[i] = out[i*stride%len(out)]
	}
	return mixed
}

// softmax turns scores into probabilities, in place.
func softmax(s []float64) {
	top := slices.Max(s)
	sum := 0.0
	for i := range s {
		s[i] = math.Exp(s[i] - top)
		sum += s[i]
	}
	for i := range s {
		s[i] /= sum
	}
}
