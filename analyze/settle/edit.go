package settle

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// near is how far, in seconds, the ends of what a decision names may lie from where they were when it was made; nearer is how far
// where its name has changed.
const (
	near   = 2.0
	nearer = 0.5
)

// leastSet is the length of the shortest set that an edit may leave, in seconds.
const leastSet = 1.0

var errGone = errors.New("it is not there any more")

// decide puts one decision on the sets and phases.
func (e *editor) decide(x *Decision) error {
	if x.Kind == Add {
		return e.add(x)
	}
	if x.Phase != nil {
		return e.phaseEdge(x)
	}
	set, err := e.find(x.Set)
	if err != nil {
		return err
	}
	switch x.Kind {
	case Number:
		return e.number(set, x)
	case Name:
		e.name(set, x)
	case Side:
		set.Side = sideOf(x.Side)
	case Dose:
		e.dose(set, x)
	case Edge:
		return e.setEdge(set, x)
	case Merge:
		return e.merge(set)
	case Remove:
		e.remove(set)
	case Split:
		return e.split(set, caption.At(x.At))
	}
	return nil
}

// find returns the set that a decision names.
func (e *editor) find(ref *SetRef) (*segment.Set, error) {
	var best *segment.Set
	most := math.Inf(1)
	for _, set := range e.sets {
		off := math.Max(math.Abs(set.Start.At.Seconds()-ref.Start), math.Abs(set.End.At.Seconds()-ref.End))
		if off > near || off > nearer && !strings.EqualFold(set.Exercise.Text, ref.Exercise) {
			continue
		}
		if off < most {
			best, most = set, off
		}
	}
	if best == nil {
		return nil, fmt.Errorf("no set%s from %s to %s: %w", named(ref.Exercise), caption.At(ref.Start), caption.At(ref.End), errGone)
	}
	return best, nil
}

func named(exercise string) string {
	if exercise == "" {
		return ""
	}
	return " of " + exercise
}

func (e *editor) number(set *segment.Set, x *Decision) error {
	if x.Reps > 0 {
		own(set)
		reps(set, x.Reps)
	} else {
		end := set.Start.At + caption.At(x.Seconds)
		if err := e.fits(set, set.Start.At, end); err != nil {
			return err
		}
		own(set)
		seconds(set, x.Seconds)
		if i := e.partOf(set); i != none {
			e.phaseEnd(i, end, false)
		}
	}
	e.numbers[set] = true
	return nil
}

func (e *editor) name(set *segment.Set, x *Decision) {
	old := set.Exercise.Text
	for _, other := range e.sets {
		if other != set && !(x.Everywhere && old != "" && strings.EqualFold(other.Exercise.Text, old)) {
			continue
		}
		other.Exercise.Text = x.Name
		if i := e.partOf(other); i != none {
			e.parts[i].Label = x.Name
		}
	}
}

func (e *editor) dose(set *segment.Set, x *Decision) {
	when := set.Announced.At
	if set.Announced == (segment.Dose{}) {
		when = set.Start.At
	}
	set.Announced = segment.Dose{}
	if x.Reps > 0 || x.Seconds > 0 {
		set.Announced = segment.Dose{Reps: x.Reps, Seconds: x.Seconds, At: when}
	}
	e.doses[set] = true
}

func sideOf(name string) segment.Side {
	for _, s := range []segment.Side{segment.Left, segment.Right, segment.Both, segment.Alternate} {
		if s.String() == name {
			return s
		}
	}
	return segment.SideUnknown
}

// free says whether the time [from,to) holds no set but one that may be there.
func (e *editor) free(but *segment.Set, from, to caption.Time) error {
	if to > e.end() {
		return fmt.Errorf("the recording ends at %s", e.end())
	}
	for _, set := range e.sets {
		if set != but && set.Start.At < to && set.End.At > from {
			return fmt.Errorf("it would run into the set at %s", set.Start.At)
		}
	}
	return nil
}

// fits says whether a set may go from one time to another: it has a length, also in its own phase, and runs into no other.
func (e *editor) fits(set *segment.Set, from, to caption.Time) error {
	start, end := from, to
	if i := e.partOf(set); i != none {
		p := &e.parts[i]
		if start = max(start, p.Start); from < set.Start.At {
			start = from
		}
		if to <= set.End.At {
			end = min(end, p.End)
		}
	}
	if (end - start).Seconds() < leastSet {
		return errors.New("the set would have no length")
	}
	return e.free(set, from, to)
}

// end is where the last phase ends.
func (e *editor) end() caption.Time {
	if n := len(e.parts); n > 0 {
		return e.parts[n-1].End
	}
	return 0
}

func (e *editor) setEdge(set *segment.Set, x *Decision) error {
	t, i := caption.At(x.At), e.partOf(set)
	start, end := set.Start.At, set.End.At
	if x.Edge == "start" {
		start = t
	} else {
		end = t
	}
	if err := e.fits(set, start, end); err != nil {
		return err
	}
	done, given := set.Reps, e.numbers[set] && set.Counted
	if x.Edge == "end" {
		if endSet(set, t); i != none {
			e.phaseEnd(i, t, false)
		}
	} else if startSet(set, t); i != none && t < e.parts[i].Start {
		e.phaseStart(i, t, false)
	}
	if given {
		reps(set, done)
	}
	return nil
}

