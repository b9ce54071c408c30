package announce

// sides adds every left, right, both and alternating.
func (f *finder) sides() {
	l := f.lexicon
	for i, w := range f.words {
		switch {
		case w.classes&l.left != 0:
			f.side(i, Left)
		case w.classes&l.right != 0:
			f.side(i, Right)
		case w.classes&l.both != 0:
			m := Mention{First: i, Last: i + 1, Kind: Side, Side: Both, Weight: 0.25}
			if i+1 < len(f.words) && f.words[i+1].classes&l.limb != 0 { // "both legs"
				m.Last, m.Weight = i+2, 0.35
			}
			f.out = append(f.out, m)
		case w.classes&l.alternating != 0:
			f.out = append(f.out, Mention{First: i, Last: i + 1, Kind: Side, Side: Alternate, Weight: 0.5})
		}
	}
}

// side weighs one "left" or "right".
func (f *finder) side(i int, s BodySide) {
	weight, last := f.sideWeight(i, s)
	if weight < least {
		return
	}
	m := Mention{First: i, Last: last, Kind: Side, Side: s, Weight: weight}
	if f.standsOn(i) {
		m.Weight = 1
		f.out = append(f.out, m)
		return
	}
	switch {
	case f.isIdle(i, last), f.liesOn(i, last):
		m.Side, m.Weight = s.Other(), 0.6*weight
	case f.onTop(last):
		m.Weight = 1
	}
	if f.isAside(i, last) {
		m.Weight *= 0.3
	}
	if f.byTurns(i, s) {
		m.Side, m.Weight = Alternate, 0.95
	}
	f.out = append(f.out, m)
}

// byTurns reports whether the side at i goes on a row of sides by turns: "left, right, LEFT, RIGHT".
func (f *finder) byTurns(i int, s BodySide) bool {
	n := len(f.out) - 1
	if n < 1 || f.out[n].Kind != Side || i-f.out[n].Last > 1 || f.out[n-1].Kind != Side || f.out[n].First-f.out[n-1].Last > 1 {
		return false
	}
	return f.out[n].Side == Alternate || f.out[n].Side == s.Other() && f.out[n-1].Side == s
}

// sideWeight says how sure it is that the word at i names a side, and where the words that do so end.
func (f *finder) sideWeight(i int, s BodySide) (float64, int) {
	l := f.lexicon
	var before, next classes
	if i > 0 && !f.ends[i-1] {
		before = f.words[i-1].classes
	}
	j := i + 1
	if j < len(f.words) && !f.ends[i] {
		next = f.words[j].classes
	}
	if next&l.sidenoun != 0 {
		return 0.9, j + 1
	}
	if before&l.amount != 0 && i > 1 && f.words[i-2].classes&l.lots != 0 || before&l.lots != 0 {
		return 0.8, j // "set two, left"
	}
	if s == Left && (before&(l.beforeLeft|l.amount) != 0 || i > 0 && !f.ends[i-1] && f.isNumber(i-1)) {
		return 0, j
	}
	pair := i > 1 && (f.folds[i-1] == "and" || f.folds[i-1] == "or") && f.words[i-2].classes&(l.left|l.right) != 0
	if s == Right && !pair && (before&l.nottheside != 0 || before&l.article == 0 && next&l.adverb != 0) {
		return 0, j
	}
	if f.word(j, "of") || f.word(j, "over") && s == Left {
		return 0.1, j
	}
	switch {
	case before&l.sideway != 0:
		return 0.85, j
	case before&l.move != 0:
		return 0.8, j
	case s == Right && f.bare: // may well have been "Right, ..."
		return 0.3, j
	case next&l.move != 0 || j+1 < len(f.words) && !f.ends[i] && !f.ends[j] && f.words[j+1].classes&l.move != 0:
		return 0.75, j
	case s == Right && (i == 0 || f.ends[i-1]): // "Right, ..."
		return 0.15, j
	}
	return 0.45, j
}

func (f *finder) isNumber(i int) bool {
	c := f.folds[i]
	return c != "" && c[0] >= '0' && c[0] <= '9'
}

// isIdle reports whether the leg named by words first to last is the one that does not work: "right foot off", "pick up the left foot".
func (f *finder) isIdle(first, last int) bool {
	if last-first < 2 {
		return false
	}
	switch f.folds[last-1] {
	case "foot", "leg", "heel", "food":
	default:
		return false
	}
	if f.word(last, "up") && f.folds[last-1] == "leg" {
		return false
	}
	if f.word(last, "up") && (f.word(last+1, "on") || f.word(last+1, "against")) { // "left foot up on the wall"
		return false
	}
	for _, w := range [...]string{"off", "up", "lifts", "lifted", "rests", "resting", "hovers", "hovering", "free"} {
		if f.word(last, w) {
			return true
		}
	}
	i := first
	for i > 0 && first-i < 2 && (f.folds[i-1] == "the" || f.folds[i-1] == "your") {
		i--
	}
	return i > 0 && (f.folds[i-1] == "pick" || i > 1 && f.folds[i-1] == "up" && f.folds[i-2] == "pick")
}

// standsOn reports whether the side at i follows "stand on", "standing on the".
func (f *finder) standsOn(i int) bool {
	if i > 0 && (f.folds[i-1] == "the" || f.folds[i-1] == "your") {
		i--
	}
	return i > 1 && f.folds[i-1] == "on" && (f.folds[i-2] == "stand" || f.folds[i-2] == "standing" || f.folds[i-2] == "balance")
}

// liesOn reports whether words first to last name the side that people lie on, so that the other one works: "roll onto your left side".
func (f *finder) liesOn(first, last int) bool {
	if f.folds[last-1] != "side" {
		return false
	}
	i := first
	for i > 0 && (f.folds[i-1] == "your" || f.folds[i-1] == "the" || f.folds[i-1] == "our" || f.folds[i-1] == "my") {
		i--
	}
	if i == 0 || f.folds[i-1] != "on" && f.folds[i-1] != "onto" {
		return false
	}
	for k := i - 2; k >= max(0, i-2-lyingWords); k-- {
		switch f.folds[k] {
		case "lie", "lying", "lay", "roll", "rolling", "you're", "we're", "be":
			return true
		}
	}
	return false
}

const lyingWords = 3 // between "roll" and "onto your left side"

// onTop reports whether the limb whose name ends before word i is said to lie on top: "the right leg's on top".
func (f *finder) onTop(i int) bool {
	for k := i; k < len(f.folds) && k < i+2; k++ {
		if f.folds[k] == "on" && f.word(k+1, "top") {
			return true
		}
	}
	return false
}

// isAside reports whether the side only tells where something else is: "right foot flat", "weight over to your left", "sit on your left hand".
func (f *finder) isAside(first, last int) bool {
	if f.word(last, "flat") || f.word(last, "down") || f.word(last, "bent") || f.word(last, "end") || f.word(last, "of") {
		return true
	}
	for i := first - 1; i >= 0 && first-i <= 4 && !f.ends[i]; i-- {
		switch f.folds[i] {
		case "away", "undo":
			return true
		case "weight", "way": // "weight over to the left", as recognisers hear it too
			if f.word(i+1, "over") {
				i++
			}
			return f.word(i+1, "to") || f.word(i+1, "on") || f.word(i+1, "onto") || f.word(i+1, "into")
		case "sit":
			return first-i <= 3
		}
	}
	return false
}
