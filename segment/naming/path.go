package naming

import "math"

// never is the score of a sequence that cannot be.
var never = math.Inf(-1)

// best returns the best sequence of states, one a set, and for each set by how much it beats the best sequence that names it
// otherwise. With the sequence of an earlier run it knows what followed what.
//
// It is the Viterbi algorithm, forward and backward. A state is reached by staying, from the best state of all, or from the
// state that came before it in an earlier round, so that a step takes time linear in the states.
func (s *search) best(earlier []int) (path []int, margins []float64) {
	n, m := len(s.sets), len(s.states)
	ahead := make([][]float64, n) // ahead[k][i]: best score of sets 0..k with set k in state i
	back := make([][]int, n)
	before := s.precursors(earlier)
	for k := range n {
		ahead[k], back[k] = make([]float64, m), make([]int, m)
		for i := range m {
			ahead[k][i], back[k][i] = s.arrive(k, i, ahead, before)
		}
	}
	path = make([]int, n)
	path[n-1] = argmax(ahead[n-1], -1)
	for k := n - 1; k > 0; k-- {
		path[k-1] = back[k][path[k]]
	}
	return path, s.margins(path, ahead, s.behind(before))
}

// arrive returns the best score of sets 0..k with set k in state i, and the state of set k-1 from which it comes.
func (s *search) arrive(k, i int, ahead [][]float64, before [][]int) (float64, int) {
	if s.states[i].firstSet > k {
		return never, 0
	}
	own := s.score[k][i]
	if k == 0 {
		return own + s.enter(k, i), 0
	}
	last := ahead[k-1]
	from := argmax(last, i)
	v := never
	if from >= 0 {
		v = last[from] + s.enter(k, i)
	}
	if p := before[k][i]; p >= 0 && last[p]+s.enter(k, i)+weights[followsOrder] > v {
		from, v = p, last[p]+s.enter(k, i)+weights[followsOrder]
	}
	if stay := last[i] + s.stay(k); stay >= v {
		from, v = i, stay
	}
	return v + own, max(from, 0)
}

// behind returns for each set k and state i the best score of the sets after k, given state i at set k.
func (s *search) behind(before [][]int) [][]float64 {
	n, m := len(s.sets), len(s.states)
	out := make([][]float64, n)
	out[n-1] = make([]float64, m)
	for k := n - 2; k >= 0; k-- {
		out[k] = make([]float64, m)
		next := make([]float64, m) // of entering a state at set k+1
		for j := range m {
			next[j] = never
			if s.states[j].firstSet <= k+1 {
				next[j] = s.enter(k+1, j) + s.score[k+1][j] + out[k+1][j]
			}
		}
		for i := range m {
			v := s.stay(k+1) + s.score[k+1][i] + out[k+1][i]
			if j := argmax(next, i); j >= 0 {
				v = max(v, next[j])
			}
			out[k][i] = v
		}
		for j := range m {
			if p := before[k+1][j]; p >= 0 {
				out[k][p] = max(out[k][p], next[j]+weights[followsOrder])
			}
		}
	}
	return out
}

// margins returns by how much the path beats the best one that has another exercise at each set.
func (s *search) margins(path []int, ahead, behind [][]float64) []float64 {
	out := make([]float64, len(path))
	for k, p := range path {
		other := never
		for i := range s.states {
			if i != p && likeness(s.states[i].ids, s.states[p].ids) == 0 && likeness(s.states[p].ids, s.states[i].ids) == 0 {
				other = max(other, ahead[k][i]+behind[k][i])
			}
		}
		out[k] = ahead[k][p] + behind[k][p] - other
	}
	return out
}

// enter is what it costs that set k has another name than the set before.
func (s *search) enter(k, i int) float64 {
	if i == 0 {
		if k == 0 {
			return 0
		}
		return weights[changes]
	}
	if s.from[k][i] < 0 {
		return weights[changes] + weights[unsaidChange]
	}
	return weights[changes]
}

// stay is what it gains or costs that set k has the name of the set before.
func (s *search) stay(k int) float64 {
	c := s.cues[k]
	v := float64(weights[staysOnSame]*c.same) + float64(weights[staysOnNew]*c.new)
	if c.same == 0 && s.sets[k].First-s.sets[k].After > longLead {
		v += weights[staysInQuiet]
	}
	if s.sets[k].Kind != s.sets[k-1].Kind {
		v += weights[staysOverKind]
	}
	return v
}

// precursors returns for each set and state the state that came right before it in an earlier round, -1 where there is none.
func (s *search) precursors(earlier []int) [][]int {
	out := make([][]int, len(s.sets))
	now := make([]int, len(s.states))
	for i := range now {
		now[i] = -1
	}
	for k := range out {
		if q := k - 2; earlier != nil && q >= 1 && earlier[q] != earlier[q-1] && now[earlier[q]] < 0 {
			next := append([]int(nil), now...)
			next[earlier[q]] = earlier[q-1]
			now = next
		}
		out[k] = now
	}
	return out
}

// argmax returns the index of the greatest value but that at skip, the first of equals; -1 where there is none above never.
func argmax(v []float64, skip int) int {
	top := -1
	for i := range v {
		if i != skip && v[i] > never && (top < 0 || v[i] > v[top]) {
			top = i
		}
	}
	return top
}

// Confidence of a name by its margin, in the units of the weights: a logistic curve through the shares that were right on
// labelled sessions.
const (
	confidenceAt0   = 0.6 // of the logit, at no margin
	confidenceSlope = 0.9 // of the logit, a unit
	confidenceHeard = 1.2 // taken from the logit of a name by its sound alone
)

func confidence(margin float64, heard bool) float64 {
	x := confidenceAt0 + float64(confidenceSlope*min(margin, 6))
	if heard {
		x -= confidenceHeard
	}
	return 1 / (1 + math.Exp(-x))
}
