package segment

import (
	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/topic"
)

// topics is what the words speak for by the fitted tables. Element i of sections sums up those before word i; element i of
// edges is what begins before word i, against nothing beginning there.
type topics struct {
	sections [][sections]float64
	edges    [][edges]float64
}

// What may begin between two words: the classes of the table of edges.
const (
	noEdge = iota
	warmEdge
	mainEdge // the warm-up is over
	coolEdge
	closeEdge
	restEdge
	talkEdge // between sets
	leadEdge // the announcement with which a set begins
	edges
)

func newTopics(tr *caption.Track, t topic.Tables) topics {
	words := topic.Words(tr)
	n := len(words) + 1
	out := topics{make([][sections]float64, n), make([][edges]float64, n)}
	for i := range words {
		out.sections[i+1] = out.sections[i]
		t.Sections.Add(out.sections[i+1][:], words, i)
	}
	for i := range out.edges {
		e := &out.edges[i]
		t.Edges.AddEdge(e[:], words, i)
		for k := edges - 1; k >= noEdge; k-- {
			e[k] -= e[noEdge]
		}
	}
	return out
}