// phaseEdge moves the boundary between two phases.
func (e *editor) phaseEdge(x *Decision) error {
	i := slices.IndexFunc(e.parts, func(p part) bool {
		return p.Kind.String() == x.Phase.Kind && math.Abs(p.Start.Seconds()-x.Phase.Start) <= near && math.Abs(p.End.Seconds()-x.Phase.End) <= near
	})
	if i < 0 {
		return fmt.Errorf("no %s from %s to %s: %w", x.Phase.Kind, caption.At(x.Phase.Start), caption.At(x.Phase.End), errGone)
	}
	p, t := e.parts[i], caption.At(x.At)
	if x.Edge == "start" {
		if i == 0 {
			return errors.New("the first phase begins with the recording")
		}
		if err := e.leaves(p.Start, t); err != nil {
			return err
		}
		e.phaseStart(i, t, true)
		return nil
	}
	if i == len(e.parts)-1 {
		return errors.New("the last phase ends with the recording")
	}
	if err := e.leaves(p.End, t); err != nil {
		return err
	}
	e.phaseEnd(i, t, true)
	return nil
}

// leaves says whether a boundary can move between two times and leave something of the phases and sets on its way.
func (e *editor) leaves(from, to caption.Time) error {
	if from > to {
		from, to = to, from
	}
	least := caption.At(leastSet)
	for _, p := range e.parts {
		if p.Start >= from && p.End <= to+least || p.Start >= from-least && p.End <= to {
			return fmt.Errorf("the %s at %s would be gone", p.Kind, p.Start)
		}
		if p.set == nil {
			continue
		}
		start, end := p.set.Start.At, p.set.End.At
		if start < to && end > from && !(start < from && end > to) && (start >= from-least && end <= to+least) {
			return fmt.Errorf("the set at %s would be gone", start)
		}
	}
	return nil
}

func (e *editor) merge(a *segment.Set) error {
	k := slices.Index(e.sets, a)
	if k+1 >= len(e.sets) {
		return errors.New("no set follows it")
	}
	b := e.sets[k+1]
	i, j := e.partOf(a), e.partOf(b)
	if (i == none) != (j == none) {
		return fmt.Errorf("the set at %s is not of the same part of the session", b.Start.At)
	}
	both := joined(a, b)
	e.sets = slices.Replace(e.sets, k, k+2, both)
	e.numbers[both], e.doses[both] = e.numbers[a] && e.numbers[b], e.doses[a]
	if i != none {
		p := e.parts[i]
		p.End, p.set, p.Label = e.parts[j].End, both, both.Exercise.Text
		e.parts = slices.Replace(e.parts, i, j+1, p)
	}
	return nil
}

func (e *editor) split(set *segment.Set, t caption.Time) error {
	if (t-set.Start.At).Seconds() < leastSet || (set.End.At-t).Seconds() < leastSet {
		return fmt.Errorf("%s does not lie within the set", t)
	}
	if i := e.partOf(set); i != none && (t <= e.parts[i].Start || t >= e.parts[i].End) {
		return fmt.Errorf("%s does not lie within the phase of the set", t)
	}
	a, b := parted(set, t)
	k := slices.Index(e.sets, set)
	e.sets = slices.Replace(e.sets, k, k+1, a, b)
	e.doses[a], e.doses[b] = e.doses[set], e.doses[set]
	if i := e.partOf(set); i != none {
		p, q := e.parts[i], e.parts[i]
		p.End, p.set = t, a
		q.Start, q.set = t, b
		e.parts = slices.Replace(e.parts, i, i+1, p, q)
	}
	return nil
}

// remove takes out what was no set: its time is talk.
func (e *editor) remove(set *segment.Set) {
	if i := e.partOf(set); i != none {
		e.parts[i] = e.parts[i].asTalk()
		e.tidy()
	}
	e.sets = slices.DeleteFunc(e.sets, func(s *segment.Set) bool { return s == set })
}

// add puts in a set that was missed.
func (e *editor) add(x *Decision) error {
	from, to := caption.At(x.Start), caption.At(x.End)
	if err := e.free(nil, from, to); err != nil {
		return err
	}
	set := &segment.Set{Kind: segment.Work, Exercise: segment.Remark{Text: x.Name, At: from}, Side: sideOf(x.Side)}
	if x.In == segment.Balance.String() {
		set.Kind = segment.Balance
	}
	set.Counted, set.Reps, set.RepsLow, set.RepsHigh = x.Reps > 0, x.Reps, x.Reps, x.Reps
	span(set, segment.Span{Start: exactly(from), End: exactly(to)})
	if x.Seconds > 0 {
		set.Performed = segment.Length{Value: x.Seconds, Low: x.Seconds, High: x.Seconds}
		set.Tension = set.Performed
	}
	i := e.carve(from, to)
	e.insert(i, part{Phase: segment.Phase{Kind: set.Kind, Start: from, End: to, Confidence: 1, Label: x.Name}, set: set})
	e.tidy()
	k := slices.IndexFunc(e.sets, func(s *segment.Set) bool { return s.Start.At > from })
	if k < 0 {
		k = len(e.sets)
	}
	e.sets = slices.Insert(e.sets, k, set)
	e.numbers[set] = true
	return nil
}
