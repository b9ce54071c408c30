package segment

import "captally.example/captally/segment/topic"

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

func (x *text) newTopics(t topic.Tables) topics {
	words := make([]string, len(x.lexemes))
	text := make([]int32, len(x.w))
	for i := range x.w {
		w := &x.w[i]
		text[i] = w.lexeme
		words[w.lexeme] = w.fold
		if w.num >= 0 {
			words[w.lexeme] = topic.Number
		}
	}
	return topics{t.Sections.Of(words, text), t.Edges.Of(words, text)}
}

// edge returns what the words around the place before word i say for each thing beginning there, against nothing, in nats.
func (t *topics) edge(i int) (out [edges]float64) {
	t.edges.AddEdge(out[:], i)
	for k := edges - 1; k >= noEdge; k-- {
		out[k] -= out[noEdge]
	}
	return out
}
