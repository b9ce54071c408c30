package announce

import "captally.example/captally/segment/numeral"

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
