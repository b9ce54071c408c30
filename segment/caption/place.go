package caption

import "slices"

// needs returns for each word the time in s that the words before it take, and last the time that all take.
func needs(words []Word) []float64 {
	need := make([]float64, len(words)+1)
	for i, w := range words {
		need[i+1] = need[i] + wordBase + float64(letterTime*float64(letters(w.Fold)))
	}
	return need
}

// places puts words between two times in s, the first at from. atEnd says that the last word ends with the stretch.
// Where numbers are counted, the time that the words do not need goes to the pauses, most of it behind the numbers;
// in talk every word takes a share by its letters, and a stop more.
func places(words []Word, from, to float64, atEnd bool) []float64 {
	n := len(words)
	at := make([]float64, n)
	length := to - from
	counting := counts(words)
	total := 0.0
	share := make([]float64, n)
	if !counting {
		for i, w := range words {
			share[i] = float64(letters(w.Fold)) + 3
			if i < n-1 || !atEnd {
				share[i] += pauseInTalk(w.After)
			}
			total += share[i]
		}
		for i, sum := 0, 0.0; i < n; i++ {
			at[i] = from + float64(length*sum/total)
			sum += share[i]
		}
		return at
	}
	need := needs(words)
	slack := length - need[n]
	if slack <= 0 {
		for i := range at {
			at[i] = from + float64(length*need[i]/need[n])
		}
		return at
	}
	for i := range words {
		if i < n-1 || !atEnd {
			share[i] = pauseInCount(words, i)
			total += share[i]
		}
	}
	for i, sum := 0, 0.0; i < n; i++ {
		at[i] = from + need[i]
		if total > 0 {
			at[i] += float64(slack * sum / total)
		}
		sum += share[i]
	}
	return at
}

// pauseInTalk is the pause behind a word, in letters.
func pauseInTalk(after string) float64 {
	switch pauseMark(after) {
	case '.':
		return 9
	case ',':
		return 3
	}
	return 0
}

// pauseInCount is the share of the slack that the gap behind word i takes in a count.
func pauseInCount(words []Word, i int) float64 {
	switch {
	case isCount(words, i):
		return 3
	case i+1 < len(words) && isCount(words, i+1):
		return 1
	}
	switch pauseMark(words[i].After) {
	case '.':
		return 1
	case ',':
		return 0.35
	}
	return 0.05
}

// pauseMark tells '.' for an end of a sentence, ',' for one of a clause, 0 for none.
func pauseMark(after string) byte {
	var mark byte
	for _, r := range after {
		switch r {
		case '.', '?', '!', '…', '。':
			return '.'
		case ',', ';', ':', '–', '—', '、':
			mark = ','
		}
	}
	return mark
}

func counts(words []Word) bool {
	for i := range words {
		if isCount(words, i) {
			return true
		}
	}
	return false
}

func roleOf(words []Word, i int, counting bool) wordRole {
	switch {
	case !counting:
		return inTalk
	case isCount(words, i):
		return isCounted
	}
	return inCount
}

// isCount reports whether word i looks like a number that is being counted: it stands alone, beside another number, or
// before a mark or the end, as a quantity ("ten minutes") does not.
func isCount(words []Word, i int) bool {
	if !isNumber(words[i].Fold) {
		return false
	}
	return i == len(words)-1 || words[i].After != "" || isNumber(words[i+1].Fold) || i > 0 && isNumber(words[i-1].Fold)
}

// timing tells the timing of the whole file.
func (r *reading) timing(t *Track, onWord int) Timing {
	if len(t.Words) > 0 && float64(onWord) >= wordTimings*float64(len(t.Words)) {
		return TimingWord
	}
	var lengths []Time
	for _, c := range t.Cues {
		if c.Last > c.First {
			lengths = append(lengths, c.End-c.Start)
		}
	}
	if len(lengths) == 0 {
		return TimingUnknown
	}
	slices.Sort(lengths)
	if lengths[len(lengths)/2].Seconds() <= longCue {
		return TimingCue
	}
	return TimingBlock
}
