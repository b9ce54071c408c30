package announce

import (
	"strings"

	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/numeral"
)

// Doses that a recogniser is given the benefit of the doubt for: the usual numbers of repetitions.
var usualReps = [...]int{5, 6, 8, 10, 12, 15, 20}

// tooCommon is how many of a thousand words of talk a word may be at most to be taken for a number.
const tooCommon = 6

// mishearings adds amounts for words that only sound like a number, where a number is to be expected:
// before "each side", "of those", "step ups". It is for tracks of a recogniser.
func (f *finder) mishearings() {
	l := f.lexicon
	k := 0
	var extra []amount
	for i := 0; i+1 < len(f.words); i++ {
		for k < len(f.found) && f.found[k].last <= i {
			k++
		}
		if k < len(f.found) && f.found[k].first <= i || f.words[i].classes&(l.move|l.second) != 0 {
			continue
		}
		next := f.words[i+1].classes
		expected := next&l.move != 0 || next&l.each != 0 || f.folds[i+1] == "of" && i+2 < len(f.words) && f.words[i+2].classes&l.those != 0
		if !expected || numeral.Commonness(f.folds[i]) > tooCommon {
			continue
		}
		for _, g := range numeral.SoundsLike(f.folds[i]) {
			if isUsualReps(g.Value) && g.Cost < 2 {
				v := float64(g.Value)
				extra = append(extra, amount{first: i, last: i + 1, value: v, high: v, cost: g.Cost + 0.3})
				break
			}
		}
	}
	f.found = merge(f.found, extra)
}

func isUsualReps(v int) bool {
	for _, u := range usualReps {
		if u == v {
			return true
		}
	}
	return false
}

// merge joins two lists in order of their first words.
func merge(a, b []amount) []amount {
	if len(b) == 0 {
		return a
	}
	out := make([]amount, 0, len(a)+len(b))
	for len(a) > 0 && len(b) > 0 {
		if a[0].first <= b[0].first {
			out, a = append(out, a[0]), a[1:]
		} else {
			out, b = append(out, b[0]), b[1:]
		}
	}
	return append(append(out, a...), b...)
}

const (
	heardOnly  = 0.0  // log odds of a word that only sounds like what was done
	perCommon  = -0.1 // for each time in a thousand words that the word is said anyway
	wellHeard  = -0.8 // log odds from which on a dose needs no mishearing
	heardWords = 45   // words before the set in which such a word is looked for
)

// heardAs adds, for a recogniser's track, the word just before the set that sounds most like the number of repetitions
// done, or, beside a word that goes with a dose, like a usual number close to it. It is asked only where nothing better
// was found, and a number that nobody heard is not added, however plausible.
func (d *dosing) heardAs(b *ballot, i, from int) {
	s := &d.sets[i]
	if !d.poor || s.Timed || s.Count == 0 || s.Count >= 63 || b.strongest() > wellHeard {
		return
	}
	var best [3]vote // for Count-1, Count, Count+1
	for j := range best {
		best[j].odds = never
	}
	among := uint64(7) << (s.Count - 1)
	for j := max(from, s.First-heardWords); j < s.First; j++ {
		guesses := numeral.SoundsLikeOneOf(d.track.Words[j].Fold, among)
		if len(guesses) == 0 {
			continue
		}
		beside := d.beside(j, s.Exercise)
		for _, g := range guesses {
			n := g.Value - s.Count + 1
			if n < 0 || n > 2 || n != 1 && !(beside && isUsualReps(g.Value)) {
				continue
			}
			odds := heardOnly - g.Cost + float64(perCommon*numeral.Commonness(d.track.Words[j].Fold)) + float64(perWord*float64(s.First-j))
			if beside {
				odds += named
			}
			if odds > best[n].odds {
				best[n] = vote{Dose{Value: float64(g.Value), First: j, Last: j + 1, At: d.at(j)}, odds}
			}
		}
	}
	for _, v := range best {
		b.add(v.dose, v.odds)
	}
}

// beside reports whether a word that goes with a dose stands next to word i: a move, "each", "of those", a word of the exercise's name.
func (d *dosing) beside(i int, exercise string) bool {
	l := d.lexicon
	if d.classes(i+1)&(l.move|l.each|l.those) != 0 || d.classes(i-1)&l.move != 0 || d.classes(i+2)&(l.move|l.those) != 0 {
		return true
	}
	for w := range strings.FieldsSeq(exercise) {
		for j := max(0, i-2); j < min(len(d.track.Words), i+3); j++ {
			if alike(d.track.Words[j].Fold, w) {
				return true
			}
		}
	}
	return false
}

// classes returns the classes of word i, none where there is no such word.
func (d *dosing) classes(i int) classes {
	if i < 0 || i >= len(d.track.Words) {
		return 0
	}
	return d.lexicon.entry(d.track.Words[i].Fold).classes
}

func (d *dosing) at(i int) caption.Time { return d.track.Words[i].Time.At }
