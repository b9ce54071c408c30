package announce

import (
	"slices"

	"captally.example/captally/segment/caption"
)

// Where a side is named, seen from the set.
type sideWhere uint8

const (
	saidNear    sideWhere = iota // up to sideNear words before it
	saidSoon                     // up to sideSoon words
	saidFar                      // up to sideFar words
	saidDistant                  // up to sideWords words
	saidTail                     // in the last words of the set before, which may have ended earlier
	saidInside                   // in its first words
	saidWithin                   // in its other words
	sideWheres
)

// Words before a set, and within it.
const (
	sideNear   = 3
	sideSoon   = 12
	sideFar    = 40
	sideWords  = 90 // farther back than that a side is not taken for the set's
	sideTail   = 6
	sideInside = 8
	closeBy    = 15 // sets with no more words between follow at once
)

// A sidePlace is what the words say of the side of one set, and how it stands to the set before.
type sidePlace struct {
	named     [2][sideWheres]float64 // weights of the strongest mentions of left and right
	last      [2]float64             // of that which is named last before the set
	first     [2]float64             // of that which is named first of a pair, as in "left, then right"
	second    [2]float64             // and second
	both      float64                // "both"
	byTurns   float64                // "left, right, left, right", "alternating"
	each      float64                // a dose for either side
	single    float64                // "one leg"
	swap      float64                // "other leg", less the farther off
	again     float64                // "same again"
	round     float64                // another round or set
	rest      float64                // a rest
	same      bool                   // the exercise of the set before
	close     bool                   // follows the set before at once
	even      bool                   // done as often or as long as the set before
	silent    bool                   // neither a side is named before it nor the other called for
	run       bool                   // and nor at the set of the same exercise before or after it
	limb      float64                // "leg", "arm" before it, in thirds
	limbs     float64                // "legs", "arms"
	begins    bool                   // the first set
	other     int                    // the set of the same exercise in an earlier or later round that it answers to; -1 for none
	strongest [Alternate + 1]*Mention
	top       [Alternate + 1]float64
}

// sidePlaces collects what is said of the sides of the sets.
func sidePlaces(track *caption.Track, sets []SetSpan, mentions []Mention) []sidePlace {
	out := make([]sidePlace, len(sets))
	for i := range sets {
		p, s := &out[i], &sets[i]
		from, next := 0, len(track.Words)
		if i > 0 {
			b := &sets[i-1]
			from = max(b.Last, s.First-sideWords)
			p.same, p.close, p.even = same(b, s), s.First-b.Last <= closeBy, even(b, s)
			p.listenTo(between(mentions, max(b.First+1, b.Last-sideTail), b.Last), saidTail)
		} else {
			p.begins = true
			from = max(0, s.First-sideWords)
		}
		if i+1 < len(sets) {
			next = sets[i+1].First
		}
		p.before(track, between(mentions, from, s.First), s.First)
		inside := min(s.First+sideInside, s.Last)
		p.listenTo(between(mentions, s.First, inside), saidInside)
		p.silent = p.swap == 0 && p.named == [2][sideWheres]float64{} && p.first == [2]float64{}
		p.listenTo(between(mentions, inside, min(s.Last, next)), saidWithin)
		p.limb, p.limbs = limbs(track.Words[max(from, s.First-limbWords):s.First])
	}
	for i := range out {
		out[i].run = out[i].silent && (i > 0 && out[i].same && out[i-1].silent || i+1 < len(out) && out[i+1].same && out[i+1].silent)
	}
	answering(out, sets)
	return out
}

// listenTo takes in the sides named at one place other than before the set.
func (p *sidePlace) listenTo(mentions []Mention, where sideWhere) {
	for i := range mentions {
		m := &mentions[i]
		switch {
		case m.Kind == Side && (m.Side == Left || m.Side == Right):
			p.name(m, where)
		case m.Kind == Side && m.Side == Alternate && where == saidInside:
			p.byTurns = max(p.byTurns, m.Weight)
		case m.Kind == Swap && where != saidWithin && m.Weight > 0.9:
			p.swap = max(p.swap, m.Weight/2)
		}
	}
}

// name takes in one left or right.
func (p *sidePlace) name(m *Mention, where sideWhere) {
	w := &p.named[m.Side-Left][where]
	*w = max(*w, m.Weight)
	p.remember(m, m.Weight*nearness[where])
}

// nearness orders the mentions of one side by where they are, for which of them is shown as the one that says it.
var nearness = [sideWheres]float64{saidNear: 1, saidSoon: 0.8, saidFar: 0.5, saidDistant: 0.2, saidTail: 0.3, saidInside: 0.6, saidWithin: 0.1}

func (p *sidePlace) remember(m *Mention, w float64) {
	if w > p.top[m.Side] {
		p.top[m.Side], p.strongest[m.Side] = w, m
	}
}

