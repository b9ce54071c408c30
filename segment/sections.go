package segment

import (
	"math"

	"captally.example/captally/segment/announce"
	"captally.example/captally/segment/phrases"
)

// The sections of a session, in the order in which they come. Any but the main one may be missing.
type section uint8

const (
	opening section = iota // welcome, who it is for, what is needed
	warming                // warm-up
	main                   // sets and rests, and the talk between them
	cooling                // cool-down
	closing                // what to do until next time, goodbye
	sections
)

// What speaks for each section, in nats: the columns are opening, warming, main, cooling, closing.
var (
	sectionCount = [sections]float64{-5, -1.4, 0.4, -3.5, -8}         // a chosen set that speaks clearly, less for a doubtful one
	sectionRest  = [sections]float64{-0.8, -1.5, 0.3, -1, -1}         // a rest that is announced
	sectionTalk  = [sections]float64{0.14, -0.10, -0.01, -0.08, 0.04} // a second of fluent talk; the contrary where people move
)

// What a phrase of weight 1 speaks for beyond its words.
var sectionPhrase = [...]struct {
	kind phrases.Kind
	says [sections]float64
}{
	{"warmed", [sections]float64{-1, 2, -0.5, -1, -1}},
	{"warm-up", [sections]float64{-0.8, 1.4, -1.5, 0, -0.5}},
	{"cool-down", [sections]float64{-0.4, 0, -0.6, 1.2, 0}},
	{"welcome", [sections]float64{0.7, 0, 0, 0, 0}},
	{"goodbye", [sections]float64{0, 0, 0.2, 0, 1.8}},
}

const (
	shareWords       = 0.21 // of what the words speak for by the table, since neighbours repeat each other
	shareEdge        = 0.33 // of what the words around the place where a section begins speak for it
	sureScore        = 15.0 // nats: a chosen set that scores so much speaks clearly
	costSectionTurn  = 0.9  // of a warm-up, or a cool-down, at all
	costMidFlow      = 1.7  // a section turns where no pause shows it
	costBetweenSides = 3.0  // between the two sides of an exercise
	costNoWarmUp     = 5.4
	costWarmed       = 4.0 // a warm-up that goes on after it was said to be over
	costNoCoolDown   = 8.0
	costNoMain       = 25.0  // nothing between them: hardly a session
	usualLength      = 110.0 // seconds of a warm-up or a cool-down; of the labelled sessions, as its spread
	spreadLength     = 0.36  // natural logarithm
	lengthTail       = 8.0   // degrees of freedom: some are far longer or shorter
	leastSection     = 25.0  // seconds: a shorter one is hardly any
	costLeast        = 3.0
	noSection        = 3.0   // seconds: a shorter one is none
	mostSection      = 600.0 // seconds: no warm-up or cool-down is longer
)

// edgeOf is the class of the table of edges with which a section begins.
var edgeOf = [sections]int{noEdge, warmEdge, mainEdge, coolEdge, closeEdge}

// turns returns the words at which a section may begin: those that begin an utterance, follow a pause, or begin or follow a cue phrase.
func (x *text) turns() []int {
	at := make([]bool, len(x.w)+1)
	for _, p := range sectionPhrase {
		for _, m := range x.marks[p.kind] {
			at[m.First] = true
			at[m.Last] = at[m.Last] || p.kind == "warmed"
		}
	}
	var out []int
	for i := range x.w {
		if i == 0 || at[i] || x.w[i-1].stop == sentence || x.silence(i) > 0.3 {
			out = append(out, i)
		}
	}
	return out
}

// outside returns the turns that do not lie within a chosen set; both are in order.
func outside(turns []int, chosen []stretch) []int {
	out := turns[:0]
	k := 0
	for _, i := range turns {
		for k < len(chosen) && chosen[k].last <= i {
			k++
		}
		if k < len(chosen) && i > chosen[k].first {
			continue
		}
		out = append(out, i)
	}
	return out
}

// A division is the state of the search for the sections: over the words at which one may begin, and the end.
type division struct {
	at   []int               // words
	time []float64           // when they begin, seconds
	turn [][sections]float64 // what it costs that a section begins there
	sum  [][sections]float64 // what the words before speak for
	best [sections][]float64 // of dividing what lies before into sections up to this one
	from [sections][]int     // where the last of them began
}

