package announce_test

import (
	"flag"
	"fmt"
	"hash/fnv"
	"os"
	"testing"

	"captally.example/captally/corpus"
	"captally.example/captally/segment"
	"captally.example/captally/segment/announce"
	"captally.example/captally/segment/caption"
)

var fitSides = flag.Bool("fit", false, "fit the weights of sides on the labelled sessions and write sidefitted.go")

// folds is how many parts of the sessions are held out in turn.
const folds = 7

// TestFitSides fits the weights, and tells how many sides are right of sessions that were held out.
func TestFitSides(t *testing.T) {
	if !*fitSides {
		t.Skip("only with -fit")
	}
	var names []string
	lessons := map[string][]announce.SideLesson{}
	for _, c := range []struct {
		name     string
		sessions []corpus.Session
	}{{"sessions", corpus.Sessions()}, {"more", corpus.More()}, {"recognised", corpus.Recognised()}, {"more-recognised", corpus.MoreRecognised()}} {
		names = append(names, c.name)
		for _, s := range c.sessions {
			for _, f := range []corpus.File{s.Word, s.Cue, s.Block} {
				lessons[c.name] = append(lessons[c.name], foundLesson(t, s, f))
			}
		}
	}
	var all []announce.SideLesson
	for _, n := range names {
		all = append(all, lessons[n]...)
	}
	inFold := func(session string, k int) bool {
		h := fnv.New32()
		h.Write([]byte(session))
		return int(h.Sum32()%folds) == k
	}
	right := map[string]*share{}
	for k := range folds {
		var known []announce.SideLesson
		for _, l := range all {
			if !inFold(l.Session, k) {
				known = append(known, l)
			}
		}
		w := announce.FitSides(known)
		for _, n := range names {
			if right[n] == nil {
				right[n] = &share{}
			}
			for _, l := range lessons[n] {
				if inFold(l.Session, k) {
					r, a := l.Right(w)
					right[n].right += r
					right[n].all += a
				}
			}
		}
	}
	w := announce.FitSides(all)
	held := ""
	for _, n := range names {
		in := share{}
		for _, l := range lessons[n] {
			r, a := l.Right(w)
			in.right += r
			in.all += a
		}
		t.Logf("%s: held out %.3f, fitted %.3f of %d", n, right[n].part(), in.part(), in.all)
		if held += fmt.Sprintf(", %s %.3f", n, right[n].part()); n == names[0] {
			held = held[2:]
		}
	}
	if err := os.WriteFile("sidefitted.go", []byte(announce.SideTable(w, "go test ./segment/announce -run FitSides -fit", held)), 0o644); err != nil {
		t.Fatal(err)
	}
}

// foundLesson takes the sets that are found in a file and the sides of those of the truth that they share two fifths of their time with.
func foundLesson(t *testing.T, s corpus.Session, f corpus.File) announce.SideLesson {
	t.Helper()
	track, err := caption.Parse(f.Data, f.Name, caption.Options{})
	if err != nil {
		t.Fatal(err)
	}
	session := segment.Decode(track)
	spans := make([]announce.SetSpan, len(session.Sets))
	sides := make([]announce.BodySide, len(session.Sets))
	for i := range session.Sets {
		set := &session.Sets[i]
		a, b := set.Start.At.Seconds(), set.End.At.Seconds()
		span := announce.SetSpan{First: wordAt(track, a), Last: max(wordAt(track, b+0.1), wordAt(track, a)+1), Timed: !set.Counted, Balance: set.Kind == segment.Balance,
			Exercise: set.Exercise.Text, Count: set.Reps, Seconds: set.Performed.Value}
		for _, n := range set.Count {
			if n.Word >= 0 {
				if set.Count[0].Word == n.Word {
					span.First = n.Word
				}
				span.Last = max(span.First+1, n.Word+1)
			}
		}
		if i > 0 {
			span.First = max(span.First, spans[i-1].Last)
			span.Last = max(span.Last, span.First+1)
		}
		spans[i] = span
		for _, q := range s.Truth.Sets {
			from := q.Start
			if q.Go != nil {
				from = *q.Go
			}
			if both := min(b, q.End) - max(a, from); both > 0.4*(max(b, q.End)-min(a, from)) {
				sides[i] = sideNamed(q.Side)
			}
		}
	}
	return announce.NewSideLesson(s.Name, track, spans, sides)
}

func sideNamed(name string) announce.BodySide {
	for s := announce.Left; s <= announce.Alternate; s++ {
		if s.String() == name {
			return s
		}
	}
	return announce.Both
}
