package segment

import (
	"strings"

	"captally.example/captally/segment/numeral"
	"captally.example/captally/segment/phrases"
)

const (
	admission = 3.0 // nats for a slip of the session where the therapist owns up to it
	admitLate = 60  // words after the slip within which people do
)

// admit weighs the accounts of the joints by what the therapist says of the count afterwards: "I skipped four", "I said eight
// twice". It is common practice, no source, and no captioner would write it of his own mistakes.
func (x *text) admit(joints []joint) {
	for _, m := range x.marks["admitted"] {
		v := x.numberNamed(m)
		for k := len(joints) - 1; k >= 0; k-- {
			j := &joints[k]
			if j.b.first > m.First || m.First-j.b.last > admitLate || !j.concerns(v) {
				continue
			}
			for i := range j.options {
				if o := &j.options[i]; o.cause == bySession {
					o.prior += float64(admission * m.Weight)
				}
			}
			break
		}
	}
}

// numberNamed returns the number that a phrase names: "I said eight twice", "two eights".
func (x *text) numberNamed(m phrases.Match) int {
	v := 0
	for k := m.First; k < m.Last; k++ {
		word := x.w[k].fold
		for _, one := range [...]string{strings.TrimSuffix(word, "s"), strings.TrimSuffix(word, "es")} {
			if n, ok := numeral.Single(one); ok && one != word {
				return n
			}
		}
		v = max(v, x.w[k].num)
	}
	return v
}

// concerns reports whether number v is left out at a joint, or said or written there again.
func (j *joint) concerns(v int) bool {
	if len(j.options) < 2 {
		return false
	}
	lo, hi := min(j.a.v, j.b.v), max(j.a.v, j.b.v)
	if lo < v && v < hi {
		return true
	}
	for i := range j.again {
		if j.again[i].v == v {
			return true
		}
	}
	return false
}
