package caption

// A placing puts the words of one cue into its time. Its slices are used again for the next cue.
type placing struct {
	role     []wordRole
	at       []float64 // s at which each word begins
	need     []float64 // s that the words before each word take; one more for all
	share    []float64 // of the time to give away, behind each word
	counting bool      // a number is counted among the words
}

// prepare looks at the words: what each is doing, and how long it takes.
func (p *placing) prepare(words []Word) {
	p.role, p.at, p.need, p.share = p.role[:0], p.at[:0], p.need[:0], p.share[:0]
	p.counting = false
	before, number := false, isNumber(words[0].Fold)
	need := 0.0
	for i := range words {
		next := i+1 < len(words) && isNumber(words[i+1].Fold)
		role := inTalk
		// A number is counted where it stands beside another, or before a mark or the end; a quantity ("ten minutes") does not.
		if number && (before || next || i+1 == len(words) || words[i].After != "") {
			role, p.counting = isCounted, true
		}
		before, number = number, next
		p.role = append(p.role, role)
		p.need = append(p.need, need)
		need += wordBase + float64(letterTime*float64(letters(words[i].Fold)))
	}
	p.need = append(p.need, need)
	for i := range p.role {
		if p.counting && p.role[i] == inTalk {
			p.role[i] = inCount
		}
	}
}

// place puts the prepared words between two times in s, the first at from. atEnd says that the last word ends with the stretch.
// Where numbers are counted, the time that the words do not need goes to the pauses, most of it behind the numbers; in talk every
// word takes a share by its letters, and a stop more.
func (p *placing) place(words []Word, from, to float64, atEnd bool) {
	n := len(words)
	slack := to - from - p.need[n]
	switch {
	case !p.counting:
		p.giveAway(words, atEnd, func(i int) float64 { return float64(letters(words[i].Fold)) + 3 }, pauseInTalk)
		p.spreadOut(from, to-from, 0)
	case slack <= 0:
		for i := range n {
			p.at = append(p.at, from+float64((to-from)*p.need[i]/p.need[n]))
		}
	default:
		p.giveAway(words, atEnd, func(int) float64 { return 0 }, p.pauseInCount)
		p.spreadOut(from, slack, 1)
	}
}

// giveAway fills share: what each word takes, and its pause, but for that of a last word that ends with the stretch.
func (p *placing) giveAway(words []Word, atEnd bool, word func(int) float64, pause func([]Word, int) float64) {
	for i := range words {
		s := word(i)
		if i < len(words)-1 || !atEnd {
			s += pause(words, i)
		}
		p.share = append(p.share, s)
	}
}

// spreadOut hands out length s by the shares; the words' own need is added as many times as given.
func (p *placing) spreadOut(from, length, need float64) {
	total := 0.0
	for _, s := range p.share {
		total += s
	}
	sum := 0.0
	for i, s := range p.share {
		at := from + float64(need*p.need[i])
		if total > 0 {
			at += float64(length * sum / total)
		}
		p.at = append(p.at, at)
		sum += s
	}
}

// pauseInTalk is the pause behind a word, in letters.
func pauseInTalk(words []Word, i int) float64 {
	switch pauseMark(words[i].After) {
	case '.':
		return 9
	case ',':
		return 3
	}
	return 0
}

// pauseInCount is the share of the slack that the gap behind a word takes in a count.
func (p *placing) pauseInCount(words []Word, i int) float64 {
	switch {
	case p.role[i] == isCounted:
		return 3
	case i+1 < len(words) && p.role[i+1] == isCounted:
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
