package caption

// loopLength is how many cues with the same words and exactly the same length, one after the other without a gap, make a loop: a
// recogniser that is stuck. Real counts do not come at exactly equal milliseconds; in times cut to whole seconds they can.
const loopLength = 3

// loopDoubt is the doubt of a word that a stuck recogniser repeated.
const loopDoubt = 0.9

// doubtLoops marks words that a recogniser wrote again and again over silence.
func (r *reading) doubtLoops(t *Track) {
	for i := 0; i < len(t.Cues); {
		j := i + 1
		for j < len(t.Cues) && !r.cues[j].floored && t.Cues[j].Start == t.Cues[j-1].End &&
			t.Cues[j].End-t.Cues[j].Start == t.Cues[i].End-t.Cues[i].Start && sameWords(t, i, j) {
			j++
		}
		if j-i >= loopLength && t.Cues[i].Last > t.Cues[i].First {
			r.warn.add(t.Cues[i].Line, "the same words in cues of exactly the same length: a recogniser that was stuck, not a count")
			for k := t.Cues[i].Last; k < t.Cues[j-1].Last; k++ {
				t.Words[k].Doubt = max(t.Words[k].Doubt, loopDoubt)
			}
		}
		if j-i >= loopLength && j < len(t.Cues) {
			r.doubtFiller(t, j)
		}
		i = j
	}
}

// doubtFiller marks the phrase that a stuck recogniser often invents next: a few words over a long silence.
func (r *reading) doubtFiller(t *Track, cue int) {
	c := t.Cues[cue]
	if c.Last-c.First > 4 || (c.End-c.Start).Seconds() < 10 {
		return
	}
	r.warn.add(c.Line, "a few words over a long silence after a loop; perhaps invented")
	for k := c.First; k < c.Last; k++ {
		t.Words[k].Doubt = max(t.Words[k].Doubt, oddNumberDoubt)
	}
}

// sameWords reports whether two cues hold the same words.
func sameWords(t *Track, a, b int) bool {
	x := t.Words[t.Cues[a].First:t.Cues[a].Last]
	y := t.Words[t.Cues[b].First:t.Cues[b].Last]
	if len(x) != len(y) {
		return false
	}
	for i := range x {
		if x[i].Fold != y[i].Fold {
			return false
		}
	}
	return true
}