// divide finds where each section begins: word indices, rising; a missing section is empty.
func (x *text) divide(chosen []stretch) [sections + 1]int {
	if len(x.w) == 0 {
		return [sections + 1]int{}
	}
	cuts := x.divideAs(chosen, sectionCount)
	inMain := len(chosen) == 0
	for _, s := range chosen {
		inMain = inMain || s.first >= cuts[main] && s.first < cuts[main+1]
	}
	if !inMain { // a session without a set in its main part is none
		says := sectionCount
		says[main] += costNoMain
		return x.divideAs(chosen, says)
	}
	return cuts
}

// divideAs divides the session where a chosen set speaks for the sections as says.
func (x *text) divideAs(chosen []stretch, says [sections]float64) [sections + 1]int {
	d := x.newDivision(chosen, says)
	cuts := d.search()
	for i, u := range cuts {
		cuts[i] = d.at[u]
	}
	return cuts
}

// search returns the places at which the sections of the best division begin, and the last place.
func (d *division) search() (cuts [sections + 1]int) {
	for s := range sections {
		switch s {
		case warming, cooling:
			d.ofSomeLength(s)
		default:
			d.ofAnyLength(s)
		}
	}
	u := len(d.at) - 1
	for s := int(sections) - 1; s >= 0; s-- {
		cuts[s+1] = u
		u = d.from[s][u]
	}
	return cuts
}

func (x *text) newDivision(chosen []stretch, says [sections]float64) *division {
	at := append(outside(x.turns(), chosen), len(x.w))
	d := &division{at: at, time: make([]float64, 0, len(at)), turn: make([][sections]float64, 0, len(at)), sum: make([][sections]float64, 0, len(at))}
	said := x.sectionEvidence(chosen, says)
	swaps := x.betweenSides(chosen)
	var sum [sections]float64 // of the words before next
	next := 0
	for _, i := range d.at {
		for ; next < i; next++ {
			for s := range sections {
				sum[s] += said[next][s]
			}
		}
		cost := 0.0
		if i > 0 && i < len(x.w) && x.w[i-1].stop != sentence {
			cost = costMidFlow * (1 - math.Min(1, x.silence(i)/0.6))
		}
		d.time = append(d.time, x.timeAt(i))
		edge := x.topics.edge(i)
		if swaps[i] {
			cost += costBetweenSides
		}
		var turn [sections]float64
		for s := warming; s < sections; s++ {
			turn[s] = cost - float64(shareEdge*edge[edgeOf[s]])
		}
		d.turn = append(d.turn, turn)
		d.sum = append(d.sum, sum)
	}
	return d
}

// betweenSides tells of each word, and the end, whether it lies between the two sides of an exercise: only the sides are changed from one
// chosen set to the next.
func (x *text) betweenSides(chosen []stretch) []bool {
	out := make([]bool, len(x.w)+1)
	for k := 1; k < len(chosen); k++ {
		from, to := chosen[k-1].last, chosen[k].first
		if x.marked("swap", from, to) && !x.marked("next", from, to) {
			for i := from; i <= to; i++ {
				out[i] = true
			}
		}
	}
	return out
}

// marked reports whether a cue phrase of a kind lies in words [a, b).
func (x *text) marked(kind string, a, b int) bool {
	for _, m := range x.marks[markKind(kind)] {
		if m.First >= a && m.Last <= b && m.Weight > 0.5 {
			return true
		}
	}
	return false
}

// ofAnyLength lets section s end at each turn; only its words matter.
func (d *division) ofAnyLength(s section) {
	n := len(d.at)
	d.best[s], d.from[s] = make([]float64, n), make([]int, n)
	top, at := math.Inf(-1), 0 // of beginning it: best so far, less the words before
	for u := range n {
		d.best[s][u], d.from[s][u] = top+d.sum[u][s], at
		before := d.before(s, u)
		skip := before - skipCost(s)
		if skip > d.best[s][u] {
			d.best[s][u], d.from[s][u] = skip, u
		}
		if begun := before - d.turn[u][s] - d.sum[u][s]; begun > top {
			top, at = begun, u
		}
	}
}

