package segment

import (
	"math"

	"captally.example/captally/segment/announce"
	"captally.example/captally/segment/caption"
)

// The beat: how many repetitions fit between the numbers of a count.
//
// Each account of the odd places of a count gives every number its repetition. At a given pace that account says when the
// numbers were spoken; how well this agrees with what the file allows is its evidence, summed over a grid of paces.

const (
	paceLow     = 0.4  // seconds a repetition, lowest of the grid
	paceHigh    = 14.0 // and highest
	paceStep    = 1.08 // ratio of neighbours on the grid
	jitter      = 0.07 // of a beat: people keep a beat within a few per cent (Repp 2005, Psychon Bull Rev 12:969-92)
	jitterFlat  = 0.12 // seconds, of a word's time on the word
	lateShare   = 0.06 // of beats that come late, talked over
	lateMean    = 1.2  // seconds late, then
	lateTalk    = 0.06 // more of them per second of talk before the number
	lateMost    = 0.5  // and at most
	lateStretch = 0.6  // seconds later per second of talk
	mostWays    = 96   // accounts weighed together; further odd places are settled one by one
)

// A box is where in time a number can have been spoken.
type box struct {
	lo, hi float64 // hard bounds, seconds
	at     float64 // the file's own time, for a file with word times
	talk   float64 // seconds of talk between the number before and this one
	lead   float64 // seconds of talk between the start of its cue and it; less than 0 where another number stands between
	from   float64 // the start of its cue
	tail   float64 // seconds of talk between it and the end of its cue, itself included; less than 0 where another number follows
	to     float64 // the end of its cue
	still  float64 // how likely a long silence lies in that talk
}

// Silence within a cue or block. Fitted on the labelled sessions.
const (
	shortPause  = 1.2  // seconds, mean, of the pauses in a stretch of talk
	longShare   = 0.25 // of stretches of talk between counts that hold a long silence
	restShare   = 0.7  // of those in which a rest is announced
	longUpTo    = 45.0 // seconds, the longest of them
	talkStrays  = 0.12 // how far, in relation to its length, talk strays from what its letters say
	lingerShare = 0.4  // of cues that stay on after their last word
)

// A tally is what the beat says of a count.
type tally struct {
	joints []joint
	reps   []float64 // probability of n repetitions from the first number to the last, index n
	pace   float64   // seconds a repetition, mean
	paceSD float64   // of its natural logarithm
	first  float64   // time of the first number
	last   float64   // and of the last
	lastSD float64
}

// box returns where number b can have been spoken; a is the number before it, c the one after it, nil for none.
func (x *text) box(a, b, c *item) box {
	w := &x.w[b.first]
	bx := box{at: b.t, lo: w.lo, hi: w.hi, lead: -1, tail: -1}
	if x.timing != caption.TimingWord {
		cue := &x.track.Cues[w.cue]
		bx.from, bx.to = cue.Start.Seconds(), cue.End.Seconds()
		before := x.talk(cue.First, b.first)
		after := x.talk(b.first, cue.Last)
		bx.lo = math.Min(bx.from+float64(fastest*before), bx.to)
		bx.hi = math.Max(bx.to-float64(fastest*after), bx.lo)
		if a == nil || a.first < cue.First {
			bx.lead = before
		}
		if c == nil || c.first >= cue.Last {
			bx.tail = after
		}
		bx.still = longShare
		if a == nil && x.restsIn(cue.First, b.first) || c == nil && x.restsIn(b.last, cue.Last) {
			bx.still = restShare
		}
	}
	if a != nil {
		bx.talk = x.talk(a.last, b.first)
	}
	return bx
}

// talk returns how long words [a, b) take to say, in seconds.
func (x *text) talk(a, b int) float64 {
	sum := 0.0
	for k := a; k < b; k++ {
		sum += wordLength(&x.w[k])
	}
	return sum
}

// restsIn reports whether a rest is announced in words [a, b).
func (x *text) restsIn(a, b int) bool {
	for k := range x.said {
		if m := &x.said[k]; m.Kind == announce.Rest && m.First >= a && m.First < b && m.Weight > 0.4 {
			return true
		}
	}
	return false
}

