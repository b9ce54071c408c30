package settle

import (
	"math"
	"sort"

	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// shortestRest is the shortest pause between sets that counts as a rest, in seconds; what is shorter is talk. (Common practice, no
// source.)
const shortestRest = 4.0

const none = -1

// A part is a phase with the set or the rest that it holds.
type part struct {
	segment.Phase
	rest *segment.Pause // nil for none
	set  *segment.Set   // nil for none
}

// An editor holds a copy of a session while decisions are put on it.
type editor struct {
	session *segment.Session
	parts   []part
	numbers map[*segment.Set]bool // whose number a person gave
	doses   map[*segment.Set]bool
	sets    []*segment.Set
}

// edit copies the parts of a session that decisions change.
func edit(s *segment.Session) *editor {
	copied := *s
	e := &editor{session: &copied, numbers: map[*segment.Set]bool{}, doses: map[*segment.Set]bool{}}
	for i := range s.Sets {
		set := s.Sets[i]
		e.sets = append(e.sets, &set)
	}
	rests := make([]*segment.Pause, len(s.Rests))
	for i := range s.Rests {
		rest := s.Rests[i]
		rests[i] = &rest
	}
	for _, p := range s.Phases {
		e.parts = append(e.parts, part{Phase: p})
	}
	for _, r := range rests {
		if i := e.holding(segment.Rest, r.Span); i != none {
			e.parts[i].rest = r
		}
	}
	for _, set := range e.sets {
		if i := e.holding(set.Kind, set.Span); i != none && ofSet(set.Kind) {
			e.parts[i].set = set
		}
	}
	return e
}

// holding returns the phase of a kind that overlaps a span most and holds nothing yet, none where there is none.
func (e *editor) holding(k segment.Kind, s segment.Span) int {
	best, most := none, caption.Time(0)
	for i := range e.parts {
		p := &e.parts[i]
		if both := min(p.End, s.End.At) - max(p.Start, s.Start.At); p.Kind == k && p.rest == nil && p.set == nil && both > most {
			best, most = i, both
		}
	}
	return best
}

// finish writes what was edited back into the copy.
func (e *editor) finish() {
	s := e.session
	sort.SliceStable(e.sets, func(i, j int) bool { return e.sets[i].Start.At < e.sets[j].Start.At })
	s.Sets, s.Rests, s.Phases = nil, nil, nil
	for _, set := range e.sets {
		s.Sets = append(s.Sets, *set)
	}
	for _, p := range e.parts {
		s.Phases = append(s.Phases, p.Phase)
		if p.rest != nil {
			s.Rests = append(s.Rests, *p.rest)
		}
	}
}

// indices returns which of the sets are marked, by their place in the finished session.
func (e *editor) indices(marked map[*segment.Set]bool) map[int]bool {
	out := map[int]bool{}
	for i, set := range e.sets {
		if marked[set] {
			out[i] = true
		}
	}
	return out
}

// exactly is a time that a person gave.
func exactly(t caption.Time) caption.Spread {
	return caption.Spread{At: t, Low: t, High: t, From: caption.OnWord}
}

// between returns the length of a span with its limits, whose errors are taken as independent.
func between(s segment.Span) segment.Length {
	length := (s.End.At - s.Start.At).Seconds()
	low := math.Hypot((s.End.At - s.End.Low).Seconds(), (s.Start.High - s.Start.At).Seconds())
	high := math.Hypot((s.End.High - s.End.At).Seconds(), (s.Start.At - s.Start.Low).Seconds())
	return segment.Length{Value: length, Low: math.Max(0, length-low), High: length + high}
}

// moveStart and moveEnd move one edge of a part; a rest in it follows, and a set that would stand out.
func (p *part) moveStart(t caption.Time) {
	p.Start = t
	if p.set != nil && p.set.Start.At < t {
		startSet(p.set, t)
	}
	if p.rest != nil {
		p.rest = &segment.Pause{Span: segment.Span{Start: exactly(t), End: p.rest.End}, Announced: p.rest.Announced, At: p.rest.At, TimeCues: p.rest.TimeCues}
		p.rest.Length = between(p.rest.Span)
	}
}

func (p *part) moveEnd(t caption.Time) {
	p.End = t
	if p.set != nil && p.set.End.At > t {
		endSet(p.set, t)
	}
	if p.rest != nil {
		p.rest = &segment.Pause{Span: segment.Span{Start: p.rest.Start, End: exactly(t)}, Announced: p.rest.Announced, At: p.rest.At, TimeCues: cuesBefore(p.rest.TimeCues, t)}
		p.rest.Length = between(p.rest.Span)
	}
}

// cuesBefore returns the remarks on the time left that were made before t, with what was then really left.
func cuesBefore(cues []segment.TimeCue, t caption.Time) []segment.TimeCue {
	var out []segment.TimeCue
	for _, c := range cues {
		if c.At.At < t {
			c.Actual = (t - c.At.At).Seconds()
			out = append(out, c)
		}
	}
	return out
}

// cuesAfter returns those that were made at t or later.
func cuesAfter(cues []segment.TimeCue, t caption.Time) []segment.TimeCue {
	var out []segment.TimeCue
	for _, c := range cues {
		if c.At.At >= t {
			out = append(out, c)
		}
	}
	return out
}

// carve makes room for a phase in [from,to): what lies there is cut back, cut in two, or gone. It returns where the phase belongs.
func (e *editor) carve(from, to caption.Time) int {
	var out []part
	at := none
	for _, p := range e.parts {
		if p.End <= from {
			out = append(out, p)
			continue
		}
		if p.Start < from {
			out = append(out, p.before(from))
		}
		if at == none {
			at = len(out)
		}
		switch {
		case p.Start >= to:
			out = append(out, p)
		case p.End > to:
			out = append(out, p.after(to, p.Start < from))
		}
	}
	if at == none {
		at = len(out)
	}
	e.parts = out
	return at
}

// before returns what is left of a part before t.
func (p part) before(t caption.Time) part {
	if p.set != nil && p.set.Start.At >= t {
		p = p.asTalk()
	}
	p.moveEnd(t)
	return p.restOrTalk()
}

// after returns what is left of a part from t on; second says that something of it is left before, too, which keeps what was
// announced for a rest.
func (p part) after(t caption.Time, second bool) part {
	if p.set != nil && p.set.End.At <= t {
		p = p.asTalk()
	}
	cues := []segment.TimeCue(nil)
	if p.rest != nil {
		cues = cuesAfter(p.rest.TimeCues, t)
	}
	p.moveStart(t)
	if p.rest != nil && second {
		p.rest.Announced, p.rest.At, p.rest.TimeCues = 0, 0, cues
	}
	return p.restOrTalk()
}

func (p part) asTalk() part {
	p.Kind, p.Label, p.set, p.rest, p.Confidence = segment.Talk, "", nil, nil, 1
	return p
}

// restOrTalk makes talk of a rest that is too short to be one.
func (p part) restOrTalk() part {
	if p.Kind == segment.Rest && (p.End-p.Start).Seconds() < shortestRest {
		return p.asTalk()
	}
	return p
}

// insert puts a phase into the room that was made for it at i.
func (e *editor) insert(i int, p part) {
	e.parts = append(e.parts[:i:i], append([]part{p}, e.parts[i:]...)...)
}

// tidy joins phases that are one, and drops what has no length. Phases of sets stay apart.
func (e *editor) tidy() {
	var out []part
	for _, p := range e.parts {
		if p.End <= p.Start {
			continue
		}
		if n := len(out); n > 0 && out[n-1].Kind == p.Kind && (p.Kind == segment.Talk || p.Kind == segment.WarmUp || p.Kind == segment.CoolDown) {
			last := &out[n-1]
			a, b := (last.End - last.Start).Seconds(), (p.End - p.Start).Seconds()
			last.Confidence = (float64(last.Confidence*a) + float64(p.Confidence*b)) / (a + b)
			last.End = p.End
			continue
		}
		out = append(out, p)
	}
	e.parts = out
}

// ofSet says whether a phase is that of one set.
func ofSet(k segment.Kind) bool { return k == segment.Work || k == segment.Balance }

// partOf returns the phase of a set, none for a counted move of the warm-up or cool-down.
func (e *editor) partOf(set *segment.Set) int {
	for i := range e.parts {
		if e.parts[i].set == set {
			return i
		}
	}
	return none
}

// phaseEnd moves the end of phase i to t, back or forward; what lies behind gives way, or takes up what is left free. A set's
// phase takes it up only where that is what was asked for.
func (e *editor) phaseEnd(i int, t caption.Time, asked bool) {
	old := e.parts[i].End
	e.parts[i].moveEnd(t)
	switch {
	case t > old:
		behind := editor{parts: e.parts[i+1:]}
		behind.carve(old, t)
		e.parts = append(e.parts[:i+1:i+1], behind.parts...)
	case i+1 < len(e.parts) && (asked || !ofSet(e.parts[i+1].Kind)):
		e.parts[i+1].moveStart(t)
	default:
		e.fill(i+1, t, old)
	}
	e.tidy()
}

// phaseStart moves the start of phase i to t likewise.
func (e *editor) phaseStart(i int, t caption.Time, asked bool) {
	old := e.parts[i].Start
	e.parts[i].moveStart(t)
	switch {
	case t < old:
		before := editor{parts: e.parts[:i]}
		before.carve(t, old)
		e.parts = append(before.parts, e.parts[i:]...)
	case i > 0 && (asked || !ofSet(e.parts[i-1].Kind)):
		e.parts[i-1].moveEnd(t)
	default:
		e.fill(i, old, t)
	}
	e.tidy()
}

// fill puts a phase into the free time [from,to) before phase i: a rest where sets lie on both sides and it is long enough, else talk.
func (e *editor) fill(i int, from, to caption.Time) {
	p := part{Phase: segment.Phase{Kind: segment.Talk, Start: from, End: to, Confidence: 1}}
	if i > 0 && i < len(e.parts) && (to-from).Seconds() >= shortestRest {
		p.Kind, p.rest = segment.Rest, &segment.Pause{Span: segment.Span{Start: exactly(from), End: exactly(to)}}
		p.rest.Length = between(p.rest.Span)
	}
	e.insert(i, p)
}
