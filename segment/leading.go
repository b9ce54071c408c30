package segment

const (
	slowestBeat  = 12.0 // seconds between the numbers of repetitions at most; labels ("finger one", "mission two") lie further apart
	leadingOften = 3    // times that a word stands before a number and before the next
)

// leadingWords returns the words of this session that stand before the numbers of repetitions: the same word before numbers that
// go on by one, over and over ("huff one", "huff two"); those behind a number of another count where within is set ("press two
// three loose twelve, press two three loose eleven"), else those behind none.
func (x *text) leadingWords(within bool) map[string]bool {
	type seen struct {
		last, pairs, on int
		at              float64
	}
	before := map[string]seen{}
	for i := 3; i < len(x.w); i++ {
		v, word := x.w[i].num, x.w[i-1].fold
		if v <= 0 || x.w[i-1].num >= 0 || labelFor[word] || x.pause(i) || i+1 < len(x.w) && x.w[i+1].num >= 0 {
			continue
		}
		second := max(x.w[i-2].num, x.w[i-3].num)
		if within != (second >= 0) || second == v-1 || second == v+1 { // no number, or one that this word parts from its next
			continue
		}
		s, ok := before[word]
		if !ok {
			before[word] = seen{last: v, at: x.w[i].t}
			continue
		}
		s.pairs++
		if abs(v-s.last) == 1 && x.w[i].t-s.at < slowestBeat {
			s.on++
		}
		s.last, s.at = v, x.w[i].t
		before[word] = s
	}
	out := map[string]bool{}
	for word, s := range before {
		out[word] = s.on >= leadingOften && s.on*2 > s.pairs
	}
	return out
}
