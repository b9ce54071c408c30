package segment

import (
	"strings"

	"captally.example/captally/segment/numeral"
	"captally.example/captally/segment/phrases"
)

const (
	admission = 3.0 // nats for a slip of the session where the therapist owns up to it
	admitLate = 60  // words after the slip within which people do
	summedUp  = 3.0 // nats for as many repetitions as the therapist says it were
	sumLate   = 25  // words after the last number within which people do
	sumTalk   = 3   // words between a count and a number that may sum it up, at least
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

// summedUp returns how many repetitions the joints of a count hold by what the therapist says after word last: "I said seven twice, so
// that's eleven". It returns 0 where nothing is said that any account of the joints comes to.
func (x *text) summedUp(last int, joints []joint, head int) int {
	for _, m := range x.marks["recall"] {
		if m.First < last || m.Last > last+sumLate || m.Last >= len(x.w) {
			continue
		}
		n := x.w[m.Last].num - head
		if n > 0 && !x.quantity(m.Last) && holdsWay(joints, n) {
			return n
		}
	}
	return 0
}

// withoutSum returns a count without its last number where that only sums it up, after some talk; nil where it does not.
func (x *text) withoutSum(r *run) *run {
	n := len(r.items)
	if n < 4 || r.rule.step < 0 || r.last().first-r.items[n-2].last < sumTalk || x.echoed(r.last()) == 0 {
		return nil
	}
	short := *r
	short.items = r.items[:n-1]
	return &short
}

// quantity reports whether what follows number i makes it one of something else than repetitions.
func (x *text) quantity(i int) bool {
	if i+1 >= len(x.w) || x.w[i].stop != runsOn {
		return false
	}
	next := x.w[i+1].fold
	return quantityOf[next] || mayQuantify[next]
}

// holdsWay reports whether several accounts of the joints are to be weighed and one of them comes to n repetitions.
func holdsWay(joints []joint, n int) bool {
	ways := waysOf(joints)
	if len(ways) < 2 {
		return false
	}
	for _, way := range ways {
		sum := 0
		for k, o := range way {
			sum += joints[k].options[o].reps
		}
		if sum == n {
			return true
		}
	}
	return false
}
