package chain

import "math"

// The beat of a count: numbers that come a whole number of repetitions apart, at one pace, as far as a file shows their times.

const (
	PaceLow  = 0.4  // seconds a repetition, the lowest pace that is thought of
	PaceHigh = 14.0 // and the highest
	paceStep = 1.08 // ratio of neighbours on the grid of paces

	jitter      = 0.07 // of a beat: people keep a beat within a few per cent (Repp 2005, Psychon Bull Rev 12:969-92)
	jitterFlat  = 0.12 // seconds, of a word's time on the word
	lateShare   = 0.06 // of beats that come late, talked over
	lateMean    = 1.2  // seconds late, then
	lateTalk    = 0.06 // more of them per second of talk before the number
	lateMost    = 0.5  // and at most
	lateStretch = 0.6  // seconds later per second of talk
	fastest     = 0.75 // no speaker needs less than this share of the usual time for his words
)

// A Clock is how a file places its words in time.
type Clock uint8

const (
	OnWords  Clock = iota // each word has its time
	InCues                // a cue of a few seconds has one
	InBlocks              // a block of half a minute or so has one
)

// A Box is where in time a number can have been spoken.
type Box struct {
	Low, High float64 // hard bounds, seconds
	At        float64 // the file's own time, for a file with word times
	Talk      float64 // seconds of talk between the number before and this one
	Lead      float64 // seconds of talk between the start of its cue and it; less than 0 where another number stands between
	From      float64 // the start of its cue
	Tail      float64 // seconds of talk between it and the end of its cue, itself included; less than 0 where another number follows
	To        float64 // the end of its cue
	Still     float64 // how likely a long silence lies in that talk
}

// Talk and silence within a cue or block. Fitted on the labelled sessions.
const (
	shortPause  = 1.2  // seconds, mean, of the pauses in a stretch of talk
	longUpTo    = 45.0 // seconds, the longest of them
	talkStrays  = 0.12 // how far, in relation to its length, talk strays from what its letters say
	lingerShare = 0.4  // of cues that stay on after their last word
)

// A Lattice is the numbers of a count over bins of time.
type Lattice struct {
	clock Clock
	boxes []Box
	bin   float64     // seconds
	edge  float64     // how far a cue's own times stray, seconds
	lo    []int       // first bin of each number
	n     []int       // and how many
	w     [][]float64 // how much the file allows each bin
	at    [][]float64 // how likely each bin of each number is in the account asked for last
	last  account
	beats []beat // at the pace asked for last
	pace  float64
	room  []float64 // of their kernels
}

// An account is repetitions at one pace, as far as they were followed.
type account struct {
	pace float64
	reps []int
	log  []float64 // log likelihood before each number
	done int
}

// A beat is how the bin of a number follows from that of the number before it.
type beat struct {
	reps   int
	talk   float64
	from   int       // bins from the one to the other, at least
	kernel []float64 // the probability of so many, and of each more
}

// NewLattice returns the lattice of at least two numbers; each box is where one of them can have been spoken, in order.
func NewLattice(clock Clock, boxes []Box) *Lattice {
	l := &Lattice{clock: clock, boxes: boxes}
	if clock == OnWords {
		return l
	}
	l.bin, l.edge = 0.15, 0.3
	if clock == InBlocks {
		l.bin, l.edge = 0.4, 0.6
	}
	all := 0
	for i := range boxes {
		lo := int(math.Floor((boxes[i].Low - 2*l.edge) / l.bin))
		n := int(math.Ceil((boxes[i].High+2*l.edge)/l.bin)) - lo + 1
		l.lo = append(l.lo, lo)
		l.n = append(l.n, n)
		w := make([]float64, n)
		for k := range w {
			w[k] = l.allowed(&boxes[i], float64(lo+k)*l.bin)
		}
		l.w = append(l.w, w)
		all += n
	}
	room := make([]float64, all)
	for _, n := range l.n {
		l.at = append(l.at, room[:n:n])
		room = room[n:]
	}
	copy(l.at[0], l.w[0])
	l.last.reps, l.last.log = make([]int, len(boxes)-1), make([]float64, len(boxes))
	return l
}

// Paces returns the part of the grid of paces, seconds a repetition, that the length of the count allows where least to most
// repetitions lie between its first number and its last.
func (l *Lattice) Paces(least, most int) []float64 {
	first, last := &l.boxes[0], &l.boxes[len(l.boxes)-1]
	low, high := PaceLow, PaceHigh
	if l.clock == OnWords {
		low = 0.8 * (last.At - first.At) / float64(max(1, most))
		high = 1.25 * (last.At - first.At) / float64(max(1, least))
	} else {
		low = (last.Low - first.High - 1) / float64(max(1, most))
		high = (last.High - first.Low + 1) / float64(max(1, least))
	}
	low, high = math.Max(low, PaceLow), math.Min(math.Max(high, PaceLow), PaceHigh)
	var out []float64
	for p := low; ; p *= paceStep {
		out = append(out, p)
		if p >= high {
			return out
		}
	}
}