// weigh sums up the evidence for each account of the joints.
func (x *text) weigh(joints []joint) *tally {
	t := &tally{joints: joints}
	boxes := make([]box, len(joints)+1)
	boxes[0] = x.box(nil, &joints[0].a, &joints[0].b)
	for k := range joints {
		var next *item
		if k+1 < len(joints) {
			next = &joints[k+1].b
		}
		boxes[k+1] = x.box(&joints[k].a, &joints[k].b, next)
	}
	l := newLattice(x.timing, boxes)
	ways := waysOf(joints)
	paces := l.paces(joints)
	type cell struct {
		way  int
		pace float64
		log  float64
	}
	var cells []cell
	best := math.Inf(-1)
	reps := make([]int, len(joints))
	for w, way := range ways {
		prior := 0.0
		for k, o := range way {
			reps[k] = joints[k].options[o].reps
			prior += joints[k].options[o].prior
		}
		for _, p := range paces {
			z := math.Log(p/paceTypical) / paceSpread
			ev := prior - float64(0.5*z*z) + l.evidence(reps, p)
			cells = append(cells, cell{w, p, ev})
			best = math.Max(best, ev)
		}
	}
	sum := 0.0
	for i := range cells {
		cells[i].log = math.Exp(cells[i].log - best)
		sum += cells[i].log
	}
	var m1, m2 float64
	for k := range joints {
		for o := range joints[k].options {
			joints[k].options[o].post = 0
		}
	}
	wayMass := make([]float64, len(ways))
	for _, c := range cells {
		q := c.log / sum
		wayMass[c.way] += q
		lp := math.Log(c.pace)
		m1 += float64(q * lp)
		m2 += float64(q * lp * lp)
	}
	for w, way := range ways {
		n := 0
		for k, o := range way {
			joints[k].options[o].post += wayMass[w]
			n += joints[k].options[o].reps
		}
		for len(t.reps) <= n {
			t.reps = append(t.reps, 0)
		}
		t.reps[n] += wayMass[w]
	}
	t.pace = math.Exp(m1)
	t.paceSD = math.Sqrt(math.Max(0, m2-float64(m1*m1)))
	t.first, t.last = joints[0].a.t, joints[len(joints)-1].b.t
	return t
}

// waysOf lists the accounts of all joints together; where they are too many, each joint keeps its likeliest options.
func waysOf(joints []joint) [][]int {
	size := 1
	keep := make([]int, len(joints))
	for k := range joints {
		keep[k] = len(joints[k].options)
		size *= keep[k]
		for size > mostWays && keep[k] > 1 {
			size = size / keep[k] * (keep[k] - 1)
			keep[k]--
		}
	}
	ways := [][]int{make([]int, len(joints))}
	for k := range joints {
		n := len(ways)
		for o := 1; o < keep[k]; o++ {
			for w := 0; w < n; w++ {
				way := append([]int(nil), ways[w]...)
				way[k] = o
				ways = append(ways, way)
			}
		}
	}
	return ways
}

// A lattice is the numbers of a count over bins of time.
type lattice struct {
	timing caption.Timing
	boxes  []box
	bin    float64     // seconds
	edge   float64     // how far a cue's own times stray, seconds
	lo     []int       // first bin of each number
	n      []int       // and how many
	w      [][]float64 // how much the file allows each bin
	a, b   []float64
}

func newLattice(timing caption.Timing, boxes []box) *lattice {
	l := &lattice{timing: timing, boxes: boxes}
	if timing == caption.TimingWord {
		return l
	}
	l.bin, l.edge = 0.15, 0.3
	if timing == caption.TimingBlock {
		l.bin, l.edge = 0.4, 0.6
	}
	most := 0
	for i := range boxes {
		lo := int(math.Floor((boxes[i].lo - 2*l.edge) / l.bin))
		n := int(math.Ceil((boxes[i].hi+2*l.edge)/l.bin)) - lo + 1
		l.lo = append(l.lo, lo)
		l.n = append(l.n, n)
		w := make([]float64, n)
		for k := range w {
			w[k] = l.allowed(&boxes[i], float64(lo+k)*l.bin)
		}
		l.w = append(l.w, w)
		most = max(most, n)
	}
	l.a, l.b = make([]float64, most), make([]float64, most)
	return l
}

// paces returns the part of the grid that the count's length allows.
func (l *lattice) paces(joints []joint) []float64 {
	least, most := 0, 0
	for k := range joints {
		lo, hi := joints[k].options[0].reps, joints[k].options[0].reps
		for _, o := range joints[k].options {
			lo, hi = min(lo, o.reps), max(hi, o.reps)
		}
		least += lo
		most += hi
	}
	first, last := &l.boxes[0], &l.boxes[len(l.boxes)-1]
	low, high := paceLow, paceHigh
	if l.timing == caption.TimingWord {
		low = 0.8 * (last.at - first.at) / float64(max(1, most))
		high = 1.25 * (last.at - first.at) / float64(max(1, least))
	} else {
		low = (last.lo - first.hi - 1) / float64(max(1, most))
		high = (last.hi - first.lo + 1) / float64(max(1, least))
	}
	low, high = math.Max(low, paceLow), math.Min(math.Max(high, paceLow), paceHigh)
	var out []float64
	for p := low; ; p *= paceStep {
		out = append(out, p)
		if p >= high {
			return out
		}
	}
}