// before takes in what is said between the set before and this one, which begins at word first.
func (p *sidePlace) before(track *caption.Track, mentions []Mention, first int) {
	for i := range mentions {
		m := &mentions[i]
		distance := max(0, first-m.Last)
		fades := m.Weight * (1 - float64(distance)/sideWords)
		switch m.Kind {
		case Side:
			p.side(track, mentions, i, distance, fades)
		case Swap:
			p.swap = max(p.swap, fades)
		case Again:
			p.again = max(p.again, m.Weight)
		case Round:
			p.round = max(p.round, m.Weight)
		case Rest:
			p.rest = max(p.rest, m.Weight)
		case Single:
			p.single = max(p.single, fades)
		}
		if m.Scope == EachSide && (m.Kind == Reps || m.Kind == Seconds) {
			p.each = max(p.each, fades)
		}
	}
}

// side takes in one mention of a side before the set.
func (p *sidePlace) side(track *caption.Track, mentions []Mention, i, distance int, fades float64) {
	m := &mentions[i]
	switch m.Side {
	case Both:
		p.both = max(p.both, fades)
		p.remember(m, fades)
		return
	case Alternate:
		p.byTurns = max(p.byTurns, fades)
		p.remember(m, fades)
		return
	}
	k := m.Side - Left
	switch order := paired(track, mentions, i); {
	case order < 0:
		p.first[k] = max(p.first[k], m.Weight)
		return
	case order > 0:
		p.second[k] = max(p.second[k], m.Weight)
		return
	}
	where := saidDistant
	switch {
	case distance <= sideNear:
		where = saidNear
	case distance <= sideSoon:
		where = saidSoon
	case distance <= sideFar:
		where = saidFar
	}
	p.name(m, where)
	p.last = [2]float64{}
	p.last[k] = fades
}

// between returns the mentions whose first word is in [first, last).
func between(mentions []Mention, first, last int) []Mention {
	i, _ := slices.BinarySearchFunc(mentions, first, func(m Mention, w int) int { return m.First - w })
	j := i
	for j < len(mentions) && mentions[j].First < last {
		j++
	}
	return mentions[i:j]
}

// paired returns -1 for a side that is named together with the other and before it, as in "left and right", 1 for one that is
// named after it, else 0.
func paired(track *caption.Track, mentions []Mention, i int) int {
	m := &mentions[i]
	for _, step := range [2]int{-1, 1} {
		j := i + step
		for j >= 0 && j < len(mentions) && mentions[j].Kind != Side {
			j += step
		}
		if j < 0 || j >= len(mentions) || mentions[j].Side != m.Side.Other() {
			continue
		}
		a, b := &mentions[min(i, j)], &mentions[max(i, j)]
		if joined(track.Words[a.Last:max(a.Last, b.First)]) {
			return -step
		}
	}
	return 0
}

// joined reports whether the words between two sides only put them together: "and", "then the", "or".
func joined(words []caption.Word) bool {
	if len(words) > 3 {
		return false
	}
	for _, w := range words {
		switch w.Fold {
		case "and", "or", "then", "the", "look", "your", "to", "on":
		default:
			return false
		}
	}
	return len(words) > 0
}

// limbWords is how many words before a set are asked whether they speak of one leg or two.
const limbWords = 25

// limbs counts, up to three and in thirds, the words for one limb and those for several.
func limbs(words []caption.Word) (one, several float64) {
	for i := range words {
		switch words[i].Fold {
		case "leg", "foot", "arm", "hand", "knee", "heel", "thumb", "elbow":
			one++
		case "legs", "feet", "arms", "hands", "knees", "heels", "thumbs", "elbows", "toes":
			several++
		}
	}
	return min(one, 3) / 3, min(several, 3) / 3
}

// same reports whether two sets are known to be of the same exercise.
func same(a, b *SetSpan) bool { return a.Exercise != "" && a.Exercise == b.Exercise }

// even reports whether two sets were done about as often, or for about as long.
func even(a, b *SetSpan) bool {
	if a.Timed != b.Timed {
		return false
	}
	if a.Timed {
		return a.Seconds > 0 && a.Seconds < 1.3*b.Seconds && b.Seconds < 1.3*a.Seconds
	}
	return a.Count > 0 && a.Count-b.Count <= 1 && b.Count-a.Count <= 1
}

// answering finds for each set the one of the same exercise, in the row of its sets before or after, that stands at the same place.
func answering(places []sidePlace, sets []SetSpan) {
	var starts []int // of the rows
	for i := range sets {
		places[i].other = -1
		if i == 0 || !same(&sets[i-1], &sets[i]) {
			starts = append(starts, i)
		}
	}
	row := func(r int) (first, last int) {
		if r+1 < len(starts) {
			return starts[r], starts[r+1]
		}
		return starts[r], len(sets)
	}
	for r := range starts {
		first, last := row(r)
		for q := r - 1; ; q-- {
			if q < 0 { // none before: the next after
				for q = r + 1; q < len(starts) && !same(&sets[starts[q]], &sets[first]); q++ {
				}
				if q == len(starts) {
					break
				}
			}
			if !same(&sets[starts[q]], &sets[first]) {
				continue
			}
			from, to := row(q)
			for i := first; i < last && from+i-first < to; i++ {
				places[i].other = from + i - first
			}
			break
		}
	}
}