// Evidence is the log likelihood of the file's times where reps[k] repetitions at pace p lie before number k+1.
func (l *Lattice) Evidence(reps []int, p float64) float64 {
	if l.clock == OnWords {
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

func (l *Lattice) onWords(reps []int, p float64) float64 {
	sum := 0.0
	for k, n := range reps {
		dt := l.boxes[k+1].At - l.boxes[k].At
		mean, sd := due(n, p, fastest*l.boxes[k+1].Talk)
		sd = math.Sqrt(float64(sd*sd) + float64(2*jitterFlat*jitterFlat))
		sum += math.Log(beatDensity(dt-mean, sd, l.boxes[k+1].Talk))
	}
	return sum
}

// beatDensity is the density, a second, of a beat that comes late by d seconds (early where d < 0), with talk seconds of talk
// before it: people keep the beat except where they talk over it.
func beatDensity(d, sd, talk float64) float64 {
	z := d / sd
	share := math.Min(lateMost, lateShare+float64(lateTalk*talk))
	on := (1 - share) * math.Exp(-0.5*z*z) / (sd * 2.5066)
	late := 1e-4
	if d > 0 {
		mean := lateMean + float64(lateStretch*talk)
		late += share * math.Exp(-d/mean) / mean
	}
	return on + late
}

// onBins goes on from what it shares with the account before.
func (l *Lattice) onBins(reps []int, p float64) float64 {
	done := 0
	if p == l.last.pace {
		for done < l.last.done && reps[done] == l.last.reps[done] {
			done++
		}
	}
	l.last.pace = p
	for k := done; k < len(reps); k++ {
		l.last.reps[k], l.last.done = reps[k], k
		total := l.step(l.at[k], l.at[k+1], k, l.beat(reps[k], p, l.boxes[k+1].Talk))
		if total <= 0 {
			return l.last.log[k] - 60
		}
		l.last.log[k+1] = l.last.log[k] + math.Log(total)
		l.last.done = k + 1
	}
	return l.last.log[len(reps)]
}

// step writes how likely each bin of number k+1 is, into b, from that of number k, and returns what they all come to before they are made to
// sum to one.
func (l *Lattice) step(a, b []float64, k int, bt *beat) float64 {
	clear(b)
	ahead := l.lo[k] + bt.from - l.lo[k+1] // bins of b from where kernel[0] leads from a[0]
	for d, v := range bt.kernel {          // each bin sums up in the order of d
		first := max(0, ahead+d)
		if first >= len(b) {
			break
		}
		to := b[first:]
		from := a[min(len(a), first-ahead-d):]
		for i := 0; i < len(from) && i < len(to); i++ {
			to[i] += float64(v * from[i])
		}
	}
	total := 0.0
	for i, w := range l.w[k+1] {
		b[i] = float64(b[i] * w)
		total += b[i]
	}
	for i := range b {
		b[i] /= total
	}
	return total
}

// beat returns how the bins follow from each other where reps repetitions at pace p and so much talk, in seconds, lie between. It is valid
// until another pace is asked for.
func (l *Lattice) beat(reps int, p, talk float64) *beat {
	if p != l.pace {
		l.pace, l.beats, l.room = p, l.beats[:0], l.room[:0]
	}
	for i := range l.beats {
		if b := &l.beats[i]; b.reps == reps && b.talk == talk {
			return b
		}
	}
	mean, sd := due(reps, p, fastest*talk)
	sd = math.Max(math.Sqrt(float64(sd*sd)+0.01), 0.6*l.bin)
	span := float64(3.5*sd) + 2.5 + float64(1.5*talk)
	from, to := int(math.Floor((mean-float64(3.5*sd))/l.bin)), int(math.Ceil((mean+span)/l.bin))
	from = max(from, 0)
	first := len(l.room)
	for d := from; d <= to; d++ {
		l.room = append(l.room, beatDensity(float64(float64(d)*l.bin)-mean, sd, talk)*l.bin)
	}
	l.beats = append(l.beats, beat{reps, talk, from, l.room[first:]})
	return &l.beats[len(l.beats)-1]
}

// allowed weighs time t for a number: 1 within its bounds, falling off outside; and a density for how the talk before it in
// its cue and after it fits in.
func (l *Lattice) allowed(bx *Box, t float64) float64 {
	w := 1.0
	if out := math.Max(bx.Low-t, t-bx.High); out > 0 {
		z := out / l.edge
		w = math.Exp(-0.5 * z * z)
	}
	if bx.Lead >= 0 {
		w *= l.filled(t-bx.From, bx.Lead, bx.Still, bx.Lead == 0)
	}
	if bx.Tail >= 0 && l.clock == InBlocks {
		w *= l.filled(bx.To-t, bx.Tail, bx.Still, false)
	}
	if bx.Tail >= 0 && l.clock == InCues {
		z := (bx.To - t - bx.Tail) / (l.edge + float64(talkStrays*bx.Tail))
		w *= lingerShare + float64((1-lingerShare)*math.Exp(-0.5*z*z))
	}
	return w
}

// filled is the density of talk that takes need seconds having filled length seconds, pauses included; none where a cue
// begins with the number itself.
func (l *Lattice) filled(length, need, still float64, none bool) float64 {
	over := length - need
	sd := l.edge + float64(talkStrays*need)
	if over < 0 || none {
		z := over / sd
		return math.Exp(-0.5*z*z) / shortPause
	}
	return (1-still)*math.Exp(-over/(shortPause+float64(0.5*sd)))/shortPause + still/longUpTo
}