// evidence is the log likelihood of the file's times where reps[k] repetitions at pace p lie before number k+1.
func (l *lattice) evidence(reps []int, p float64) float64 {
	if l.timing == caption.TimingWord {
		return l.onWords(reps, p)
	}
	return l.onBins(reps, p)
}

func due(reps int, p, talk float64) (mean, sd float64) {
	beat := float64(reps) * p
	mean = math.Max(beat, talk+0.15)
	sd = math.Sqrt(float64(float64(jitter*p)*float64(jitter*p)*math.Max(1, float64(reps))) + float64(float64(0.03*beat)*float64(0.03*beat)))
	return mean, sd
}

func (l *lattice) onWords(reps []int, p float64) float64 {
	sum := 0.0
	for k, n := range reps {
		dt := l.boxes[k+1].at - l.boxes[k].at
		mean, sd := due(n, p, fastest*l.boxes[k+1].talk)
		sd = math.Sqrt(float64(sd*sd) + float64(2*jitterFlat*jitterFlat))
		sum += logBeat(dt-mean, sd, l.boxes[k+1].talk)
	}
	return sum
}

// logBeat is the log density of a beat that comes late by d seconds (early where d < 0), with talk seconds of talk before it:
// people keep the beat except where they talk over it.
func logBeat(d, sd, talk float64) float64 {
	z := d / sd
	share := math.Min(lateMost, lateShare+float64(lateTalk*talk))
	on := (1 - share) * math.Exp(-0.5*z*z) / (sd * 2.5066)
	late := 1e-4
	if d > 0 {
		mean := lateMean + float64(lateStretch*talk)
		late += share * math.Exp(-d/mean) / mean
	}
	return math.Log(on + late)
}

func (l *lattice) onBins(reps []int, p float64) float64 {
	a, b := l.a, l.b
	for i := 0; i < l.n[0]; i++ {
		a[i] = l.w[0][i]
	}
	log := 0.0
	for k, n := range reps {
		mean, sd := due(n, p, fastest*l.boxes[k+1].talk)
		sd = math.Max(math.Sqrt(float64(sd*sd)+0.01), 0.6*l.bin)
		span := float64(3.5*sd) + 2.5 + float64(1.5*l.boxes[k+1].talk)
		from, to := int(math.Floor((mean-float64(3.5*sd))/l.bin)), int(math.Ceil((mean+span)/l.bin))
		from = max(from, 0)
		kernel := make([]float64, to-from+1)
		for d := range kernel {
			kernel[d] = math.Exp(logBeat(float64(float64(from+d)*l.bin)-mean, sd, l.boxes[k+1].talk)) * l.bin
		}
		total := 0.0
		for i := 0; i < l.n[k+1]; i++ {
			w := l.w[k+1][i]
			s := 0.0
			if w > 0 {
				at := l.lo[k+1] + i
				for d := range kernel {
					j := at - (from + d) - l.lo[k]
					if j < 0 {
						break
					}
					if j < l.n[k] {
						s += float64(kernel[d] * a[j])
					}
				}
			}
			b[i] = float64(s * w)
			total += b[i]
		}
		if total <= 0 {
			return log - 60
		}
		for i := 0; i < l.n[k+1]; i++ {
			b[i] /= total
		}
		log += math.Log(total)
		a, b = b, a
	}
	return log
}

// allowed weighs time t for a number: 1 within its bounds, falling off outside; and a density for how the talk before it in
// its cue and after it fits in.
func (l *lattice) allowed(bx *box, t float64) float64 {
	w := 1.0
	if out := math.Max(bx.lo-t, t-bx.hi); out > 0 {
		z := out / l.edge
		w = math.Exp(-0.5 * z * z)
	}
	if bx.lead >= 0 {
		w *= l.filled(t-bx.from, bx.lead, bx.still, bx.lead == 0)
	}
	if bx.tail >= 0 && l.timing == caption.TimingBlock {
		w *= l.filled(bx.to-t, bx.tail, bx.still, false)
	}
	if bx.tail >= 0 && l.timing == caption.TimingCue {
		z := (bx.to - t - bx.tail) / (l.edge + float64(talkStrays*bx.tail))
		w *= lingerShare + float64((1-lingerShare)*math.Exp(-0.5*z*z))
	}
	return w
}

// filled is the density of talk that takes need seconds having filled length seconds, pauses included; none where a cue
// begins with the number itself.
func (l *lattice) filled(length, need, still float64, none bool) float64 {
	over := length - need
	sd := l.edge + float64(talkStrays*need)
	if over < 0 || none {
		z := over / sd
		return math.Exp(-0.5*z*z) / shortPause
	}
	return (1-still)*math.Exp(-over/(shortPause+float64(0.5*sd)))/shortPause + still/longUpTo
}
