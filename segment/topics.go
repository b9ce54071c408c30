package segment

import (
	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/topic"
)

// topics is what the words speak for by the fitted tables.
type topics struct {
	sections, edges *topic.Reading
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
	return topics{t.Sections.Of(words), t.Edges.Of(words)}
}

// edge returns what the words around the place before word i say for each thing beginning there, against nothing, in nats.
func (t *topics) edge(i int) (out [edges]float64) {
	t.edges.AddEdge(out[:], i)
	for k := edges - 1; k >= noEdge; k-- {
		out[k] -= out[noEdge]
	}
	return out
}
