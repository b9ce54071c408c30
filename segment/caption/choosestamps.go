package caption

import (
	"sort"
	"time"
)

// choose decides which of the times count.
func (t *transcript) choose() {
	var count [stampShapes]int
	total := 0
	for _, w := range t.rows {
		if w.lead.shape != noStamp {
			count[w.lead.shape]++
		}
		if w.trail.shape != noStamp {
			count[w.trail.shape]++
		}
		if w.lead.shape != noStamp || w.trail.shape != noStamp {
			total++
		}
	}
	winner := noStamp
	for s := leadSquare; s < stampShapes; s++ {
		if count[s] > count[winner] {
			winner = s
		}
	}
	if winner == noStamp {
		return
	}
	for i := range t.rows {
		switch st := &t.rows[i].lead; {
		case winner == leadGlued && st.shape == leadBare, // a number can stand behind a blank among them
			winner == leadBare && st.shape == alone,
			winner == leadName && st.shape == nameAlone:
			st.shape = winner
		}
	}
	t.unwrap(winner)
	t.takeRising(winner)
	if count[winner]*2 <= total {
		t.takeOthers()
	}
	t.after = t.timesAfter(winner)
}

// Around these a clock without hours begins again at zero.
const (
	wrapFrom = Time(50 * time.Minute)
	wrapTo   = Time(10 * time.Minute)
)

// unwrap adds the hours to a clock that begins again at zero after an hour, in the winning shape: it falls from late in one hour to early
// in the next, and does not come back.
func (t *transcript) unwrap(shape stampShape) {
	next := func(i int) (int, *stamp) {
		for ; i < len(t.rows); i++ {
			if st := t.rows[i].of(shape); st != nil {
				return i, st
			}
		}
		return i, nil
	}
	hours, before := Time(0), Time(0)
	for i, st := next(0); st != nil; i, st = next(i + 1) {
		_, after := next(i + 1)
		if before >= wrapFrom && before < Time(time.Hour) && st.at <= wrapTo && after != nil && after.at >= st.at && after.at < before {
			hours += Time(time.Hour)
			t.warn.add(t.rows[i].line, "the clock begins again at zero; an hour is added")
		}
		before = st.at
		st.at += hours
		st.end += hours
	}
}

// of returns the stamp of a row in the given shape.
func (w *transcriptRow) of(shape stampShape) *stamp {
	switch shape {
	case w.lead.shape:
		return &w.lead
	case w.trail.shape:
		return &w.trail
	}
	return nil
}

// takeRising takes the longest series of times in the winning shape that never goes back; of two such, that which goes on the
// earliest.
func (t *transcript) takeRising(shape stampShape) {
	var rows []int // with a stamp of this shape
	for i := range t.rows {
		if t.rows[i].of(shape) != nil {
			rows = append(rows, i)
		}
	}
	at := func(k int) Time { return t.rows[rows[k]].of(shape).at }
	length := make([]int, len(rows)) // of the longest series from here on
	var heads []Time                 // heads[n-1] is the latest time from which a series of n can begin
	for k := len(rows) - 1; k >= 0; k-- {
		n := sort.Search(len(heads), func(j int) bool { return heads[j] < at(k) })
		length[k] = n + 1
		if n == len(heads) {
			heads = append(heads, at(k))
		} else {
			heads[n] = at(k)
		}
	}
	left, last := len(heads), Time(0)
	for k, i := range rows {
		w := &t.rows[i]
		switch {
		case length[k] == left && at(k) >= last:
			w.taken, last = w.of(shape), at(k)
			left--
		case w.lead.lone && w.to == len(t.src):
			t.rows = t.rows[:i] // cut off
			t.warn.add(w.line, cutFile)
		default:
			t.warn.add(w.line, "a time that goes back; left among the words")
		}
	}
}

// takeOthers takes times in other shapes where they lie between those already taken.
func (t *transcript) takeOthers() {
	next := make([]Time, len(t.rows)+1)
	next[len(t.rows)] = maxClock
	for i := len(t.rows) - 1; i >= 0; i-- {
		next[i] = next[i+1]
		if st := t.rows[i].taken; st != nil {
			next[i] = st.at
		}
	}
	last := Time(0)
	for i := range t.rows {
		w := &t.rows[i]
		for _, st := range []*stamp{&w.lead, &w.trail} {
			if w.taken == nil && st.shape != noStamp && st.shape != trailBare && st.shape != leadGlued && st.at >= last && st.at <= next[i+1] {
				w.taken = st
			}
		}
		if w.taken != nil {
			last = w.taken.at
		}
	}
}

// timesAfter reports whether the times stand at the end of their blocks: words come before the first time, which is not near
// zero, and the last line has one too.
func (t *transcript) timesAfter(winner stampShape) bool {
	trailing := winner == trailRound || winner == trailSquare || winner == trailBare
	first := -1
	for i, w := range t.rows {
		if w.taken == nil {
			continue
		}
		if first < 0 {
			first = i
		}
		if !trailing && (!w.taken.lone || winner == nameAlone) {
			return false
		}
	}
	if first < 0 || t.rows[first].taken.at <= Time(3*time.Second) || t.rows[len(t.rows)-1].taken == nil {
		return false
	}
	return first > 0 || trailing
}
