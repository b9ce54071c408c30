package settle

import (
	"slices"

	"captally.example/captally/segment"
	"captally.example/captally/segment/caption"
)

// span gives a set new ends; its length, tension and pace follow from them.
func span(set *segment.Set, s segment.Span) {
	set.Span = s
	set.Tension = between(s)
	if !set.Counted {
		set.Performed = set.Tension
	}
	pace(set)
	for i := range set.TimeCues {
		if c := &set.TimeCues[i]; c.At.At < s.End.At {
			c.Actual = (s.End.At - c.At.At).Seconds()
		}
	}
}

func pace(set *segment.Set) {
	set.Pace = 0
	if set.Counted && set.Reps > 0 {
		set.Pace = set.Tension.Value / float64(set.Reps)
	}
}

// startSet and endSet move one end of a set. What was counted beyond it is not of the set any more, its repetitions neither.
func startSet(set *segment.Set, t caption.Time) {
	own(set)
	keep(set, func(at caption.Time) bool { return at >= t })
	span(set, segment.Span{Start: exactly(t), End: set.End})
}

// A number may stand half a repetition behind the end of its set and belong to it: it is said at the end of the repetition, give or take.
func endSet(set *segment.Set, t caption.Time) {
	own(set)
	slack := caption.At(set.Pace / 2)
	keep(set, func(at caption.Time) bool { return at <= t+slack })
	span(set, segment.Span{Start: set.Start, End: exactly(t)})
}

// own gives a set its own copy of what it lists.
func own(set *segment.Set) {
	set.Count = append([]segment.Number(nil), set.Count...)
	set.Slips = append([]segment.Slip(nil), set.Slips...)
	set.TimeCues = append([]segment.TimeCue(nil), set.TimeCues...)
}

// keep drops the numbers, slips and remarks of a set at times that are not its own, and as many repetitions, which it returns.
func keep(set *segment.Set, ours func(caption.Time) bool) int {
	var count []segment.Number
	gone := 0
	for _, n := range set.Count {
		switch {
		case ours(n.At.At):
			if n.Rep > 0 {
				n.Rep -= gone
			}
			count = append(count, n)
		case n.Rep > 0:
			gone++
		}
	}
	if len(count) < len(set.Count) {
		set.LastNumber = 0
		for _, n := range count {
			if n.Said > 0 {
				set.LastNumber = n.Said
			}
		}
	}
	set.Count = count
	set.Slips = slices.DeleteFunc(set.Slips, func(s segment.Slip) bool { return !ours(s.At.At) })
	set.TimeCues = slices.DeleteFunc(set.TimeCues, func(c segment.TimeCue) bool { return !ours(c.At.At) })
	set.Reps, set.RepsLow, set.RepsHigh = max(0, set.Reps-gone), max(0, set.RepsLow-gone), max(0, set.RepsHigh-gone)
	return gone
}

// joined makes one set of two that follow each other.
func joined(a, b *segment.Set) *segment.Set {
	out := *a
	own(&out)
	before := a.Reps
	for _, n := range a.Count { // a person may have stated fewer than are listed
		before = max(before, n.Rep)
	}
	for _, n := range b.Count {
		if n.Rep > 0 {
			n.Rep += before
		}
		out.Count = append(out.Count, n)
	}
	out.Slips = append(out.Slips, b.Slips...)
	out.TimeCues = append(out.TimeCues, b.TimeCues...)
	out.Counted = a.Counted || b.Counted
	out.Reps, out.RepsLow, out.RepsHigh = a.Reps+b.Reps, a.RepsLow+b.RepsLow, a.RepsHigh+b.RepsHigh
	if b.LastNumber > 0 {
		out.LastNumber = b.LastNumber
	}
	if out.Counted {
		out.Performed = segment.Length{}
	}
	if out.Exercise.Text == "" {
		out.Exercise = b.Exercise
	}
	if out.Side == segment.SideUnknown {
		out.Side = b.Side
	}
	if out.Announced == (segment.Dose{}) {
		out.Announced = b.Announced
	}
	span(&out, segment.Span{Start: a.Start, End: b.End})
	return &out
}

// parted makes two sets of one, the second from t on. The doubt about its repetitions stays with each.
func parted(set *segment.Set, t caption.Time) (first, second *segment.Set) {
	a, b := *set, *set
	own(&a)
	own(&b)
	done, listed := 0, 0
	for _, n := range set.Count {
		if n.Rep > 0 {
			listed++
			if n.At.At <= t {
				done = n.Rep
			}
		}
	}
	if listed == 0 {
		done = int(float64(set.Reps)*(t-set.Start.At).Seconds()/(set.End.At-set.Start.At).Seconds() + 0.5)
	}
	done = min(done, set.Reps) // a person may have stated fewer than are listed
	low, high := set.Reps-set.RepsLow, set.RepsHigh-set.Reps
	reps := func(x *segment.Set, n int, ours func(caption.Time) bool) {
		keep(x, ours)
		if x.Counted {
			x.Reps, x.RepsLow, x.RepsHigh = n, max(0, n-low), n+high
		}
	}
	reps(&a, done, func(at caption.Time) bool { return at <= t })
	reps(&b, set.Reps-done, func(at caption.Time) bool { return at > t })
	k := len(set.Count) - len(b.Count) // numbers before
	for i := range b.Count {
		if old := set.Count[k+i].Rep; old > 0 {
			b.Count[i].Rep = old - done
		}
	}
	span(&a, segment.Span{Start: set.Start, End: exactly(t)})
	span(&b, segment.Span{Start: exactly(t), End: set.End})
	return &a, &b
}

// reps gives a set the repetitions that a person says were done. Its time stays, so its pace changes.
func reps(set *segment.Set, n int) {
	set.Counted, set.Performed = true, segment.Length{}
	set.Reps, set.RepsLow, set.RepsHigh = n, n, n
	pace(set)
}

// seconds makes a set one of so many seconds from its start.
func seconds(set *segment.Set, n float64) {
	set.Counted, set.Reps, set.RepsLow, set.RepsHigh = false, 0, 0, 0
	length := caption.At(n)
	end := set.Start
	end.At, end.Low, end.High = end.At+length, end.Low+length, end.High+length
	span(set, segment.Span{Start: set.Start, End: end})
	set.Performed = segment.Length{Value: n, Low: n, High: n}
	set.Tension = set.Performed
}