// ofSomeLength lets section s end at each turn, its length being a usual one or not.
func (d *division) ofSomeLength(s section) {
	n := len(d.at)
	d.best[s], d.from[s] = make([]float64, n), make([]int, n)
	begun := make([]float64, n) // the score of beginning it at each turn, less the words before
	for u := range n {
		before := d.before(s, u)
		best, from := before-skipCost(s), u
		begun[u] = before - d.turn[u][s] - d.sum[u][s]
		for v := u - 1; v >= 0; v-- {
			length := d.time[u] - d.time[v]
			if length > mostSection {
				break
			}
			if sc := begun[v] + d.sum[u][s]; sc > best { // else no length makes it better
				if sc -= lengthCost(length); sc > best {
					best, from = sc, v
				}
			}
		}
		d.best[s][u], d.from[s][u] = best, from
	}
}

// before is the best of dividing what lies before turn u into the sections before s.
func (d *division) before(s section, u int) float64 {
	if s > 0 {
		return d.best[s-1][u]
	}
	if u > 0 {
		return math.Inf(-1)
	}
	return 0
}

func skipCost(s section) float64 {
	switch s {
	case warming:
		return costNoWarmUp
	case main:
		return costNoMain
	case cooling:
		return costNoCoolDown
	}
	return 0
}

// lengthCost is what a warm-up or cool-down of so many seconds costs.
func lengthCost(length float64) float64 { return lengthCosts[min(int(length), len(lengthCosts)-1)] }

// lengthCosts holds it for each full second, since the search asks for it so often.
var lengthCosts = func() []float64 {
	out := make([]float64, int(mostSection)+1)
	for i := range out {
		z := math.Log((float64(i)+0.5)/usualLength) / spreadLength
		out[i] = costSectionTurn + float64(0.5*(lengthTail+1)*math.Log1p(float64(z*z)/lengthTail))
		if float64(i) < noSection {
			out[i] += costNoCoolDown
		}
		if float64(i) < leastSection {
			out[i] += costLeast
		}
	}
	return out
}()

// timeAt returns when word i begins; the end of the recording after the last.
func (x *text) timeAt(i int) float64 {
	if i >= len(x.w) {
		return x.end
	}
	return x.w[i].t
}

// sectionEvidence returns what each word speaks for, with the sets that begin and the silence that follows.
func (x *text) sectionEvidence(chosen []stretch, says [sections]float64) [][sections]float64 {
	out := make([][sections]float64, len(x.w))
	for _, p := range sectionPhrase {
		for _, m := range x.marks[p.kind] {
			for s := range sections {
				out[m.First][s] += float64(p.says[s] * m.Weight)
			}
		}
	}
	for k := range x.said {
		if m := &x.said[k]; m.Kind == announce.Rest && m.Value > 0 {
			for s := range sections {
				out[m.First][s] += float64(sectionRest[s] * m.Weight)
			}
		}
	}
	for _, m := range x.marks["warmed"] {
		if m.Last < len(out) {
			out[m.Last][warming] -= float64(costWarmed * m.Weight)
		}
	}
	within := make([]bool, len(x.w)) // a set explains why little is said
	for _, r := range chosen {
		share := math.Min(1, r.score/sureScore)
		for s := range sections {
			out[r.first][s] += float64(says[s] * share)
		}
		for i := max(r.first-1, 0); i < r.last; i++ {
			within[i] = true
		}
	}
	density := x.density()
	var sum [sections]float64 // what the words so far speak for by the table
	for i := range x.w {
		before := sum
		x.topics.sections.Add(sum[:], i)
		length := min(x.timeAt(i+1)-x.w[i].t, 12)
		talk := max(-1, min(1, (density[i]-1.5)/0.5)) // 1 in fluent talk, -1 where people move
		for s := range sections {
			out[i][s] += float64(shareWords * (sum[s] - before[s]))
			if !within[i] || sectionTalk[s] >= 0 {
				out[i][s] += float64(float64(sectionTalk[s]*talk) * length)
			}
		}
	}
	return out
}

// density returns, for each word, how many words a second are said around it.
func (x *text) density() []float64 {
	const half = 9.0
	out := make([]float64, len(x.w))
	a, b := 0, 0
	for i := range x.w {
		t := x.w[i].t
		for x.w[a].t < t-half {
			a++
		}
		for b < len(x.w) && x.w[b].t < t+half {
			b++
		}
		out[i] = float64(b-a) / max(2, min(t+half, x.end)-max(t-half, 0))
	}
	return out
}
