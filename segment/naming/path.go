package naming

import "math"

// never is the score of a sequence that cannot be.
var never = math.Inf(-1)

// best returns the best sequence of states, one a set, and what margins needs. With the sequence of an earlier run it knows what
// followed what.
//
// It is the Viterbi algorithm, forward and backward. A state is reached by staying, from the best state of all, or from the
// state that came before it in an earlier round, so that a step takes time linear in the states.
func (s *search) best(earlier []int) (path []int, ahead [][]float64, before [][]int) {
	n, m := len(s.sets), len(s.states)
	ahead = grid[float64](n, m) // ahead[k][i]: best score of sets 0..k with set k in state i
	back := grid[int](n, m)
	before = s.precursors(earlier)
	for k := range n {
		var last []float64
		var top two
		if k > 0 {
			last = ahead[k-1]
			top = best2(last)
		}
		for i := range m {
			ahead[k][i], back[k][i] = s.arrive(k, i, last, top, before[k][i])
		}
	}
	path = make([]int, n)
	path[n-1] = max(best2(ahead[n-1]).first, 0)
	for k := n - 1; k > 0; k-- {
		path[k-1] = back[k][path[k]]
	}
	return path, ahead, before
}

// grid returns n rows of m values each.
func grid[T any](n, m int) [][]T {
	all, out := make([]T, n*m), make([][]T, n)
	for k := range out {
		out[k] = all[k*m : (k+1)*m]
	}
	return out
}

// arrive returns the best score of sets 0..k with set k in state i, and the state of set k-1 from which it comes. last are the
// scores of the states at set k-1, top the best two of them, precursor the state that came before i in an earlier round.
func (s *search) arrive(k, i int, last []float64, top two, precursor int) (float64, int) {
	if s.states[i].firstSet > k {
		return never, 0
	}
	own := s.score[k][i]
	enter := s.enter(k, i)
	if k == 0 {
		return own + enter, 0
	}
	from, v := top.but(i), never
	if from >= 0 {
		v = last[from] + enter
	}
	if precursor >= 0 && last[precursor]+enter+table[followsOrder].weight > v {
		from, v = precursor, last[precursor]+enter+table[followsOrder].weight
	}
	if stay := last[i] + s.stay(k); stay >= v {
		from, v = i, stay
	}
	return v + own, max(from, 0)
}

// behind returns for each set k and state i the best score of the sets after k, given state i at set k.
func (s *search) behind(before [][]int) [][]float64 {
	n, m := len(s.sets), len(s.states)
	out := grid[float64](n, m)
	next := make([]float64, m) // of entering a state at set k+1
	for k := n - 2; k >= 0; k-- {
		for j := range m {
			next[j] = never
			if s.states[j].firstSet <= k+1 {
				next[j] = s.enter(k+1, j) + s.score[k+1][j] + out[k+1][j]
			}
		}
		top, stay := best2(next), s.stay(k+1)
		for i := range m {
			v := stay + s.score[k+1][i] + out[k+1][i]
			if j := top.but(i); j >= 0 {
				v = max(v, next[j])
			}
			out[k][i] = v
		}
		for j := range m {
			if p := before[k+1][j]; p >= 0 {
				out[k][p] = max(out[k][p], next[j]+table[followsOrder].weight)
			}
		}
	}
	return out
}

// margins returns for each set by how much the path beats the best one that names it otherwise.
func (s *search) margins(path []int, ahead [][]float64, before [][]int) []float64 {
	behind := s.behind(before)
	out := make([]float64, len(path))
	for k, p := range path {
		other := never
		for i := range s.states {
			if i != p && !s.akin(i, p) {
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
		return s.change()
	}
	if s.from[k][i] < 0 {
		return s.change() + table[unsaidChange].weight
	}
	return s.change()
}

// change is what it costs that a set has another name than the set before. Where a recogniser guessed the words, more of them only look
// like names.
func (s *search) change() float64 {
	return table[changes].weight + float64(table[changesClear].weight*float64(1-s.rough))
}

// stay is what it gains or costs that set k has the name of the set before.
func (s *search) stay(k int) float64 {
	c := s.cues[k]
	v := float64(table[staysOnSame].weight*c.same) + float64(table[staysOnNew].weight*c.new)
	if c.same == 0 && s.sets[k].First-s.sets[k].After > longLead {
		v += table[staysInQuiet].weight
	}
	v += float64(table[staysOnEcho].weight * s.echo[k])
	if s.sets[k].Kind != s.sets[k-1].Kind {
		v += table[staysOverKind].weight
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

// two are the indices of the two greatest values of a slice, the first of equals; -1 where there is none above never.
type two struct{ first, second int }

func best2(v []float64) two {
	t := two{-1, -1}
	for i, x := range v {
		switch {
		case x <= never:
		case t.first < 0 || x > v[t.first]:
			t.first, t.second = i, t.first
		case t.second < 0 || x > v[t.second]:
			t.second = i
		}
	}
	return t
}

// but returns the greatest that is not i.
func (t two) but(i int) int {
	if t.first == i {
		return t.second
	}
	return t.first
}

// Confidence of a name by its margin, in the units of the weights: a logistic curve through the shares that were right on
// labelled sessions.
const (
	confidenceAt0   = 0.0  // of the logit, at no margin
	confidenceSlope = 0.85 // of the logit, a unit
	confidenceHeard = 0.7  // taken from the logit of a name by its sound alone
)

func confidence(margin float64, heard bool) float64 {
	x := confidenceAt0 + float64(confidenceSlope*min(margin, 6))
	if heard {
		x -= confidenceHeard
	}
	return 1 / (1 + math.Exp(-x))
}
